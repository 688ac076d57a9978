package org.rollwright.store;

import static org.rollwright.text.Texts.t;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;

/// Copies of a data folder, each proved by reading it whole, and a data folder made again from one.
///
/// A backup is a folder named after its instant in UTC, with the store's file, the user's catalogue and the
/// checksums of both; photographs lie once for all backups in `photos`, under their hash, and are never
/// deleted, nor replaced while they are sound. Backups are read without changing a byte of them, also from a
/// disk that cannot be written to.
/// Long, because making, proving, rotating and restoring keep to one layout on disk, told nowhere else.
public final class Backups {
    /// A backup that was made or found sound.
    ///
    /// @param entries of the journal in it
    /// @param photographs that its record names and that are there, every byte right
    /// @param warnings what the person should know: photographs that are missing or damaged, other backups that
    ///     hold more; empty when all is well
    public record Backup(Path folder, Instant at, long entries, int photographs, List<String> warnings) {
        public Backup {
            warnings = List.copyOf(warnings);
        }
    }

    /// Why a backup was not made or cannot be used. The message is for a person.
    public static final class Failed extends Exception {
        private static final long serialVersionUID = 1L;

        Failed(String sentence) {
            super(sentence, null, false, false);
        }
    }

    /// What a sound backup holds.
    ///
    /// @param photographs that its record names
    record Content(HighWater.Mark end, Set<String> photographs) {}

    private static final DateTimeFormatter NAME = DateTimeFormatter.ofPattern("yyyy-MM-dd'T'HHmmss");
    private static final String CATALOG = "catalog";
    private static final String PART = ".part";
    /// A clock may have been this much ahead when a backup was made.
    private static final Duration SLACK = Duration.ofMinutes(10);
    private static final Duration LEFT_OVER = Duration.ofHours(1);

    private final Path where;
    private final PhotoFolder shelf;

    /// @param where the folder that holds the backups
    public Backups(Path where) {
        this.where = where;
        this.shelf = new PhotoFolder(where);
    }

    /// Makes a backup of a data folder, also while the tool works on it; proves it by reading every entry and
    /// every photograph of it back; then deletes backups that rotation no longer keeps and whose every entry is
    /// in this one.
    ///
    /// @throws Failed when it could not be made or does not read back; then no backup of that name stays
    public Backup make(Path dataFolder, Instant now) throws Failed {
        try {
            Disk.makeFolder(where);
        } catch (IOException e) {
            throw new Failed(t("store.backup-not-made", where));
        }
        Optional<StoreLock> taken;
        try {
            taken = StoreLock.take(where);
        } catch (IOException e) {
            throw new Failed(t("store.backup-not-made", where));
        }
        try (StoreLock lock = taken.orElseThrow(() -> new Failed(t("store.backup-running", where)))) {
            return make(dataFolder, now, lock.isExclusive());
        }
    }

    private Backup make(Path dataFolder, Instant now, boolean alone) throws Failed {
        Path made = free(now);
        Path part = where.resolve(made.getFileName() + PART);
        try {
            deleteLeftOvers(alone ? Instant.MAX : now.minus(LEFT_OVER));
            Disk.deleteAll(part);
            Disk.makeFolder(part);
            copyStore(dataFolder, part.resolve(Database.FILE));
            Disk.copyTree(dataFolder.resolve(CATALOG), part.resolve(CATALOG));
            Content content = read(part, now);
            BackupSums.write(part);
            List<String> warnings = new ArrayList<>();
            int photographs = copyPhotographs(new PhotoFolder(dataFolder), shelf, content.photographs, warnings);
            Disk.makePrivateBelow(where.resolve(PhotoFolder.NAME));
            Disk.move(part, made);
            warnings.addAll(rotate(made, now));
            return new Backup(made, now, content.end.seq(), photographs, warnings);
        } catch (IOException | Session.Failure e) {
            Disk.deleteQuietly(part);
            throw new Failed(t("store.backup-not-made", where));
        } catch (Failed e) {
            Disk.deleteQuietly(part);
            throw e;
        }
    }

    /// Makes what others could read of the backups the owner's alone, as far as the disk knows of owners.
    public void makePrivate() {
        try (Stream<Path> folders = Files.list(where)) {
            folders.filter(folder -> when(folder).isPresent()
                            || folder.getFileName().toString().equals(PhotoFolder.NAME))
                    .filter(Disk::isOpenToOthers)
                    .forEach(Disk::makePrivateBelow);
        } catch (IOException e) {
            // no backups yet, or a disk that is not plugged in
        }
    }

    /// The folder of a backup made now; a second later when there is one of this second already.
    private Path free(Instant now) {
        Instant at = now;
        while (Files.exists(folder(at))) {
            at = at.plusSeconds(1);
        }
        return folder(at);
    }

    private Path folder(Instant at) {
        return where.resolve(NAME.format(LocalDateTime.ofInstant(at, ZoneOffset.UTC)));
    }

    /// Halves of backups that were being made when a process was killed.
    ///
    /// @param before those touched since may be of another process, where locks tell nothing
    private void deleteLeftOvers(Instant before) throws IOException {
        try (Stream<Path> folders = Files.list(where)) {
            for (Path folder : folders.toList()) {
                String name = folder.getFileName().toString();
                if (name.endsWith(PART)
                        && when(where.resolve(name.substring(0, name.length() - PART.length())))
                                .isPresent()
                        && Files.getLastModifiedTime(folder).toInstant().isBefore(before)) {
                    Disk.deleteQuietly(folder);
                }
            }
        }
    }

    /// A consistent copy of what is committed, whether or not another process is writing. A store that is
    /// damaged or lacks what was acknowledged is not copied.
    private static void copyStore(Path dataFolder, Path copy) throws Failed, IOException {
        if (!Inspection.hasStore(dataFolder) && Inspection.ofNothing(dataFolder).isEmpty()) {
            throw new Failed(t("store.no-store-to-back-up", dataFolder));
        }
        switch (Store.open(dataFolder, Store.Mode.READ, InstantSource.system())) {
            case Store.Opening.Opened opened -> opened.store().close();
            case Store.Opening.Unusable unusable -> throw new Failed(unusable.sentence());
            case Store.Opening.TooNew tooNew -> throw new Failed(t("store.store-newer", tooNew.found()));
            case Store.Opening.Busy busy -> throw new IllegalStateException("reading needs no lock");
        }
        Database.createEmpty(copy);
        try (ReadAccess access = ReadAccess.open(dataFolder)) {
            access.session().execute("vacuum into ?", copy.toAbsolutePath().toString());
        }
        try (FileChannel channel = FileChannel.open(copy, StandardOpenOption.WRITE)) {
            channel.force(true);
        }
    }

    /// Copies photographs that are sound there and not here; those the record names are held against their hash on
    /// both sides.
    ///
    /// @return how many of those named are sound here afterwards
    private static int copyPhotographs(PhotoFolder from, PhotoFolder to, Set<String> named, List<String> warnings)
            throws IOException {
        int sound = 0;
        for (String id : new TreeSet<>(named)) {
            PhotoFolder.State there = from.state(id);
            PhotoFolder.State here = to.take(id, from);
            sound += here == PhotoFolder.State.SOUND ? 1 : 0;
            if (here != PhotoFolder.State.SOUND) {
                warnings.add(t("store.a-photograph-is-nowhere", id, from.file(id)));
            } else if (there != PhotoFolder.State.SOUND) {
                warnings.add(t("store.photograph-only-in-backup", from.file(id), to.file(id)));
            }
        }
        // what an undo left may be named again by bringing the step back
        for (String id : from.all()) {
            if (!named.contains(id)) {
                to.take(id, from);
            }
        }
        return sound;
    }

    /// Reads a backup whole without changing it.
    ///
    /// @throws Failed when it does not read back, with what is wrong
    static Content read(Path backup, Instant at) throws Failed {
        try {
            Optional<String> wrong = BackupSums.has(backup) ? BackupSums.firstWrong(backup) : Optional.empty();
            if (wrong.isPresent()) {
                throw new Failed(t("store.backup-unreadable", t("store.file-is-damaged", wrong.get())));
            }
        } catch (IOException e) {
            throw new Failed(t("store.backup-unreadable", t("store.folder-unreadable")));
        }
        if (!Inspection.hasStore(backup)) {
            throw new Failed(t("store.backup-unreadable", t("store.file-is-damaged", Database.FILE)));
        }
        return switch (Store.open(backup, Store.Mode.READ, InstantSource.fixed(at))) {
            case Store.Opening.Opened opened -> {
                try (Store store = opened.store()) {
                    store.readWhole();
                    yield new Content(store.end(), store.photographs());
                } catch (SqliteJournal.Unreadable e) {
                    throw new Failed(t("store.backup-unreadable", e.getMessage()));
                }
            }
            case Store.Opening.Unusable unusable -> throw new Failed(t("store.backup-unreadable", unusable.sentence()));
            case Store.Opening.TooNew tooNew -> throw new Failed(t("store.backup-newer", tooNew.found()));
            case Store.Opening.Busy busy -> throw new Failed(t("store.backup-in-use", busy.who()));
        };
    }

    /// Where the journal of a backup ends, without reading it whole; empty when its file does not answer.
    static Optional<HighWater.Mark> end(Path backup) {
        try (Session session = Database.frozen(backup.resolve(Database.FILE))) {
            return Optional.of(SqliteJournal.last(session));
        } catch (Session.Failure e) {
            return Optional.empty();
        }
    }

    /// What the newest backup tells of a store that has fewer entries than it, and the same ones as far as it
    /// goes: such a store was put back, or lost its log, and must not be written to without a word. Empty when
    /// all is well or there is no backup to hold it against.
    Optional<String> holdingMore(HighWater.Mark store) {
        return all().stream()
                .findFirst()
                .flatMap(backup -> end(backup)
                        .filter(its -> its.seq() > store.seq() && store.seq() > 0 && holds(backup, store))
                        .map(its -> t("store.a-backup-holds-more", backup, its.seq(), store.seq())
                                + " "
                                + t("store.if-that-is-meant")));
    }

    /// Whether an entry lies in a backup with the checksum given.
    static boolean holds(Path backup, HighWater.Mark place) {
        try (Session session = Database.frozen(backup.resolve(Database.FILE))) {
            return holds(session, place);
        } catch (Session.Failure e) {
            return false;
        }
    }

    private static boolean holds(Session session, HighWater.Mark place) {
        return place.seq() == 0
                || SqliteJournal.checksum(session, place.seq())
                        .filter(sum -> sum == place.checksum())
                        .isPresent();
    }

    /// The backups there are, the newest first; half-made ones are none.
    public List<Path> all() {
        List<Path> found = new ArrayList<>();
        if (Files.isDirectory(where)) {
            try (Stream<Path> folders = Files.list(where)) {
                folders.filter(folder -> when(folder).isPresent() && Files.exists(folder.resolve(Database.FILE)))
                        .sorted(Comparator.reverseOrder())
                        .forEach(found::add);
            } catch (IOException e) {
                // a folder that cannot be listed holds no backup one could use
            }
        }
        return found;
    }

    /// When the newest backup was made that is not dated in the future; a clock that was wrong once must not
    /// put off the next backup.
    public Optional<Instant> newest(Instant now) {
        return latest(now).flatMap(Backups::when);
    }

    /// The newest backup that is not dated in the future and whose file answers at all.
    public Optional<Path> latest(Instant now) {
        return all().stream()
                .filter(one -> when(one).filter(at -> !isFuture(at, now)).isPresent())
                .filter(one -> end(one).isPresent())
                .findFirst();
    }

    static boolean isFuture(Instant at, Instant now) {
        return at.isAfter(now.plus(SLACK));
    }

    /// When a backup was made; empty when the folder is none.
    public static Optional<Instant> when(Path backup) {
        try {
            return Optional.of(
                    LocalDateTime.parse(backup.getFileName().toString(), NAME).toInstant(ZoneOffset.UTC));
        } catch (DateTimeParseException e) {
            return Optional.empty();
        }
    }

    /// The newest usable backup of the store in a folder, as far as that can still be told: several stores may keep
    /// theirs in one place.
    public Optional<Path> latestOf(Path dataFolder, Instant now) {
        Optional<HighWater.Mark> own = HighWater.read(dataFolder).mark();
        return all().stream()
                .filter(one -> when(one).filter(at -> !isFuture(at, now)).isPresent())
                .filter(one -> own.flatMap(mark -> end(one).map(
                                        its -> its.seq() < mark.seq() ? storeHolds(dataFolder, its) : holds(one, mark)))
                        .orElse(false))
                .findFirst()
                .or(() -> latest(now));
    }

    private static boolean storeHolds(Path dataFolder, HighWater.Mark place) {
        try (Session session = Database.beside(dataFolder.resolve(Database.FILE))) {
            return holds(session, place);
        } catch (Session.Failure e) {
            return false;
        }
    }

    /// The newest backup that reads whole, one dated in the future only when no other does; empty when none does.
    public Optional<Path> newestSound(Instant now) {
        List<Path> inOrder = all().stream()
                .sorted(Comparator.comparing(
                        one -> when(one).filter(at -> isFuture(at, now)).isPresent()))
                .toList();
        for (Path backup : inOrder) {
            try {
                read(backup, now);
                return Optional.of(backup);
            } catch (Failed e) {
                // the next older one
            }
        }
        return Optional.empty();
    }

    /// Deletes what rotation no longer keeps. One dated in the future, and one that holds what the new one does
    /// not, stays.
    ///
    /// @return what the person should know
    private List<String> rotate(Path made, Instant now) throws IOException {
        List<String> warnings = new ArrayList<>();
        List<Path> others = all().stream()
                .filter(one -> !one.equals(made))
                .filter(one -> when(one).filter(at -> !isFuture(at, now)).isPresent())
                .toList();
        List<LocalDateTime> times = Stream.concat(Stream.of(made), others.stream())
                .map(Backups::when)
                .flatMap(Optional::stream)
                .map(at -> LocalDateTime.ofInstant(at, ZoneOffset.UTC))
                .toList();
        List<LocalDateTime> superfluous = Rotation.superfluous(times);
        List<Path> strange = new ArrayList<>();
        try (Session session = Database.frozen(made.resolve(Database.FILE))) {
            long last = SqliteJournal.last(session).seq();
            for (Path other : others) {
                Optional<HighWater.Mark> end = end(other);
                boolean inside = end.filter(mark -> holds(session, mark)).isPresent();
                if (inside && superfluous.contains(time(other))) {
                    // under a name that counts as no backup first: a power cut must not leave half of one
                    Path part = where.resolve(other.getFileName() + PART);
                    Disk.move(other, part);
                    Disk.deleteAll(part);
                }
                if (!inside && end.isPresent()) {
                    boolean same = holds(other, SqliteJournal.last(session));
                    if (!same) {
                        strange.add(other);
                    } else if (end.get().seq() > last) {
                        warnings.add(
                                t("store.a-backup-holds-more", other, end.get().seq(), last));
                    }
                }
            }
        }
        if (!strange.isEmpty()) {
            warnings.add(t("store.backup-of-another", strange.getFirst()) + " " + t("store.backup-folder-own"));
        }
        return warnings;
    }

    private static LocalDateTime time(Path backup) {
        return LocalDateTime.parse(backup.getFileName().toString(), NAME);
    }

    /// Makes a data folder from a backup.
    ///
    /// @param backup one of [#all()]
    /// @param target a folder that is empty or not there yet: files of another store beside a restored one would be
    ///     taken for its own
    /// @throws Failed when the backup cannot be used or the target is not empty; then nothing was changed there
    public Backup restore(Path backup, Path target) throws Failed {
        Instant at = when(backup).orElseThrow(() -> new Failed(t("store.no-backup-named", backup)));
        if (Inspection.hasStore(target)) {
            throw new Failed(t("store.store-there", target));
        }
        if (!Disk.isEmptyOrMissing(target)) {
            throw new Failed(t("store.folder-not-empty", target));
        }
        Content content = read(backup, at);
        Path part = target.resolveSibling(target.getFileName() + ".rollwright" + PART);
        try {
            Disk.deleteAll(part);
            Disk.makeFolder(part);
            Disk.copyTree(backup.resolve(CATALOG), part.resolve(CATALOG));
            List<String> warnings = new ArrayList<>();
            int photographs = restorePhotographs(new PhotoFolder(part), content.photographs, warnings);
            Disk.copy(backup.resolve(Database.FILE), part.resolve(Database.FILE));
            HighWater.open(part, content.end).close();
            HighWater.Mark copied = read(part, at).end;
            if (!copied.equals(content.end)) {
                throw new Failed(t("store.folder-not-writable-intact", target));
            }
            Files.deleteIfExists(target);
            Disk.move(part, target);
            return new Backup(target, at, copied.seq(), photographs, warnings);
        } catch (IOException e) {
            Disk.deleteQuietly(part);
            throw new Failed(t("store.folder-not-writable-intact", target));
        } catch (Failed e) {
            Disk.deleteQuietly(part);
            throw e;
        }
    }

    private int restorePhotographs(PhotoFolder to, Set<String> named, List<String> warnings) throws IOException {
        int sound = 0;
        for (String id : new TreeSet<>(named)) {
            boolean here = to.take(id, shelf) == PhotoFolder.State.SOUND;
            sound += here ? 1 : 0;
            if (!here) {
                warnings.add(t("store.backup-lacks-photograph", id, shelf.file(id)));
            }
        }
        for (String id : shelf.all()) {
            if (!named.contains(id)) {
                to.take(id, shelf);
            }
        }
        return sound;
    }

    /// Where photographs of all backups lie.
    PhotoFolder photographs() {
        return shelf;
    }
}
