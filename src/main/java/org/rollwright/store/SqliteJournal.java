package org.rollwright.store;

import static org.rollwright.text.Texts.t;

import java.nio.charset.StandardCharsets;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.zip.CRC32;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.JdbiException;
import org.jdbi.v3.core.result.ResultIterator;
import org.jspecify.annotations.Nullable;
import org.rollwright.hunt.Entry;
import org.rollwright.hunt.Journal;
import org.rollwright.hunt.JournalException;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;
import tools.jackson.core.JacksonException;

/// The journal in a SQLite file: write-ahead log, and a file synchronisation at every append. Used by one
/// thread at a time; [org.rollwright.hunt.Desk] sees to that.
final class SqliteJournal implements Journal {
    /// A row that is damaged or was written by a newer version. The message is for the person at the bench.
    static final class Unreadable extends RuntimeException {
        private static final long serialVersionUID = 1L;

        Unreadable(String message, @Nullable Throwable cause) {
            super(message, cause);
        }
    }

    private record Row(long seq, String at, long scope, String raw, String body, long checksum) {
        long computed() {
            CRC32 crc = new CRC32();
            crc.update((seq + "\n" + at + "\n" + scope + "\n" + raw + "\n" + body).getBytes(StandardCharsets.UTF_8));
            return crc.getValue();
        }
    }

    private final Handle handle;
    private @Nullable PreparedStatement insert;
    private long last;

    SqliteJournal(Handle handle) {
        this.handle = handle;
        this.last = handle.createQuery("select coalesce(max(seq), 0) from entry")
                .mapTo(long.class)
                .one();
    }

    @Override
    public void append(Entry entry) {
        Row row = new Row(
                entry.seq(), entry.at().toString(), entry.scope(), entry.raw(), EventJson.write(entry.event()), 0);
        try {
            PreparedStatement insert = insert();
            insert.setLong(1, row.seq);
            insert.setString(2, row.at);
            insert.setLong(3, row.scope);
            insert.setString(4, row.raw);
            insert.setString(5, row.body);
            insert.setLong(6, row.computed());
            insert.executeUpdate();
        } catch (SQLException e) {
            throw new JournalException(sentence(e), e);
        }
        last = entry.seq();
    }

    /// Prepared once: a find at the bench is acknowledged after one of these, and reading the statement anew
    /// each time takes as long as the write.
    private PreparedStatement insert() throws SQLException {
        PreparedStatement prepared = insert;
        if (prepared == null) {
            prepared = handle.getConnection()
                    .prepareStatement(
                            "insert into entry (seq, at, scope, raw, body, checksum) values (?, ?, ?, ?, ?, ?)");
            insert = prepared;
        }
        return prepared;
    }

    /// Many entries in one transaction: all or none.
    void appendAll(List<Entry> entries) {
        long before = last;
        try {
            handle.useTransaction(transaction -> entries.forEach(this::append));
        } catch (JournalException e) {
            last = before;
            throw e;
        } catch (JdbiException e) {
            last = before;
            throw new JournalException(sentence(e), e);
        }
    }

    /// What a person is told when a write fails.
    static String sentence(Throwable failure) {
        Optional<SQLiteErrorCode> code = code(failure);
        int primary = code.map(known -> known.code & 0xff).orElse(-1);
        String kept = t("store.nothing-before-it-is-lost");
        return switch (primary) {
            case 13 -> t("store.not-saved-the-disk-is", kept);
            case 8 -> t("store.not-saved-the-data-folder", kept);
            case 5, 6 -> t("store.not-saved-another-program-holds", kept);
            case 10 -> t("store.not-saved-the-disk-reports", kept);
            case 11, 26 -> t("store.not-saved-the-store-s", kept);
            default -> t("store.not-saved-the-store-could", kept);
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

    @Override
    public void read(long after, Consumer<Entry> reader) {
        try (ResultIterator<Row> rows = handle.createQuery(
                        "select seq, at, scope, raw, body, checksum from entry where seq > :after order by seq")
                .bind("after", after)
                .map((result, context) -> new Row(
                        result.getLong(1),
                        result.getString(2),
                        result.getLong(3),
                        result.getString(4),
                        result.getString(5),
                        result.getLong(6)))
                .iterator()) {
            long expected = after + 1;
            while (rows.hasNext()) {
                Row row = rows.next();
                if (row.seq != expected) {
                    throw new Unreadable(t("store.entry-of-the-journal-is", expected), null);
                }
                if (row.checksum != row.computed()) {
                    throw new Unreadable(t("store.entry-of-the-journal-is-2", row.seq), null);
                }
                reader.accept(entry(row));
                expected++;
            }
        } catch (JdbiException e) {
            throw new Unreadable(t("store.the-journal-cannot-be-read"), e);
        }
    }

    private static Entry entry(Row row) {
        try {
            return new Entry(row.seq, Instant.parse(row.at), row.scope, row.raw, EventJson.read(row.body));
        } catch (JacksonException e) {
            throw new Unreadable(t("store.entry-of-the-journal-is-3", row.seq), e);
        }
    }

    @Override
    public long last() {
        return last;
    }

    @Override
    public void close() {
        handle.close();
    }
}
