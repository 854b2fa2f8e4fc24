package org.steamwright.filing;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.steamwright.records.Records;

/**
 * The record of training visits: a folder of its own with a mark in it, apart from every other record. Its visits have report
 * numbers that begin with {@link #PREFIX}, which no other record takes, and none of them can be signed. It is the one record
 * that may be deleted.
 */
public final class TrainingRecord {

    /** What the report number of every training visit begins with. */
    public static final String PREFIX = "TRAINING-";

    private static final String MARK = "TRAINING.txt";
    private static final String SAYS =
            "Training visits on simulated machines, all of it invented. This folder may be deleted as a whole.\n";

    private TrainingRecord() {}

    /**
     * Makes a folder the place of a training record.
     *
     * @param folder not there yet, empty, or such a place already
     * @throws IOException if something else lies in it, or the disk fails
     */
    public static void prepare(Path folder) throws IOException {
        if (isAt(folder)) {
            return;
        }
        if (Files.exists(folder)) {
            try (Stream<Path> held = Files.list(folder)) {
                if (held.findAny().isPresent()) {
                    throw new IOException(
                            folder
                                    + " holds something that is no training; nothing was changed. Name another folder with --record.");
                }
            }
        }
        Files.createDirectories(folder);
        Files.writeString(folder.resolve(MARK), SAYS, StandardCharsets.UTF_8);
    }

    /** Whether a folder is the place of a training record. */
    public static boolean isAt(Path folder) {
        return Files.isRegularFile(folder.resolve(MARK), LinkOption.NOFOLLOW_LINKS);
    }

    /** Whether a record is for training. */
    public static boolean isIn(Records records) {
        return isAt(records.place().folder());
    }

    /**
     * Deletes a training record, which must be closed, with its folder. The mark goes last, so that what an interruption
     * leaves can still be deleted. Links are removed, never followed.
     *
     * @return number of files that are gone
     * @throws IOException if the folder is no training record, or the disk fails
     */
    public static int delete(Path folder) throws IOException {
        if (!isAt(folder)) {
            throw new IOException(folder + " is no training record; nothing was deleted.");
        }
        List<Path> all;
        try (Stream<Path> walked = Files.walk(folder)) {
            all = walked.sorted(Comparator.reverseOrder()).toList();
        }
        Path mark = folder.resolve(MARK);
        int files = 0;
        for (Path one : all) {
            boolean isFile = !Files.isDirectory(one, LinkOption.NOFOLLOW_LINKS);
            if (!one.equals(mark) && !one.equals(folder)) {
                Files.delete(one);
                files += isFile ? 1 : 0;
            }
        }
        Files.delete(mark);
        Files.delete(folder);
        return files + 1;
    }

    /** Why a visit of that report number can't stand in a record; empty if it can. */
    static Optional<FilingException> objection(Records records, String number) {
        boolean isTraining = number.strip().toUpperCase(Locale.ROOT).startsWith(PREFIX);
        if (isTraining == isIn(records)) {
            return Optional.empty();
        }
        return Optional.of(
                isTraining
                        ? new FilingException(
                                "'" + number + "' is a training visit, and this is no record of training",
                                "Training stays in its own record; a real visit needs another report number.")
                        : new FilingException(
                                "'" + number + "' is no training visit, and this record is for training only",
                                "Take it into the record of your visits, or begin its number with " + PREFIX + "."));
    }
}
