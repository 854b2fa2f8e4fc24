package org.steamwright.report.document;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.steamwright.report.language.Speaker;
import org.steamwright.report.picture.DrawnSignature;
import org.steamwright.visit.ReferenceLoad;

final class PictureSectionTest {

    private static byte[] jpeg(int width, int height) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ImageIO.write(new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB), "jpeg", out);
        return out.toByteArray();
    }

    private static byte[] bytes(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    private static ReferenceLoad load(int photos) {
        List<ReferenceLoad.PhotoFile> files = new ArrayList<>();
        for (int i = 1; i <= photos; i++) {
            files.add(new ReferenceLoad.PhotoFile("photos/" + i + ".jpg", 1, "ab".repeat(32)));
        }
        return new ReferenceLoad(
                        "five trays", List.of(), "pack", "place", "pouches", Optional.empty(), "B. Sample", List.of())
                .withPhotoFiles(files);
    }

    private static Sheet written(ReferenceLoad load, Map<String, byte[]> files) {
        Sheet sheet = new Sheet(Speaker.ENGLISH);
        new PictureSection(sheet, name -> Optional.ofNullable(files.get(name))).write(6, load);
        return sheet;
    }

    @Test
    void photos_are_printed_upright_at_their_proportions_with_words_for_those_who_do_not_see_them() throws IOException {
        String html = written(load(2), Map.of("photos/1.jpg", jpeg(800, 400), "photos/2.jpg", jpeg(300, 600)))
                .html()
                .toString();
        assertThat(html)
                .contains(
                        "Photos of the load of run 6",
                        "src=\"data:image/jpeg;base64,",
                        "alt=\"Photo of the load of run 6: photos/1.jpg, SHA-256 abababababababab…\"",
                        "width:82.0mm;height:41.0mm",
                        "width:41.0mm;height:82.0mm");
    }

    @Test
    void what_is_no_picture_or_is_not_there_is_not_printed() throws IOException {
        assertThat(written(load(2), Map.of("photos/1.jpg", bytes("GIF89a, says the file")))
                        .html()
                        .toString())
                .isEmpty();
        Map<String, byte[]> many = new java.util.HashMap<>();
        for (int i = 1; i <= 9; i++) {
            many.put("photos/" + i + ".jpg", jpeg(30, 30));
        }
        assertThat(written(load(9), many).html().toString().split("<img", -1)).hasSize(6 + 1);
    }

    @Test
    void the_signature_of_the_clinic_is_drawn_again_from_its_strokes_and_from_nothing_else() {
        String name = DrawnSignature.name(6);
        Sheet sheet = written(
                load(0),
                Map.of(
                        name,
                        bytes("<svg><script>alert(1)</script><polyline stroke=\"x\" points=\"10,10 20,30 600,200\"/>"
                                + "<polyline points=\"1,1 2,evil\"/></svg>")));
        assertThat(sheet.html().toString())
                .contains("The clinic&#39;s signature", "by B. Sample")
                .doesNotContain("script", "evil");
        assertThat(sheet.drawings()).hasSize(1);
        assertThat(sheet.drawings().get(0).marks()).as("strokes").hasSize(1);
        assertThat(written(load(0), Map.of(name, bytes("<svg/>"))).html().toString())
                .isEmpty();
    }
}
