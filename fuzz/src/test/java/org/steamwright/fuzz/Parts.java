package org.steamwright.fuzz;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.zip.CRC32;

/**
 * Puts texts together as the parts of a workbook, so that what is tried is the XML and not the checksums around it. Each
 * part that is missing is an honest one.
 */
final class Parts {

    /** Between parts: the sheet, the shared texts, the styles, the workbook, its relations. */
    static final byte[] MARK = "\n%%\n".getBytes(StandardCharsets.US_ASCII);

    private static final String[] NAMES = {
        "xl/worksheets/sheet1.xml",
        "xl/sharedStrings.xml",
        "xl/styles.xml",
        "xl/workbook.xml",
        "xl/_rels/workbook.xml.rels"
    };

    private static final String[] HONEST = {
        "<worksheet><sheetData><row><c t='s'><v>0</v></c><c t='s'><v>1</v></c></row>"
                + "<row><c s='1'><v>46083.375</v></c><c><v>121.3</v></c></row>"
                + "<row><c s='1'><v>46083.376</v></c><c><v>121.4</v></c></row></sheetData></worksheet>",
        "<sst><si><t>time</t></si><si><t>T1 (°C)</t></si></sst>",
        "<styleSheet><cellXfs><xf numFmtId='0'/><xf numFmtId='22'/></cellXfs></styleSheet>",
        "<workbook xmlns:r='r'><sheets><sheet name='Data' r:id='a'/></sheets></workbook>",
        "<Relationships><Relationship Id='a' Type='t/worksheet' Target='worksheets/sheet1.xml'/>"
                + "<Relationship Id='b' Type='t/sharedStrings' Target='sharedStrings.xml'/>"
                + "<Relationship Id='c' Type='t/styles' Target='styles.xml'/></Relationships>"
    };

    private static final String ROOT =
            "<Relationships><Relationship Id='a' Type='t/officeDocument' Target='xl/workbook.xml'/></Relationships>";

    private Parts() {}

    static byte[] workbook(byte[] input) {
        List<byte[]> contents = split(input);
        Archive archive = new Archive();
        archive.add("_rels/.rels", ROOT.getBytes(StandardCharsets.UTF_8));
        for (int i = 0; i < NAMES.length; i++) {
            boolean isGiven = i < contents.size() && contents.get(i).length > 0;
            archive.add(NAMES[i], isGiven ? contents.get(i) : HONEST[i].getBytes(StandardCharsets.UTF_8));
        }
        return archive.bytes();
    }

    private static List<byte[]> split(byte[] input) {
        List<byte[]> parts = new ArrayList<>();
        int start = 0;
        for (int i = 0; i + MARK.length <= input.length && parts.size() < NAMES.length - 1; i++) {
            if (Arrays.equals(input, i, i + MARK.length, MARK, 0, MARK.length)) {
                parts.add(Arrays.copyOfRange(input, start, i));
                start = i + MARK.length;
                // two marks may share a line feed; the second is text then
                i = start - 1;
            }
        }
        parts.add(Arrays.copyOfRange(input, start, input.length));
        return parts;
    }

    /** A zip archive whose parts are not packed. */
    private static final class Archive {
        private final ByteArrayOutputStream parts = new ByteArrayOutputStream();
        private final ByteArrayOutputStream directory = new ByteArrayOutputStream();
        private int count;

        void add(String name, byte[] content) {
            CRC32 sum = new CRC32();
            sum.update(content);
            byte[] title = name.getBytes(StandardCharsets.US_ASCII);
            int at = parts.size();
            number(parts, 4, 0x04034b50L);
            common(parts, sum.getValue(), content.length, title.length);
            parts.writeBytes(title);
            parts.writeBytes(content);
            number(directory, 4, 0x02014b50L);
            number(directory, 2, 20);
            common(directory, sum.getValue(), content.length, title.length);
            number(directory, 2, 0);
            number(directory, 2, 0);
            number(directory, 2, 0);
            number(directory, 4, 0);
            number(directory, 4, at);
            directory.writeBytes(title);
            count++;
        }

        private static void common(ByteArrayOutputStream out, long sum, int size, int title) {
            number(out, 2, 20);
            number(out, 2, 0);
            number(out, 2, 0);
            number(out, 4, 0x5C790000L);
            number(out, 4, sum);
            number(out, 4, size);
            number(out, 4, size);
            number(out, 2, title);
            number(out, 2, 0);
        }

        byte[] bytes() {
            int start = parts.size();
            parts.writeBytes(directory.toByteArray());
            number(parts, 4, 0x06054b50L);
            number(parts, 4, 0);
            number(parts, 2, count);
            number(parts, 2, count);
            number(parts, 4, directory.size());
            number(parts, 4, start);
            number(parts, 2, 0);
            return parts.toByteArray();
        }

        private static void number(ByteArrayOutputStream out, int bytes, long value) {
            for (int i = 0; i < bytes; i++) {
                out.write((int) (value >> (8 * i)));
            }
        }
    }
}
