package org.steamwright.report.document;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.steamwright.report.language.Sentence;
import org.steamwright.report.picture.DrawnSignature;
import org.steamwright.report.picture.PhotoSubject;
import org.steamwright.report.picture.Pictures;
import org.steamwright.report.picture.PrintedPhoto;
import org.steamwright.report.plot.Drawing;
import org.steamwright.visit.ReferenceLoad;

/**
 * Photos of sterilisers, chambers and loads, and the signature that the clinic drew under its statement. However many there
 * are, a document holds so many of them and no more; the others are named with their hashes.
 */
final class PictureSection {

    /** Of a load; more are named with their hashes elsewhere, and not printed. */
    private static final int MOST = 6;

    /** In a document. */
    static final int MOST_IN_ALL = 60;

    private static final int ACROSS = 2;
    private static final int SMALL_ACROSS = 3;

    private static final int SHA_SHOWN = 16;

    private final Sheet sheet;
    private final Pictures pictures;
    private int printed;

    PictureSection(Sheet sheet, Pictures pictures) {
        this.sheet = sheet;
        this.pictures = pictures;
    }

    /** A photo, and what stands under it. */
    private record Captioned(PrintedPhoto photo, String caption) {}

    /**
     * Writes what there is; nothing if there is no picture.
     *
     * @param run number of the run with that load
     */
    void write(int run, ReferenceLoad load) {
        try {
            photos(run, load);
            signature(run, load);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Name plate and counter of a steriliser. */
    void ofSterilizer(String key) {
        small(Sentence.of("Photos of steriliser %s", key), Map.of(PhotoSubject.PLATE, 2, PhotoSubject.COUNTER, 2), key);
    }

    /** What lay where in the chamber of a run. */
    void ofChamber(int run) {
        small(
                Sentence.of("Photos of the chamber of run %s", run),
                Map.of(PhotoSubject.POSITIONS, 4, PhotoSubject.INDICATORS, 2),
                String.valueOf(run));
    }

    private void small(String heading, Map<PhotoSubject, Integer> most, String of) {
        try {
            List<Captioned> photos = new ArrayList<>();
            List<String> others = new ArrayList<>();
            for (PhotoSubject subject : PhotoSubject.values()) {
                int left = most.getOrDefault(subject, 0);
                for (String name : left == 0 ? List.<String>of() : subject.of(pictures.names(), of)) {
                    Optional<byte[]> bytes = pictures.find(name);
                    Optional<PrintedPhoto> photo = left > 0 && printed < MOST_IN_ALL && bytes.isPresent()
                            ? PrintedPhoto.small(bytes.get())
                            : Optional.empty();
                    String named = bytes.map(one -> Sentence.of("%s, SHA-256 %s…", name, sha256(one)))
                            .orElse(name);
                    if (photo.isPresent()) {
                        photos.add(new Captioned(photo.get(), caption(subject, named)));
                        left--;
                        printed++;
                    } else {
                        others.add(named);
                    }
                }
            }
            if (photos.isEmpty() && others.isEmpty()) {
                return;
            }
            sheet.heading(heading);
            rows(photos, heading, SMALL_ACROSS);
            if (!others.isEmpty()) {
                sheet.paragraph(Sentence.of("Kept with the visit and not printed: %s.", Sentence.list("; ", others)));
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static String caption(PhotoSubject subject, String named) {
        return switch (subject) {
            case PLATE -> Sentence.of("Name plate: %s", named);
            case COUNTER -> Sentence.of("Cycle counter: %s", named);
            case POSITIONS -> Sentence.of("Places in the chamber: %s", named);
            case INDICATORS -> Sentence.of("Indicators: %s", named);
        };
    }

    private static String sha256(byte[] bytes) {
        try {
            return HexFormat.of()
                    .formatHex(MessageDigest.getInstance("SHA-256").digest(bytes))
                    .substring(0, SHA_SHOWN);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }

    private void photos(int run, ReferenceLoad load) throws IOException {
        List<Captioned> photos = new ArrayList<>();
        for (ReferenceLoad.PhotoFile file : load.photoFiles()) {
            Optional<byte[]> bytes = photos.size() < MOST && printed + photos.size() < MOST_IN_ALL
                    ? pictures.find(file.name())
                    : Optional.empty();
            if (bytes.isPresent()) {
                PrintedPhoto.of(bytes.get())
                        .ifPresent(photo -> photos.add(new Captioned(
                                photo,
                                Sentence.of(
                                        "%s, SHA-256 %s…",
                                        file.name(), file.sha256().substring(0, SHA_SHOWN)))));
            }
        }
        if (photos.isEmpty()) {
            return;
        }
        sheet.heading(Sentence.of("Photos of the load of run %s", run));
        printed += photos.size();
        rows(photos, Sentence.of("Photo of the load of run %s", run), ACROSS);
    }

    private void rows(List<Captioned> photos, String what, int across) {
        for (int i = 0; i < photos.size(); i += across) {
            row(photos.subList(i, Math.min(i + across, photos.size())), what, across);
        }
    }

    private void row(List<Captioned> side, String what, int across) {
        Html html = sheet.html();
        html.open("table", "class", across == ACROSS ? "photos" : "photos small")
                .open("tbody")
                .open("tr");
        for (Captioned one : side) {
            html.open("td");
            html.empty(
                    "img",
                    "src",
                    one.photo().dataUri(),
                    "alt",
                    sheet.speaker().say(Sentence.of("%s: %s", what, one.caption())),
                    "style",
                    String.format(
                            Locale.ROOT,
                            "width:%.1fmm;height:%.1fmm",
                            one.photo().widthMillimetres(),
                            one.photo().heightMillimetres()));
            html.element("span", "under", one.caption());
            html.close();
        }
        for (int i = side.size(); i < across; i++) {
            html.element("td", "", "");
        }
        html.close().close().close();
    }

    private void signature(int run, ReferenceLoad load) throws IOException {
        Optional<byte[]> ink = pictures.find(DrawnSignature.name(run));
        if (ink.isEmpty()) {
            return;
        }
        String what = load.agreedBy().isBlank()
                ? "Drawn on the screen under the statement that nothing larger or harder for steam will be run"
                : Sentence.of(
                        "Drawn on the screen under the statement that nothing larger or harder for steam will be run, by %s",
                        load.agreedBy());
        Optional<Drawing> drawing =
                DrawnSignature.read(ink.get(), sheet.speaker().say(what));
        drawing.ifPresent(one -> sheet.keep(() -> {
            sheet.heading("The clinic's signature");
            sheet.figure(one);
            sheet.aside(Sentence.of("%s.", what));
        }));
    }
}
