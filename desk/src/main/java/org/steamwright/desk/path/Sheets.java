package org.steamwright.desk.path;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.steamwright.desk.web.Frame;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftProblem;
import org.steamwright.visit.Checklist;
import org.steamwright.visit.job.TaskList;

/** The sheet of each stage. */
final class Sheets {

    private final Frame frame;
    private final StageSheet.Seen seen;
    /** Found once, as a page may show all sheets. */
    private @Nullable List<Stage> path;

    Sheets(Draft draft, Frame frame, Optional<Earlier> earlier, List<DraftProblem> problems) {
        this(draft, frame, earlier, problems, Equipment.NONE);
    }

    Sheets(Draft draft, Frame frame, Optional<Earlier> earlier, List<DraftProblem> problems, Equipment equipment) {
        this.frame = frame;
        this.seen = new StageSheet.Seen(draft, frame, earlier, problems, equipment);
    }

    Sheet of(Stage stage) {
        StageSheet sheet = switch (stage) {
            case IDENTITY -> new IdentitySheet(seen);
            case AS_FOUND -> new AsFoundSheet(seen);
            case MAINTENANCE -> new TasksSheet(TaskList.Part.MAINTENANCE, seen);
            case INSTALLATION -> new TasksSheet(TaskList.Part.INSTALLATION, seen);
            case INSTRUMENTS -> new InstrumentsSheet(seen);
            case RUNS -> new RunsSheet(seen);
            case LOAD -> new LoadSheet(seen);
            case INDICATORS -> new IndicatorsSheet(seen);
            case INDICATION -> new IndicationSheet(seen);
            case SAFETY -> new TasksSheet(TaskList.Part.SAFETY, seen);
            case FAILURES -> new FailuresSheet(seen);
            case CLOSE -> new CloseSheet(seen);
        };
        List<Block> blocks = new ArrayList<>(sheet.blocks());
        section(stage)
                .map(section ->
                        new ChecksSheet(section, stage == Stage.AS_FOUND ? AsFoundSheet.titles() : List.of(), seen))
                .ifPresent(checks -> blocks.addAll(checks.blocks()));
        return new Sheet(
                stage,
                frame.say("path.stage." + stage.word()),
                blocks,
                path().contains(stage) ? path() : List.of(Stage.values()));
    }

    /** The checklist that belongs to a stage. */
    private static Optional<Checklist.Section> section(Stage stage) {
        return Arrays.stream(Checklist.Section.values())
                .filter(section -> Stage.of(section) == stage)
                .findFirst();
    }

    /** The stages that the visit has, in order. */
    List<Stage> path() {
        List<Stage> found = path;
        if (found == null) {
            found = Stage.path(seen.draft());
            path = found;
        }
        return found;
    }
}
