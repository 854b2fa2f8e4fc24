package org.steamwright.report.document;

import com.openhtmltopdf.extend.FSTextBreaker;

/** Lets a line end after a blank only, so that '9:31' and '0.13 kPa/min' keep their figures together. */
final class BlankBreaker implements FSTextBreaker {

    private static final int DONE = -1;

    private String text = "";
    private int position;

    @Override
    public void setText(String newText) {
        text = newText;
        position = 0;
    }

    @Override
    public int next() {
        if (position >= text.length()) {
            return DONE;
        }
        int blank = text.indexOf(' ', position);
        position = blank < 0 ? text.length() : blank + 1;
        return position;
    }
}
