package org.steamwright.intake.csv;

import java.io.IOException;
import java.io.InputStream;
import java.io.Reader;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.CharBuffer;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.Arrays;
import java.util.HexFormat;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.table.ByteSource;
import org.steamwright.intake.table.FileBytes;
import org.steamwright.intake.table.Table;

/**
 * The characters of a file, decoded in one pass that also takes the fingerprint, so that what is fingerprinted is what was
 * read. Goes no further than the file went when it was looked at first, and keeps one buffer whatever its size.
 */
final class TextReader extends Reader {

    private static final int BUFFER = 65_536;

    /** In every byte the lowest bit, and the highest: to see in one step that none of eight is zero or above 127. */
    private static final long EACH_ONE = 0x0101010101010101L;

    private static final long EACH_TOP = 0x8080808080808080L;

    private final ByteSource file;
    private final Encoding encoding;
    private final InputStream in;
    private final CharsetDecoder decoder;
    /** Copies many bytes at a time, which no loop of ours does. */
    private final CharsetDecoder ascii = StandardCharsets.US_ASCII.newDecoder();

    private final boolean isAsciiKept;
    private final MessageDigest digest = FileBytes.sha256Digest();
    private final byte[] bytes = new byte[BUFFER];
    private final ByteBuffer eights = ByteBuffer.wrap(bytes).order(ByteOrder.nativeOrder());
    private int at;
    private int limit;
    private long got;
    private boolean isEnd;
    private boolean isFlushed;
    private boolean isAscii = true;
    private char last = '\n';
    /** Second half of a character for which only one place was left; -1 if there is none. */
    private int pending = -1;

    TextReader(ByteSource file, Encoding encoding) throws IOException, UnreadableFileException {
        this.file = file;
        this.encoding = encoding;
        this.decoder = encoding.decoder();
        this.isAsciiKept = encoding.isAsciiKept();
        this.in = file.open();
    }

    /** Bytes that are no text in the encoding. */
    static final class NotThatEncodingException extends IOException {
        private static final long serialVersionUID = 1L;

        NotThatEncodingException() {
            super("the bytes are not text in the encoding");
        }
    }

    /** A refusal that has to pass through the CSV library. */
    static final class RefusedException extends IOException {
        private static final long serialVersionUID = 1L;

        private final transient UnreadableFileException refusal;

        RefusedException(UnreadableFileException refusal) {
            super(refusal.getMessage());
            this.refusal = refusal;
        }

        UnreadableFileException refusal() {
            return refusal;
        }
    }

    @Override
    public int read(char[] chars, int offset, int length) throws IOException {
        if (length == 0) {
            return 0;
        }
        if (pending >= 0) {
            chars[offset] = (char) pending;
            pending = -1;
            return ended(chars, offset, offset + 1);
        }
        int end = offset + length;
        int to = offset;
        while (to == offset) {
            if (at == limit && !isEnd) {
                fill(0);
            }
            if (at == limit && isEnd) {
                to = flush(chars, to, end);
                return to == offset ? -1 : ended(chars, offset, to);
            }
            if (isAsciiKept) {
                to = copyAscii(chars, to, end);
            }
            if (to < end && at < limit && !(isAsciiKept && bytes[at] > 0)) {
                to = decode(chars, to, end);
            }
        }
        return ended(chars, offset, to);
    }

    private int ended(char[] chars, int offset, int to) {
        last = chars[to - 1];
        return to - offset;
    }

    /** Bytes 1 to 127 become the character of that number. */
    private int copyAscii(char[] chars, int from, int end) throws IOException {
        byte[] source = bytes;
        int i = at;
        int stop = i + Math.min(limit - i, end - from);
        while (i + 8 <= stop) {
            long eight = eights.getLong(i);
            if ((((eight - EACH_ONE) | eight) & EACH_TOP) != 0) {
                break;
            }
            i += 8;
        }
        while (i < stop && source[i] > 0) {
            i++;
        }
        int length = i - at;
        ascii.decode(ByteBuffer.wrap(source, at, length), CharBuffer.wrap(chars, from, length), false);
        at = i;
        if (i < limit && source[i] == 0 && encoding.isZeroRefused()) {
            throw zero(i);
        }
        return from + length;
    }

    private int decode(char[] chars, int from, int end) throws IOException {
        isAscii = false;
        if (end - from == 1) {
            char[] pair = new char[2];
            int decoded = decode(pair, 0, 2);
            if (decoded > 0) {
                chars[from] = pair[0];
                pending = decoded == 2 ? pair[1] : -1;
            }
            return from + Math.min(decoded, 1);
        }
        ByteBuffer source = ByteBuffer.wrap(bytes, at, limit - at);
        CharBuffer target = CharBuffer.wrap(chars, from, end - from);
        CoderResult result = decoder.decode(source, target, isEnd);
        if (result.isError()) {
            throw new NotThatEncodingException();
        }
        if (encoding.isZeroRefused()) {
            for (int i = at; i < source.position(); i++) {
                if (bytes[i] == 0) {
                    throw zero(i);
                }
            }
        }
        at = source.position();
        if (target.position() == from && at < limit) {
            if (isEnd) {
                at = limit;
            } else {
                fill(limit - at);
            }
        }
        return target.position();
    }

    private int flush(char[] chars, int from, int end) throws IOException {
        if (isFlushed) {
            return from;
        }
        isFlushed = true;
        CharBuffer target = CharBuffer.wrap(chars, from, end - from);
        if (decoder.decode(ByteBuffer.allocate(0), target, true).isError()) {
            throw new NotThatEncodingException();
        }
        decoder.flush(target);
        return target.position();
    }

    /** Reads on behind the bytes of a character that the last buffer cut. */
    private void fill(int kept) throws IOException {
        System.arraycopy(bytes, at, bytes, 0, kept);
        at = 0;
        limit = kept;
        int wanted = (int) Math.min(BUFFER - kept, file.size() - got);
        int read = wanted == 0 ? -1 : in.read(bytes, kept, wanted);
        if (read < 0) {
            isEnd = true;
            if (got < file.size()) {
                throw changed();
            }
            return;
        }
        digest.update(bytes, kept, read);
        byte[] head = encoding.head();
        if (got < head.length) {
            int compared = (int) Math.min(read, head.length - got);
            if (!Arrays.equals(bytes, kept, kept + compared, head, (int) got, (int) got + compared)) {
                throw changed();
            }
        }
        if (got == 0) {
            at = Math.min(read, encoding.markLength());
        }
        got += read;
        limit += read;
    }

    private RefusedException changed() {
        return new RefusedException(new UnreadableFileException(
                IntakeMessage.FILE_CHANGED,
                file.name(),
                "",
                "the file was changed while it was being read: bytes that had been looked at are others now,"
                        + " or gone. Wait until nothing writes to it any more, or make a copy and read that."));
    }

    private IOException zero(int index) throws IOException {
        try {
            return new RefusedException(Encoding.zero(file, got - limit + index));
        } catch (UnreadableFileException gone) {
            return new RefusedException(gone);
        }
    }

    /** Whether the characters behind the last one read would start a new line. */
    boolean isAtLineStart() {
        return last == '\n' || last == '\r';
    }

    /** Whether every byte so far was below 128. */
    boolean isAscii() {
        return isAscii;
    }

    /** The bytes read so far; the whole file once {@link #read} has returned -1. */
    Table.Fingerprint fingerprint() {
        return new Table.Fingerprint(got, HexFormat.of().formatHex(digest.digest()));
    }

    @Override
    public void close() throws IOException {
        in.close();
    }
}
