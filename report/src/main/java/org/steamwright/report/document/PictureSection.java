package org.steamwright.report.document;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.steamwright.report.language.Sentence;
import org.steamwright.report.picture.DrawnSignature;
import org.steamwright.report.picture.Pictures;
import org.steamwright.report.picture.PrintedPhoto;
import org.steamwright.report.plot.Drawing;
import org.steamwright.visit.ReferenceLoad;

/** Photos of the load of a run, and the signature that the clinic drew under its statement. */
final class PictureSection {

    /** More are named with their hashes elsewhere, and not printed. */
    private static final int MOST = 6;

    private static final int SHA_SHOWN = 16;

    private final Sheet sheet;
    private final Pictures pictures;

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

    private void photos(int run, ReferenceLoad load) throws IOException {
        List<Captioned> photos = new ArrayList<>();
        for (ReferenceLoad.PhotoFile file : load.photoFiles()) {
            Optional<byte[]> bytes = photos.size() < MOST ? pictures.find(file.name()) : Optional.empty();
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
        for (int i = 0; i < photos.size(); i += 2) {
            row(photos.subList(i, Math.min(i + 2, photos.size())), run);
        }
    }

    private void row(List<Captioned> pair, int run) {
        Html html = sheet.html();
        html.open("table", "class", "photos").open("tbody").open("tr");
        for (Captioned one : pair) {
            html.open("td");
            html.empty(
                    "img",
                    "src",
                    one.photo().dataUri(),
                    "alt",
                    sheet.speaker().say(Sentence.of("Photo of the load of run %s: %s", run, one.caption())),
                    "style",
                    String.format(
                            Locale.ROOT,
                            "width:%.1fmm;height:%.1fmm",
                            one.photo().widthMillimetres(),
                            one.photo().heightMillimetres()));
            html.element("span", "under", one.caption());
            html.close();
        }
        if (pair.size() == 1) {
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
