package org.steamwright.intake.csv;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.table.FileBytes;
import org.steamwright.intake.table.Sentence;

/**
 * The characters of a file.
 *
 * @param text without byte-order mark
 * @param explanation how the encoding was found
 * @param isFallback whether the bytes were not UTF-8 and were taken for windows-1252
 */
record Decoded(String text, String explanation, boolean isFallback) {

    private static final int HEAD = 8192;

    /** By choice, byte-order mark, strict UTF-8, then windows-1252. */
    static Decoded of(FileBytes file, ReadingChoices choices) throws UnreadableFileException {
        byte[] bytes = file.raw();
        refuseKnownBinary(file);
        Optional<Charset> marked = byteOrderMark(bytes);
        if (choices.charset().isPresent()) {
            Charset charset = choices.charset().get();
            return decode(file, charset, marked.isPresent() ? markLength(marked.get()) : 0)
                    .map(text -> new Decoded(stripMark(text), "encoding " + charset.name() + ", as chosen", false))
                    .orElseThrow(
                            () -> new UnreadableFileException(
                                    IntakeMessage.WRONG_CHARSET,
                                    file.name(),
                                    "",
                                    "the bytes are not text in the chosen encoding " + charset.name()
                                            + ". Leave the choice charset out, or name the encoding that the logger software writes."));
        }
        if (marked.isPresent()) {
            Charset charset = marked.get();
            return decode(file, charset, markLength(charset))
                    .map(text -> new Decoded(text, "encoding " + charset.name() + ", by its byte-order mark", false))
                    .orElseThrow(() -> new UnreadableFileException(
                            IntakeMessage.WRONG_CHARSET,
                            file.name(),
                            "",
                            "the file starts with the byte-order mark of " + charset.name()
                                    + " but its bytes are not text in it. Export it again, or choose the charset."));
        }
        if (refuseBinary(file)) {
            return new Decoded(new String(bytes, StandardCharsets.ISO_8859_1), "encoding ASCII", false);
        }
        Optional<String> utf8 = decode(file, StandardCharsets.UTF_8, 0);
        if (utf8.isPresent()) {
            return new Decoded(utf8.get(), "encoding UTF-8, every byte fits", false);
        }
        return new Decoded(
                new String(bytes, Charset.forName("windows-1252")),
                "encoding windows-1252, because the bytes are not UTF-8",
                true);
    }

    private static String stripMark(String text) {
        return text.startsWith("\ufeff") ? text.substring(1) : text;
    }

    private static Optional<Charset> byteOrderMark(byte[] b) {
        if (b.length >= 3 && b[0] == (byte) 0xEF && b[1] == (byte) 0xBB && b[2] == (byte) 0xBF) {
            return Optional.of(StandardCharsets.UTF_8);
        }
        if (b.length >= 2 && b[0] == (byte) 0xFE && b[1] == (byte) 0xFF) {
            return Optional.of(StandardCharsets.UTF_16BE);
        }
        if (b.length >= 2 && b[0] == (byte) 0xFF && b[1] == (byte) 0xFE) {
            return Optional.of(StandardCharsets.UTF_16LE);
        }
        return Optional.empty();
    }

    private static int markLength(Charset charset) {
        return charset.equals(StandardCharsets.UTF_8) ? 3 : 2;
    }

    private static Optional<String> decode(FileBytes file, Charset charset, int from) {
        try {
            return Optional.of(charset.newDecoder()
                    .onMalformedInput(CodingErrorAction.REPORT)
                    .onUnmappableCharacter(CodingErrorAction.REPORT)
                    .decode(ByteBuffer.wrap(file.raw(), from, file.size() - from))
                    .toString());
        } catch (CharacterCodingException notThat) {
            return Optional.empty();
        }
    }

    private static void refuseKnownBinary(FileBytes file) throws UnreadableFileException {
        byte[] b = file.raw();
        if (startsWith(b, 'P', 'K', 3, 4) || startsWith(b, 0xD0, 0xCF, 0x11, 0xE0)) {
            throw binary(
                    file,
                    "this is a spreadsheet or an archive, not text. Open it and save the sheet as CSV, or export CSV from the logger software.");
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

    /** Tells whether all of it is ASCII. */
    private static boolean refuseBinary(FileBytes file) throws UnreadableFileException {
        byte[] b = file.raw();
        int head = Math.min(b.length, HEAD);
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
        if (odd * 50 > head) {
            throw binary(
                    file,
                    Sentence.of(
                            "%s of the first %s bytes are control codes: this is not a text file. Export the recording as CSV from the logger software.",
                            odd + zeros, head));
        }
        if (zeros * 5 > head * 2 && (b[0] == 0 || b[1] == 0)) {
            throw binary(
                    file,
                    "every other byte is zero, as in UTF-16 text without a byte-order mark. Choose the charset (UTF-16LE or UTF-16BE), or export as UTF-8.");
        }
        boolean isAscii = true;
        for (int i = 0; i < b.length; i++) {
            if (b[i] <= 0) {
                if (b[i] == 0) {
                    throw zero(file, i);
                }
                isAscii = false;
            }
        }
        return isAscii;
    }

    private static UnreadableFileException zero(FileBytes file, int offset) {
        int line = 1;
        for (int i = 0; i < offset; i++) {
            if (file.raw()[i] == '\n') {
                line++;
            }
        }
        if (line < 3) {
            return binary(
                    file,
                    Sentence.of(
                            "byte %s is zero: this is not a text file. Export the recording as CSV from the logger software.",
                            offset + 1));
        }
        return new UnreadableFileException(
                IntakeMessage.ZERO_BYTES,
                file.name(),
                "row " + line,
                Sentence.of(
                        "byte %s is zero, as where a disk or a memory card was not written to the end. The readings after it are lost. Export again; or cut the file before this row in a copy, and keep the original with it.",
                        offset + 1));
    }

    private static UnreadableFileException binary(FileBytes file, String text) {
        return new UnreadableFileException(IntakeMessage.FILE_BINARY, file.name(), "", text);
    }
}
