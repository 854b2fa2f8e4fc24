package org.steamwright.report.picture;

import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.AffineTransform;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Iterator;
import java.util.Optional;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageReader;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.ImageInputStream;
import javax.imageio.stream.MemoryCacheImageInputStream;
import javax.imageio.stream.MemoryCacheImageOutputStream;

/**
 * Photos from a camera, made small enough to be kept with a visit. What a camera writes beside the picture, such as the place
 * where it was taken, is left out.
 */
public final class Photos {

    /** Longer side of a kept photo in pixels. */
    public static final int LONGEST = 1600;

    private static final long MOST_PIXELS = 60_000_000;
    private static final float QUALITY = 0.85f;

    private Photos() {}

    /**
     * The photo as JPEG, upright, its longer side {@link #LONGEST} pixels at most.
     *
     * @return empty if the bytes are no JPEG or PNG picture, or one of more than 60 million pixels
     * @throws IOException if it can't be encoded anew
     */
    public static Optional<byte[]> scaled(byte[] bytes) throws IOException {
        Optional<BufferedImage> picture = upright(bytes, LONGEST);
        return picture.isEmpty() ? Optional.empty() : Optional.of(jpeg(picture.get()));
    }

    /** The photo upright, its longer side that many pixels at most. */
    static Optional<BufferedImage> upright(byte[] bytes, int longest) throws IOException {
        BufferedImage picture;
        try (ImageInputStream in = new MemoryCacheImageInputStream(new ByteArrayInputStream(bytes))) {
            Iterator<ImageReader> readers = ImageIO.getImageReaders(in);
            if (!readers.hasNext()) {
                return Optional.empty();
            }
            ImageReader reader = readers.next();
            try {
                reader.setInput(in, true, true);
                if ((long) reader.getWidth(0) * reader.getHeight(0) > MOST_PIXELS) {
                    return Optional.empty();
                }
                picture = reader.read(0);
            } catch (IOException | RuntimeException damaged) {
                // the reader of the library meets damaged pictures with either
                return Optional.empty();
            } finally {
                reader.dispose();
            }
        }
        return Optional.of(upright(picture, Orientation.of(bytes), longest));
    }

    private static BufferedImage upright(BufferedImage picture, Orientation orientation, int longest) {
        double scale = Math.min(1.0, longest / (double) Math.max(picture.getWidth(), picture.getHeight()));
        int width = Math.max(1, (int) Math.round(picture.getWidth() * scale));
        int height = Math.max(1, (int) Math.round(picture.getHeight() * scale));
        boolean isOnSide = orientation == Orientation.LEFT || orientation == Orientation.RIGHT;
        BufferedImage kept =
                new BufferedImage(isOnSide ? height : width, isOnSide ? width : height, BufferedImage.TYPE_INT_RGB);
        AffineTransform turn = new AffineTransform();
        switch (orientation) {
            case UPRIGHT -> {}
            case DOWN -> turn.setToQuadrantRotation(2, width / 2.0, height / 2.0);
            case RIGHT -> {
                turn.translate(height, 0);
                turn.quadrantRotate(1);
            }
            case LEFT -> {
                turn.translate(0, width);
                turn.quadrantRotate(3);
            }
        }
        turn.scale(width / (double) picture.getWidth(), height / (double) picture.getHeight());
        Graphics2D graphics = kept.createGraphics();
        graphics.setRenderingHint(RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BILINEAR);
        graphics.drawImage(picture, turn, null);
        graphics.dispose();
        return kept;
    }

    static byte[] jpeg(BufferedImage picture) throws IOException {
        ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (MemoryCacheImageOutputStream out = new MemoryCacheImageOutputStream(bytes)) {
            writer.setOutput(out);
            ImageWriteParam choices = writer.getDefaultWriteParam();
            choices.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
            choices.setCompressionQuality(QUALITY);
            writer.write(null, new IIOImage(picture, null, null), choices);
        } finally {
            writer.dispose();
        }
        return bytes.toByteArray();
    }

    /**
     * How the camera was held.
     *
     * @source Exif 2.32 (CIPA DC-008), section 4.6.4, tag 0x0112, from memory; the four turns without mirroring
     */
    enum Orientation {
        UPRIGHT,
        DOWN,
        RIGHT,
        LEFT;

        private static final int TAG = 0x0112;
        private static final int ENTRY_BYTES = 12;

        static Orientation of(byte[] jpeg) {
            int at = 2;
            while (at + 4 < jpeg.length && (jpeg[at] & 0xFF) == 0xFF) {
                int marker = jpeg[at + 1] & 0xFF;
                int length = (jpeg[at + 2] & 0xFF) << 8 | (jpeg[at + 3] & 0xFF);
                if (marker == 0xE1 && at + 10 < jpeg.length && jpeg[at + 4] == 'E' && jpeg[at + 5] == 'x') {
                    return ofExif(jpeg, at + 10, Math.min(jpeg.length, at + 2 + length));
                }
                if (marker == 0xDA || length < 2) {
                    break;
                }
                at += 2 + length;
            }
            return UPRIGHT;
        }

        private static Orientation ofExif(byte[] bytes, int start, int end) {
            if (start + 8 > end) {
                return UPRIGHT;
            }
            boolean isLittle = bytes[start] == 'I';
            long table = start + number(bytes, start + 4, 4, isLittle);
            if (table < start || table + 2 > end) {
                return UPRIGHT;
            }
            long entries = number(bytes, (int) table, 2, isLittle);
            for (int i = 0; i < entries; i++) {
                long entry = table + 2 + (long) i * ENTRY_BYTES;
                if (entry + ENTRY_BYTES > end) {
                    break;
                }
                if (number(bytes, (int) entry, 2, isLittle) == TAG) {
                    return switch ((int) number(bytes, (int) entry + 8, 2, isLittle)) {
                        case 3 -> DOWN;
                        case 6 -> RIGHT;
                        case 8 -> LEFT;
                        default -> UPRIGHT;
                    };
                }
            }
            return UPRIGHT;
        }

        private static long number(byte[] bytes, int at, int length, boolean isLittle) {
            long number = 0;
            for (int i = 0; i < length; i++) {
                number = number << 8 | (bytes[at + (isLittle ? length - 1 - i : i)] & 0xFF);
            }
            return number;
        }
    }
}
