package org.steamwright.report.picture;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.util.Base64;
import java.util.Optional;

/**
 * A photo as a document carries it.
 *
 * @param dataUri JPEG in a data address (RFC 2397)
 * @param widthMillimetres on paper
 * @param heightMillimetres on paper
 */
public record PrintedPhoto(String dataUri, double widthMillimetres, double heightMillimetres) {

    /** Enough for 200 pixels an inch at the size on paper. */
    private static final int LONGEST = 660;

    private static final double BOX_MILLIMETRES = 82;
    private static final double SMALL_MILLIMETRES = 54;

    /**
     * A photo at the size on paper.
     *
     * @return empty if the bytes are no JPEG or PNG picture
     * @throws IOException if it can't be encoded anew
     */
    public static Optional<PrintedPhoto> of(byte[] bytes) throws IOException {
        return of(bytes, BOX_MILLIMETRES);
    }

    /**
     * A small photo, for what has to be recognised and not studied.
     *
     * @return empty if the bytes are no JPEG or PNG picture
     * @throws IOException if it can't be encoded anew
     */
    public static Optional<PrintedPhoto> small(byte[] bytes) throws IOException {
        return of(bytes, SMALL_MILLIMETRES);
    }

    private static Optional<PrintedPhoto> of(byte[] bytes, double box) throws IOException {
        Optional<BufferedImage> picture = Photos.upright(bytes, (int) (LONGEST * box / BOX_MILLIMETRES));
        if (picture.isEmpty()) {
            return Optional.empty();
        }
        BufferedImage upright = picture.get();
        double scale = box / Math.max(upright.getWidth(), upright.getHeight());
        return Optional.of(new PrintedPhoto(
                "data:image/jpeg;base64," + Base64.getEncoder().encodeToString(Photos.jpeg(upright)),
                upright.getWidth() * scale,
                upright.getHeight() * scale));
    }
}
