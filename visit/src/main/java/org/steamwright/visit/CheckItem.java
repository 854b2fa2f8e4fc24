package org.steamwright.visit;

/**
 * One line of a checklist: maintenance, installation, electrical safety, as found and as left.
 *
 * @param title what was checked or done
 * @param result one of {@link CheckWords#CHOSEN}, or what somebody typed when results were typed; may be blank
 * @param remark reason, condition, part with lot; may be blank
 * @param asFound reading before, with unit; may be blank
 * @param asLeft reading after, with unit; may be blank
 * @param limit with unit and source; may be blank
 * @param instrument id of the instrument used; may be blank
 */
public record CheckItem(
        String title, String result, String remark, String asFound, String asLeft, String limit, String instrument) {

    public CheckItem {
        if (title.isBlank()) {
            throw new IllegalArgumentException("a checklist line has a title");
        }
    }
}
