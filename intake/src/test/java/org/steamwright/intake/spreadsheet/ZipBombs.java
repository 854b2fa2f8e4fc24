package org.steamwright.intake.spreadsheet;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** Small files that would unpack, nest, repeat or refer to something large; each is made here, none is kept. */
final class ZipBombs {

    /** A bomb by name. */
    record Bomb(String name, byte[] bytes) {}

    private final List<Bomb> bombs = new ArrayList<>();

    private ZipBombs() {}

    static List<Bomb> all() {
        ZipBombs all = new ZipBombs();
        all.ratios();
        all.many();
        all.overlapping();
        all.nested();
        all.lying();
        all.deepAndWide();
        return all.bombs;
    }

    private void add(String name, HandZip zip) {
        bombs.add(new Bomb(name, zip.bytes()));
    }

    private static HandWorkbook book() {
        HandWorkbook book = new HandWorkbook();
        book.sheet("Data").row(book.text("time"), book.text("T1 (°C)"));
        return book;
    }

    /** The parts of an honest workbook but one. */
    private static HandZip without(String left) {
        HandZip zip = new HandZip();
        for (Map.Entry<String, String> part : book().parts().entrySet()) {
            if (!part.getKey().equals(left)) {
                zip.stored(part.getKey(), part.getValue());
            }
        }
        return zip;
    }

    private static HandZip with(String name, String content) {
        return without(name).deflated(name, content.getBytes(StandardCharsets.UTF_8));
    }

    private static final String SHEET = "xl/worksheets/sheet1.xml";
    private static final String TEXTS = "xl/sharedStrings.xml";
    private static final String STYLES = "xl/styles.xml";
    private static final String BOOK = "xl/workbook.xml";

    private void ratios() {
        for (String part : List.of(SHEET, TEXTS, STYLES, BOOK, "_rels/.rels", "xl/media/picture.png")) {
            add("10 MB of blanks as " + part, without(part).repeated(part, (byte) ' ', 10_000_000));
        }
        add("190 MB of blanks", without(SHEET).repeated(SHEET, (byte) ' ', 190_000_000));
        add(
                "four parts of 60 MB",
                without(SHEET)
                        .repeated("a", (byte) 0, 60_000_000)
                        .repeated("b", (byte) 0, 60_000_000)
                        .repeated("c", (byte) 0, 60_000_000)
                        .repeated("d", (byte) 0, 60_000_000));
        add("stored, 250 MB declared", without("none").stored("x", "x").but(part -> {
            part.unpacked = 250_000_000;
            part.packed = 250_000_000;
        }));
    }

    private void many() {
        for (int count : new int[] {1_001, 5_000, 65_000}) {
            HandZip zip = without("none");
            for (int i = 0; i < count; i++) {
                zip.stored("x" + i, "");
            }
            add(count + " parts", zip);
        }
        HandZip zip = without("none");
        zip.count = 65_534;
        add("65,534 parts promised", zip);
        zip = without("none");
        zip.isZip64 = true;
        zip.count = Integer.MAX_VALUE;
        add("two thousand million parts promised", zip);
    }

    private void overlapping() {
        byte[] content = "<sst/>".repeat(2_000).getBytes(StandardCharsets.UTF_8);
        HandZip zip = without(TEXTS);
        for (int i = 0; i < 100; i++) {
            zip.deflated("same" + i, content);
            HandZip.Part part = zip.parts.get(zip.parts.size() - 1);
            if (i > 0) {
                part.isListedOnly = true;
                part.named(zip.parts.get(zip.parts.size() - 1 - i).name);
                part.header = -2;
            }
        }
        add("a hundred entries for one part", settle(zip));

        // the packed bytes of one part hold the header of the next
        for (int depth : new int[] {2, 10, 100, 900}) {
            add(depth + " parts inside each other", inEachOther(depth));
        }
        HandZip whole = without("none").stored("whole", "x");
        int size = whole.bytes().length;
        HandZip own = without("none").stored("whole", "x").but(part -> {
            part.header = 0;
            part.packed = size;
            part.unpacked = size;
        });
        add("an entry that is the whole archive", own);
    }

    /** Gives entries without a place of their own the place of the first of their name. */
    private static HandZip settle(HandZip zip) {
        zip.bytes();
        for (HandZip.Part part : zip.parts) {
            if (part.header == -2) {
                for (HandZip.Part other : zip.parts) {
                    if (!other.isListedOnly && java.util.Arrays.equals(other.name, part.name)) {
                        part.header = other.header;
                    }
                }
            }
        }
        return zip;
    }

    private static HandZip inEachOther(int depth) {
        byte[] inner = "kernel".getBytes(StandardCharsets.UTF_8);
        List<Integer> sizes = new ArrayList<>();
        for (int i = depth - 1; i >= 0; i--) {
            byte[] name = "p%03d".formatted(i).getBytes(StandardCharsets.UTF_8);
            sizes.add(0, inner.length);
            inner = new HandZip.Bytes()
                    .four(0x04034b50)
                    .two(20)
                    .two(0)
                    .two(0)
                    .two(0)
                    .two(0)
                    .four(0)
                    .four(inner.length)
                    .four(inner.length)
                    .two(name.length)
                    .two(0)
                    .all(name)
                    .all(inner)
                    .toBytes();
        }
        HandZip zip = without("none");
        zip.bytes();
        zip.before = inner;
        for (HandZip.Part part : zip.parts) {
            part.header = -1;
        }
        long at = 0;
        for (int i = 0; i < depth; i++) {
            String name = "p%03d".formatted(i);
            zip.stored(name, "");
            HandZip.Part part = zip.parts.get(zip.parts.size() - 1);
            part.isListedOnly = true;
            part.header = at;
            part.packed = sizes.get(i);
            part.unpacked = sizes.get(i);
            at += 30 + name.length();
        }
        return zip;
    }

    private void nested() {
        byte[] inner = without("none").repeated("zeros", (byte) 0, 1_000_000).bytes();
        for (int depth = 0; depth < 5; depth++) {
            HandZip zip = new HandZip();
            for (int i = 0; i < 10; i++) {
                zip.deflated("layer" + i + ".zip", inner);
            }
            inner = zip.bytes();
        }
        bombs.add(new Bomb("archives in archives, five deep", inner));
        for (String suffix : List.of(".zip", ".xlsx", ".docx", ".jar", ".gz", ".7z", ".tar")) {
            add("a workbook with an archive" + suffix, without("none").deflated("xl/more" + suffix, inner));
        }
        HandZip quine = new HandZip().stored("recursive.zip", book().bytes());
        byte[] once = quine.bytes();
        add("an archive that holds itself", new HandZip().stored("recursive.zip", once));
    }

    private void lying() {
        for (String part : List.of(SHEET, TEXTS, STYLES, BOOK)) {
            add(
                    "100 kB declared, 10 MB inside as " + part,
                    without(part).repeated(part, (byte) ' ', 10_000_000).but(p -> p.unpacked = 100_000));
        }
        add(
                "nothing declared",
                without(SHEET).repeated(SHEET, (byte) ' ', 10_000_000).but(p -> p.unpacked = 0));
        add("more declared than inside", with(SHEET, "<worksheet/>").but(p -> p.unpacked = 900_000));
        add("other sizes in its own header", with(SHEET, "<worksheet/>").but(p -> p.ownUnpacked = 190_000_000));
        add("sizes of nearly 2^64", large(-2, -2));
        add("sizes of 2^62", large(1L << 62, 10));
        add("the place beyond the file", with(SHEET, "<worksheet/>").but(p -> p.header = 0x7FFFFFF0L));
        add("the place in the directory", with(SHEET, "<worksheet/>").but(p -> {
            p.packed = 500;
            p.ownPacked = 500;
        }));
        HandZip zip = book().zip();
        zip.directory = 0;
        add("the directory at the beginning", zip);
        add(
                "not packed as it says",
                without(SHEET).stored(SHEET, "x".repeat(100)).but(p -> p.method = 8));
        add("packed by another method", without(SHEET).stored(SHEET, "x").but(p -> p.method = 12));
        HandZip commented = new HandZip();
        commented.comment = book().bytes();
        commented.parts.addAll(without(TEXTS).parts);
        add("another archive as comment", commented);
    }

    private static HandZip large(long unpacked, long packed) {
        return with(SHEET, "<worksheet/>").but(part -> {
            part.extra = new HandZip.Bytes()
                    .two(1)
                    .two(16)
                    .eight(unpacked)
                    .eight(packed)
                    .toBytes();
            part.packed = 0xFFFFFFFFL;
            part.unpacked = 0xFFFFFFFFL;
        });
    }

    private void deepAndWide() {
        String open = "<worksheet><sheetData>";
        add("100,000 elements in each other", with(SHEET, "<worksheet>" + "<a>".repeat(100_000)));
        add("texts in each other", with(TEXTS, "<sst>" + "<si>".repeat(100_000)));
        add("styles in each other", with(STYLES, "<styleSheet>" + "<xf>".repeat(100_000)));
        add("sheets in each other", with(BOOK, "<workbook>" + "<sheets>".repeat(100_000)));
        add("an attribute of 900 kB for the name", with(SHEET, "<" + "n".repeat(900_000) + "/>"));
        StringBuilder attributes = new StringBuilder("<worksheet");
        for (int i = 0; i < 50_000; i++) {
            attributes.append(" a").append(i).append("=''");
        }
        add("50,000 attributes", with(SHEET, attributes + "/>"));
        add("a text of 900 kB", with(SHEET, open + "<row><c t='inlineStr'><is><t>" + "x".repeat(900_000)));
        add("a number of 900 kB", with(SHEET, open + "<row><c><v>" + "1".repeat(900_000)));
        add("a far row", with(SHEET, open + "<row r='2147483647'><c><v>1</v></c></row></sheetData></worksheet>"));
        add("a far column", with(SHEET, open + "<row><c r='XFD1'><v>1</v></c></row></sheetData></worksheet>"));
        StringBuilder sheets = new StringBuilder("<workbook xmlns:r='r'><sheets>");
        for (int i = 0; i < 20_000; i++) {
            sheets.append("<sheet name='s").append(i).append("' r:id='rId1'/>");
        }
        add("20,000 sheets", with(BOOK, sheets + "</sheets></workbook>"));
    }
}
