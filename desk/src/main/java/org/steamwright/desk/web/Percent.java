package org.steamwright.desk.web;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;

/**
 * Texts within addresses.
 *
 * @source RFC 3986, section 2.1, percent-encoding
 */
public final class Percent {

    private Percent() {}

    /** A text as one part of a path or as a value of a query. */
    public static String encoded(String text) {
        return URLEncoder.encode(text, StandardCharsets.UTF_8).replace("+", "%20");
    }
}
