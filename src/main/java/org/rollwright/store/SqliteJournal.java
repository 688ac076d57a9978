package org.rollwright.store;

import static org.rollwright.text.Texts.t;

import java.nio.charset.StandardCharsets;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Supplier;
import java.util.zip.CRC32;
import org.jspecify.annotations.Nullable;
import org.rollwright.journal.Entry;
import org.rollwright.journal.Journal;
import org.rollwright.journal.JournalException;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;
import tools.jackson.core.JacksonException;

/// The journal in a SQLite file: write-ahead log, and a file synchronisation at every append. Used by one
/// thread at a time; [org.rollwright.desk.Desk] sees to that. Its connection serves the journal and nothing else:
/// whatever else were written through it could hold an entry back that was already acknowledged.
final class SqliteJournal implements Journal {
    /// A row that is damaged or was written by a newer version. The message is for the person at the bench.
    static final class Unreadable extends RuntimeException {
        private static final long serialVersionUID = 1L;

        Unreadable(String message, @Nullable Throwable cause) {
            super(message, cause);
        }
    }

    /// An entry as it lies in the file.
    ///
    /// @param checksum CRC-32 over the entry before, by its checksum, and everything in this one
    record Row(long seq, String at, long scope, String raw, String body, long checksum) {
        static final String COLUMNS = "seq, at, scope, raw, body, checksum";

        static Row of(Entry entry, long before) {
            Row row = new Row(
                    entry.seq(), entry.at().toString(), entry.scope(), entry.raw(), EventJson.write(entry.event()), 0);
            return new Row(row.seq, row.at, row.scope, row.raw, row.body, row.chained(before));
        }

        /// What the checksum must be behind an entry with a given one. The first entry has none before it.
        long chained(long before) {
            return checksum((seq == 1 ? "" : before + "\n") + text());
        }

        /// What it must be in the part of the journal that is older than the chain.
        long alone() {
            return checksum(text());
        }

        private String text() {
            return seq + "\n" + at + "\n" + scope + "\n" + raw + "\n" + body;
        }

        private static long checksum(String text) {
            CRC32 crc = new CRC32();
            crc.update(text.getBytes(StandardCharsets.UTF_8));
            return crc.getValue();
        }

        /// @throws Unreadable when this version does not know its kind
        Entry entry() {
            try {
                return new Entry(seq, Instant.parse(at), scope, raw, EventJson.read(body));
            } catch (JacksonException e) {
                throw new Unreadable(t("store.entry-newer", seq), e);
            }
        }
    }

    private final Supplier<Session> connector;
    private final @Nullable HighWater water;
    private final long chainedFrom;
    private Session session;
    private @Nullable PreparedStatement insert;
    private volatile HighWater.Mark last;
    private boolean shaken;

    /// @param connector makes the connection, and makes it anew after an error
    /// @param water is raised at every entry; none when nothing will be written
    SqliteJournal(Supplier<Session> connector, @Nullable HighWater water) {
        this.connector = connector;
        this.water = water;
        this.session = connector.get();
        this.chainedFrom = chainedFrom(session);
        this.last = last(session);
    }

    /// From which entry on checksums are chained; stores of the first format have no chain.
    static long chainedFrom(Session session) {
        boolean chained = session.number("select count(*) from sqlite_schema where name = 'chain'") > 0;
        return chained ? session.number("select coalesce(max(since), 1) from chain") : Long.MAX_VALUE;
    }

    /// Where a journal ends.
    static HighWater.Mark last(Session session) {
        return session.first(
                        "select seq, checksum from entry order by seq desc limit 1",
                        row -> new HighWater.Mark(row.getLong(1), row.getLong(2)))
                .orElse(new HighWater.Mark(0, 0));
    }

    /// The checksum of an entry; empty when there is no such entry.
    static Optional<Long> checksum(Session session, long seq) {
        return session.first("select checksum from entry where seq = ?", row -> row.getLong(1), seq);
    }

    @Override
    public void append(Entry entry) {
        try {
            heal();
            last = insert(entry, last.checksum());
        } catch (SQLException | Session.Failure e) {
            shaken = true;
            throw new JournalException(sentence(e), e);
        }
        raise();
    }

    private void raise() {
        HighWater mark = water;
        if (mark != null) {
            mark.raise(last);
        }
    }

    private HighWater.Mark insert(Entry entry, long before) throws SQLException {
        Row row = Row.of(entry, before);
        PreparedStatement insert = insert();
        insert.setLong(1, row.seq);
        insert.setString(2, row.at);
        insert.setLong(3, row.scope);
        insert.setString(4, row.raw);
        insert.setString(5, row.body);
        insert.setLong(6, row.checksum);
        insert.executeUpdate();
        return new HighWater.Mark(row.seq, row.checksum);
    }

    /// Prepared once: a find at the bench is acknowledged after one of these, and reading the statement anew
    /// each time takes as long as the write.
    private PreparedStatement insert() throws SQLException {
        PreparedStatement prepared = insert;
        if (prepared == null) {
            prepared = session.prepared("insert into entry (" + Row.COLUMNS + ") values (?, ?, ?, ?, ?, ?)");
            insert = prepared;
        }
        return prepared;
    }

    /// After an error the connection is made anew, because neither it nor its statements may be trusted; and an
    /// entry that was refused but reached the disk all the same is taken out again, because the person was told
    /// that it was not saved.
    private void heal() throws SQLException {
        if (!shaken) {
            return;
        }
        insert = null;
        Session fresh = connector.get();
        try {
            HighWater.Mark found = last(fresh);
            if (found.seq() > last.seq()) {
                fresh.execute("delete from entry where seq > ?", last.seq());
                found = last(fresh);
            }
            if (!found.equals(last)) {
                throw new SQLException("the journal ends at " + found.seq() + " instead of " + last.seq());
            }
        } catch (SQLException | RuntimeException e) {
            closeQuietly(fresh);
            throw e;
        }
        Session old = session;
        session = fresh;
        shaken = false;
        closeQuietly(old);
    }

    /// Has the next append make the connection anew.
    void shake() {
        shaken = true;
    }

    private static void closeQuietly(Session session) {
        try {
            session.close();
        } catch (Session.Failure e) {
            // it failed before, that is why it is given up
        }
    }

    /// Many entries in one transaction: all or none.
    void appendAll(List<Entry> entries) {
        try {
            heal();
            last = session.inTransaction(() -> {
                HighWater.Mark reached = last;
                for (Entry entry : entries) {
                    reached = insert(entry, reached.checksum());
                }
                return reached;
            });
        } catch (SQLException | Session.Failure e) {
            shaken = true;
            throw new JournalException(sentence(e), e);
        }
        raise();
    }

    /// What a person is told when a write fails.
    static String sentence(Throwable failure) {
        Optional<SQLiteErrorCode> code = code(failure);
        int primary = code.map(known -> known.code & 0xff).orElse(-1);
        String kept = t("store.line-kept");
        return switch (primary) {
            case 13 -> t("store.unsaved-disk-full", kept);
            case 8 -> t("store.unsaved-not-writable", kept);
            case 5, 6 -> t("store.unsaved-held", kept);
            case 10 -> t("store.unsaved-disk-error", kept);
            case 11, 26 -> t("store.unsaved-damaged", kept);
            default -> t("store.unsaved-unknown", kept);
        };
    }

    static Optional<SQLiteErrorCode> code(Throwable failure) {
        for (@Nullable Throwable cause = failure; cause != null; cause = cause.getCause()) {
            if (cause instanceof SQLiteException sqlite) {
                return Optional.of(sqlite.getResultCode());
            }
            if (cause instanceof SQLException) {
                return Optional.empty();
            }
        }
        return Optional.empty();
    }

    /// Reads entries and holds each against its checksum, which covers the one before.
    ///
    /// @throws Unreadable at the first that is missing, damaged or of an unknown kind
    @Override
    public void read(long after, Consumer<Entry> reader) {
        try (Session.Rows<Row> rows = rows(session, "where seq >= ? order by seq", Math.max(after, 1))) {
            long expected = Math.max(after, 1);
            long before = 0;
            for (Row row = rows.next(); row != null; row = rows.next()) {
                if (row.seq != expected) {
                    throw new Unreadable(t("store.entry-missing", expected), null);
                }
                // the entry at `after` itself is known already; what follows hangs on it
                boolean known = row.seq <= after;
                long wanted = row.seq < chainedFrom ? row.alone() : row.chained(before);
                if (!known && row.checksum != wanted) {
                    throw new Unreadable(t("store.entry-damaged", row.seq), null);
                }
                if (!known) {
                    reader.accept(row.entry());
                }
                before = row.checksum;
                expected++;
            }
        } catch (Session.Failure e) {
            throw new Unreadable(t("store.journal-unreadable"), e);
        }
    }

    /// All rows that can be read, whatever their checksums say.
    ///
    /// @param order in the database's words
    static Session.Rows<Row> rows(Session session, String order, Object... values) {
        return session.rows(
                "select " + Row.COLUMNS + " from entry " + order,
                row -> new Row(
                        row.getLong(1),
                        row.getString(2),
                        row.getLong(3),
                        row.getString(4),
                        row.getString(5),
                        row.getLong(6)),
                values);
    }

    @Override
    public long last() {
        return last.seq();
    }

    boolean isChained() {
        return chainedFrom < Long.MAX_VALUE;
    }

    /// Where it ends, with the checksum there.
    HighWater.Mark end() {
        return last;
    }

    /// Whether an entry lies in this journal with the checksum given.
    boolean holds(HighWater.Mark place) {
        return place.seq() == 0
                || checksum(session, place.seq())
                        .filter(sum -> sum == place.checksum())
                        .isPresent();
    }

    @Override
    public void close() {
        HighWater mark = water;
        if (mark != null) {
            mark.close();
        }
        session.close();
    }
}
