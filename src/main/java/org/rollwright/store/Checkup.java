package org.rollwright.store;

import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.t;

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
                good(t("store.the-store-s-file-is"));
            } else {
                findings.add(new Finding(
                        Weight.BAD,
                        t("store.the-store-s-file-is-2", answers.getFirst()),
                        t("store.copy-the-data-folder-aside")));
            }
        } catch (JdbiException e) {
            findings.add(
                    new Finding(Weight.BAD, t("store.the-store-s-file-cannot"), t("store.copy-the-data-folder-aside")));
        }
    }

    private void entries(Instant now) {
        switch (Store.open(folder, Store.Mode.READ, InstantSource.fixed(now))) {
            case Store.Opening.Opened opened -> {
                try (Store store = opened.store()) {
                    long entries = store.readWhole();
                    good(f("store.d-entries-of-the-journal", entries));
                    photographs(store);
                } catch (SqliteJournal.Unreadable e) {
                    findings.add(new Finding(
                            Weight.BAD, String.valueOf(e.getMessage()), t("store.everything-before-it-is-intact")));
                }
            }
            case Store.Opening.TooNew tooNew ->
                findings.add(new Finding(
                        Weight.BAD,
                        t("store.the-store-was-written-by", tooNew.found()),
                        t("store.use-the-newer-version-nothing")));
            case Store.Opening.Unusable unusable ->
                findings.add(new Finding(Weight.BAD, unusable.sentence(), t("store.if-there-is-a-backup")));
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
            good(t("store.photographs-are-there", sound));
        }
        if (!missing.isEmpty()) {
            lost(t("store.photographs-are-missing", missing.size(), missing.getFirst()));
        }
        if (!damaged.isEmpty()) {
            lost(t("store.photographs-are-damaged", damaged.size(), damaged.getFirst()));
        }
        long strays = strays(named);
        if (strays > 0) {
            findings.add(new Finding(Weight.GOOD, t("store.photographs-lie-in-the-folder", strays), ""));
        }
    }

    private void lost(String what) {
        findings.add(new Finding(Weight.BAD, what, t("store.copy-the-folder-photos-from", folder)));
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
                    Weight.CARE, t("store.the-folder-cannot-be-listed", photos), t("store.look-at-its-permissions")));
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
                    t("store.there-is-no-backup-in", settings.backups()),
                    t("store.run-backup-to-a-folder")));
        } else if (Duration.between(newest.get(), now).compareTo(OLD) > 0) {
            findings.add(new Finding(
                    Weight.CARE,
                    t(
                            "store.the-newest-backup-is-days",
                            Duration.between(newest.get(), now).toDays()),
                    t("store.run-backup-and-see-that")));
        } else {
            good(t("store.the-newest-backup-is-of", newest.get()));
        }
        if (newest.isPresent() && settings.named().isEmpty()) {
            findings.add(
                    new Finding(Weight.CARE, t("store.backups-lie-on-the-same"), t("store.name-a-folder-on-another")));
        }
    }

    private void disk() {
        networkDrive(folder)
                .ifPresent(kind -> findings.add(new Finding(
                        Weight.CARE, t("store.the-data-lie-on-a", kind), t("store.such-drives-may-confirm-writing"))));
        try {
            FileStore disk = Files.getFileStore(folder);
            if (disk.getUsableSpace() < LEAST_SPACE) {
                findings.add(new Finding(
                        Weight.CARE,
                        t("store.only-mb-are-free-on", disk.getUsableSpace() / 1_000_000),
                        t("store.free-some-space-when-it")));
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
