package org.steamwright.intake.spreadsheet;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Writes workbooks cell by cell, as plain as the format allows; parts are not packed, so that the bytes never change. */
final class HandWorkbook {

    /** Formats by the number that a cell names. */
    static final int GENERAL = 0;

    static final int DATE_AND_TIME = 1;
    static final int MILLISECONDS = 2;
    static final int DATE = 3;
    static final int TIME = 4;
    static final int ELAPSED = 5;
    static final int CELSIUS = 6;
    static final int TWO_DECIMALS = 7;

    static final String MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    static final String RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    static final String STRICT_MAIN = "http://purl.oclc.org/ooxml/spreadsheetml/main";
    static final String STRICT_RELATIONS = "http://purl.oclc.org/ooxml/officeDocument/relationships";

    String main = MAIN;
    String relations = RELATIONS;
    boolean is1904;
    /** What stands before the first element of each sheet. */
    String prologue = "<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"yes\"?>";

    private final List<Sheet> sheets = new ArrayList<>();
    private final List<String> texts = new ArrayList<>();
    private final Map<String, String> others = new LinkedHashMap<>();

    /** A sheet that is being written. */
    final class Sheet {
        final String name;
        String state = "";
        String before = "";
        String behind = "";
        String target = "";
        boolean isPlaced = true;
        private final StringBuilder rows = new StringBuilder();
        private int row;

        private Sheet(String name) {
            this.name = name;
        }

        /** The next row. */
        Sheet row(Cell... cells) {
            return rowAt(row + 1, "", 0, cells);
        }

        /** A row there, with more attributes, its first cell in that column, counted from 0. */
        Sheet rowAt(int number, String attributes, int firstColumn, Cell... cells) {
            row = number;
            rows.append("<row")
                    .append(isPlaced ? " r=\"" + number + "\"" : "")
                    .append(attributes)
                    .append('>');
            for (int c = 0; c < cells.length; c++) {
                String place = isPlaced ? " r=\"" + (char) ('A' + firstColumn + c) + number + "\"" : "";
                rows.append(cells[c].xml(place));
            }
            rows.append("</row>");
            return this;
        }

        Sheet raw(String xml) {
            rows.append(xml);
            return this;
        }

        HandWorkbook end() {
            return HandWorkbook.this;
        }
    }

    /** A cell, given its place as an attribute. */
    interface Cell {
        String xml(String place);
    }

    static Cell none() {
        return place -> "";
    }

    static Cell number(String digits) {
        return number(GENERAL, digits);
    }

    static Cell number(int style, String digits) {
        return place -> "<c" + place + (style == 0 ? "" : " s=\"" + style + "\"") + "><v>" + digits + "</v></c>";
    }

    static Cell inline(String text) {
        return place -> "<c" + place + " t=\"inlineStr\"><is><t>" + escaped(text) + "</t></is></c>";
    }

    static Cell error(String word) {
        return place -> "<c" + place + " t=\"e\"><v>" + word + "</v></c>";
    }

    static Cell truth(boolean value) {
        return place -> "<c" + place + " t=\"b\"><v>" + (value ? 1 : 0) + "</v></c>";
    }

    /** A formula with the value stored beside it; none if empty. */
    static Cell formula(String formula, String stored) {
        return place ->
                "<c" + place + "><f>" + formula + "</f>" + (stored.isEmpty() ? "" : "<v>" + stored + "</v>") + "</c>";
    }

    static Cell raw(String xml) {
        return place -> xml.replace("<c", "<c" + place);
    }

    /** A text in the part that all sheets share. */
    Cell text(String text) {
        return shared("<t>" + escaped(text) + "</t>");
    }

    Cell shared(String xml) {
        int known = texts.indexOf(xml);
        if (known < 0) {
            known = texts.size();
            texts.add(xml);
        }
        int index = known;
        return place -> "<c" + place + " t=\"s\"><v>" + index + "</v></c>";
    }

    Sheet sheet(String name) {
        Sheet sheet = new Sheet(name);
        sheets.add(sheet);
        return sheet;
    }

    /** Another part, or another content for one. */
    HandWorkbook part(String name, String content) {
        others.put(name, content);
        return this;
    }

    /** All parts by name, in the order in which they are written. */
    Map<String, String> parts() {
        Map<String, String> parts = new LinkedHashMap<>();
        parts.put(
                "[Content_Types].xml",
                "<Types xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\">"
                        + "<Default Extension=\"xml\" ContentType=\"application/xml\"/></Types>");
        parts.put("_rels/.rels", relations(relation("rId1", "officeDocument", "xl/workbook.xml")));
        StringBuilder book = new StringBuilder("<workbook xmlns=\"" + main + "\" xmlns:r=\"" + relations + "\">");
        book.append(is1904 ? "<workbookPr date1904=\"1\"/>" : "<workbookPr/>").append("<sheets>");
        StringBuilder links = new StringBuilder();
        for (int i = 0; i < sheets.size(); i++) {
            Sheet sheet = sheets.get(i);
            book.append("<sheet name=\"%s\" sheetId=\"%d\"%s r:id=\"rId%d\"/>"
                    .formatted(
                            escaped(sheet.name),
                            i + 1,
                            sheet.state.isEmpty() ? "" : " state=\"" + sheet.state + "\"",
                            i + 1));
            links.append(relation(
                    "rId" + (i + 1),
                    "worksheet",
                    sheet.target.isEmpty() ? "worksheets/sheet" + (i + 1) + ".xml" : sheet.target));
        }
        links.append(relation("rIdT", "sharedStrings", "sharedStrings.xml"));
        links.append(relation("rIdS", "styles", "styles.xml"));
        parts.put("xl/workbook.xml", book.append("</sheets></workbook>").toString());
        parts.put("xl/_rels/workbook.xml.rels", relations(links.toString()));
        parts.put("xl/styles.xml", styles());
        StringBuilder shared = new StringBuilder("<sst xmlns=\"" + main + "\">");
        for (String text : texts) {
            shared.append("<si>").append(text).append("</si>");
        }
        parts.put("xl/sharedStrings.xml", shared.append("</sst>").toString());
        for (int i = 0; i < sheets.size(); i++) {
            Sheet sheet = sheets.get(i);
            parts.put(
                    "xl/worksheets/sheet" + (i + 1) + ".xml",
                    prologue + "<worksheet xmlns=\"" + main + "\">" + sheet.before + "<sheetData>" + sheet.rows
                            + "</sheetData>" + sheet.behind + "</worksheet>");
        }
        parts.putAll(others);
        return parts;
    }

    HandZip zip() {
        HandZip zip = new HandZip();
        parts().forEach((name, content) -> {
            if (!content.isEmpty()) {
                zip.stored(name, content);
            }
        });
        return zip;
    }

    byte[] bytes() {
        return zip().bytes();
    }

    private String relation(String id, String type, String target) {
        return "<Relationship Id=\"" + id + "\" Type=\"" + relations + "/" + type + "\" Target=\"" + target + "\"/>";
    }

    private static String relations(String links) {
        return "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\">" + links
                + "</Relationships>";
    }

    private String styles() {
        String[] codes = {"yyyy-mm-dd hh:mm:ss.000", "hh:mm:ss", "[h]:mm:ss", "0.0\" °C\""};
        StringBuilder styles = new StringBuilder("<styleSheet xmlns=\"" + main + "\"><numFmts>");
        for (int i = 0; i < codes.length; i++) {
            styles.append("<numFmt numFmtId=\"%d\" formatCode=\"%s\"/>".formatted(164 + i, escaped(codes[i])));
        }
        styles.append("</numFmts><cellXfs>");
        for (int id : new int[] {0, 22, 164, 14, 165, 166, 167, 2}) {
            styles.append("<xf numFmtId=\"%d\"/>".formatted(id));
        }
        return styles.append("</cellXfs></styleSheet>").toString();
    }

    static String escaped(String text) {
        return text.replace("&", "&amp;").replace("<", "&lt;").replace("\"", "&quot;");
    }
}
