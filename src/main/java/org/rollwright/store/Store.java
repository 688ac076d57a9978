package org.rollwright.store;

import static org.rollwright.text.Texts.t;

import java.io.IOException;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Collectors;
import org.flywaydb.core.api.FlywayException;
import org.rollwright.desk.Desk;
import org.rollwright.desk.State;
import org.rollwright.journal.Entry;
import org.rollwright.journal.JournalException;
import org.rollwright.scope.PhotoNote;
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
    static final int SCHEMA = 2;

    private static final int ENTRIES_WORTH_A_SNAPSHOT = 200;

    private final SqliteJournal journal;
    private final Snapshots snapshots;
    private final Desk desk;
    private final Optional<StoreLock> lock;
    private final Optional<HighWater> water;
    private final AtomicInteger mostPages;
    private final Runnable afterwards;
    private long snapshotAt;
    private boolean closed;
    private boolean markMissing;

    private Store(
            SqliteJournal journal,
            Snapshots snapshots,
            InstantSource clock,
            Optional<Writing> writing,
            Runnable afterwards) {
        this.journal = journal;
        this.snapshots = snapshots;
        this.lock = writing.map(Writing::lock);
        this.mostPages = writing.map(Writing::mostPages).orElseGet(AtomicInteger::new);
        this.water = writing.map(Writing::water);
        this.afterwards = afterwards;
        Optional<Snapshots.Saved> saved = snapshots.load().filter(state -> journal.holds(state.at()));
        this.desk =
                new Desk(journal, clock, saved.map(one -> State.of(one.image())).orElse(State.EMPTY));
        this.snapshotAt = saved.map(state -> state.at().seq()).orElse(0L);
    }

    /// What a store that is written to holds besides its journal.
    ///
    /// @param mostPages stands for the size of the disk in tests
    private record Writing(StoreLock lock, HighWater water, AtomicInteger mostPages) {}

    /// Opens the store of a folder, making both when they are not there and the mode is [Mode#WRITE].
    ///
    /// A store that is damaged or lacks entries that were acknowledged is not opened, and nothing of it changes.
    public static Opening open(Path folder, Mode mode, InstantSource clock) {
        return open(folder, mode, clock, 0);
    }

    /// As [#open], with a bound on the file's size that stands for a full disk in tests.
    ///
    /// @param mostPages of 4096 bytes; 0 for no bound
    static Opening open(Path folder, Mode mode, InstantSource clock, int mostPages) {
        try {
            NativeLibrary.load();
        } catch (NativeLibrary.Missing e) {
            return new Opening.Unusable(String.valueOf(e.getMessage()));
        }
        try {
            return mode == Mode.READ ? openToRead(folder, clock) : openToWrite(folder, clock, mostPages);
        } catch (SqliteJournal.Unreadable e) {
            return new Opening.Unusable(t("store.salvage-after", e.getMessage()));
        } catch (Session.Failure | FlywayException e) {
            return new Opening.Unusable(t("store.store-unopenable", folder.resolve(Database.FILE), reason(e, folder)));
        }
    }

    private static Opening openToRead(Path folder, InstantSource clock) {
        if (!Inspection.hasStore(folder)) {
            return Inspection.ofNothing(folder)
                    .map(Store::damaged)
                    .orElseGet(() -> new Opening.Unusable(t("store.no-store", folder)));
        }
        // read before the journal, which a tool beside may carry further meanwhile
        Optional<HighWater.Mark> mark = HighWater.read(folder).mark();
        ReadAccess access = ReadAccess.open(folder);
        try {
            Optional<Opening> refused = refused(folder, mark, access.session());
            if (refused.isPresent()) {
                access.close();
                return refused.get();
            }
            SqliteJournal journal = new SqliteJournal(access::session, null);
            return new Opening.Opened(
                    new Store(journal, new Snapshots(folder), clock, Optional.empty(), access::close));
        } catch (SqliteJournal.Unreadable | Session.Failure e) {
            access.close();
            throw e;
        }
    }

    private static Opening openToWrite(Path folder, InstantSource clock, int mostPages) {
        Optional<StoreLock> taken;
        try {
            Disk.makeFolder(folder);
            OwnFiles.makePrivate(folder);
            taken = StoreLock.take(folder);
        } catch (IOException e) {
            return new Opening.Unusable(t("store.data-folder-not-writable", folder));
        }
        if (taken.isEmpty()) {
            return new Opening.Busy(StoreLock.holder(folder));
        }
        StoreLock lock = taken.get();
        boolean opened = false;
        try {
            lock.write("process " + ProcessHandle.current().pid());
            Opening opening = openToWrite(folder, clock, mostPages, lock);
            opened = opening instanceof Opening.Opened;
            return opening;
        } catch (IOException e) {
            return new Opening.Unusable(t("store.data-folder-not-writable", folder));
        } finally {
            if (!opened) {
                lock.close();
            }
        }
    }

    private static Opening openToWrite(Path folder, InstantSource clock, int mostPages, StoreLock lock)
            throws IOException {
        Path file = folder.resolve(Database.FILE);
        Looked looked = look(folder);
        if (looked.refused.isPresent()) {
            return looked.refused.get();
        }
        // stores of an earlier schema had no mark
        boolean marked = looked.version == SCHEMA;
        if (looked.version < SCHEMA) {
            if (Inspection.hasStore(folder)) {
                Database.migrate(file);
            } else if (Disk.isFull(folder)) {
                // making the tables is tried again for ten seconds, in silence
                return new Opening.Unusable(t("store.store-unopenable", file, t("store.disk-full")));
            } else {
                Database.create(file);
            }
            looked = look(folder);
            if (looked.refused.isPresent() || looked.version != SCHEMA) {
                return looked.refused.orElseGet(
                        () -> new Opening.Unusable(t("store.store-unopenable", file, t("store.damaged"))));
            }
        }
        boolean markMissing =
                marked && looked.end.seq() > 0 && HighWater.read(folder).mark().isEmpty();
        HighWater water = HighWater.open(folder, looked.end);
        SqliteJournal journal;
        AtomicInteger bound = new AtomicInteger(mostPages);
        try {
            journal = new SqliteJournal(() -> bounded(Database.write(file), bound.get()), water);
        } catch (Session.Failure e) {
            water.close();
            throw e;
        }
        try {
            Store store = new Store(
                    journal, new Snapshots(folder), clock, Optional.of(new Writing(lock, water, bound)), () -> {});
            store.markMissing = markMissing;
            return new Opening.Opened(store);
        } catch (SqliteJournal.Unreadable | IllegalStateException e) {
            journal.close();
            throw e;
        }
    }

    /// What was found before anything was touched.
    ///
    /// @param refused why the store is not opened
    /// @param version of the schema, 0 when there is no store yet
    private record Looked(Optional<Opening> refused, int version, HighWater.Mark end) {}

    private static Looked look(Path folder) {
        HighWater.Mark start = new HighWater.Mark(0, 0);
        if (!Inspection.hasStore(folder)) {
            return new Looked(Inspection.ofNothing(folder).map(Store::damaged), 0, start);
        }
        Path file = folder.resolve(Database.FILE);
        Optional<HighWater.Mark> mark = HighWater.read(folder).mark();
        try (Session session = Database.hasLog(file) ? Database.beside(file) : Database.frozen(file)) {
            Optional<Opening> refused = refused(folder, mark, session);
            int version = version(session);
            HighWater.Mark end = refused.isPresent() || version == 0 ? start : SqliteJournal.last(session);
            return new Looked(
                    refused.or(() -> new Backups(new Settings(folder).backups())
                            .holdingMore(end)
                            .map(Store::damaged)),
                    version,
                    end);
        }
    }

    private static Optional<Opening> refused(Path folder, Optional<HighWater.Mark> mark, Session session) {
        int found = version(session);
        if (found > SCHEMA) {
            return Optional.of(new Opening.TooNew(found, SCHEMA));
        }
        boolean empty = session.number("select count(*) from sqlite_schema where name = 'entry'") == 0;
        if (empty && mark.filter(one -> one.seq() > 0).isEmpty() && found == 0) {
            // a start that was cut off before the first table was made
            return Optional.empty();
        }
        if (empty || found == 0) {
            return Optional.of(damaged(t("store.file-damaged", t("store.it-is-no-store"))));
        }
        return Inspection.of(folder, mark, session).map(Store::damaged);
    }

    private static Opening damaged(String what) {
        return new Opening.Unusable(t("store.nothing-was-changed-salvage", what));
    }

    private static Session bounded(Session session, int mostPages) {
        if (mostPages > 0) {
            try {
                session.number("pragma max_page_count = " + mostPages);
            } catch (Session.Failure e) {
                session.close();
                throw e;
            }
        }
        return session;
    }

    private static int version(Session session) {
        return (int) session.number("pragma user_version");
    }

    private static String reason(Exception e, Path folder) {
        int primary = SqliteJournal.code(e).map(code -> code.code & 0xff).orElse(-1);
        if (Disk.isFull(folder)) {
            // a full disk shows itself as many things: no room for the log's index is "the disk does not answer"
            return t("store.disk-full");
        }
        return switch (primary) {
            case 26, 11 -> t("store.damaged");
            case 14, 8 -> t("store.folder-not-writable");
            case 13 -> t("store.disk-full");
            case 5, 6 -> t("store.held-by-program");
            default -> t("store.disk-error");
        };
    }

    /// Gives the disk another size, for tests: it is taken on when the connection is made anew.
    void mostPages(int pages) {
        mostPages.set(pages);
    }

    /// A sentence when the mark of what was acknowledged was not there at the start, so that it cannot be told whether
    /// lines are missing behind the last one.
    public Optional<String> remark() {
        return markMissing ? Optional.of(t("store.the-mark-was-missing", journal.last())) : Optional.empty();
    }

    /// Has the journal behave as after an error, for tests.
    void shake() {
        journal.shake();
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
            Desk trial = new Desk(journal, InstantSource.system(), State.EMPTY);
            return trial.read(State::last);
        } catch (IllegalStateException e) {
            throw new SqliteJournal.Unreadable(t("store.the-journal-contradicts-itself", e.getMessage()), e);
        }
    }

    /// Where the journal ends.
    HighWater.Mark end() {
        return journal.end();
    }

    /// Whether an entry lies in this journal with the checksum given.
    boolean holds(HighWater.Mark place) {
        return journal.holds(place);
    }

    /// Whether checksums cover the entry before; stores that no later version has opened yet have no chain.
    boolean isChained() {
        return journal.isChained();
    }

    /// Names of the photographs that the record names.
    Set<String> photographs() {
        return desk.read(book -> book.scope().photos().stream()
                .map(PhotoNote::photo)
                .filter(Photo::isId)
                .collect(Collectors.toSet()));
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
            throw new JournalFile.Unusable(t("store.store-not-empty", journal.last()));
        }
        List<Entry> entries = JournalFile.read(file);
        OptionalLong contradiction = Desk.contradiction(entries);
        if (contradiction.isPresent()) {
            throw new JournalFile.Unusable(t("store.entry-contradicts", contradiction.getAsLong()));
        }
        take(entries);
        return entries.size();
    }

    /// Writes entries that were kept elsewhere, all or none. The store wants opening anew afterwards.
    void take(List<Entry> entries) {
        journal.appendAll(entries);
    }

    /// Notes where the tool answers, for a second process that finds the store held.
    public void serving(String address) {
        lock.ifPresent(held -> held.write("process " + ProcessHandle.current().pid() + " at " + address));
    }

    /// Saves the state when enough has happened since the last time, and makes the mark of what was acknowledged
    /// durable. Failing harms nothing.
    public synchronized void saveSnapshot() {
        if (closed || lock.isEmpty()) {
            return;
        }
        water.ifPresent(HighWater::sync);
        if (journal.last() - snapshotAt >= ENTRIES_WORTH_A_SNAPSHOT) {
            saveSnapshotNow();
        }
    }

    private record Reached(State state, HighWater.Mark end) {}

    synchronized void saveSnapshotNow() {
        // state and mark are of one moment: nothing is appended while the desk stands still
        Reached reached = desk.still(known -> new Reached(known, journal.end()));
        if (snapshots.save(new Snapshots.Saved(State.Image.of(reached.state), reached.end))) {
            snapshotAt = reached.end.seq();
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
            afterwards.run();
            lock.ifPresent(StoreLock::close);
        }
    }
}
