package org.steamwright.intake.spreadsheet;

import java.io.IOException;
import java.io.InputStream;
import java.util.Optional;
import java.util.zip.CRC32;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.table.Sentence;

/**
 * The unpacked bytes of a part. Gives never more than the directory declared, and ends with an error if there are fewer,
 * more or others.
 */
final class PartStream extends InputStream {

    private final String file;
    private final ZipParts.Part part;
    private final byte[] bytes;
    private final Inflater inflater = new Inflater(true);
    private final CRC32 crc = new CRC32();
    private final byte[] one = new byte[1];
    private long left;
    private int stored;
    private boolean isEnded;
    private Optional<UnreadableFileException> refusal = Optional.empty();

    PartStream(String file, ZipParts.Part part, byte[] bytes) {
        this.file = file;
        this.part = part;
        this.bytes = bytes;
        this.left = part.unpacked();
        this.stored = part.from();
        inflater.setInput(bytes, part.from(), part.packed());
    }

    /** Why the stream broke off, if it did: a parser hides the exception it was thrown. */
    Optional<UnreadableFileException> refusal() {
        return refusal;
    }

    @Override
    public int read() throws IOException {
        int got = read(one, 0, 1);
        return got < 0 ? -1 : one[0] & 0xFF;
    }

    @Override
    public int read(byte[] into, int offset, int length) throws IOException {
        if (length == 0) {
            return 0;
        }
        if (isEnded) {
            return -1;
        }
        int got = part.isDeflated() ? inflate(into, offset, length) : copy(into, offset, length);
        if (got > left) {
            throw refuse("unpacks to more than the %s bytes that it declares", part.unpacked());
        }
        if (got > 0) {
            left -= got;
            crc.update(into, offset, got);
            return got;
        }
        isEnded = true;
        if (left > 0) {
            throw refuse("unpacks to %s bytes, it declares %s", part.unpacked() - left, part.unpacked());
        }
        if (crc.getValue() != part.crc()) {
            throw refuse("has other bytes than when it was saved (its checksum differs)");
        }
        return -1;
    }

    private int copy(byte[] into, int offset, int length) {
        int got = Math.min(length, part.from() + part.packed() - stored);
        System.arraycopy(bytes, stored, into, offset, got);
        stored += got;
        return got;
    }

    private int inflate(byte[] into, int offset, int length) throws IOException {
        try {
            while (true) {
                int got = inflater.inflate(into, offset, length);
                if (got > 0 || inflater.finished()) {
                    return got;
                }
                if (inflater.needsInput() || inflater.needsDictionary()) {
                    throw refuse("breaks off");
                }
            }
        } catch (DataFormatException broken) {
            throw refuse("cannot be unpacked");
        }
    }

    private IOException refuse(String why, Object... parts) {
        isEnded = true;
        String said = Sentence.of("part \"%s\" ", ZipParts.shown(part.name())) + Sentence.of(why, parts);
        refusal = Optional.of(new UnreadableFileException(
                IntakeMessage.SPREADSHEET_DAMAGED,
                file,
                "",
                said + ". Copy the file again, or open and save it with a spreadsheet program."));
        return new IOException(said);
    }

    @Override
    public void close() {
        inflater.end();
        isEnded = true;
    }
}
