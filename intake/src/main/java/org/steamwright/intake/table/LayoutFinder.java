package org.steamwright.intake.table;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.intake.DecimalMark;
import org.steamwright.intake.ElapsedUnit;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.MeasuringUnit;
import org.steamwright.intake.Question;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;

/** Finds out from the head of a file how its rows are to be read, and asks for what the head leaves open. */
final class LayoutFinder {

    private static final int HEAD_ROWS = 60;
    private static final int PREAMBLE_SHOWN = 3;

    /** A line of two cells above the readings as likely is a name with its value. */
    private static final int FEWEST_CELLS_OF_A_BLOCK = 3;

    private static final List<String> TEMPERATURE_ANSWERS = List.of("°C", "°F", "K", "skip");
    private static final List<String> PRESSURE_ANSWERS = List.of(
            "kPa abs",
            "kPa gauge",
            "bar abs",
            "bar gauge",
            "mbar abs",
            "mbar gauge",
            "psi abs",
            "psi gauge",
            "mmHg abs",
            "inHg gauge",
            "skip");
    private static final List<String> ALL_ANSWERS =
            List.of("°C", "°F", "K", "kPa abs", "kPa gauge", "bar abs", "bar gauge", "mbar abs", "psi gauge", "skip");

    private final String file;
    private final Table table;
    private final char delimiter;
    private final ReadingChoices choices;
    private final CellKind.Looker looker = new CellKind.Looker();
    private final List<String> explanation = new ArrayList<>();
    private final List<Remark> remarks = new ArrayList<>();
    private final List<Question> questions = new ArrayList<>();
    private final List<Layout.Words> words = new ArrayList<>();
    private boolean isUnitUnknown;

    private List<Kept> rows = List.of();
    private CellKind[][] kinds = {};
    private CellKind[] types = {};
    private int width;
    private int firstData;
    private List<Heading> headings = List.of();
    private List<String> names = List.of();
    private List<String> header = List.of();
    private int nameRow = -1;
    private int unitRow = -1;

    private LayoutFinder(Table table, ReadingChoices choices) {
        this.table = table;
        this.file = table.fileName();
        this.delimiter = table.delimiter();
        this.choices = choices;
    }

    /** A row of the head, kept. */
    private record Kept(int line, List<String> cells) {
        Kept {
            cells = List.copyOf(cells);
        }

        String cell(int index) {
            return index < cells.size() ? cells.get(index) : "";
        }
    }

    /** A class of its own: the first lambda of a program costs a short command more than reading the file. */
    private static final class HeadTaker implements RowTaker {
        private final List<Kept> kept = new ArrayList<>();

        @Override
        public boolean take(Row row) {
            kept.add(new Kept(row.line, Arrays.asList(row.texts())));
            return kept.size() < HEAD_ROWS;
        }
    }

    /**
     * The layout of a table.
     *
     * @param table the rows as the layout is to be used on, with channels side by side
     * @param layout how they are read
     */
    record Found(Table table, Layout layout) {}

    static Found find(Table table, ReadingChoices choices) throws IOException, UnreadableFileException {
        LayoutFinder finder = new LayoutFinder(table, choices);
        finder.findTable();
        Optional<LongShape> shape = finder.longShape();
        Optional<LongTable> beside = shape.isPresent() ? LongTable.of(table, shape.get()) : Optional.empty();
        if (beside.isEmpty()) {
            return new Found(table, finder.find());
        }
        LayoutFinder wide = new LayoutFinder(beside.get(), choices);
        wide.explanation.add(beside.get().explanation());
        wide.remarks.addAll(beside.get().remarks());
        wide.findTable();
        return new Found(beside.get(), wide.find());
    }

    /** By what files like this one are known again; nothing is asked for it. */
    static FileKind kind(Table table, ReadingChoices choices) throws IOException, UnreadableFileException {
        LayoutFinder finder = new LayoutFinder(table, choices);
        finder.findTable();
        return finder.kind();
    }

    private FileKind kind() {
        List<String> columns = new ArrayList<>();
        for (Heading heading : headings) {
            columns.add(heading.full());
        }
        List<String> units = new ArrayList<>();
        for (int c = 0; unitRow >= 0 && c < width; c++) {
            units.add(rows.get(unitRow).cell(c));
        }
        List<String> preamble = new ArrayList<>();
        for (int i = 0; i < (nameRow < 0 ? firstData : nameRow); i++) {
            preambleKey(rows.get(i)).ifPresent(preamble::add);
        }
        return new FileKind(FileKind.delimiterWord(delimiter), columns, units, preamble);
    }

    /** What names the value on a line before the header, if it has a letter and no digit. */
    private static Optional<String> preambleKey(Kept row) {
        String first = row.cell(0);
        int end = first.length();
        for (int i = 0; i < first.length(); i++) {
            if (first.charAt(i) == ':' || first.charAt(i) == '=') {
                end = i;
                break;
            }
        }
        if (end == first.length() && row.cells().size() < 2) {
            return Optional.empty();
        }
        String key = first.substring(0, end).replace("#", "").strip();
        boolean hasLetter = false;
        for (int i = 0; i < key.length(); i++) {
            hasLetter |= Character.isLetter(key.charAt(i));
            if (Character.isDigit(key.charAt(i))) {
                return Optional.empty();
            }
        }
        return hasLetter ? Optional.of(key) : Optional.empty();
    }

    private void findTable() throws IOException, UnreadableFileException {
        HeadTaker head = new HeadTaker();
        table.each(head);
        rows = head.kept;
        width = mostCommonWidth();
        lookAtCells();
        firstData = findFirstData();
        findHeader();
    }

    private Layout find() throws IOException, UnreadableFileException {
        checkChoices();
        Layout.Time time = findTime();
        List<Layout.Reading> readings = findReadings(time);
        Decimal decimal = findDecimal(readings);
        if (!questions.isEmpty()) {
            throw open();
        }
        return new Layout(
                delimiter,
                decimal.mark(),
                decimal.isGroupingProven(),
                rows.get(firstData).line(),
                width,
                header,
                time,
                readings,
                words,
                explanation,
                remarks);
    }

    private UnreadableFileException open() {
        StringBuilder said = new StringBuilder();
        for (Question question : questions) {
            said.append(said.isEmpty() ? "" : " ").append(question);
        }
        return new UnreadableFileException(
                isUnitUnknown ? IntakeMessage.UNKNOWN_UNIT : IntakeMessage.QUESTIONS_OPEN,
                file,
                "",
                said.toString(),
                questions);
    }

    // ---- rows

    private int mostCommonWidth() {
        Map<Integer, Integer> counts = new HashMap<>();
        int best = 0;
        int bestCount = 0;
        for (int i = rows.size() / 4; i < rows.size(); i++) {
            int cells = rows.get(i).cells().size();
            int count = counts.getOrDefault(cells, 0) + 1;
            counts.put(cells, count);
            if (count > bestCount || (count == bestCount && cells > best)) {
                best = cells;
                bestCount = count;
            }
        }
        return best;
    }

    /** The longest stretch of rows with figures shows what each column holds; a header interrupts it. */
    private void lookAtCells() {
        kinds = new CellKind[rows.size()][];
        for (int i = 0; i < rows.size(); i++) {
            List<String> cells = rows.get(i).cells();
            kinds[i] = new CellKind[cells.size()];
            for (int c = 0; c < cells.size(); c++) {
                kinds[i][c] = looker.look(cells.get(c));
            }
        }
        int from = 0;
        int to = 0;
        int start = 0;
        for (int i = 0; i <= rows.size(); i++) {
            if (i == rows.size() || !(isComment(i) || hasFigures(i))) {
                if (i - start >= to - from) {
                    from = start;
                    to = i;
                }
                start = i + 1;
            }
        }
        types = new CellKind[width];
        for (int c = 0; c < width; c++) {
            Map<CellKind, Integer> counts = new EnumMap<>(CellKind.class);
            for (int i = from; i < to; i++) {
                if (c < kinds[i].length && !isComment(i)) {
                    counts.put(kinds[i][c], counts.getOrDefault(kinds[i][c], 0) + 1);
                }
            }
            types[c] = mostOf(counts);
        }
    }

    private boolean hasFigures(int row) {
        for (CellKind kind : kinds[row]) {
            if (kind.isNumeric() || kind.isTime()) {
                return true;
            }
        }
        return false;
    }

    private static CellKind mostOf(Map<CellKind, Integer> counts) {
        CellKind best = CellKind.EMPTY;
        int most = 0;
        for (Map.Entry<CellKind, Integer> entry : counts.entrySet()) {
            if (!entry.getKey().isNeutral() && entry.getValue() > most) {
                best = entry.getKey();
                most = entry.getValue();
            }
        }
        return best;
    }

    private boolean isData(int row) {
        CellKind[] cells = kinds[row];
        if (isComment(row) || cells.length < Math.min(2, width)) {
            return false;
        }
        int matches = 0;
        int misses = 0;
        boolean isTimeSeen = false;
        for (int c = 0; c < Math.min(width, cells.length); c++) {
            if (types[c].isTime() && !isTimeSeen) {
                isTimeSeen = true;
                if (cells[c] != types[c]) {
                    return false;
                }
            }
            if ((types[c].isTime() || types[c].isNumeric()) && !cells[c].isNeutral()) {
                if (cells[c] == types[c]) {
                    matches++;
                } else {
                    misses++;
                }
            }
        }
        return matches > misses;
    }

    private boolean isComment(int row) {
        String first = rows.get(row).cell(0);
        return first.length() > 1 && first.charAt(0) == '#';
    }

    private int findFirstData() throws UnreadableFileException {
        for (int i = 0; i < rows.size(); i++) {
            if (isData(i)
                    && (i + 1 >= rows.size()
                            || isComment(i + 1)
                            || isData(i + 1)
                            || i + 2 >= rows.size()
                            || isData(i + 2))) {
                return i;
            }
        }
        throw new UnreadableFileException(
                IntakeMessage.TOO_FEW_ROWS,
                file,
                rows.isEmpty() ? "" : "row " + rows.get(rows.size() - 1).line(),
                Sentence.of(
                        "found no row with readings, only \"%s\". Expected at least two rows, each with a time and"
                                + " numbers. Was the export cut, or the wrong sheet exported?",
                        rows.isEmpty()
                                ? ""
                                : cut(String.join(
                                        " | ", rows.get(rows.size() - 1).cells()))));
    }

    // ---- header

    private void findHeader() throws UnreadableFileException {
        int last = firstData - 1;
        while (last >= 0 && isComment(last)) {
            last--;
        }
        int names = last;
        int units = -1;
        if (last >= 1 && isUnitRow(last) && rows.get(last - 1).cells().size() >= 2 && !isComment(last - 1)) {
            units = last;
            names = last - 1;
        }
        List<Integer> block = headerBlock(last);
        if (block.size() > 1) {
            units = unitRowOf(block);
            names = nameRowOf(block, units);
        }
        boolean isCommented = false;
        if (names < 0 || written(names) < 2) {
            names = -1;
            if (firstData > 0
                    && isComment(firstData - 1)
                    && written(firstData - 1) >= Math.min(2, width)
                    && rows.get(firstData - 1).cells().size() == width) {
                names = firstData - 1;
                isCommented = true;
            }
        }
        int used = usedWidth();
        if (names >= 0) {
            int named = written(names);
            if (named != used && named != width && rows.get(names).cells().size() != used) {
                throw new UnreadableFileException(
                        IntakeMessage.HEADER_DOES_NOT_FIT,
                        file,
                        "row " + rows.get(names).line(),
                        Sentence.of(
                                "the header has %d names, but row %d has %d cells (\"%s\"). Each column needs one"
                                        + " name.%s",
                                named,
                                rows.get(firstData).line(),
                                width,
                                cut(String.join(" | ", rows.get(firstData).cells())),
                                delimiter == ',' && used > named
                                        ? " Does the file use the comma both between cells and as decimal mark? Then"
                                                + " export it with semicolons, or with a decimal point."
                                        : " Export the file again, or mend the header in a copy."));
            }
            header = rows.get(names).cells();
        }
        width = Math.max(used, names >= 0 ? written(names) : 0);
        List<Heading> found = new ArrayList<>();
        List<Integer> more = rowsBesides(block, names, units);
        for (int c = 0; c < width; c++) {
            String cell = names < 0 ? "" : more.isEmpty() ? rows.get(names).cell(c) : joined(more, names, c);
            if (isCommented && c == 0) {
                cell = cell.substring(1).strip();
            }
            found.add(Heading.of(cell, units < 0 ? "" : rows.get(units).cell(c)));
        }
        headings = withoutProbeLetters(found);
        nameRow = names;
        unitRow = units;
        explainHeader(names, units);
        this.names = uniqueNames(names >= 0);
    }

    /** Rows of full width right above the readings, the lowest first: together they are the header. */
    private List<Integer> headerBlock(int last) {
        List<Integer> block = new ArrayList<>();
        for (int i = last;
                width >= FEWEST_CELLS_OF_A_BLOCK && i >= 0 && !isComment(i) && written(i) >= width - 1;
                i--) {
            if (i < last && rows.get(i).line() != rows.get(i + 1).line() - 1) {
                break;
            }
            block.add(i);
        }
        return block;
    }

    private int unitRowOf(List<Integer> block) {
        for (int row : block) {
            if (isUnitRow(row)) {
                return row;
            }
        }
        return -1;
    }

    /** The row that speaks of time or of channels in its first cells; else the lowest that is not that of the units. */
    private int nameRowOf(List<Integer> block, int units) {
        int lowest = -1;
        for (int row : block) {
            if (row == units) {
                continue;
            }
            lowest = lowest < 0 ? row : lowest;
            for (int c = 0; c < 2; c++) {
                Heading heading = Heading.of(rows.get(row).cell(c), "");
                if (heading.namesTime() || heading.namesDate() || heading.namesChannel()) {
                    return row;
                }
            }
        }
        return lowest;
    }

    /** The other rows of the header, from the top, if they are needed to tell the columns apart. */
    private List<Integer> rowsBesides(List<Integer> block, int names, int units) {
        List<Integer> more = new ArrayList<>();
        for (int row : block) {
            if (row != names && row != units) {
                more.add(0, row);
            }
        }
        if (names < 0 || !block.contains(names) || more.isEmpty()) {
            return List.of();
        }
        Set<String> taken = new HashSet<>();
        boolean isRepeated = false;
        for (int c = 0; c < width; c++) {
            String cell = rows.get(names).cell(c);
            isRepeated |= !cell.isEmpty() && !taken.add(ReadingChoices.key(cell));
        }
        if (block.size() == 2 && !isRepeated) {
            return List.of();
        }
        List<String> shown = new ArrayList<>();
        for (int row : more) {
            shown.add(Sentence.of(
                    "row %d \"%s\"",
                    rows.get(row).line(),
                    cut(String.join(String.valueOf(delimiter), rows.get(row).cells()))));
        }
        remark(
                IntakeMessage.HEADER_IN_LINES,
                Rank.NOTE,
                "row " + rows.get(names).line(),
                Sentence.of(
                        "The header has %d rows. The names are taken from row %d%s; also there: %s%s.",
                        block.size(),
                        rows.get(names).line(),
                        units < 0
                                ? ""
                                : ", the units from row " + rows.get(units).line(),
                        String.join(", ", shown),
                        isRepeated ? ", put before names that stand more than once" : ""));
        return isRepeated ? more : List.of();
    }

    /** A name with what stands in the other rows of the header; a blank there goes on from the column before. */
    private String joined(List<Integer> more, int names, int column) {
        String own = rows.get(names).cell(column);
        int uses = 0;
        for (String cell : rows.get(names).cells()) {
            uses += !own.isEmpty() && ReadingChoices.key(cell).equals(ReadingChoices.key(own)) ? 1 : 0;
        }
        if (uses < 2) {
            return own;
        }
        StringBuilder joined = new StringBuilder();
        for (int row : more) {
            int c = column;
            while (c > 0 && rows.get(row).cell(c).isEmpty()) {
                c--;
            }
            String part = rows.get(row).cell(c);
            joined.append(part).append(part.isEmpty() ? "" : " ");
        }
        return joined.append(own).toString();
    }

    private void explainHeader(int names, int units) {
        int before = names < 0 ? firstData : names;
        if (before > 0) {
            List<String> shown = new ArrayList<>();
            for (int i = 0; i < Math.min(before, PREAMBLE_SHOWN); i++) {
                shown.add("\""
                        + cut(String.join(String.valueOf(delimiter), rows.get(i).cells())) + "\"");
            }
            explanation.add(Sentence.of(
                    "%d line%s before the header: %s%s",
                    before, before == 1 ? "" : "s", String.join(", ", shown), before > PREAMBLE_SHOWN ? ", …" : ""));
        }
        if (names < 0) {
            explanation.add("no header; columns are called by their number");
            remark(
                    IntakeMessage.HEADER_MISSING,
                    Rank.NOTE,
                    "row " + rows.get(firstData).line(),
                    Sentence.of(
                            "The file starts with readings and has no header. The columns are called column 1 to"
                                    + " column %d; units have to be told.",
                            width));
        } else if (rows.get(names).line() == 0) {
            explanation.add("no header; the channels give the names");
        } else {
            explanation.add("header in row " + rows.get(names).line()
                    + (units < 0 ? "" : ", units in row " + rows.get(units).line()));
        }
        explanation.add("first readings in row " + rows.get(firstData).line());
    }

    private int written(int row) {
        List<String> cells = rows.get(row).cells();
        int last = cells.size();
        while (last > 0 && cells.get(last - 1).isEmpty()) {
            last--;
        }
        return last;
    }

    /** Cells that data rows use; a delimiter at the end of each row makes an empty one that nobody uses. */
    private int usedWidth() {
        int used = 0;
        for (int i = firstData; i < rows.size(); i++) {
            if (rows.get(i).cells().size() <= width) {
                used = Math.max(used, written(i));
            }
        }
        return used;
    }

    private boolean isUnitRow(int row) {
        int said = 0;
        for (String cell : rows.get(row).cells()) {
            if (cell.isEmpty() || cell.equals("-") || (said == 0 && Heading.isLabelOfUnits(cell))) {
                continue;
            }
            if (!Heading.isUnit(cell) && !Heading.isTimeFormat(cell)) {
                return false;
            }
            said++;
        }
        return said > 0;
    }

    /** Takes probe_C for a name, not for Celsius, where a probe_A or probe_B stands beside it. */
    private static List<Heading> withoutProbeLetters(List<Heading> found) {
        List<Heading> checked = new ArrayList<>();
        for (Heading heading : found) {
            String full = heading.full();
            boolean isLetter = full.length() > 2
                    && (full.endsWith("_C") || full.endsWith("_F") || full.endsWith("_K"))
                    && heading.unit().isPresent();
            boolean isProbe = false;
            for (Heading other : isLetter ? found : List.<Heading>of()) {
                String beside = other.full();
                isProbe |= beside.length() == full.length()
                        && beside.regionMatches(false, 0, full, 0, full.length() - 1)
                        && other.isSilent()
                        && Character.isLetter(beside.charAt(beside.length() - 1))
                        && beside.charAt(beside.length() - 1) != full.charAt(full.length() - 1);
            }
            checked.add(
                    isProbe
                            ? new Heading(full, full, Optional.empty(), Optional.empty(), Optional.empty(), "")
                            : heading);
        }
        return checked;
    }

    private List<String> uniqueNames(boolean hasHeader) {
        Map<String, Integer> uses = new HashMap<>();
        for (Heading heading : headings) {
            String key = ReadingChoices.key(heading.name());
            uses.put(key, uses.getOrDefault(key, 0) + 1);
        }
        Set<String> taken = new HashSet<>();
        List<String> unique = new ArrayList<>();
        for (int c = 0; c < headings.size(); c++) {
            Heading heading = headings.get(c);
            String name =
                    uses.getOrDefault(ReadingChoices.key(heading.name()), 1) > 1 ? heading.full() : heading.name();
            if (name.isEmpty()) {
                name = "column " + (c + 1);
                if (hasHeader && types[c] != CellKind.EMPTY) {
                    remark(
                            IntakeMessage.NAME_MISSING,
                            Rank.NOTE,
                            "column " + (c + 1),
                            Sentence.of("The header has no name for this column; it is called \"%s\".", name));
                }
            }
            String wanted = name;
            for (int n = 2; !taken.add(ReadingChoices.key(name)); n++) {
                name = wanted + " #" + n;
            }
            if (!name.equals(wanted)) {
                remark(
                        IntakeMessage.NAME_REPEATED,
                        Rank.DOUBT,
                        "column " + (c + 1),
                        Sentence.of(
                                "The name \"%s\" stands more than once in the header; this column is called \"%s\"."
                                        + " Make sure which sensor it is.",
                                wanted, name));
            }
            unique.add(name);
        }
        return unique;
    }

    private void checkChoices() throws UnreadableFileException {
        Set<String> known = new HashSet<>();
        for (int c = 0; c < width; c++) {
            known.add(ReadingChoices.key(names.get(c)));
            known.add(ReadingChoices.key(headings.get(c).full()));
        }
        Set<String> asked = new HashSet<>(choices.units().keySet());
        asked.addAll(choices.references().keySet());
        asked.addAll(choices.skipped());
        List<String> absent = new ArrayList<>();
        for (String key : asked) {
            if (!known.contains(key)) {
                absent.add("\"" + key + "\"");
            }
        }
        if (!absent.isEmpty()) {
            absent.sort(null);
            throw new UnreadableFileException(
                    IntakeMessage.CHOICE_DOES_NOT_FIT,
                    file,
                    "",
                    Sentence.of(
                            "a choice was made for column %s, which the file does not have. Its columns are: %s.",
                            String.join(", ", absent), String.join(", ", names)));
        }
    }

    // ---- one row for each reading

    /** Where channel and reading stand, if every reading has a row of its own. */
    private Optional<LongShape> longShape() {
        List<Integer> time = timeColumns();
        List<Integer> numbers = new ArrayList<>();
        List<Integer> words = new ArrayList<>();
        int unit = -1;
        for (int c = 0; c < width && c < types.length; c++) {
            Heading heading = headings.get(c);
            if (time.contains(c) || (heading.namesRunningNumber() && heading.isSilent())) {
                continue;
            }
            if (types[c] == CellKind.NUMBER) {
                numbers.add(c);
            } else if (types[c] == CellKind.TEXT && unit < 0 && holdsUnits(c)) {
                unit = c;
            } else if (types[c] == CellKind.TEXT) {
                words.add(c);
            }
        }
        if (time.isEmpty() || numbers.isEmpty() || numbers.size() + words.size() < 2) {
            return Optional.empty();
        }
        int channel = channelColumn(time, words, numbers);
        numbers.remove(Integer.valueOf(channel));
        if (channel < 0 || numbers.size() != 1) {
            return Optional.empty();
        }
        int value = numbers.get(0);
        Optional<MeasuringUnit> stated = headings.get(value).unit();
        return Optional.of(new LongShape(
                time,
                channel,
                value,
                unit,
                types[channel] == CellKind.NUMBER ? headings.get(channel).full() : "",
                stated.isPresent() ? stated.get().toString() : "",
                header,
                nameRow < 0 ? 0 : rows.get(nameRow).line(),
                unitRow < 0 ? 0 : rows.get(unitRow).line(),
                rows.get(firstData).line()));
    }

    private List<Integer> timeColumns() {
        List<Integer> stamps = columnsOf(CellKind.STAMP);
        List<Integer> dates = columnsOf(CellKind.DATE);
        List<Integer> clocks = columnsOf(CellKind.TIME);
        if (!stamps.isEmpty()) {
            return List.of(stamps.get(0));
        }
        if (!clocks.isEmpty()) {
            return dates.isEmpty() ? List.of(clocks.get(0)) : List.of(dates.get(0), clocks.get(0));
        }
        for (int c = 0; c < width && c < types.length; c++) {
            if (types[c].isNumeric() && isElapsed(c)) {
                return List.of(c);
            }
        }
        return List.of();
    }

    private boolean holdsUnits(int column) {
        int units = 0;
        for (int i = firstData; i < rows.size(); i++) {
            String cell = rows.get(i).cell(column);
            if (!cell.isEmpty() && isData(i)) {
                if (!Heading.isUnit(cell)) {
                    return false;
                }
                units++;
            }
        }
        return units > 0;
    }

    /** The one that is called so, or whose word changes while the time stays; -1 if there is none. */
    private int channelColumn(List<Integer> time, List<Integer> words, List<Integer> numbers) {
        int found = -1;
        for (int c : words) {
            if (changesAtOneTime(time, c) || headings.get(c).namesChannel()) {
                if (found >= 0) {
                    return headings.get(c).namesChannel()
                                    && !headings.get(found).namesChannel()
                            ? c
                            : found;
                }
                found = c;
            }
        }
        for (int c : numbers) {
            if (found < 0 && headings.get(c).namesChannel() && changesAtOneTime(time, c)) {
                found = c;
            }
        }
        return found;
    }

    private boolean changesAtOneTime(List<Integer> time, int column) {
        int changes = 0;
        int same = 0;
        for (int i = firstData + 1; i < rows.size(); i++) {
            Kept row = rows.get(i);
            Kept before = rows.get(i - 1);
            boolean isSameTime = true;
            for (int c : time) {
                isSameTime &= !row.cell(c).isEmpty() && row.cell(c).equals(before.cell(c));
            }
            if (isSameTime) {
                same++;
                changes += row.cell(column).equals(before.cell(column)) ? 0 : 1;
            }
        }
        return changes >= 1 && changes * 2 > same;
    }

    // ---- time

    private Layout.Time findTime() throws UnreadableFileException {
        List<Integer> stamps = columnsOf(CellKind.STAMP);
        List<Integer> dates = columnsOf(CellKind.DATE);
        List<Integer> clocks = columnsOf(CellKind.TIME);
        if (!stamps.isEmpty()) {
            int chosen = stamps.get(0);
            for (int c : stamps) {
                if (headings.get(c).namesUtc() && !headings.get(chosen).namesUtc()) {
                    chosen = c;
                }
            }
            return told(Layout.TimeKind.STAMP, chosen, chosen, ElapsedUnit.SECOND, "date and time");
        }
        if (!dates.isEmpty() && !clocks.isEmpty()) {
            return told(
                    Layout.TimeKind.DATE_AND_TIME,
                    clocks.get(0),
                    dates.get(0),
                    ElapsedUnit.SECOND,
                    "time, date in column " + place(dates.get(0)));
        }
        if (!clocks.isEmpty()) {
            int chosen = clocks.get(0);
            return told(
                    Layout.TimeKind.CLOCK,
                    chosen,
                    chosen,
                    ElapsedUnit.SECOND,
                    "hours, minutes and seconds without a date");
        }
        for (int c = 0; c < width; c++) {
            if (types[c].isNumeric() && isElapsed(c)) {
                return numbers(c);
            }
        }
        throw new UnreadableFileException(
                IntakeMessage.NO_TIME_COLUMN,
                file,
                "",
                Sentence.of(
                        "no column tells the time%s. Its columns are: %s. Expected a date and time, a time of day, or"
                                + " elapsed time in a column called time, elapsed or t with its unit, as t_s or Time"
                                + " (min). Export with the time column.",
                        dates.isEmpty() ? "" : " of day; column " + place(dates.get(0)) + " has the date only",
                        String.join(", ", names)));
    }

    private List<Integer> columnsOf(CellKind kind) {
        List<Integer> found = new ArrayList<>();
        for (int c = 0; c < width && c < types.length; c++) {
            if (types[c] == kind && !isSkipped(c)) {
                found.add(c);
            }
        }
        return found;
    }

    private boolean isElapsed(int column) {
        if (isSkipped(column)) {
            return false;
        }
        Heading heading = headings.get(column);
        return heading.elapsed().isPresent()
                || (heading.isSilent()
                        && heading.unread().isEmpty()
                        && (heading.namesTime() || heading.namesUnixTime()))
                || (header.isEmpty() && column == 0 && isRising(column));
    }

    private Layout.Time numbers(int column) throws UnreadableFileException {
        Heading heading = headings.get(column);
        Optional<ElapsedUnit> unit = choices.timeUnit().isPresent() ? choices.timeUnit() : heading.elapsed();
        if (choices.timeUnit().isPresent()
                && heading.elapsed().isPresent()
                && !choices.timeUnit().equals(heading.elapsed())) {
            refuseProfile(
                    "time-unit",
                    "column " + place(column),
                    choices.timeUnit().get().symbol(),
                    "its header says " + heading.elapsed().get().symbol());
            remark(
                    IntakeMessage.CHOICE_AGAINST_FILE,
                    Rank.DOUBT,
                    "column " + place(column),
                    Sentence.of(
                            "The header says that time is in %s, the choice says %s; the choice counts.",
                            heading.elapsed().get().symbol(),
                            choices.timeUnit().get().symbol()));
        }
        if (unit.isEmpty()) {
            String firstCell = rows.get(firstData).cell(column);
            String lastCell = rows.get(rows.size() - 1).cell(column);
            questions.add(new Question(
                    "time-unit",
                    "In which unit does column " + place(column) + " count time?",
                    Sentence.of(
                            "It goes from %s in row %d to %s in row %d and its header \"%s\" names no unit.%s",
                            firstCell,
                            rows.get(firstData).line(),
                            lastCell,
                            rows.get(rows.size() - 1).line(),
                            heading.full(),
                            isLikeDayNumber(firstCell)
                                    ? " It looks like the day number of a spreadsheet: format the column as date and"
                                            + " time there, and export again."
                                    : ""),
                    List.of("s", "min", "h", "ms", "unix-s", "unix-ms")));
        }
        return told(
                Layout.TimeKind.NUMBER,
                column,
                column,
                unit.orElse(ElapsedUnit.SECOND),
                "numbers in " + (unit.isPresent() ? unit.get().symbol() : "an unknown unit"));
    }

    private static boolean isLikeDayNumber(String cell) {
        return cell.length() > 6
                && (cell.startsWith("4") || cell.startsWith("5"))
                && (cell.charAt(5) == '.' || cell.charAt(5) == ',');
    }

    private boolean isRising(int column) {
        double before = Double.NEGATIVE_INFINITY;
        NumberText number = new NumberText();
        for (int i = firstData; i < rows.size(); i++) {
            char[] c = rows.get(i).cell(column).toCharArray();
            if (!number.read(c, 0, c.length, DecimalMark.POINT, false) || number.value <= before) {
                return false;
            }
            before = number.value;
        }
        return true;
    }

    private Layout.Time told(Layout.TimeKind kind, int column, int dateColumn, ElapsedUnit unit, String what) {
        boolean isUtc =
                headings.get(column).namesUtc() || headings.get(dateColumn).namesUtc();
        explanation.add(
                Sentence.of("time in column %s: %s%s", place(column), what, isUtc ? ", in UTC by its header" : ""));
        for (int c = 0; c < width && c < types.length; c++) {
            if (c != column && c != dateColumn && types[c].isTime()) {
                notUsed(c, "also holds time; column " + place(column) + " is used");
            }
        }
        return new Layout.Time(kind, column, dateColumn, unit, isUtc);
    }

    // ---- readings

    private List<Layout.Reading> findReadings(Layout.Time time) throws IOException, UnreadableFileException {
        List<Layout.Reading> readings = new ArrayList<>();
        CellKind[] beyond = kindsBeyondHead();
        for (int c = 0; c < width; c++) {
            if (c == time.column() || c == time.dateColumn()) {
                continue;
            }
            CellKind type = c < types.length ? types[c] : CellKind.EMPTY;
            if (isSkipped(c)) {
                notUsed(c, "as chosen");
            } else if (!type.isTime()) {
                Optional<Layout.Reading> found = findReading(c, type == CellKind.EMPTY ? beyond[c] : type);
                if (found.isPresent()) {
                    readings.add(found.get());
                }
            }
        }
        if (readings.isEmpty() && questions.isEmpty()) {
            throw new UnreadableFileException(
                    IntakeMessage.NO_MEASURING_COLUMN,
                    file,
                    "",
                    Sentence.of(
                            "no column holds a temperature or a pressure. Its columns are: %s. Expected numbers under"
                                    + " a header with a unit, as T1 (°C) or p_kPa.",
                            String.join(", ", names)));
        }
        return readings;
    }

    private Optional<Layout.Reading> findReading(int c, CellKind type) throws UnreadableFileException {
        Heading heading = headings.get(c);
        Optional<MeasuringUnit> chosen = chosenUnit(c);
        Optional<MeasuringUnit> inFile = heading.unit().isPresent() ? heading.unit() : unitBehind(c);
        if (chosen.isEmpty() && inFile.isEmpty()) {
            if (heading.otherUnit().isPresent()) {
                notUsed(c, "is in " + heading.otherUnit().get() + ", neither temperature nor pressure");
            } else if (heading.elapsed().isPresent()) {
                notUsed(c, "counts time as well");
            } else if (type == CellKind.EMPTY) {
                if (!heading.full().isEmpty()) {
                    notUsed(c, "holds no value");
                }
            } else if (!type.isNumeric()) {
                words.add(new Layout.Words(c, "column " + place(c)));
                notUsed(
                        c,
                        Sentence.of(
                                "holds words such as \"%s\"",
                                cut(rows.get(firstData).cell(c))));
            } else if (heading.namesRunningNumber() && isCounting(c)) {
                notUsed(c, "numbers the rows");
            } else {
                askUnit(c);
            }
            return Optional.empty();
        }
        MeasuringUnit unit = chosen.isPresent() ? chosen.get() : inFile.orElseThrow();
        String how = chosen.isPresent()
                ? "as chosen"
                : heading.unit().isPresent()
                        ? "by the header \"" + heading.full() + "\""
                        : "written behind the numbers";
        if (chosen.isPresent() && inFile.isPresent() && !chosen.get().isSameUnitAs(inFile.get())) {
            refuseProfile(
                    "unit:" + names.get(c),
                    "column " + place(c),
                    chosen.get().symbol(),
                    "the file says " + inFile.get().symbol());
            remark(
                    IntakeMessage.CHOICE_AGAINST_FILE,
                    Rank.DOUBT,
                    "column " + place(c),
                    Sentence.of(
                            "The file says %s, the choice says %s; the choice counts.",
                            inFile.get().symbol(), chosen.get().symbol()));
        }
        Optional<PressureReference> reference = referenceOf(c, unit, inFile);
        explanation.add(Sentence.of(
                "column %s: %s in %s%s, %s",
                place(c),
                unit.quantity().name().toLowerCase(Locale.ROOT),
                unit.symbol(),
                unit.quantity() == Quantity.TEMPERATURE ? "" : said(reference),
                how));
        if (unit.quantity() == Quantity.PRESSURE && reference.isEmpty()) {
            remark(
                    IntakeMessage.PRESSURE_REFERENCE_OPEN,
                    Rank.NOTE,
                    "column " + place(c),
                    "The file does not say whether this pressure is absolute or gauge. It has to be declared before it"
                            + " is used.");
        }
        return Optional.of(new Layout.Reading(c, names.get(c), unit, reference, "column " + place(c)));
    }

    /**
     * For every column that is empty in the head and whose header leaves open what it is: the first cell behind the head
     * that says something. All are looked for in one pass.
     */
    private CellKind[] kindsBeyondHead() throws IOException, UnreadableFileException {
        CellKind[] found = new CellKind[width];
        Arrays.fill(found, CellKind.EMPTY);
        boolean[] isOpen = new boolean[width];
        int[] open = {0};
        for (int c = 0; c < width; c++) {
            Heading heading = headings.get(c);
            isOpen[c] = (c >= types.length || types[c] == CellKind.EMPTY)
                    && !heading.full().isEmpty()
                    && heading.isSilent()
                    && chosenUnit(c).isEmpty()
                    && !isSkipped(c);
            open[0] += isOpen[c] ? 1 : 0;
        }
        if (open[0] > 0 && rows.size() == HEAD_ROWS) {
            int start = rows.get(rows.size() - 1).line();
            table.each(row -> {
                for (int c = 0; row.line > start && c < isOpen.length; c++) {
                    if (isOpen[c] && !row.isEmpty(c)) {
                        CellKind kind = looker.look(row.text(c));
                        if (!kind.isNeutral()) {
                            found[c] = kind;
                            isOpen[c] = false;
                            open[0]--;
                        }
                    }
                }
                return open[0] > 0;
            });
        }
        return found;
    }

    private static String said(Optional<PressureReference> reference) {
        return reference.isEmpty()
                ? " (absolute or gauge not told)"
                : reference.get() == PressureReference.ABSOLUTE ? " absolute" : " gauge";
    }

    private Optional<PressureReference> referenceOf(int c, MeasuringUnit unit, Optional<MeasuringUnit> inFile)
            throws UnreadableFileException {
        if (unit.quantity() != Quantity.PRESSURE) {
            return Optional.empty();
        }
        Optional<PressureReference> byFile = inFile.isPresent() ? inFile.get().reference() : Optional.empty();
        Optional<PressureReference> chosen = chosenFor(choices.references(), c);
        if (chosen.isEmpty()) {
            chosen = unit.reference();
        }
        if (chosen.isPresent() && byFile.isPresent() && !chosen.equals(byFile)) {
            boolean isOfUnit = choices.isByProfile("unit:" + names.get(c));
            refuseProfile(
                    (isOfUnit ? "unit:" : "reference:") + names.get(c),
                    "column " + place(c),
                    said(chosen).strip(),
                    "the file says" + said(byFile));
            remark(
                    IntakeMessage.CHOICE_AGAINST_FILE,
                    Rank.DOUBT,
                    "column " + place(c),
                    Sentence.of("The file says%s, the choice says%s; the choice counts.", said(byFile), said(chosen)));
        }
        return chosen.isPresent() ? chosen : byFile;
    }

    private Optional<MeasuringUnit> chosenUnit(int c) {
        return chosenFor(choices.units(), c);
    }

    private <T> Optional<T> chosenFor(Map<String, T> chosen, int c) {
        String name = ReadingChoices.key(names.get(c));
        return Optional.ofNullable(
                chosen.containsKey(name)
                        ? chosen.get(name)
                        : chosen.get(ReadingChoices.key(headings.get(c).full())));
    }

    private boolean isSkipped(int c) {
        return choices.skipped().contains(ReadingChoices.key(names.get(c)))
                || choices.skipped().contains(ReadingChoices.key(headings.get(c).full()));
    }

    /** The unit that stands behind every number of the column. */
    private Optional<MeasuringUnit> unitBehind(int c) {
        String same = "";
        for (int i = firstData; i < rows.size(); i++) {
            String cell = rows.get(i).cell(c);
            if (c >= kinds[i].length || kinds[i][c] != CellKind.NUMBER) {
                continue;
            }
            String behind = looker.unitBehind(cell, DecimalMark.POINT);
            if (MeasuringUnit.find(behind).isEmpty()) {
                behind = looker.unitBehind(cell, DecimalMark.COMMA);
            }
            if (behind.isEmpty() || (!same.isEmpty() && !same.equals(behind))) {
                return Optional.empty();
            }
            same = behind;
        }
        return MeasuringUnit.find(same);
    }

    private boolean isCounting(int c) {
        NumberText number = new NumberText();
        double before = Double.NaN;
        for (int i = firstData; i < rows.size(); i++) {
            char[] cell = rows.get(i).cell(c).toCharArray();
            if (!number.read(cell, 0, cell.length, DecimalMark.POINT, false)) {
                return false;
            }
            if (!Double.isNaN(before) && number.value != before + 1) {
                return false;
            }
            before = number.value;
        }
        return true;
    }

    private void askUnit(int c) {
        Heading heading = headings.get(c);
        boolean isUnknown = !heading.unread().isEmpty();
        isUnitUnknown |= isUnknown;
        String firstCell = rows.get(firstData).cell(c);
        String lastCell = rows.get(rows.size() - 1).cell(c);
        String evidence = Sentence.of(
                "It holds numbers, %s in row %d and %s in row %d; ",
                firstCell,
                rows.get(firstData).line(),
                lastCell,
                rows.get(rows.size() - 1).line());
        evidence += isUnknown
                ? Sentence.of(
                        "\"%s\" in its header is no unit of temperature or pressure that the program knows.",
                        heading.unread())
                : Sentence.of("its header \"%s\" names no unit.", heading.full());
        questions.add(new Question(
                "unit:" + names.get(c),
                "What is the unit of column " + place(c) + "?",
                evidence,
                heading.namesTemperature()
                        ? TEMPERATURE_ANSWERS
                        : heading.namesPressure() ? PRESSURE_ANSWERS : ALL_ANSWERS));
    }

    private void notUsed(int c, String why) {
        remark(
                IntakeMessage.COLUMN_NOT_USED,
                Rank.NOTE,
                "column " + place(c),
                Sentence.of(
                        "This column is not read: it %s.", why.equals("as chosen") ? "was left out as chosen" : why));
        explanation.add(Sentence.of("column %s: not read, %s", place(c), why));
    }

    // ---- decimal mark

    private record Decimal(DecimalMark mark, boolean isGroupingProven) {}

    private Decimal findDecimal(List<Layout.Reading> readings) throws IOException, UnreadableFileException {
        DecimalEvidence evidence = new DecimalEvidence();
        for (int i = firstData; i < rows.size(); i++) {
            for (int c = 0; c < kinds[i].length; c++) {
                if (kinds[i][c] == CellKind.NUMBER) {
                    evidence.look(rows.get(i).cell(c), rows.get(i).line(), ceilingOf(c, readings));
                }
            }
        }
        if (!evidence.isDecided() && rows.size() == HEAD_ROWS) {
            int start = rows.get(rows.size() - 1).line();
            table.each(row -> {
                if (row.line > start) {
                    for (int c = 0; c < row.count; c++) {
                        String cell = row.text(c);
                        if (looker.look(cell) == CellKind.NUMBER) {
                            evidence.look(cell, row.line, ceilingOf(c, readings));
                        }
                    }
                }
                return !evidence.isDecided();
            });
        }
        if (choices.decimalMark().isPresent()) {
            DecimalMark mark = choices.decimalMark().get();
            Optional<DecimalMark> proven = evidence.isDecided() ? evidence.mark(delimiter) : Optional.empty();
            if (proven.isPresent() && proven.get() != mark) {
                refuseProfile(
                        "decimal-mark",
                        "",
                        mark.name().toLowerCase(Locale.ROOT),
                        "the numbers are written with a " + proven.get().name().toLowerCase(Locale.ROOT) + ", "
                                + evidence.shown());
            }
            explanation.add("decimal " + mark.name().toLowerCase(Locale.ROOT) + ", as chosen");
            return new Decimal(mark, evidence.isGroupingProven());
        }
        if (table.decimalMark().isPresent()) {
            DecimalMark mark = table.decimalMark().get();
            explanation.add("decimal " + mark.name().toLowerCase(Locale.ROOT) + ", fixed by the format of the file");
            return new Decimal(mark, false);
        }
        Optional<DecimalMark> mark = evidence.mark(delimiter);
        if (mark.isEmpty()) {
            questions.add(new Question(
                    "decimal-mark",
                    "Is the decimal mark a point or a comma?",
                    evidence.shown(),
                    List.of("point", "comma")));
        } else {
            explanation.add(Sentence.of(
                    "decimal %s%s: %s",
                    mark.get().name().toLowerCase(Locale.ROOT),
                    evidence.isGroupingProven()
                            ? ", " + mark.get().other().name().toLowerCase(Locale.ROOT) + " between thousands"
                            : "",
                    evidence.shown()));
        }
        return new Decimal(mark.orElse(DecimalMark.POINT), evidence.isGroupingProven());
    }

    /** Above this no reading of the column can lie: a number that would be above it is not grouped in thousands. */
    private static double ceilingOf(int c, List<Layout.Reading> readings) {
        for (Layout.Reading reading : readings) {
            if (reading.cell() == c) {
                return reading.unit().quantity() == Quantity.TEMPERATURE
                        ? DecimalEvidence.HIGHEST_CELSIUS / reading.unit().differenceToInside(1)
                        : DecimalEvidence.HIGHEST_KILOPASCAL / reading.unit().differenceToInside(1);
            }
        }
        return Double.POSITIVE_INFINITY;
    }

    // ---- words

    /** An answer that a person gave for another file must not overrule what this one says. */
    private void refuseProfile(String key, String where, String answer, String evidence)
            throws UnreadableFileException {
        if (choices.isByProfile(key)) {
            throw TableRecordings.contradicted(file, where, choices, key, answer, evidence);
        }
    }

    private String place(int c) {
        return Sentence.of("%d \"%s\"", c + 1, names.get(c));
    }

    private void remark(IntakeMessage id, Rank rank, String where, String words) {
        remarks.add(new Remark(id.id(), rank, file + ", " + where, words));
    }

    private static String cut(String line) {
        return line.length() > 60 ? line.substring(0, 60) + "…" : line;
    }
}
