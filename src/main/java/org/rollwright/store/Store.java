package org.rollwright.store;

import static org.rollwright.text.Texts.t;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.InstantSource;
import java.util.List;
import java.util.Properties;
import java.util.Set;
import java.util.stream.Collectors;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.JdbiException;
import org.jspecify.annotations.Nullable;
import org.rollwright.hunt.Desk;
import org.rollwright.hunt.Entry;
import org.rollwright.hunt.JournalException;
import org.rollwright.hunt.Logbook;
import org.rollwright.hunt.LogbookImage;
import org.rollwright.hunt.PhotoNote;
import org.rollwright.scope.picture.Photo;

/// The store in a folder: the journal, its snapshots, and the lock that keeps a second process out.
public final class Store implements AutoCloseable {
    /// Whether the store will be written to.
    public enum Mode {
        /// Alone: no other process may write.
        WRITE,
        /// Beside a running tool, for reports; nothing can be recorded.
        READ
    }

    /// What came of opening.
    public sealed interface Opening {
        record Opened(Store store) implements Opening {}

        /// Another process holds it.
        ///
        /// @param who its process number and address as far as known, for a person
        record Busy(String who) implements Opening {}

        /// Written by a newer version.
        record TooNew(int found, int known) implements Opening {}

        /// It cannot be used. The sentence says why and what to do.
        record Unusable(String sentence) implements Opening {}
    }

    /// The schema this version writes.
    static final int SCHEMA = 1;

    private static final String FILE = "rollwright.db";
    private static final String LOCK = "rollwright.lock";
    private static final int ENTRIES_WORTH_A_SNAPSHOT = 200;

    private final SqliteJournal journal;
    private final Snapshots snapshots;
    private final Desk desk;
    private final Mode mode;
    private final @Nullable FileChannel lockFile;
    private long snapshotAt;
    private boolean closed;

    private Store(
            SqliteJournal journal,
            Snapshots snapshots,
            Desk desk,
            Mode mode,
            @Nullable FileChannel lockFile,
            long snapshotAt) {
        this.journal = journal;
        this.snapshots = snapshots;
        this.desk = desk;
        this.mode = mode;
        this.lockFile = lockFile;
        this.snapshotAt = snapshotAt;
    }

    /// Opens the store of a folder, making both when they are not there and the mode is [Mode#WRITE].
    public static Opening open(Path folder, Mode mode, InstantSource clock) {
        return open(folder, mode, clock, 0);
    }

    /// As [#open], with a bound on the file's size that stands for a full disk in tests.
    ///
    /// @param mostPages of 4096 bytes; 0 for no bound
    static Opening open(Path folder, Mode mode, InstantSource clock, int mostPages) {
        Path file = folder.resolve(FILE);
        if (mode == Mode.READ && !Files.exists(file)) {
            return new Opening.Unusable(t("store.there-is-no-store-in-2", folder));
        }
        FileChannel lock = null;
        if (mode == Mode.WRITE) {
            try {
                Files.createDirectories(folder);
                lock = FileChannel.open(
                        folder.resolve(LOCK),
                        StandardOpenOption.CREATE,
                        StandardOpenOption.READ,
                        StandardOpenOption.WRITE);
            } catch (IOException e) {
                return new Opening.Unusable(t("store.the-data-folder-cannot-be", folder));
            }
            if (!taken(lock)) {
                String who = whoHolds(lock);
                close(lock);
                return new Opening.Busy(who);
            }
            write(lock, "process " + ProcessHandle.current().pid());
        }
        Opening opening = open(file, mode, clock, lock, mostPages);
        if (!(opening instanceof Opening.Opened) && lock != null) {
            close(lock);
        }
        return opening;
    }

    private static Opening open(Path file, Mode mode, InstantSource clock, @Nullable FileChannel lock, int mostPages) {
        Handle handle = null;
        try {
            handle = connect(file).open();
            int found =
                    handle.createQuery("pragma user_version").mapTo(int.class).one();
            if (found > SCHEMA) {
                handle.close();
                return new Opening.TooNew(found, SCHEMA);
            }
            if (mode == Mode.WRITE && found < SCHEMA) {
                handle.close();
                migrate(file);
                handle = connect(file).open();
            }
            if (mostPages > 0) {
                handle.createQuery("pragma max_page_count = " + mostPages)
                        .mapTo(int.class)
                        .one();
            }
            if (mode == Mode.READ) {
                handle.execute("pragma query_only = on");
            }
            SqliteJournal journal = new SqliteJournal(handle);
            Snapshots snapshots = new Snapshots(handle);
            LogbookImage image = snapshots.load(journal.last()).orElse(null);
            Desk desk = new Desk(journal, clock, image == null ? new Logbook() : image.toLogbook());
            return new Opening.Opened(
                    new Store(journal, snapshots, desk, mode, lock, image == null ? 0 : image.last()));
        } catch (SqliteJournal.Unreadable e) {
            closeQuietly(handle);
            return new Opening.Unusable(t("store.copy-the-data-folder-before", e.getMessage()));
        } catch (JdbiException | FlywayException e) {
            closeQuietly(handle);
            return new Opening.Unusable(t("store.the-store-cannot-be-opened", file, reason(e)));
        }
    }

    private static String reason(Exception e) {
        int primary = SqliteJournal.code(e).map(code -> code.code & 0xff).orElse(-1);
        return switch (primary) {
            case 26, 11 -> t("store.the-file-is-damaged-or");
            case 14, 8 -> t("store.the-folder-cannot-be-written-2");
            case 13 -> t("store.the-disk-is-full-free");
            case 5, 6 -> t("store.another-program-holds-it-close");
            default -> t("store.the-disk-or-the-file");
        };
    }

    private static Jdbi connect(Path file) {
        Properties settings = new Properties();
        settings.setProperty("journal_mode", "WAL");
        settings.setProperty("synchronous", "FULL");
        settings.setProperty("busy_timeout", "5000");
        settings.setProperty("foreign_keys", "true");
        return Jdbi.create("jdbc:sqlite:" + file.toAbsolutePath(), settings);
    }

    private static void migrate(Path file) {
        Flyway.configure()
                .dataSource("jdbc:sqlite:" + file.toAbsolutePath(), "", "")
                .locations("classpath:db/migration")
                .load()
                .migrate();
    }

    private static boolean taken(FileChannel lock) {
        try {
            FileLock held = lock.tryLock(1_000, 1, false);
            return held != null;
        } catch (OverlappingFileLockException e) {
            return false;
        } catch (IOException e) {
            // A file system without locks: rather work than refuse; SQLite has its own.
            return true;
        }
    }

    /// The lock lies on a byte behind the text, so that others can read who holds it, also where locks forbid
    /// reading.
    private static String whoHolds(FileChannel lock) {
        try {
            ByteBuffer bytes = ByteBuffer.allocate(500);
            lock.read(bytes, 0);
            String who = new String(bytes.array(), 0, bytes.position(), StandardCharsets.UTF_8).strip();
            return who.isEmpty() ? t("store.another-process") : who;
        } catch (IOException e) {
            return t("store.another-process");
        }
    }

    private static void write(FileChannel lock, String who) {
        try {
            lock.truncate(0);
            lock.write(ByteBuffer.wrap((who + "\n").getBytes(StandardCharsets.UTF_8)), 0);
        } catch (IOException e) {
            // who holds it is a courtesy; the lock itself is what counts
        }
    }

    private static void close(FileChannel channel) {
        try {
            channel.close();
        } catch (IOException e) {
            // nothing can be done about it, and the lock goes with the process
        }
    }

    private static void closeQuietly(@Nullable Handle handle) {
        if (handle != null) {
            handle.close();
        }
    }

    public Desk desk() {
        return desk;
    }

    /// Reads every entry of the journal from the disk and folds the state anew, without regard to snapshots.
    ///
    /// @return how many
    /// @throws SqliteJournal.Unreadable at the first that is missing, damaged or contradicts those before it
    long readWhole() {
        try {
            Desk trial = new Desk(journal, InstantSource.system(), new Logbook());
            return trial.read(Logbook::last);
        } catch (IllegalStateException e) {
            throw new SqliteJournal.Unreadable(t("store.the-journal-contradicts-itself", e.getMessage()), e);
        }
    }

    /// Names of the photographs that the record names.
    Set<String> photographs() {
        return desk.read(book ->
                book.photos().stream().map(PhotoNote::photo).filter(Photo::isId).collect(Collectors.toSet()));
    }

    /// Writes every entry to a file, one a line.
    ///
    /// @return how many
    public long saveJournal(Path file) throws IOException {
        JournalFile.write(journal, file);
        return journal.last();
    }

    /// Fills this store, which must be empty, from a file that [#saveJournal(Path)] wrote. The file is read and
    /// tried whole before the first entry is written; the store wants opening anew afterwards.
    ///
    /// @return how many entries
    public long fillFrom(Path file) throws IOException, JournalFile.Unusable {
        if (journal.last() > 0) {
            throw new JournalFile.Unusable(t("store.the-store-is-not-empty", journal.last()));
        }
        List<Entry> entries = JournalFile.read(file);
        Logbook trial = new Logbook();
        for (Entry entry : entries) {
            try {
                trial.apply(entry);
            } catch (IllegalStateException | NullPointerException e) {
                throw new JournalFile.Unusable(t("store.entry-contradicts-those-before-it", entry.seq()));
            }
        }
        journal.appendAll(entries);
        return entries.size();
    }

    /// Notes where the tool answers, for a second process that finds the store held.
    public void serving(String address) {
        if (lockFile != null) {
            write(lockFile, "process " + ProcessHandle.current().pid() + " at " + address);
        }
    }

    /// Saves the state when enough has happened since the last time. Failing harms nothing.
    public synchronized void saveSnapshot() {
        if (!closed && mode == Mode.WRITE && journal.last() - snapshotAt >= ENTRIES_WORTH_A_SNAPSHOT) {
            LogbookImage image = desk.read(LogbookImage::of);
            if (snapshots.save(image)) {
                snapshotAt = image.last();
            }
        }
    }

    @Override
    public synchronized void close() {
        if (closed) {
            return;
        }
        try {
            saveSnapshot();
        } catch (JournalException e) {
            // the journal has everything
        } finally {
            closed = true;
            journal.close();
            if (lockFile != null) {
                close(lockFile);
            }
        }
    }
}
