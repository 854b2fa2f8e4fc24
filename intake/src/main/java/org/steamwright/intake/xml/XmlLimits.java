package org.steamwright.intake.xml;

/**
 * How much XML is read before it is refused. What lies exactly at a limit is still read.
 *
 * @param bytes size of the document as it lies in the file, after unpacking
 * @param elements elements, comments and processing instructions together
 * @param depth elements inside each other
 * @param attributes attributes of one element
 * @param nameLength characters of one name or of one namespace
 */
public record XmlLimits(long bytes, long elements, int depth, int attributes, int nameLength) {

    /**
     * For a document that is kept whole in memory, such as a certificate with a picture or two inside. The largest known
     * example has 36 kB and 600 elements.
     *
     * @source common practice, no source
     */
    public static final XmlLimits DOCUMENT = new XmlLimits(16L << 20, 200_000, 64, 64, 256);

    public XmlLimits {
        if (bytes < 1 || elements < 1 || depth < 1 || attributes < 1 || nameLength < 1) {
            throw new IllegalArgumentException(
                    "limits of XML are whole numbers from 1: bytes %s, elements %s, depth %s,"
                                    .formatted(bytes, elements, depth)
                            + " attributes %s, name %s".formatted(attributes, nameLength));
        }
    }
}
