package org.rollwright.store;

import java.io.IOException;
import java.nio.file.FileStore;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.JdbiException;
import org.rollwright.scope.picture.Photo;

/// Looks a data folder over: the store, every entry, every photograph, the backups, the disk. Nothing is
/// changed.
public final class Checkup {
    /// How bad something is.
    public enum Weight {
        /// All is well.
        GOOD,
        /// Nothing is lost, but something should be done.
        CARE,
        /// Something is damaged or missing.
        BAD
    }

    /// One thing looked at.
    ///
    /// @param what was found
    /// @param toDo blank when nothing
    public record Finding(Weight weight, String what, String toDo) {}

    private static final Duration OLD = Duration.ofDays(8);
    private static final long LEAST_SPACE = 200_000_000;
    private static final List<String> NETWORK = List.of(
            "nfs", "nfs4", "cifs", "smb", "smb2", "smb3", "smbfs", "afpfs", "9p", "fuse.sshfs", "webdav", "davfs");

    private final Path folder;
    private final List<Finding> findings = new ArrayList<>();

    private Checkup(Path folder) {
        this.folder = folder;
    }

    /// @param now for the age of backups
    public static List<Finding> of(Path folder, Instant now) {
        Checkup checkup = new Checkup(folder);
        checkup.file();
        checkup.entries(now);
        checkup.backups(now);
        checkup.disk();
        return List.copyOf(checkup.findings);
    }

    private void good(String what) {
        findings.add(new Finding(Weight.GOOD, what, ""));
    }

    private void file() {
        Path file = folder.resolve("rollwright.db");
        if (!Files.exists(file)) {
            return;
        }
        try (Handle handle = Jdbi.create("jdbc:sqlite:" + file.toAbsolutePath()).open()) {
            List<String> answers = handle.createQuery("pragma integrity_check")
                    .mapTo(String.class)
                    .list();
            if (answers.equals(List.of("ok"))) {
                good("The store's file is sound.");
            } else {
                findings.add(
                        new Finding(
                                Weight.BAD,
                                "The store's file is damaged: " + answers.getFirst() + ".",
                                "Copy the data folder aside; then restore the newest backup into a new folder (./run restore)."));
            }
        } catch (JdbiException e) {
            findings.add(new Finding(
                    Weight.BAD,
                    "The store's file cannot be read.",
                    "Copy the data folder aside; then restore the newest backup into a new folder (./run restore)."));
        }
    }

    private void entries(Instant now) {
        switch (Store.open(folder, Store.Mode.READ, InstantSource.fixed(now))) {
            case Store.Opening.Opened opened -> {
                try (Store store = opened.store()) {
                    long entries = store.readWhole();
                    good(String.format(Locale.ROOT, "%,d entries of the journal read, every checksum right.", entries));
                    photographs(store);
                } catch (SqliteJournal.Unreadable e) {
                    findings.add(new Finding(
                            Weight.BAD,
                            String.valueOf(e.getMessage()),
                            "Everything before it is intact. Copy the data folder aside, then restore a backup."));
                }
            }
            case Store.Opening.TooNew tooNew ->
                findings.add(new Finding(
                        Weight.BAD,
                        "The store was written by a newer version (format " + tooNew.found() + ").",
                        "Use the newer version; nothing was changed."));
            case Store.Opening.Unusable unusable ->
                findings.add(new Finding(Weight.BAD, unusable.sentence(), "If there is a backup: ./run restore."));
            case Store.Opening.Busy busy -> throw new IllegalStateException("reading needs no lock");
        }
    }

    private void photographs(Store store) {
        Set<String> named = store.photographs();
        PhotoFolder shelf = new PhotoFolder(folder);
        int sound = 0;
        List<String> missing = new ArrayList<>();
        List<String> damaged = new ArrayList<>();
        for (String name : named) {
            Optional<byte[]> bytes = shelf.jpeg(name);
            if (bytes.isEmpty()) {
                missing.add(name);
            } else if (!Photo.idOf(bytes.get()).equals(name)) {
                damaged.add(name);
            } else {
                sound++;
            }
        }
        if (missing.isEmpty() && damaged.isEmpty()) {
            good(sound + (sound == 1 ? " photograph is" : " photographs are") + " there, every byte right.");
        }
        lost("missing", missing);
        lost("damaged", damaged);
        long strays = strays(named);
        if (strays > 0) {
            findings.add(new Finding(
                    Weight.GOOD,
                    strays + (strays == 1 ? " photograph lies" : " photographs lie")
                            + " in the folder that the record does not name any more; that is what an undo leaves.",
                    ""));
        }
    }

    private void lost(String how, List<String> names) {
        if (!names.isEmpty()) {
            findings.add(new Finding(
                    Weight.BAD,
                    names.size() + (names.size() == 1 ? " photograph is " : " photographs are ") + how + ", such as "
                            + names.getFirst() + ".",
                    "Copy the folder photos from a backup over the one in " + folder + "; names are hashes, so nothing"
                            + " else changes."));
        }
    }

    private long strays(Set<String> named) {
        Path photos = folder.resolve("photos");
        if (!Files.isDirectory(photos)) {
            return 0;
        }
        try (Stream<Path> files = Files.walk(photos)) {
            return files.map(file -> file.getFileName().toString())
                    .filter(name -> name.endsWith(".jpg") && !name.endsWith(".small.jpg"))
                    .map(name -> name.substring(0, name.length() - 4))
                    .filter(name -> !named.contains(name))
                    .count();
        } catch (IOException e) {
            findings.add(new Finding(
                    Weight.CARE, "The folder " + photos + " cannot be listed.", "Look at its permissions."));
            return 0;
        }
    }

    private void backups(Instant now) {
        Settings settings = new Settings(folder);
        Optional<Instant> newest =
                new Backups(settings.backups()).all().stream().findFirst().flatMap(Backups::when);
        if (newest.isEmpty()) {
            findings.add(new Finding(
                    Weight.CARE,
                    "There is no backup in " + settings.backups() + ".",
                    "./run backup --to a folder on another disk."));
        } else if (Duration.between(newest.get(), now).compareTo(OLD) > 0) {
            findings.add(new Finding(
                    Weight.CARE,
                    "The newest backup is "
                            + Duration.between(newest.get(), now).toDays() + " days old.",
                    "./run backup, and see that the disk for it is connected."));
        } else {
            good("The newest backup is of " + newest.get() + ".");
        }
        if (newest.isPresent() && settings.named().isEmpty()) {
            findings.add(new Finding(
                    Weight.CARE,
                    "Backups lie on the same disk as the data.",
                    "Name a folder on another disk once: ./run backup --to DIR."));
        }
    }

    private void disk() {
        networkDrive(folder)
                .ifPresent(
                        kind -> findings.add(
                                new Finding(
                                        Weight.CARE,
                                        "The data lie on a network drive (" + kind + ").",
                                        "Such drives may confirm writing too early and know no locks: keep the data on a disk of this computer and the backups on the network drive.")));
        try {
            FileStore disk = Files.getFileStore(folder);
            if (disk.getUsableSpace() < LEAST_SPACE) {
                findings.add(new Finding(
                        Weight.CARE,
                        "Only " + disk.getUsableSpace() / 1_000_000 + " MB are free on the disk.",
                        "Free some space; when it is full, nothing more can be recorded."));
            }
        } catch (IOException e) {
            // a folder that is not there was told above
        }
    }

    /// The kind of network drive a folder lies on, empty when it lies on a disk of this computer.
    public static Optional<String> networkDrive(Path folder) {
        try {
            String kind = Files.getFileStore(folder).type().toLowerCase(Locale.ROOT);
            return isNetwork(kind) ? Optional.of(kind) : Optional.empty();
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    static boolean isNetwork(String kind) {
        return NETWORK.contains(kind);
    }
}
