package org.steamwright.desk.path;

import java.util.ArrayList;
import java.util.List;
import org.steamwright.desk.path.Field.Look;

/** What the sterilizer itself showed, beside the reference. */
final class IndicationSheet extends StageSheet {

    IndicationSheet(Seen seen) {
        super(seen);
    }

    @Override
    List<Block> blocks() {
        List<Block> blocks = new ArrayList<>();
        blocks.add(section("indication")
                .button(
                        say("add.indication"),
                        "entries",
                        adding(
                                "job-sheet/indications",
                                "run",
                                String.valueOf(Math.max(1, count("runs"))),
                                "shown-by",
                                "display"))
                .make());
        for (int i = 1; i <= count("job-sheet", "indications"); i++) {
            String path = "job-sheet/indications/" + i;
            blocks.add(removable(
                            entry(say("indication", i))
                                    .field(field(path, "run", Look.COUNT))
                                    .field(field(path, "shown-by"))
                                    .field(field(path, "at"))
                                    .field(field(path, "temperature"))
                                    .field(field(path, "pressure"))
                                    .field(field(path, "last-digit"))
                                    .field(field(path, "tolerance"))
                                    .field(field(path, "tolerance-source"))
                                    .field(choice(path, "when", List.of("as-found", "as-left"))),
                            path)
                    .make());
        }
        return blocks;
    }
}
