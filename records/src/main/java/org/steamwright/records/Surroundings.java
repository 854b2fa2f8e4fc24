package org.steamwright.records;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/**
 * Whether a folder can carry a record. On a network the locks and flushes of a database file do not hold; a program that
 * copies the folder elsewhere copies a database in the middle of a change.
 *
 * @source SQLite documentation, "How To Corrupt An SQLite Database File", sections 2.1 and 1.2 (read in an earlier edition)
 */
public final class Surroundings {

    private static final Set<String> NETWORK = Set.of(
            "nfs",
            "nfs4",
            "cifs",
            "smb",
            "smb2",
            "smb3",
            "smbfs",
            "afpfs",
            "9p",
            "webdav",
            "davfs",
            "ncpfs",
            "afs",
            "ceph",
            "glusterfs",
            "fuse.sshfs",
            "fuse.glusterfs",
            "fuse.rclone",
            "fuse.davfs");

    /** Names and marks that programs for synchronised folders leave; common practice, no source. */
    private static final List<String> SYNCHRONISED = List.of(
            "dropbox",
            "onedrive",
            "google drive",
            "googledrive",
            "icloud",
            "mobile documents",
            "nextcloud",
            "owncloud",
            "pcloud",
            "seafile");

    private static final List<String> MARKS = List.of(".stfolder", ".sync", ".dropbox", ".nextcloudsync.log");

    private Surroundings() {}

    /**
     * Makes the folder if needed and refuses one on a network for the database file.
     *
     * @throws RecordsException if the folder can't be made, or lies on a network
     */
    static void checkFolder(Place place) {
        try {
            Files.createDirectories(place.folder());
            if (place.server().isEmpty()) {
                String type = Files.getFileStore(place.folder()).type();
                if (isNetwork(type)) {
                    throw new RecordsException(
                            RecordsMessage.FOLDER_ON_NETWORK,
                            "%s: lies on a network (%s), where a database file can be damaged. Put the store on a disk of this computer and back it up to the network; an office uses a PostgreSQL server."
                                    .formatted(place.folder(), type));
                }
            }
        } catch (IOException e) {
            throw new RecordsException(
                    RecordsMessage.STORE_UNREACHABLE,
                    "%s: the folder can't be made or looked at: %s".formatted(place.folder(), e),
                    e);
        }
    }

    /** Whether that type of file system is one on a network. */
    static boolean isNetwork(String type) {
        return NETWORK.contains(type.toLowerCase(Locale.ROOT));
    }

    /** What should be known about the place, in words. */
    static List<String> warnings(Place place) {
        List<String> warnings = new ArrayList<>();
        if (isSynchronised(place.folder())) {
            warnings.add(RecordsMessage.FOLDER_SYNCHRONISED.id()
                    + " %s: a program seems to keep this folder equal with other computers. It may copy the database in the middle of a change, or put an older one back. Move the store out of it, and put backups there instead."
                            .formatted(place.folder()));
        }
        return warnings;
    }

    /** Whether a folder, or one above it, looks synchronised. */
    public static boolean isSynchronised(Path folder) {
        for (Path part = folder.toAbsolutePath().normalize(); part != null; part = part.getParent()) {
            Path name = part.getFileName();
            if (name != null) {
                String lower = name.toString().toLowerCase(Locale.ROOT);
                if (SYNCHRONISED.stream().anyMatch(lower::startsWith)) {
                    return true;
                }
            }
            Path here = part;
            if (MARKS.stream().anyMatch(mark -> Files.exists(here.resolve(mark)))) {
                return true;
            }
        }
        return false;
    }
}
