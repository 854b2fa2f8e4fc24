package org.steamwright.intake.csv;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.Charset;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.table.ByteSource;
import org.steamwright.intake.table.Sentence;
import org.steamwright.intake.table.TableRecordings;

/** How the bytes of a file become characters: by choice, byte-order mark, strict UTF-8, then windows-1252. */
final class Encoding {

    private static final int HEAD = 65_536;
    private static final int LOOKED_AT = 8192;
    private static final Charset UTF_32BE = Charset.forName("UTF-32BE");
    private static final Charset UTF_32LE = Charset.forName("UTF-32LE");
    private static final Charset WINDOWS_1252 = Charset.forName("windows-1252");

    private final Charset charset;
    private final int markLength;
    private final How how;
    private final byte[] head;

    private Encoding(Charset charset, int markLength, How how, byte[] head) {
        this.charset = charset;
        this.markLength = markLength;
        this.how = how;
        this.head = head;
    }

    /** Why an encoding is taken. */
    enum How {
        CHOSEN,
        MARKED,
        /** Nothing was said, and the head is UTF-8; the rest may not be. */
        SUPPOSED,
        /** The bytes are not UTF-8. */
        FALLBACK
    }

    static Encoding of(ByteSource file, ReadingChoices choices) throws IOException, UnreadableFileException {
        byte[] head;
        try (InputStream in = file.open()) {
            head = in.readNBytes((int) Math.min(HEAD, file.size()));
        }
        refuseKnownBinary(file.name(), head);
        Optional<Charset> marked = byteOrderMark(head);
        int markLength = marked.isPresent() ? markLength(marked.get()) : 0;
        if (choices.charset().isPresent()) {
            Charset chosen = choices.charset().get();
            if (marked.isPresent() && marked.get().name().startsWith(chosen.name())) {
                chosen = marked.get();
            } else if (marked.isPresent() && choices.isByProfile("charset") && !chosen.equals(marked.get())) {
                throw TableRecordings.contradicted(
                        file.name(),
                        "",
                        choices,
                        "charset",
                        chosen.name(),
                        "the file starts with the byte-order mark of "
                                + marked.get().name());
            }
            return new Encoding(
                    chosen,
                    chosen.name().startsWith("UTF-16") ? Math.min(markLength, 2) : markLength,
                    How.CHOSEN,
                    head);
        }
        if (marked.isPresent()) {
            return new Encoding(marked.get(), markLength, How.MARKED, head);
        }
        refuseBinary(file.name(), head);
        Encoding supposed = new Encoding(StandardCharsets.UTF_8, 0, How.SUPPOSED, head);
        return isUtf8(head) ? supposed : supposed.fallback();
    }

    /** What is left if the bytes are not UTF-8. */
    Encoding fallback() {
        return new Encoding(WINDOWS_1252, 0, How.FALLBACK, head);
    }

    How how() {
        return how;
    }

    /** Bytes of the byte-order mark to pass over. */
    int markLength() {
        return markLength;
    }

    /** The first bytes of the file, by which a file is known again that is opened twice. */
    byte[] head() {
        return head;
    }

    /** One line for the explanation. */
    String explanation(boolean isAscii) {
        return switch (how) {
            case CHOSEN -> "encoding " + charset.name() + ", as chosen";
            case MARKED -> "encoding " + charset.name() + ", by its byte-order mark";
            case SUPPOSED -> isAscii ? "encoding ASCII" : "encoding UTF-8, every byte fits";
            case FALLBACK -> "encoding windows-1252, because the bytes are not UTF-8";
        };
    }

    /** The refusal of bytes that are no text in a chosen or marked encoding. */
    UnreadableFileException refusal(String file) {
        return new UnreadableFileException(
                IntakeMessage.WRONG_CHARSET,
                file,
                "",
                how == How.CHOSEN
                        ? "the bytes are not text in the chosen encoding " + charset.name()
                                + ". Leave the choice charset out, or name the encoding that the logger software"
                                + " writes."
                        : "the file starts with the byte-order mark of " + charset.name()
                                + " but its bytes are not text in it. Export it again, or choose the charset.");
    }

    /** Whether every byte below 128 is the character of that number, wherever it stands. */
    boolean isAsciiKept() {
        String name = charset.name();
        return charset.equals(StandardCharsets.UTF_8)
                || charset.equals(StandardCharsets.US_ASCII)
                || name.startsWith("windows-125")
                || name.startsWith("ISO-8859-");
    }

    /** Whether a byte of zero shows that this is no whole text file. */
    boolean isZeroRefused() {
        return how == How.SUPPOSED || how == How.FALLBACK;
    }

    /** Bytes that a character of a table usually has. */
    int bytesPerCharacter() {
        return charset.name().startsWith("UTF-32") ? 4 : charset.name().startsWith("UTF-16") ? 2 : 1;
    }

    CharsetDecoder decoder() {
        CodingErrorAction action = how == How.FALLBACK ? CodingErrorAction.REPLACE : CodingErrorAction.REPORT;
        return charset.newDecoder().onMalformedInput(action).onUnmappableCharacter(action);
    }

    private static Optional<Charset> byteOrderMark(byte[] b) {
        if (startsWith(b, 0xEF, 0xBB, 0xBF)) {
            return Optional.of(StandardCharsets.UTF_8);
        }
        if (startsWith(b, 0, 0, 0xFE, 0xFF)) {
            return Optional.of(UTF_32BE);
        }
        if (startsWith(b, 0xFF, 0xFE, 0, 0)) {
            return Optional.of(UTF_32LE);
        }
        if (startsWith(b, 0xFE, 0xFF)) {
            return Optional.of(StandardCharsets.UTF_16BE);
        }
        if (startsWith(b, 0xFF, 0xFE)) {
            return Optional.of(StandardCharsets.UTF_16LE);
        }
        return Optional.empty();
    }

    private static int markLength(Charset charset) {
        return charset.equals(StandardCharsets.UTF_8) ? 3 : charset.name().startsWith("UTF-32") ? 4 : 2;
    }

    /** A character that the end of the head cuts is not minded. */
    private static boolean isUtf8(byte[] head) {
        CharsetDecoder decoder = StandardCharsets.UTF_8
                .newDecoder()
                .onMalformedInput(CodingErrorAction.REPORT)
                .onUnmappableCharacter(CodingErrorAction.REPORT);
        return !decoder.decode(ByteBuffer.wrap(head), CharBuffer.allocate(head.length), head.length < HEAD)
                .isError();
    }

    private static void refuseKnownBinary(String file, byte[] b) throws UnreadableFileException {
        if (startsWith(b, 'P', 'K', 3, 4) || startsWith(b, 0xD0, 0xCF, 0x11, 0xE0)) {
            throw binary(
                    file,
                    "this is a spreadsheet or an archive, not text. Open it and save the sheet as CSV, or export CSV"
                            + " from the logger software.");
        }
        if (startsWith(b, '%', 'P', 'D', 'F')) {
            throw binary(file, "this is a PDF document. The readings are needed as text: export CSV.");
        }
        if (startsWith(b, 0x1F, 0x8B)) {
            throw binary(file, "this file is compressed. Unpack it first.");
        }
        if (startsWith(b, 0x89, 'P', 'N', 'G') || startsWith(b, 0xFF, 0xD8, 0xFF)) {
            throw binary(file, "this is a picture. The readings are needed as text: export CSV.");
        }
    }

    private static boolean startsWith(byte[] bytes, int... first) {
        if (bytes.length < first.length) {
            return false;
        }
        for (int i = 0; i < first.length; i++) {
            if ((bytes[i] & 0xFF) != first[i]) {
                return false;
            }
        }
        return true;
    }

    private static void refuseBinary(String file, byte[] b) throws UnreadableFileException {
        int head = Math.min(b.length, LOOKED_AT);
        int odd = 0;
        int zeros = 0;
        for (int i = 0; i < head; i++) {
            byte c = b[i];
            if (c == 0) {
                zeros++;
            } else if (c > 0 && c < ' ' && c != '\n' && c != '\t' && c != '\r' && c != '\f') {
                odd++;
            }
        }
        if (zeros == head) {
            throw binary(
                    file,
                    Sentence.of(
                            "the first %s bytes are all zero, as where a disk or a memory card was never written. Copy"
                                    + " the recording again from the logger.",
                            head));
        }
        if (odd * 50 > head) {
            throw binary(
                    file,
                    Sentence.of(
                            "%s of the first %s bytes are control codes: this is not a text file. Export the recording"
                                    + " as CSV from the logger software.",
                            odd + zeros, head));
        }
        if (zeros * 10 > head * 7 && head >= 8 && (isLone(b, 0) || isLone(b, 3))) {
            throw binary(
                    file,
                    "three bytes of four are zero, as in UTF-32 text without a byte-order mark. Choose the charset"
                            + " (UTF-32LE or UTF-32BE), or export as UTF-8.");
        }
        if (zeros * 5 > head * 2 && (b[0] == 0 || b[1] == 0)) {
            throw binary(
                    file,
                    "every other byte is zero, as in UTF-16 text without a byte-order mark. Choose the charset"
                            + " (UTF-16LE or UTF-16BE), or export as UTF-8.");
        }
    }

    /** Whether of the first four bytes only that one is no zero, and again of the next four. */
    private static boolean isLone(byte[] b, int place) {
        for (int i = 0; i < 8; i++) {
            if ((b[i] != 0) != (i % 4 == place)) {
                return false;
            }
        }
        return true;
    }

    /** The refusal of a byte of zero where text was expected. */
    static UnreadableFileException zero(ByteSource file, long offset) throws IOException, UnreadableFileException {
        int line = 1;
        try (InputStream in = file.open()) {
            byte[] chunk = new byte[HEAD];
            long at = 0;
            int got;
            while (at < offset && (got = in.read(chunk, 0, (int) Math.min(HEAD, offset - at))) > 0) {
                for (int i = 0; i < got; i++) {
                    if (chunk[i] == '\n') {
                        line++;
                    }
                }
                at += got;
            }
        }
        if (line < 3) {
            return binary(
                    file.name(),
                    Sentence.of(
                            "byte %s is zero: this is not a text file. Export the recording as CSV from the logger"
                                    + " software.",
                            offset + 1));
        }
        return new UnreadableFileException(
                IntakeMessage.ZERO_BYTES,
                file.name(),
                "row " + line,
                Sentence.of(
                        "byte %s is zero, as where a disk or a memory card was not written to the end. The readings"
                                + " after it are lost. Export again; or cut the file before this row in a copy, and keep"
                                + " the original with it.",
                        offset + 1));
    }

    private static UnreadableFileException binary(String file, String text) {
        return new UnreadableFileException(IntakeMessage.FILE_BINARY, file, "", text);
    }
}
