package org.steamwright.simulator;

import java.time.Instant;

/** The visits that the demo tells of, all invented. */
enum DemoStory {
    /** The yearly visit in March, indicators still in the incubator. */
    YEARLY_INTERIM("DEMO-2026-001", "yearly requalification (invented)", "2026-03-02", "2026-03-02T08:30:00+10:30", 0),
    /** The same visit when the indicators have been read. */
    YEARLY("DEMO-2026-001", "yearly requalification (invented)", "2026-03-02", "2026-03-02T08:30:00+10:30", 0),
    /** Three weeks later, after the repair of the steriliser that had failed. */
    RETEST("DEMO-2026-002", "re-test after repair (invented)", "2026-03-24", "2026-03-24T08:30:00+10:30", 100);

    private final String number;
    private final String purpose;
    private final String day;
    private final String arrival;
    private final long seed;

    DemoStory(String number, String purpose, String day, String arrival, long seed) {
        this.number = number;
        this.purpose = purpose;
        this.day = day;
        this.arrival = arrival;
        this.seed = seed;
    }

    String number() {
        return number;
    }

    String purpose() {
        return purpose;
    }

    /** Day at the site, as written. */
    String day() {
        return day;
    }

    Instant arrival() {
        return Instant.parse(arrival);
    }

    /** Added to the number of a run; its sum is the seed of the run. */
    long seed() {
        return seed;
    }
}
