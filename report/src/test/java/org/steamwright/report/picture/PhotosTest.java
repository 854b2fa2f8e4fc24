package org.steamwright.report.picture;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Color;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PhotosTest {

    /** A picture of 400 by 200 whose upper left quarter is white, with the mark of how the camera was held. */
    private static byte[] jpeg(int orientation) throws Exception {
        BufferedImage picture = new BufferedImage(400, 200, BufferedImage.TYPE_INT_RGB);
        var graphics = picture.createGraphics();
        graphics.setColor(Color.WHITE);
        graphics.fillRect(0, 0, 200, 100);
        graphics.dispose();
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ImageIO.write(picture, "jpeg", out);
        byte[] plain = out.toByteArray();
        byte[] exif = {
            (byte) 0xFF,
            (byte) 0xE1,
            0,
            34,
            'E',
            'x',
            'i',
            'f',
            0,
            0,
            'M',
            'M',
            0,
            42,
            0,
            0,
            0,
            8,
            0,
            1,
            0x01,
            0x12,
            0,
            3,
            0,
            0,
            0,
            1,
            0,
            (byte) orientation,
            0,
            0,
            0,
            0,
            0,
            0
        };
        byte[] marked = new byte[plain.length + exif.length];
        System.arraycopy(plain, 0, marked, 0, 2);
        System.arraycopy(exif, 0, marked, 2, exif.length);
        System.arraycopy(plain, 2, marked, 2 + exif.length, plain.length - 2);
        return marked;
    }

    @ParameterizedTest(name = "mark {0}: {1} by {2}, white at {3}, {4}")
    @CsvSource({
        "1, 400, 200, 50, 50, upright",
        "3, 400, 200, 350, 150, upside down",
        "6, 200, 400, 150, 50, turned to the right",
        "8, 200, 400, 50, 350, turned to the left"
    })
    void is_kept_upright_whichever_way_the_camera_was_held(
            int mark, int width, int height, int whiteX, int whiteY, String why) throws Exception {
        BufferedImage kept =
                ImageIO.read(new ByteArrayInputStream(Photos.scaled(jpeg(mark)).orElseThrow()));
        assertThat(new int[] {kept.getWidth(), kept.getHeight()}).as(why).containsExactly(width, height);
        assertThat(new Color(kept.getRGB(whiteX, whiteY)).getRed()).as(why).isGreaterThan(200);
        assertThat(new Color(kept.getRGB(width - whiteX, height - whiteY)).getRed())
                .as(why)
                .isLessThan(60);
    }

    @Test
    void what_the_camera_wrote_beside_the_picture_is_left_out() throws Exception {
        byte[] kept = Photos.scaled(jpeg(6)).orElseThrow();
        assertThat(new String(kept, java.nio.charset.StandardCharsets.ISO_8859_1))
                .doesNotContain("Exif");
    }

    @Test
    void a_damaged_picture_is_none() throws Exception {
        byte[] whole = jpeg(1);
        assertThat(Photos.scaled(Arrays.copyOf(whole, 60))).isEmpty();
        assertThat(Photos.scaled(new byte[0])).isEmpty();
    }
}
