package org.steamwright.journeys;

import java.awt.image.BufferedImage;
import java.awt.image.IndexColorModel;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.ImageOutputStream;

/** A screen shot made small: cut at a height, 64 colours at most, packed as tightly as PNG goes. */
final class Picture {

    private static final int COLOURS = 64;

    /** Colours that differ in the last four bits of a channel are one; nobody sees it in a picture of ink on paper. */
    private static final int COARSE = 0xf0f0f0;

    private Picture() {}

    static byte[] small(byte[] png, int mostHeight, boolean isGrey) throws IOException {
        BufferedImage whole = ImageIO.read(new ByteArrayInputStream(png));
        int height = Math.min(whole.getHeight(), mostHeight);
        int[] pixels = whole.getRGB(0, 0, whole.getWidth(), height, null, 0, whole.getWidth());
        if (isGrey) {
            for (int i = 0; i < pixels.length; i++) {
                pixels[i] = grey(pixels[i]);
            }
        }
        return packed(indexed(pixels, whole.getWidth(), height));
    }

    /** Relative luminance as ITU-R BT.709 weighs the channels; from memory, and only for pictures. */
    private static int grey(int rgb) {
        int level = (int) Math.round(0.2126 * (rgb >> 16 & 0xff) + 0.7152 * (rgb >> 8 & 0xff) + 0.0722 * (rgb & 0xff));
        return level << 16 | level << 8 | level;
    }

    private static BufferedImage indexed(int[] pixels, int width, int height) {
        Map<Integer, Map<Integer, Integer>> counts = new HashMap<>();
        for (int pixel : pixels) {
            counts.computeIfAbsent(pixel & COARSE, key -> new HashMap<>()).merge(pixel & 0xffffff, 1, Integer::sum);
        }
        List<Integer> colours = counts.entrySet().stream()
                .sorted(Comparator.comparing(
                                (Map.Entry<Integer, Map<Integer, Integer>> one) -> -one.getValue().values().stream()
                                        .mapToInt(Integer::intValue)
                                        .sum())
                        .thenComparing(Map.Entry::getKey))
                .limit(COLOURS)
                .map(one -> one.getValue().entrySet().stream()
                        .max(Map.Entry.<Integer, Integer>comparingByValue().thenComparing(Map.Entry.comparingByKey()))
                        .orElseThrow()
                        .getKey())
                .toList();
        byte[] red = new byte[colours.size()];
        byte[] green = new byte[colours.size()];
        byte[] blue = new byte[colours.size()];
        for (int i = 0; i < colours.size(); i++) {
            red[i] = (byte) (colours.get(i) >> 16);
            green[i] = (byte) (colours.get(i) >> 8);
            blue[i] = (byte) (int) colours.get(i);
        }
        BufferedImage image = new BufferedImage(
                width,
                height,
                BufferedImage.TYPE_BYTE_INDEXED,
                new IndexColorModel(8, colours.size(), red, green, blue));
        Map<Integer, Integer> nearest = new HashMap<>();
        int[] row = new int[width];
        for (int y = 0; y < height; y++) {
            for (int x = 0; x < width; x++) {
                row[x] = nearest.computeIfAbsent(pixels[y * width + x] & 0xffffff, one -> nearest(one, colours));
            }
            image.getRaster().setPixels(0, y, width, 1, row);
        }
        return image;
    }

    private static int nearest(int colour, List<Integer> colours) {
        int best = 0;
        for (int i = 1; i < colours.size(); i++) {
            if (distance(colour, colours.get(i)) < distance(colour, colours.get(best))) {
                best = i;
            }
        }
        return best;
    }

    private static int distance(int one, int other) {
        int red = (one >> 16 & 0xff) - (other >> 16 & 0xff);
        int green = (one >> 8 & 0xff) - (other >> 8 & 0xff);
        int blue = (one & 0xff) - (other & 0xff);
        return red * red + green * green + blue * blue;
    }

    private static byte[] packed(BufferedImage image) throws IOException {
        ImageWriter writer = ImageIO.getImageWritersByFormatName("png").next();
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (ImageOutputStream out = ImageIO.createImageOutputStream(bytes)) {
            ImageWriteParam how = writer.getDefaultWriteParam();
            how.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
            how.setCompressionQuality(0);
            writer.setOutput(out);
            writer.write(null, new IIOImage(image, null, null), how);
        } finally {
            writer.dispose();
        }
        return bytes.toByteArray();
    }
}
