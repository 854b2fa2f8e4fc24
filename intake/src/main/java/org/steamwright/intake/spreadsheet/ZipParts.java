package org.steamwright.intake.spreadsheet;

import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.table.Sentence;

/**
 * The parts of a zip archive, taken from its directory and checked against its bytes before anything is unpacked. Nothing
 * is ever written to the disk; names of parts are looked up, never used as paths.
 *
 * @source PKWARE APPNOTE.TXT 6.3.10, sections 4.3 to 4.5 (from memory)
 */
final class ZipParts {

    /** The largest sum of unpacked sizes, in bytes. */
    static final long LARGEST_UNPACKED_BYTES = 200_000_000L;

    /** The most parts of one archive. */
    static final int MOST_PARTS = 1_000;

    /**
     * How many times its packed size a part may unpack to. Sheets of numbers shrink to a tenth, sheets of nearly equal
     * rows to a fiftieth; deflate reaches 1,032.
     */
    static final long HIGHEST_RATIO = 200;

    /** Below that the ratio of a part says nothing, in bytes. */
    static final long RATIO_COUNTS_FROM_BYTES = 1_000_000;

    private static final int LOCAL = 0x04034b50;
    private static final int CENTRAL = 0x02014b50;
    private static final int END = 0x06054b50;
    private static final int END_64 = 0x06064b50;
    private static final int LOCATOR_64 = 0x07064b50;

    private static final int LOCAL_BYTES = 30;
    private static final int CENTRAL_BYTES = 46;
    private static final int END_BYTES = 22;
    private static final int END_64_BYTES = 56;
    private static final int LOCATOR_64_BYTES = 20;
    private static final int LONGEST_COMMENT = 0xFFFF;
    private static final long IN_64 = 0xFFFFFFFFL;
    private static final int LONGEST_NAME = 255;
    private static final int STORED = 0;
    private static final int DEFLATED = 8;
    private static final int AES = 99;
    private static final int ENCRYPTED_FLAGS = 0x2041;
    private static final int SIZES_BEHIND = 0x8;

    private final String file;
    private final byte[] bytes;
    private final Map<String, Part> parts = new LinkedHashMap<>();

    /**
     * A part as its two headers agree on it.
     *
     * @param name with / between steps
     * @param from first packed byte
     * @param packed packed bytes
     * @param unpacked bytes after unpacking, as declared
     * @param crc checksum of the unpacked bytes, as declared
     * @param isDeflated whether the bytes are packed at all
     * @param header first byte of its own header
     */
    record Part(String name, int from, int packed, long unpacked, long crc, boolean isDeflated, int header) {}

    private ZipParts(String file, byte[] bytes) {
        this.file = file;
        this.bytes = bytes;
    }

    /**
     * Walks through the directory of an archive.
     *
     * @param file its name, for messages
     * @param bytes all of it
     * @throws UnreadableFileException if the directory is damaged, does not agree with the bytes, or promises more than
     *     will be unpacked
     */
    static ZipParts of(String file, byte[] bytes) throws UnreadableFileException {
        ZipParts parts = new ZipParts(file, bytes);
        parts.walk();
        return parts;
    }

    /** Names of all parts in the order of the directory. */
    Collection<String> names() {
        List<String> names = new ArrayList<>(parts.size());
        for (Part part : parts.values()) {
            names.add(part.name());
        }
        return names;
    }

    /** The part of that name, upper and lower case being the same. */
    Optional<Part> find(String name) {
        return Optional.ofNullable(parts.get(key(name)));
    }

    /** The unpacked bytes of a part, checked while they are read. */
    PartStream open(Part part) {
        return new PartStream(file, part, bytes);
    }

    /** The first bytes of a part as text of one byte a character; shorter if there are fewer or they are damaged. */
    String begin(Part part, int atMost) {
        StringBuilder begin = new StringBuilder();
        try (InputStream stream = open(part)) {
            int next = stream.read();
            while (next >= 0 && begin.length() < atMost) {
                begin.append((char) next);
                next = stream.read();
            }
        } catch (java.io.IOException damaged) {
            return begin.toString();
        }
        return begin.toString();
    }

    // ---- the directory

    private void walk() throws UnreadableFileException {
        int end = findEnd();
        long count = u2(end + 10);
        long size = u4(end + 12);
        long start = u4(end + 16);
        int directoryEnd = end;
        if (u2(end + 4) != 0 || u2(end + 6) != 0) {
            throw damaged("it is one piece of an archive in several files");
        }
        if (u2(end + 8) != count) {
            throw damaged("its end counts %s parts here and %s in all", u2(end + 8), count);
        }
        if (end >= LOCATOR_64_BYTES && i4(end - LOCATOR_64_BYTES) == LOCATOR_64) {
            long at = i8(end - LOCATOR_64_BYTES + 8);
            if (at < 0 || at > end - LOCATOR_64_BYTES - END_64_BYTES || i4((int) at) != END_64) {
                throw damaged("its second end (ZIP64) is not where the first says");
            }
            directoryEnd = (int) at;
            long count64 = i8(directoryEnd + 32);
            long size64 = i8(directoryEnd + 40);
            long start64 = i8(directoryEnd + 48);
            if ((count != 0xFFFF && count != count64)
                    || (size != IN_64 && size != size64)
                    || (start != IN_64 && start != start64)) {
                throw lying("its two ends do not agree (%s and %s parts)", count, count64);
            }
            count = count64;
            size = size64;
            start = start64;
        }
        if (count == 0) {
            throw damaged("it holds no parts");
        }
        if (count < 0 || count > MOST_PARTS) {
            throw tooLarge("it has %s parts, a workbook may have up to %s", count, MOST_PARTS);
        }
        if (start < 0 || size < 0 || start > directoryEnd || start + size != directoryEnd) {
            throw damaged("its directory is not where its end says; bytes are missing or were put before it");
        }
        long unpacked = 0;
        int at = (int) start;
        for (int i = 0; i < count; i++) {
            if (at + CENTRAL_BYTES > directoryEnd || i4(at) != CENTRAL) {
                throw damaged("its directory breaks off after %s of %s parts", i, count);
            }
            int next = at + CENTRAL_BYTES + u2(at + 28) + u2(at + 30) + u2(at + 32);
            if (next > directoryEnd) {
                throw damaged("its directory breaks off after %s of %s parts", i, count);
            }
            Part part = part(at, (int) start);
            unpacked += part.unpacked();
            if (unpacked > LARGEST_UNPACKED_BYTES) {
                throw tooLarge(
                        "it would unpack to more than %s MB, part \"%s\" alone to %s MB",
                        LARGEST_UNPACKED_BYTES / 1_000_000, shown(part.name()), part.unpacked() / 1_000_000);
            }
            if (part.unpacked() > RATIO_COUNTS_FROM_BYTES && part.unpacked() / HIGHEST_RATIO > part.packed()) {
                throw tooLarge(
                        "part \"%s\" would unpack from %s to %s bytes, more than %s times its size",
                        shown(part.name()), part.packed(), part.unpacked(), HIGHEST_RATIO);
            }
            if (parts.putIfAbsent(key(part.name()), part) != null) {
                throw lying("two parts have the name \"%s\"", shown(part.name()));
            }
            at = next;
        }
        if (at != directoryEnd) {
            throw damaged("its directory is longer than its %s parts", count);
        }
        refuseOverlaps();
    }

    private int findEnd() throws UnreadableFileException {
        int last = bytes.length - END_BYTES;
        for (int at = last; at >= 0 && at >= last - LONGEST_COMMENT; at--) {
            if (i4(at) == END && at + END_BYTES + u2(at + 20) == bytes.length) {
                return at;
            }
        }
        throw damaged("its end is missing, as in a file that was not copied or not saved to the end");
    }

    private Part part(int at, int directory) throws UnreadableFileException {
        int flags = u2(at + 8);
        int method = u2(at + 10);
        long crc = u4(at + 16);
        long packed = u4(at + 20);
        long unpacked = u4(at + 24);
        int nameBytes = u2(at + 28);
        long header = u4(at + 42);
        String name = name(at + CENTRAL_BYTES, nameBytes);
        if ((flags & ENCRYPTED_FLAGS) != 0 || method == AES) {
            throw new UnreadableFileException(
                    IntakeMessage.SPREADSHEET_LOCKED,
                    file,
                    "",
                    Sentence.of(
                            "part \"%s\" of this archive is locked with a password. Save the workbook without a password and read that file.",
                            shown(name)));
        }
        if (method != STORED && method != DEFLATED) {
            throw damaged("part \"%s\" is packed by method %s; workbooks use 0 and 8", shown(name), method);
        }
        if (packed == IN_64 || unpacked == IN_64 || header == IN_64) {
            int extra = at + CENTRAL_BYTES + nameBytes;
            int field = findExtra64(extra, extra + u2(at + 30));
            int end = field < 0 ? -1 : field + 4 + u2(field + 2);
            field += 4;
            if (unpacked == IN_64) {
                unpacked = next64(field, end);
                field += 8;
            }
            if (packed == IN_64) {
                packed = next64(field, end);
                field += 8;
            }
            if (header == IN_64) {
                header = next64(field, end);
            }
        }
        if (packed < 0 || unpacked < 0 || header < 0 || header + LOCAL_BYTES > directory) {
            throw lying("part \"%s\" would lie outside the archive", shown(name));
        }
        int local = (int) header;
        if (i4(local) != LOCAL) {
            throw lying("part \"%s\" is not where the directory says", shown(name));
        }
        int from = local + LOCAL_BYTES + u2(local + 26) + u2(local + 28);
        if (from > directory || packed > directory - from) {
            throw lying("part \"%s\" would reach into the directory", shown(name));
        }
        if (u2(local + 26) != nameBytes || !isSame(at + CENTRAL_BYTES, local + LOCAL_BYTES, nameBytes)) {
            throw lying("part \"%s\" has another name in its own header", shown(name));
        }
        boolean isSizeBehind = (u2(local + 6) & SIZES_BEHIND) != 0;
        if (u2(local + 8) != method
                || (u2(local + 6) & ENCRYPTED_FLAGS) != 0
                || !isSize(u4(local + 18), packed, isSizeBehind)
                || !isSize(u4(local + 22), unpacked, isSizeBehind)) {
            throw lying("part \"%s\" has other sizes in its own header than in the directory", shown(name));
        }
        if (method == STORED && packed != unpacked) {
            throw lying("part \"%s\" is not packed and yet declared with two sizes", shown(name));
        }
        checkName(name);
        return new Part(name, from, (int) packed, unpacked, crc, method == DEFLATED, local);
    }

    private static boolean isSize(long inHeader, long inDirectory, boolean isSizeBehind) {
        return inHeader == inDirectory || inHeader == IN_64 || (isSizeBehind && inHeader == 0);
    }

    private int findExtra64(int from, int to) {
        int at = from;
        while (at + 4 <= to) {
            int size = u2(at + 2);
            if (u2(at) == 1 && at + 4 + size <= to) {
                return at;
            }
            at += 4 + size;
        }
        return -1;
    }

    private long next64(int at, int end) throws UnreadableFileException {
        if (at + 8 > end) {
            throw damaged("a size of its directory is missing (ZIP64)");
        }
        return i8(at);
    }

    private String name(int from, int length) throws UnreadableFileException {
        ByteBuffer raw = ByteBuffer.wrap(bytes, from, length);
        String name;
        try {
            name = StandardCharsets.UTF_8
                    .newDecoder()
                    .onMalformedInput(CodingErrorAction.REPORT)
                    .onUnmappableCharacter(CodingErrorAction.REPORT)
                    .decode(raw)
                    .toString();
        } catch (CharacterCodingException old) {
            name = new String(bytes, from, length, StandardCharsets.ISO_8859_1);
        }
        if (name.length() > LONGEST_NAME || name.isEmpty()) {
            throw lying("the name of a part has %s characters, expected 1 to %s", name.length(), LONGEST_NAME);
        }
        return name.replace('\\', '/');
    }

    private void checkName(String name) throws UnreadableFileException {
        for (int i = 0; i < name.length(); i++) {
            char c = name.charAt(i);
            if (c < ' '
                    || (c >= '\u007f' && c < '\u00a0')
                    || (c >= '\u200b' && c <= '\u200f')
                    || (c >= '\u202a' && c <= '\u202e')
                    || (c >= '\u2066' && c <= '\u2069')) {
                throw lying("the name of part \"%s\" holds a character that cannot be seen", shown(name));
            }
        }
        if (name.startsWith("/") || name.startsWith("~") || name.indexOf(':') >= 0) {
            throw lying("the name of part \"%s\" leads out of the archive", shown(name));
        }
        for (String step : name.split("/", -1)) {
            if (step.equals("..") || step.equals(".")) {
                throw lying("the name of part \"%s\" leads out of the archive", shown(name));
            }
        }
        String lower = name.toLowerCase(Locale.ROOT);
        if (!lower.contains("embeddings/")) {
            for (String archive : ARCHIVES) {
                if (lower.endsWith(archive)) {
                    throw lying(
                            "part \"%s\" is an archive itself; a recording is read from a workbook, not from an archive of files. Unpack it and read the recording in it",
                            shown(name));
                }
            }
        }
    }

    private static final List<String> ARCHIVES = List.of(
            ".zip", ".xlsx", ".xlsm", ".docx", ".pptx", ".jar", ".gz", ".7z", ".rar", ".tar", ".bz2", ".xz", ".ods");

    private void refuseOverlaps() throws UnreadableFileException {
        List<Part> inOrder = new ArrayList<>(parts.values());
        inOrder.sort(Comparator.comparingInt(Part::header));
        for (int i = 1; i < inOrder.size(); i++) {
            Part before = inOrder.get(i - 1);
            Part part = inOrder.get(i);
            if (before.from() + before.packed() > part.header()) {
                throw lying("parts \"%s\" and \"%s\" share bytes", shown(before.name()), shown(part.name()));
            }
        }
    }

    // ---- bytes

    private boolean isSame(int one, int other, int length) {
        for (int i = 0; i < length; i++) {
            if (bytes[one + i] != bytes[other + i]) {
                return false;
            }
        }
        return true;
    }

    private int u2(int at) {
        return (bytes[at] & 0xFF) | (bytes[at + 1] & 0xFF) << 8;
    }

    private int i4(int at) {
        return u2(at) | u2(at + 2) << 16;
    }

    private long u4(int at) {
        return i4(at) & 0xFFFFFFFFL;
    }

    private long i8(int at) {
        return u4(at) | u4(at + 4) << 32;
    }

    private static String key(String name) {
        return name.toLowerCase(Locale.ROOT);
    }

    // ---- words

    /** A name as it may stand in a message: what cannot be seen as a question mark, cut after 60 characters. */
    static String shown(String name) {
        StringBuilder shown = new StringBuilder();
        for (int i = 0; i < Math.min(name.length(), 60); i++) {
            char c = name.charAt(i);
            boolean isSeen = c >= ' ' && c != '\u007f' && Character.isDefined(c) && !Character.isISOControl(c);
            shown.append(isSeen && Character.getType(c) != Character.FORMAT ? c : '?');
        }
        return shown + (name.length() > 60 ? "…" : "");
    }

    private UnreadableFileException damaged(String why, Object... parts) {
        return new UnreadableFileException(
                IntakeMessage.SPREADSHEET_DAMAGED,
                file,
                "",
                "the file begins as a workbook, but " + Sentence.of(why, parts)
                        + ". Copy it again, or open and save it with a spreadsheet program.");
    }

    private UnreadableFileException lying(String why, Object... parts) {
        return new UnreadableFileException(
                IntakeMessage.ARCHIVE_NOT_HONEST,
                file,
                "",
                "the archive was not opened: " + Sentence.of(why, parts)
                        + ". No program writes workbooks so. Where does the file come from? Export the recording again.");
    }

    private UnreadableFileException tooLarge(String why, Object... parts) {
        return new UnreadableFileException(
                IntakeMessage.SPREADSHEET_TOO_LARGE,
                file,
                "",
                "the archive was not unpacked: " + Sentence.of(why, parts)
                        + ". Export only the time of the run, or export CSV.");
    }
}
