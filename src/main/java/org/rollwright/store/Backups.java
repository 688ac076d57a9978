package org.rollwright.store;

import static org.rollwright.text.Texts.t;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
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
import java.util.stream.Stream;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.JdbiException;

/// Copies of a data folder, each proved by opening it, and a data folder made again from one.
///
/// A backup is a folder named after its instant in UTC, with the store's file and the user's catalogue;
/// photographs lie once for all backups in `photos`, under their hash, and are never deleted.
public final class Backups {
    /// A backup that was made or found.
    ///
    /// @param entries of the journal in it
    /// @param photographs that its record names and that are there
    public record Backup(Path folder, Instant at, long entries, int photographs) {}

    /// Why a backup was not made or cannot be used. The message is for a person.
    public static final class Failed extends Exception {
        private static final long serialVersionUID = 1L;

        Failed(String sentence) {
            super(sentence, null, false, false);
        }
    }

    private static final DateTimeFormatter NAME = DateTimeFormatter.ofPattern("yyyy-MM-dd'T'HHmmss");
    private static final String FILE = "rollwright.db";
    private static final String PHOTOS = "photos";
    private static final String CATALOG = "catalog";

    private final Path where;

    /// @param where the folder that holds the backups
    public Backups(Path where) {
        this.where = where;
    }

    /// Makes a backup of a data folder, also while the tool works on it; proves it by restoring it beside
    /// itself and reading every entry; then deletes backups that rotation no longer keeps.
    ///
    /// @throws Failed when it could not be made or does not read back; then no backup of that name stays
    public Backup make(Path dataFolder, Instant now) throws Failed {
        String name = NAME.format(LocalDateTime.ofInstant(now, ZoneOffset.UTC));
        Path part = where.resolve(name + ".part");
        Path made = where.resolve(name);
        try {
            deleteAll(part);
            Files.createDirectories(part);
            copyStore(dataFolder.resolve(FILE), part.resolve(FILE));
            copyTree(dataFolder.resolve(CATALOG), part.resolve(CATALOG));
            copyPhotographs(dataFolder.resolve(PHOTOS), where.resolve(PHOTOS));
            Backup proved = proved(part, now);
            Files.move(part, made, StandardCopyOption.ATOMIC_MOVE);
            rotate();
            return new Backup(made, now, proved.entries, proved.photographs);
        } catch (IOException | JdbiException e) {
            deleteQuietly(part);
            throw new Failed(t("store.no-backup-was-made-in", where));
        } catch (Failed e) {
            deleteQuietly(part);
            throw e;
        }
    }

    private static void copyStore(Path store, Path copy) throws Failed {
        if (!Files.exists(store)) {
            throw new Failed(t("store.there-is-no-store-in", store.getParent()));
        }
        // a consistent copy of what is committed, whether or not another process is writing
        try (Handle handle =
                Jdbi.create("jdbc:sqlite:" + store.toAbsolutePath()).open()) {
            handle.execute("vacuum into ?", copy.toAbsolutePath().toString());
        }
    }

    private static void copyTree(Path from, Path to) throws IOException {
        if (!Files.isDirectory(from)) {
            return;
        }
        try (Stream<Path> files = Files.walk(from)) {
            for (Path file : files.filter(Files::isRegularFile).toList()) {
                Path copy = to.resolve(from.relativize(file).toString());
                Files.createDirectories(copy.getParent());
                Files.copy(file, copy, StandardCopyOption.REPLACE_EXISTING);
            }
        }
    }

    /// Copies the photographs that are not there yet; the name is the hash, so one of a name is the same.
    private static void copyPhotographs(Path from, Path to) throws IOException {
        if (!Files.isDirectory(from)) {
            return;
        }
        try (Stream<Path> files = Files.walk(from)) {
            for (Path file :
                    files.filter(one -> one.toString().endsWith(".jpg")).toList()) {
                Path copy = to.resolve(from.relativize(file).toString());
                if (!Files.exists(copy) || Files.size(copy) != Files.size(file)) {
                    Files.createDirectories(copy.getParent());
                    Path part = copy.resolveSibling(copy.getFileName() + ".part");
                    Files.copy(file, part, StandardCopyOption.REPLACE_EXISTING);
                    try (FileChannel channel = FileChannel.open(part, StandardOpenOption.WRITE)) {
                        channel.force(true);
                    }
                    Files.move(part, copy, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
                }
            }
        }
    }

    /// Restores a backup beside itself and reads every entry of it.
    private Backup proved(Path backup, Instant at) throws Failed {
        Path trial = backup.resolve("trial");
        try {
            Files.createDirectories(trial);
            Files.copy(backup.resolve(FILE), trial.resolve(FILE));
            Backup found = read(trial, at);
            deleteAll(trial);
            return new Backup(backup, at, found.entries, found.photographs);
        } catch (IOException e) {
            throw new Failed(t("store.the-backup-could-not-be", backup));
        }
    }

    private Backup read(Path folder, Instant at) throws Failed {
        return switch (Store.open(folder, Store.Mode.READ, InstantSource.fixed(at))) {
            case Store.Opening.Opened opened -> {
                try (Store store = opened.store()) {
                    long entries = store.readWhole();
                    int photographs = 0;
                    for (String photo : store.photographs()) {
                        if (Files.exists(photograph(photo))) {
                            photographs++;
                        }
                    }
                    yield new Backup(folder, at, entries, photographs);
                } catch (SqliteJournal.Unreadable e) {
                    throw new Failed(t("store.the-backup-does-not-read", e.getMessage()));
                }
            }
            case Store.Opening.Unusable unusable ->
                throw new Failed(t("store.the-backup-does-not-read", unusable.sentence()));
            case Store.Opening.TooNew tooNew -> throw new Failed(t("store.the-backup-was-written-by", tooNew.found()));
            case Store.Opening.Busy busy -> throw new Failed(t("store.the-backup-is-in-use", busy.who()));
        };
    }

    private Path photograph(String id) {
        return where.resolve(PHOTOS).resolve(id.substring(0, 2)).resolve(id + ".jpg");
    }

    /// The backups there are, the newest first; half-made ones are none.
    public List<Path> all() {
        List<Path> found = new ArrayList<>();
        if (Files.isDirectory(where)) {
            try (Stream<Path> folders = Files.list(where)) {
                folders.filter(folder -> when(folder).isPresent() && Files.exists(folder.resolve(FILE)))
                        .sorted(Comparator.reverseOrder())
                        .forEach(found::add);
            } catch (IOException e) {
                // a folder that cannot be listed holds no backup one could use
            }
        }
        return found;
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

    private void rotate() throws IOException {
        List<LocalDateTime> times = all().stream()
                .map(Backups::when)
                .flatMap(Optional::stream)
                .map(at -> LocalDateTime.ofInstant(at, ZoneOffset.UTC))
                .toList();
        for (LocalDateTime old : Rotation.superfluous(times)) {
            deleteAll(where.resolve(NAME.format(old)));
        }
    }

    /// Makes a data folder from a backup.
    ///
    /// @param backup one of [#all()]
    /// @param target a folder without a store; it is made when it is not there
    /// @throws Failed when the backup cannot be used or the target holds a store; then nothing was changed
    ///     there
    public Backup restore(Path backup, Path target) throws Failed {
        Instant at = when(backup).orElseThrow(() -> new Failed(t("store.is-no-backup-name-one", backup)));
        if (Files.exists(target.resolve(FILE))) {
            throw new Failed(t("store.there-is-a-store-in", target));
        }
        read(backup, at);
        try {
            Files.createDirectories(target);
            copyTree(backup.resolve(CATALOG), target.resolve(CATALOG));
            copyPhotographs(where.resolve(PHOTOS), target.resolve(PHOTOS));
            Path part = target.resolve(FILE + ".part");
            Files.copy(backup.resolve(FILE), part, StandardCopyOption.REPLACE_EXISTING);
            try (FileChannel channel = FileChannel.open(part, StandardOpenOption.WRITE)) {
                channel.force(true);
            }
            Files.move(part, target.resolve(FILE), StandardCopyOption.ATOMIC_MOVE);
        } catch (IOException e) {
            throw new Failed(t("store.the-folder-cannot-be-written", target));
        }
        return read(target, at);
    }

    private static void deleteAll(Path folder) throws IOException {
        if (Files.exists(folder)) {
            try (Stream<Path> paths = Files.walk(folder)) {
                for (Path path : paths.sorted(Comparator.reverseOrder()).toList()) {
                    Files.delete(path);
                }
            }
        }
    }

    private static void deleteQuietly(Path folder) {
        try {
            deleteAll(folder);
        } catch (IOException e) {
            // what is left ends in .part and counts as no backup
        }
    }
}
