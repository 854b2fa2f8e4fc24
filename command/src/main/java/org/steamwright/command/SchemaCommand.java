package org.steamwright.command;

import java.io.IOException;
import java.io.InputStream;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.steamwright.criteriasets.Presets;
import org.steamwright.intake.folder.LoadFile;
import org.steamwright.intake.folder.VisitFolder;
import org.steamwright.intake.register.RegisterFile;
import org.steamwright.report.result.OfficeJson;
import org.steamwright.report.result.ResultJson;

/** Prints a JSON Schema: of the visit file, of the result, of a criteria set. */
final class SchemaCommand implements Command {
    /** A schema that travels with the class that reads or writes what it describes. */
    private record Schema(Class<?> beside, String resource) {}

    private static final Map<String, Schema> SCHEMAS = new TreeMap<>(Map.of(
            "visit", new Schema(VisitFolder.class, "visit.schema.json"),
            "load", new Schema(LoadFile.class, LoadFile.SCHEMA),
            "covered", new Schema(OfficeJson.class, OfficeJson.COVERED_SCHEMA),
            "due", new Schema(OfficeJson.class, OfficeJson.DUE_SCHEMA),
            "plan", new Schema(OfficeJson.class, OfficeJson.PLAN_SCHEMA),
            "register", new Schema(RegisterFile.class, RegisterFile.SCHEMA),
            "result", new Schema(ResultJson.class, ResultJson.SCHEMA),
            "criteria", new Schema(Presets.class, "criteria-set.schema.json")));

    @Override
    public Usage usage() {
        Usage usage = new Usage("Print the JSON Schema (draft 2020-12) of a file format.");
        usage.argument(
                "FORMAT",
                true,
                "One of: visit (visit.yaml), register (register.yaml), result (result.json), criteria, load; or what --json prints: due, plan, covered.");
        return usage;
    }

    @Override
    public List<String> examples() {
        return List.of("steamwright schema result", "steamwright schema visit");
    }

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        String format = typed.findArgument(0).orElse("");
        Schema schema = Optional.ofNullable(SCHEMAS.get(format))
                .orElseThrow(() -> new Refusal(
                        ExitStatus.USAGE,
                        "there is no format '" + format + "'.",
                        "Formats: " + String.join(", ", SCHEMAS.keySet()) + "."));
        try (InputStream stream = schema.beside().getResourceAsStream(schema.resource())) {
            if (stream == null) {
                throw new IllegalStateException("the program's own file " + schema.resource() + " is missing");
            }
            stream.transferTo(surroundings.out());
        }
        return ExitStatus.PASS;
    }
}
