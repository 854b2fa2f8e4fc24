package org.steamwright.command;

import java.util.List;
import java.util.Optional;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriteriaSets;
import org.steamwright.criteriasets.Presets;

/**
 * The presets, with the one that was named on the command line being read while the recording is read on the other core.
 *
 * <p>Changes nothing but the time: a name that is no preset is left to the caller, and what reading throws comes out of
 * {@link #get}.
 */
final class PresetAhead implements CriteriaSets {

    private final Presets presets = new Presets();
    private final String name;
    private final Optional<FutureTask<CriteriaSet>> reading;

    /**
     * @param criteria what was said with {@code --criteria}; empty if nothing was
     */
    PresetAhead(Optional<String> criteria) {
        name = criteria.orElse("");
        if (!presets.names().contains(name)) {
            reading = Optional.empty();
            return;
        }
        FutureTask<CriteriaSet> task = new FutureTask<>(() -> presets.get(name));
        Thread thread = new Thread(task, "preset");
        thread.setDaemon(true);
        thread.start();
        reading = Optional.of(task);
    }

    @Override
    public List<String> names() {
        return presets.names();
    }

    @Override
    public CriteriaSet get(String wanted) {
        if (reading.isEmpty() || !wanted.equals(name)) {
            return presets.get(wanted);
        }
        try {
            return reading.get().get();
        } catch (ExecutionException failed) {
            if (failed.getCause() instanceof RuntimeException cause) {
                throw cause;
            }
            if (failed.getCause() instanceof Error cause) {
                throw cause;
            }
            throw new IllegalStateException("reading preset " + name, failed);
        } catch (InterruptedException stopped) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException("stopped while reading preset " + name, stopped);
        }
    }

    @Override
    public CriteriaSet read(byte[] bytes, String fileName) {
        return presets.read(bytes, fileName);
    }
}
