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
        checkup.store(now);
        checkup.settings();
        checkup.disk();
        return List.copyOf(checkup.findings);
    }

    private void good(String what) {
        findings.add(new Finding(Weight.GOOD, what, ""));
    }

    private void care(String what, String toDo) {
        findings.add(new Finding(Weight.CARE, what, toDo));
    }

    private void bad(String what, String toDo) {
        findings.add(new Finding(Weight.BAD, what, toDo));
    }

    /// The file, the log, the mark and every entry, photographs and backups held against them.
    private void store(Instant now) {
        switch (Store.open(folder, Store.Mode.READ, InstantSource.fixed(now))) {
            case Store.Opening.Opened opened -> {
                try (Store store = opened.store()) {
                    good(t("store.file-sound"));
                    long entries = store.readWhole();
                    good(f("store.entries-read", entries));
                    mark(store);
                    photographs(store);
                    backups(now, Optional.of(store));
                } catch (SqliteJournal.Unreadable e) {
                    bad(String.valueOf(e.getMessage()), t("store.salvage-intact"));
                    backups(now, Optional.empty());
                }
            }
            case Store.Opening.TooNew tooNew -> {
                bad(t("store.store-newer", tooNew.found()), t("store.use-newer"));
                backups(now, Optional.empty());
            }
            case Store.Opening.Unusable unusable -> {
                // most sentences say it themselves, and where nothing ever was there is nothing to bring back
                boolean said = unusable.sentence().contains(" salvage ") || !Inspection.hasStore(folder);
                bad(unusable.sentence(), said ? "" : t("store.salvage-hint"));
                backups(now, Optional.empty());
            }
            case Store.Opening.Busy busy -> throw new IllegalStateException("reading needs no lock");
        }
    }

    private void mark(Store store) {
        HighWater.Found found = HighWater.read(folder);
        if (found.damaged()) {
            care(t("store.the-mark-is-damaged"), t("store.log-made-anew"));
        } else if (found.mark().isEmpty() && store.isChained()) {
            care(t("store.mark-missing"), t("store.log-made-anew"));
        }
    }

    private void settings() {
        if (new Settings(folder).changedFromOutside()) {
            care(t("store.the-settings-were-changed", new Settings(folder).backups()), t("store.look-at-the-settings"));
        }
    }

    private void photographs(Store store) {
        Set<String> named = store.photographs();
        PhotoFolder shelf = new PhotoFolder(folder);
        PhotoFolder copies = new Backups(new Settings(folder).backups()).photographs();
        int sound = 0;
        List<String> missing = new ArrayList<>();
        List<String> damaged = new ArrayList<>();
        for (String name : named) {
            switch (shelf.state(name)) {
                case SOUND -> sound++;
                case MISSING -> missing.add(name);
                case DAMAGED -> damaged.add(name);
            }
        }
        if (missing.isEmpty() && damaged.isEmpty()) {
            good(t("store.photographs-are-there", sound));
        }
        if (!missing.isEmpty()) {
            lost(t("store.photographs-are-missing", missing.size(), missing.getFirst()), missing, copies);
        }
        if (!damaged.isEmpty()) {
            lost(t("store.photographs-are-damaged", damaged.size(), damaged.getFirst()), damaged, copies);
        }
        long strays = strays(named);
        if (strays > 0) {
            findings.add(new Finding(Weight.GOOD, t("store.photographs-unnamed", strays), ""));
        }
    }

    /// Never advises copying what is no better than what is there.
    private void lost(String what, List<String> names, PhotoFolder copies) {
        long there = names.stream()
                .filter(name -> copies.state(name) == PhotoFolder.State.SOUND)
                .count();
        bad(what, there == 0 ? t("store.no-backup-has-them") : t("store.backups-have-sound-copies", there));
    }

    private long strays(Set<String> named) {
        try {
            return new PhotoFolder(folder)
                    .all().stream().filter(name -> !named.contains(name)).count();
        } catch (IOException e) {
            care(t("store.folder-unlistable", folder.resolve(PhotoFolder.NAME)), t("store.look-at-its-permissions"));
            return 0;
        }
    }

    private void backups(Instant now, Optional<Store> store) {
        Settings settings = new Settings(folder);
        Backups backups = new Backups(settings.backups());
        List<Path> all = backups.all();
        Optional<Path> sound = Optional.empty();
        for (Path backup : all) {
            Instant at = Backups.when(backup).orElseThrow();
            if (Backups.isFuture(at, now)) {
                care(t("store.backup-future", backup), t("store.set-the-clock-right"));
            }
            try {
                Backups.Content content = Backups.read(backup, now);
                store.ifPresent(own -> compare(own, backup, content.end()));
                if (sound.isEmpty() && !Backups.isFuture(at, now)) {
                    sound = Optional.of(backup);
                    copies(backups, content.photographs());
                }
            } catch (Backups.Failed e) {
                bad(
                        t("store.a-backup-is-damaged", backup, String.valueOf(e.getMessage())),
                        t("store.do-not-restore-it"));
            }
        }
        boolean none =
                all.stream().flatMap(one -> Backups.when(one).stream()).allMatch(at -> Backups.isFuture(at, now));
        age(settings, none, sound.flatMap(Backups::when), now);
        if (!all.isEmpty() && isOnSameDisk(settings.backups())) {
            care(t("store.backups-same-disk"), t("store.name-other-disk"));
        }
    }

    private boolean isOnSameDisk(Path backups) {
        try {
            return backups.startsWith(folder) || Files.getFileStore(backups).equals(Files.getFileStore(folder));
        } catch (IOException e) {
            return false;
        }
    }

    private void age(Settings settings, boolean none, Optional<Instant> sound, Instant now) {
        if (none) {
            care(t("store.backup-none-in", settings.backups()), t("store.backup-elsewhere"));
        } else if (sound.isEmpty()) {
            bad(t("store.no-backup-reads-back"), t("store.backup-and-look"));
        } else if (Duration.between(sound.get(), now).compareTo(OLD) > 0) {
            care(t("store.backup-old", Duration.between(sound.get(), now).toDays()), t("store.backup-and-look"));
        } else {
            good(t("store.backup-newest", sound.get()));
        }
    }

    /// A backup that holds entries this store should have; one of another store is told apart by the last entry
    /// that both have.
    private void compare(Store store, Path backup, HighWater.Mark end) {
        long common = Math.min(end.seq(), store.end().seq());
        if (common == end.seq() ? store.holds(end) : Backups.holds(backup, store.end())) {
            if (end.seq() > store.end().seq()) {
                bad(
                        t(
                                "store.a-backup-holds-more",
                                backup,
                                end.seq(),
                                store.end().seq()),
                        t("store.salvage-lists-what-can"));
            }
        } else {
            care(t("store.backup-of-another", backup), t("store.backup-folder-own"));
        }
    }

    private void copies(Backups backups, Set<String> photographs) {
        long wanting = photographs.stream()
                .filter(name -> backups.photographs().state(name) != PhotoFolder.State.SOUND)
                .count();
        if (wanting > 0) {
            care(t("store.photographs-of-the-backup", wanting), t("store.backup-copies-them-again"));
        }
    }

    private void disk() {
        networkDrive(folder)
                .ifPresent(kind -> findings.add(
                        new Finding(Weight.CARE, t("store.network-drive", kind), t("store.network-drive-risk"))));
        try {
            FileStore disk = Files.getFileStore(folder);
            if (disk.getUsableSpace() < LEAST_SPACE) {
                findings.add(new Finding(
                        Weight.CARE,
                        t("store.space-left", disk.getUsableSpace() / 1_000_000),
                        t("store.free-space-soon")));
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
