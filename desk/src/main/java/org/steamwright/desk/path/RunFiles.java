package org.steamwright.desk.path;

import java.io.ByteArrayInputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftChange;
import org.steamwright.filing.FactPath;
import org.steamwright.report.picture.DrawnSignature;

/** Files that belong to a run by their names: the drawn signature under its load, photos of its positions and indicators. */
final class RunFiles {

    private static final Pattern OF_RUN = Pattern.compile(
            "(signatures/load-run-|photos/(?:positions|indicators)-run-)([1-9][0-9]{0,3})(\\.svg|-[1-9][0-9]{0,3}\\.jpg)");

    private RunFiles() {}

    /** Note that the signature under a load was taken away because the load changed. */
    static String unsignedNote(int run) {
        return "load-unsigned/" + run;
    }

    /** Takes the drawn signature of a load away if that load, or who agreed to it, becomes another one. */
    static void unsign(Draft draft, DraftChange change, FactPath changed) {
        List<String> steps = changed.steps();
        boolean isOfLoad = steps.size() > 2
                && steps.get(0).equals("runs")
                && steps.get(2).equals("load")
                && steps.get(1).matches("[1-9][0-9]{0,3}")
                && !steps.contains("photos");
        if (isOfLoad) {
            int run = Integer.parseInt(steps.get(1));
            if (draft.files().containsKey(DrawnSignature.name(run))) {
                change.removeFile(DrawnSignature.name(run)).note(unsignedNote(run), "yes");
            }
        }
    }

    /** Takes away what belongs to a run that goes, and lets what belongs to a later one follow its number. */
    static void renumber(Draft draft, int gone, DraftChange change) {
        Map<String, byte[]> moved = new TreeMap<>();
        List<String> away = new ArrayList<>();
        for (String name : draft.files().keySet()) {
            Matcher ofRun = OF_RUN.matcher(name);
            if (ofRun.matches() && Integer.parseInt(ofRun.group(2)) >= gone) {
                away.add(name);
                int run = Integer.parseInt(ofRun.group(2));
                if (run > gone) {
                    moved.put(
                            ofRun.group(1) + (run - 1) + ofRun.group(3),
                            draft.bytes(name).orElseThrow());
                }
            }
        }
        away.forEach(change::removeFile);
        moved.forEach((name, bytes) -> change.putFile(name, new ByteArrayInputStream(bytes)));
        for (int run = gone; run <= draft.count(FactPath.of("runs")); run++) {
            change.note(unsignedNote(run), draft.note(unsignedNote(run + 1)));
        }
    }
}
