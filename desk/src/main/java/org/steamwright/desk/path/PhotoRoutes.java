package org.steamwright.desk.path;

import jakarta.servlet.http.Part;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.IntFunction;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Reply;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftChange;
import org.steamwright.filing.DraftRefusal;
import org.steamwright.filing.FactPath;
import org.steamwright.report.picture.DrawnSignature;
import org.steamwright.report.picture.PhotoSubject;
import org.steamwright.report.picture.Photos;

/** Photos and drawn signatures of a visit. */
final class PhotoRoutes {

    private static final int LARGEST_PHOTO = 40_000_000;

    /** Where photos of a form go: into a load, which names them, or beside the facts under a name that says what they show. */
    private static IntFunction<String> photoNames(Ask ask, Draft draft) throws VisitDoor.Garbled {
        String of = ask.typed("of");
        if (of.isBlank()) {
            int run = VisitDoor.run(ask, draft);
            return number -> photoName(run, number);
        }
        PhotoSubject subject = VisitDoor.parsed(PhotoSubject::valueOf, of.toUpperCase(Locale.ROOT));
        String which = ask.typed("which");
        if (which.isBlank() || which.length() > 20) {
            throw new VisitDoor.Garbled(which);
        }
        return number -> subject.file(which, number);
    }

    /** Where the photos of a name plate stand, which are facts of the visit. */
    private static Optional<FactPath> platePhotos(Draft draft, String key) {
        return Gate.of(draft).stream()
                .filter(gate -> gate.key().equals(key))
                .findFirst()
                .map(gate -> Gate.plate(gate.place()).then("photos"));
    }

    static Reply photo(Ask ask, Draft draft) throws IOException, DraftRefusal, VisitDoor.Garbled {
        IntFunction<String> names = photoNames(ask, draft);
        Optional<FactPath> list = ask.typed("of").isBlank()
                ? Optional.of(FactPath.of("runs", VisitDoor.run(ask, draft), "load", "photos"))
                : PhotoSubject.PLATE.word().equals(ask.typed("of"))
                        ? platePhotos(draft, ask.typed("which"))
                        : Optional.empty();
        DraftChange change = draft.change();
        int next = 1;
        int taken = 0;
        for (Part part : ask.files("photo")) {
            if (part.getSize() == 0) {
                continue;
            }
            Optional<byte[]> scaled = part.getSize() > LARGEST_PHOTO ? Optional.empty() : Photos.scaled(bytes(part));
            if (scaled.isEmpty()) {
                return new Reply.Refusal(
                        422,
                        ask.frame().say("path.no-photo", String.valueOf(part.getSubmittedFileName())),
                        ask.frame().say("path.no-photo-remedy"));
            }
            while (draft.files().containsKey(names.apply(next))) {
                next++;
            }
            String name = names.apply(next);
            change.putFile(name, new ByteArrayInputStream(scaled.get()));
            list.ifPresent(path -> change.add(path, name));
            next++;
            taken++;
        }
        return VisitDoor.back(ask, taken == 0 ? draft : change.keep(ask.author(), ""), "");
    }

    /** A photo may show what must not be kept, so it goes at once; the journal says that it was there. */
    static Reply photoRemoval(Ask ask, Draft draft) throws DraftRefusal, VisitDoor.Garbled {
        String file = ask.typed("file");
        if (!file.startsWith("photos/")) {
            throw new VisitDoor.Garbled(file);
        }
        if (!draft.files().containsKey(file)) {
            return VisitDoor.changedMeanwhile(ask);
        }
        DraftChange change = draft.change().removeFile(file);
        List<FactPath> lists = new ArrayList<>();
        for (int run = 1; run <= draft.count(FactPath.of("runs")); run++) {
            lists.add(FactPath.of("runs", run, "load", "photos"));
        }
        Gate.of(draft).forEach(gate -> lists.add(Gate.plate(gate.place()).then("photos")));
        for (FactPath list : lists) {
            Optional<Object> names = draft.find(list);
            if (names.isPresent() && names.get() instanceof List<?> there && there.contains(file)) {
                change.set(
                        list,
                        Optional.of(there.stream()
                                .filter(name -> !name.equals(file))
                                .toList()),
                        names);
            }
        }
        return VisitDoor.back(ask, change.keep(ask.author(), ""), "");
    }

    private static String photoName(int run, int number) {
        return "photos/run-" + run + "-" + number + ".jpg";
    }

    private static byte[] bytes(Part part) throws IOException {
        try (InputStream in = part.getInputStream()) {
            return in.readAllBytes();
        }
    }

    static Reply ink(Ask ask, Draft draft) throws DraftRefusal, VisitDoor.Garbled {
        int run = VisitDoor.run(ask, draft);
        Optional<byte[]> drawing = Ink.drawing(ask.typed("strokes"));
        if (drawing.isEmpty()) {
            return new Reply.Refusal(
                    422, ask.frame().say("path.no-ink"), ask.frame().say("path.no-ink-remedy"));
        }
        DraftChange change = draft.change();
        if (draft.files().containsKey(DrawnSignature.name(run))) {
            change.removeFile(DrawnSignature.name(run));
        }
        change.putFile(DrawnSignature.name(run), new ByteArrayInputStream(drawing.get()))
                .note(RunFiles.unsignedNote(run), "");
        return VisitDoor.back(ask, change.keep(ask.author(), ""), "");
    }
}
