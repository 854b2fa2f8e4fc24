package org.steamwright.report.document;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.TreeMap;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import javax.imageio.ImageIO;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.steamwright.report.SampleVisits;
import org.steamwright.report.language.Speaker;
import org.steamwright.report.picture.DrawnSignature;
import org.steamwright.report.picture.Pictures;
import org.steamwright.visit.AssessedVisit;
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

    private static byte[] noise(int width, int height, int seed) throws IOException {
        BufferedImage picture = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        Random random = new Random(seed);
        for (int x = 0; x < width; x++) {
            for (int y = 0; y < height; y++) {
                picture.setRGB(x, y, random.nextInt(1 << 24));
            }
        }
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ImageIO.write(picture, "jpeg", out);
        return out.toByteArray();
    }

    private static String small(Map<String, byte[]> files, Consumer<PictureSection> written) {
        Sheet sheet = new Sheet(Speaker.ENGLISH);
        written.accept(
                new PictureSection(sheet, Pictures.of(files.keySet(), name -> Optional.ofNullable(files.get(name)))));
        return sheet.html().toString();
    }

    @Test
    void plate_and_counter_are_printed_small_with_their_hash_where_their_steriliser_stands() throws Exception {
        byte[] plate = jpeg(800, 400);
        Map<String, byte[]> files = Map.of(
                "photos/plate-A-1.jpg", plate,
                "photos/counter-A-1.jpg", jpeg(400, 400),
                "photos/plate-B-1.jpg", jpeg(500, 500),
                "photos/positions-run-2-1.jpg", jpeg(500, 500));
        String hash = HexFormat.of()
                .formatHex(MessageDigest.getInstance("SHA-256").digest(plate))
                .substring(0, 16);
        assertThat(small(files, section -> section.ofSterilizer("A")))
                .contains(
                        "Photos of steriliser A",
                        "alt=\"Photos of steriliser A: Name plate: photos/plate-A-1.jpg, SHA-256 " + hash + "…\"",
                        "width:54.0mm;height:27.0mm",
                        "Cycle counter: photos/counter-A-1.jpg")
                .doesNotContain("plate-B", "positions");
        assertThat(small(files, section -> section.ofChamber(2)))
                .contains("Photos of the chamber of run 2", "Places in the chamber: photos/positions-run-2-1.jpg");
        assertThat(small(files, section -> section.ofChamber(1))).isEmpty();
    }

    @Test
    void what_is_printed_does_not_grow_with_the_number_of_photos_and_the_others_are_named() throws IOException {
        Map<String, byte[]> files = new TreeMap<>();
        for (int run = 1; run <= 40; run++) {
            for (int i = 1; i <= 6; i++) {
                files.put("photos/positions-run-" + run + "-" + i + ".jpg", noise(40, 30, run * 100 + i));
            }
        }
        String html = small(files, section -> IntStream.rangeClosed(1, 40).forEach(section::ofChamber));
        assertThat(html.split("<img", -1)).hasSize(PictureSection.MOST_IN_ALL + 1);
        assertThat(html)
                .contains("Kept with the visit and not printed: photos/positions-run-1-5.jpg, SHA-256 ")
                .contains("photos/positions-run-40-6.jpg, SHA-256 ");
    }

    @Test
    void a_report_holds_the_photos_where_they_belong() throws IOException {
        Map<String, byte[]> files = Map.of(
                "photos/plate-A-1.jpg", noise(60, 40, 1),
                "photos/positions-run-1-1.jpg", noise(60, 40, 2));
        AssessedVisit assessed = SampleVisits.single();
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ReportPdf.write(
                assessed,
                Issued.NOT_SIGNED,
                Pictures.of(files.keySet(), name -> Optional.ofNullable(files.get(name))),
                out);
        try (PDDocument pdf = Loader.loadPDF(out.toByteArray())) {
            String text = new PDFTextStripper().getText(pdf).replaceAll("\\s+", "");
            assertThat(text.indexOf("Nameplate:photos/plate-A-1.jpg"))
                    .isPositive()
                    .isGreaterThan(text.indexOf("Serialnumber"))
                    .isLessThan(text.indexOf("Placesinthechamber:photos/positions-run-1-1.jpg"));
        }
    }
}
