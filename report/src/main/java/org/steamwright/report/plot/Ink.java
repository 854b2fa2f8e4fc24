package org.steamwright.report.plot;

/** The inks of drawings and pages: one near-black, its tints, and one hue for what a person has to act on. */
public enum Ink {
    BLACK(0x1c1a18),
    GREY(0x66625c),
    HALO(0xc4bfb6),
    STRIP(0xe9e6df),
    PAPER(0xffffff),
    SIGNAL(0xa8380b);

    private final int rgb;

    Ink(int rgb) {
        this.rgb = rgb;
    }

    /** Red, green and blue in one number, eight bits each. */
    public int rgb() {
        return rgb;
    }

    /** As CSS and SVG write it. */
    public String css() {
        StringBuilder text = new StringBuilder("#");
        for (int shift = 20; shift >= 0; shift -= 4) {
            text.append(Character.forDigit((rgb >> shift) & 0xf, 16));
        }
        return text.toString();
    }
}
