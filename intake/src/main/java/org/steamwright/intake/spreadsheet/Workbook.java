package org.steamwright.intake.spreadsheet;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.table.Sentence;

/**
 * What an archive holds as a workbook: its sheets in order, its texts and formats. Links to other files are never
 * followed.
 */
final class Workbook {

    private static final int MOST_SHEETS = 500;

    private final String file;
    private final ZipParts parts;
    private final List<Sheet> sheets = new ArrayList<>();
    private boolean is1904;
    private Optional<ZipParts.Part> textPart = Optional.empty();
    private Optional<ZipParts.Part> stylePart = Optional.empty();
    private Optional<List<String>> texts = Optional.empty();
    private Optional<NumberFormats> formats = Optional.empty();

    /**
     * A sheet of cells.
     *
     * @param name as on its tab
     * @param isHidden whether its tab is hidden
     * @param part where its cells are
     */
    record Sheet(String name, boolean isHidden, ZipParts.Part part) {}

    private record Relation(String type, String target, boolean isOutside) {}

    private Workbook(String file, ZipParts parts) {
        this.file = file;
        this.parts = parts;
    }

    /**
     * Opens a workbook.
     *
     * @throws UnreadableFileException if the archive holds something else, or a damaged workbook
     */
    static Workbook of(String file, ZipParts parts) throws UnreadableFileException {
        Workbook workbook = new Workbook(file, parts);
        workbook.open();
        return workbook;
    }

    List<Sheet> sheets() {
        return List.copyOf(sheets);
    }

    /** Whether days are counted from 1904. */
    boolean is1904() {
        return is1904;
    }

    /** The texts that cells share, read when first asked for. */
    List<String> texts() throws UnreadableFileException {
        if (texts.isEmpty()) {
            texts = Optional.of(List.of());
            if (textPart.isPresent()) {
                try (PartXml xml = new PartXml(file, parts, textPart.get())) {
                    texts = Optional.of(SharedStrings.read(file, xml));
                }
            }
        }
        return texts.orElseThrow();
    }

    /** The number formats, read when first asked for. */
    NumberFormats formats() throws UnreadableFileException {
        if (formats.isEmpty()) {
            formats = Optional.of(NumberFormats.none());
            if (stylePart.isPresent()) {
                try (PartXml xml = new PartXml(file, parts, stylePart.get())) {
                    formats = Optional.of(NumberFormats.read(xml));
                }
            }
        }
        return formats.orElseThrow();
    }

    /** The XML of a sheet. */
    PartXml open(Sheet sheet) throws UnreadableFileException {
        return new PartXml(file, parts, sheet.part());
    }

    private void open() throws UnreadableFileException {
        refuseOtherDocuments();
        ZipParts.Part main = main();
        Map<String, Relation> relations = relations(main.name());
        for (Relation relation : relations.values()) {
            if (relation.type().equals("sharedStrings")) {
                textPart = Optional.of(part(main.name(), relation));
            } else if (relation.type().equals("styles")) {
                stylePart = Optional.of(part(main.name(), relation));
            }
        }
        try (PartXml xml = new PartXml(file, parts, main)) {
            while (xml.nextStart()) {
                if (xml.name().equals("workbookPr")) {
                    is1904 = xml.isSet("date1904");
                } else if (xml.name().equals("sheet")) {
                    add(xml, main.name(), relations);
                }
            }
        }
        if (sheets.isEmpty()) {
            throw damaged("the workbook has no sheet with cells");
        }
    }

    private void add(PartXml xml, String main, Map<String, Relation> relations) throws UnreadableFileException {
        Relation relation = relations.get(xml.attribute("id"));
        if (relation == null) {
            throw damaged("sheet \"" + ZipParts.shown(xml.attribute("name")) + "\" leads to no part of the workbook");
        }
        if (!relation.type().equals("worksheet")) {
            return;
        }
        if (sheets.size() == MOST_SHEETS) {
            throw new UnreadableFileException(
                    IntakeMessage.SPREADSHEET_TOO_LARGE,
                    file,
                    "",
                    Sentence.of("the workbook has more than %s sheets. Save the sheet alone.", MOST_SHEETS));
        }
        String state = xml.attribute("state");
        sheets.add(new Sheet(
                SharedStrings.plain(new StringBuilder(xml.attribute("name"))).strip(),
                state.equals("hidden") || state.equals("veryHidden"),
                part(main, relation)));
    }

    // ---- parts and their relations

    private ZipParts.Part main() throws UnreadableFileException {
        for (Relation relation : relations("").values()) {
            if (relation.type().equals("officeDocument")) {
                ZipParts.Part part = part("", relation);
                if (part.name().toLowerCase(Locale.ROOT).endsWith(".bin")) {
                    throw other(
                            "this is a workbook in the binary form (.xlsb). Open it with a spreadsheet program and save it as .xlsx or CSV.");
                }
                if (!part.name().toLowerCase(Locale.ROOT).startsWith("xl/")
                        && (parts.find("word/document.xml").isPresent()
                                || parts.find("ppt/presentation.xml").isPresent())) {
                    throw other(
                            "this is a text document or a presentation, not a workbook. Read the recording that the logger wrote.");
                }
                return part;
            }
        }
        throw damaged("the archive does not tell which part is the workbook");
    }

    private Map<String, Relation> relations(String of) throws UnreadableFileException {
        int slash = of.lastIndexOf('/');
        String name = of.substring(0, slash + 1) + "_rels/" + of.substring(slash + 1) + ".rels";
        Optional<ZipParts.Part> part = parts.find(name);
        Map<String, Relation> relations = new HashMap<>();
        if (part.isEmpty()) {
            return relations;
        }
        try (PartXml xml = new PartXml(file, parts, part.get())) {
            while (xml.nextStart()) {
                if (xml.name().equals("Relationship") && relations.size() < ZipParts.MOST_PARTS) {
                    String type = xml.attribute("Type");
                    relations.put(
                            xml.attribute("Id"),
                            new Relation(
                                    type.substring(type.lastIndexOf('/') + 1),
                                    xml.attribute("Target"),
                                    xml.attribute("TargetMode").equalsIgnoreCase("External")));
                }
            }
        }
        return relations;
    }

    private ZipParts.Part part(String from, Relation relation) throws UnreadableFileException {
        if (relation.isOutside() || relation.target().indexOf(':') >= 0) {
            throw new UnreadableFileException(
                    IntakeMessage.ARCHIVE_NOT_HONEST,
                    file,
                    "",
                    Sentence.of(
                            "the workbook names a place outside itself for its own cells (\"%s\"). It was not followed. Where does the file come from? Export the recording again.",
                            ZipParts.shown(relation.target())));
        }
        String target = relation.target().replace('\\', '/');
        String base = target.startsWith("/") ? "" : from.substring(0, from.lastIndexOf('/') + 1);
        List<String> steps = new ArrayList<>();
        for (String step : (base + target).split("/", -1)) {
            if (step.equals("..") && !steps.isEmpty()) {
                steps.remove(steps.size() - 1);
            } else if (!step.isEmpty() && !step.equals(".")) {
                steps.add(step);
            }
        }
        Optional<ZipParts.Part> found = parts.find(String.join("/", steps));
        if (found.isEmpty()) {
            throw damaged("part \"" + ZipParts.shown(relation.target()) + "\" is missing");
        }
        return found.get();
    }

    // ---- what it is instead

    private void refuseOtherDocuments() throws UnreadableFileException {
        Optional<ZipParts.Part> type = parts.find("mimetype");
        if (type.isPresent()) {
            String said = parts.begin(type.get(), 100);
            throw other(
                    said.contains("opendocument.spreadsheet")
                            ? "this is an OpenDocument spreadsheet (.ods). Open it with a spreadsheet program and save it as .xlsx or CSV."
                            : "this is a document of the kind \"" + ZipParts.shown(said)
                                    + "\", not a workbook. Expected .xlsx or CSV.");
        }
        if (parts.find("_rels/.rels").isEmpty()) {
            String first = parts.names().iterator().next();
            throw other(Sentence.of(
                    "this is an archive of %s files, the first is \"%s\", and not a workbook. Unpack it and read the recording in it.",
                    parts.names().size(), ZipParts.shown(first)));
        }
    }

    private UnreadableFileException other(String what) {
        return new UnreadableFileException(IntakeMessage.OTHER_SPREADSHEET, file, "", what);
    }

    private UnreadableFileException damaged(String what) {
        return new UnreadableFileException(
                IntakeMessage.SPREADSHEET_DAMAGED,
                file,
                "",
                what + ". Copy the file again, or open and save it with a spreadsheet program.");
    }
}
