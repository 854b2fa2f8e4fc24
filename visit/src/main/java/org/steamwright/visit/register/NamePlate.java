package org.steamwright.visit.register;

import java.util.List;
import java.util.Locale;

/**
 * What somebody read off a name plate on the day, before anything was touched.
 *
 * @param serial as it was read; blank if there is a photo only
 * @param readBy who read it; may be blank
 * @param photos of the plate, in order
 */
public record NamePlate(String serial, String readBy, List<Photo> photos) {

    /**
     * A photo that was found.
     *
     * @param name of the file
     * @param sha256 of its bytes, hexadecimal
     */
    public record Photo(String name, String sha256) {}

    public NamePlate {
        photos = List.copyOf(photos);
    }

    /** Whether a serial number was read off it. */
    public boolean isRead() {
        return !serial.isBlank();
    }

    /** Whether it was read and says another serial number, blanks and case aside. */
    public boolean isOther(String stated) {
        return isRead() && !plain(stated).equals(plain(serial));
    }

    private static String plain(String serial) {
        return serial.replaceAll("\\s", "").toLowerCase(Locale.ROOT);
    }
}
