package org.steamwright.intake.folder;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.visit.register.NamePlate;

/** Photos that a visit file names. */
final class PhotoFiles {

    private PhotoFiles() {}

    /** Whether a photo lies in the folder. One that leads out of it is a problem, one that is missing a remark. */
    static Optional<Path> find(String photo, Entry named, FolderFiles files, List<Remark> remarks) throws IOException {
        if (FolderFiles.leadsOutside(photo).isPresent() || files.has(photo)) {
            return files.find(photo, named);
        }
        Remark remark = new Remark(
                Mistake.PHOTO_MISSING.id(),
                Rank.DOUBT,
                named.where(),
                "The photo \"" + photo + "\" is not in the visit folder. Copy it there before the report goes out.",
                List.of(named.way().steps()));
        if (!remarks.contains(remark)) {
            remarks.add(remark);
        }
        return Optional.empty();
    }

    /** What was read off a name plate, with the photos that were found. */
    static Optional<NamePlate> plate(Entry entry, FolderFiles files, List<Remark> remarks) {
        return entry.fields(Shape.NAME_PLATE).map(fields -> {
            String serial = fields.text("serial");
            String readBy = fields.text("read-by");
            Entry named = fields.find("photos").orElse(entry);
            List<NamePlate.Photo> photos = new ArrayList<>();
            for (String photo : fields.texts("photos")) {
                try {
                    Optional<Path> file = find(photo, named, files, remarks);
                    if (file.isPresent()) {
                        photos.add(new NamePlate.Photo(photo, EarlierRecordings.sha256Of(file.get())));
                    }
                } catch (IOException e) {
                    throw new UncheckedIOException(e);
                }
            }
            return new NamePlate(serial, readBy, photos);
        });
    }
}
