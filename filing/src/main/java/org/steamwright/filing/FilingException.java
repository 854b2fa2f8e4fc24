package org.steamwright.filing;

/** Something that can't be taken into the record, or not found in it: what, where, and how to mend it. */
public class FilingException extends Exception {

    private static final long serialVersionUID = 1L;

    private final String remedy;

    public FilingException(String text, String remedy) {
        super(text);
        this.remedy = remedy;
    }

    /** What to do. */
    public String remedy() {
        return remedy;
    }
}
