package org.steamwright.intake.xml;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.PushbackInputStream;
import java.io.Reader;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.IllegalCharsetNameException;
import java.nio.charset.StandardCharsets;
import java.nio.charset.UnsupportedCharsetException;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.stream.XMLStreamException;

/**
 * The text of a document in the encoding that its first bytes tell: byte-order mark, shape of the first signs, declaration.
 * A byte that does not fit is an error, never a question mark. Done here because the parser of the Java runtime prints such
 * errors to the console as well as throwing them.
 *
 * @source W3C, XML 1.0, fifth edition, 4.3.3 and appendix F
 */
final class EncodedText {

    private static final int HEAD = 256;
    private static final Pattern DECLARED =
            Pattern.compile("\\A<\\?xml\\s[^>]{0,200}?encoding\\s*=\\s*[\"']([A-Za-z][A-Za-z0-9._-]{0,40})[\"']");

    private EncodedText() {}

    static Reader of(InputStream in) throws IOException, XMLStreamException {
        PushbackInputStream stream = new PushbackInputStream(in, HEAD);
        byte[] head = stream.readNBytes(HEAD);
        int mark = mark(head);
        stream.unread(head, mark, head.length - mark);
        return new InputStreamReader(
                stream,
                charset(head)
                        .newDecoder()
                        .onMalformedInput(CodingErrorAction.REPORT)
                        .onUnmappableCharacter(CodingErrorAction.REPORT));
    }

    /** Length of the byte-order mark. */
    private static int mark(byte[] head) {
        if (begins(head, 0xEF, 0xBB, 0xBF)) {
            return 3;
        }
        return begins(head, 0xFE, 0xFF) || begins(head, 0xFF, 0xFE) ? 2 : 0;
    }

    private static Charset charset(byte[] head) throws XMLStreamException {
        if (begins(head, 0xEF, 0xBB, 0xBF)) {
            return StandardCharsets.UTF_8;
        }
        if (begins(head, 0xFE, 0xFF) || begins(head, 0x00, '<')) {
            return StandardCharsets.UTF_16BE;
        }
        if (begins(head, 0xFF, 0xFE) || begins(head, '<', 0x00)) {
            return StandardCharsets.UTF_16LE;
        }
        Matcher declared = DECLARED.matcher(new String(head, StandardCharsets.ISO_8859_1));
        if (!declared.find() || declared.group(1).toUpperCase(Locale.ROOT).startsWith("UTF-16")) {
            return StandardCharsets.UTF_8;
        }
        try {
            return Charset.forName(declared.group(1));
        } catch (IllegalCharsetNameException | UnsupportedCharsetException unknown) {
            throw new XMLStreamException("the encoding " + declared.group(1) + " is not known", unknown);
        }
    }

    private static boolean begins(byte[] head, int... bytes) {
        if (head.length < bytes.length) {
            return false;
        }
        for (int i = 0; i < bytes.length; i++) {
            if ((head[i] & 0xFF) != bytes[i]) {
                return false;
            }
        }
        return true;
    }
}
