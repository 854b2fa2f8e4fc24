package org.steamwright.visit;

/** When during the visit an air leakage test was made. */
enum LeakStage {
    /** Before anything was touched; tells about the past, not about the state that is handed back. */
    AS_FOUND,
    /** The steriliser alone. */
    WITHOUT_SENSORS,
    /** With cables through a port or the door seal. */
    WITH_SENSORS,
    /** Port closed again. */
    AFTER,
    /** Nobody said; read as the steriliser alone. */
    UNSTATED;

    /** The stage of a run, from the words that {@link VisitRun#stage()} documents. */
    static LeakStage of(VisitRun run) {
        if (run.isAsFound()) {
            return AS_FOUND;
        }
        String stage = Words.key(run.stage());
        if (stage.startsWith("without")) {
            return WITHOUT_SENSORS;
        }
        if (stage.startsWith("with")) {
            return WITH_SENSORS;
        }
        return stage.startsWith("after") ? AFTER : UNSTATED;
    }

    boolean isWithoutSensors() {
        return this == WITHOUT_SENSORS || this == UNSTATED;
    }
}
