package org.rollwright.store;

import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Properties;
import org.jspecify.annotations.Nullable;

/// A connection to a store's file and the few ways it is asked, none of which has a person's text in its statement.
/// Used by one thread at a time. Why no library stands here is told in docs/decisions/0020-plain-jdbc.md.
final class Session implements AutoCloseable {
    /// What the database answered instead of doing what it was asked. Its cause is the database's own.
    static final class Failure extends RuntimeException {
        private static final long serialVersionUID = 1L;

        Failure(Throwable cause) {
            super(cause.getMessage(), cause);
        }
    }

    /// Makes something of the row a result stands at; never null, which would end the rows.
    interface Mapper<T> {
        T map(ResultSet row) throws SQLException;
    }

    /// Work that the database may refuse.
    interface Work<T> {
        T run() throws SQLException;
    }

    private final Connection connection;

    private Session(Connection connection) {
        this.connection = connection;
    }

    /// @param address of the database, `jdbc:` first
    /// @throws Failure when it cannot be opened
    static Session open(String address, Properties settings) {
        return tried(() -> new Session(DriverManager.getConnection(address, settings)));
    }

    private static <T> T tried(Work<T> work) {
        try {
            return work.run();
        } catch (SQLException e) {
            throw new Failure(e);
        }
    }

    /// Every row of an answer.
    ///
    /// @param values of the places marked `?`, first to last
    /// @throws Failure when it is refused or cannot be read
    <T> List<T> all(String sql, Mapper<T> mapper, Object... values) {
        List<T> all = new ArrayList<>();
        try (Rows<T> rows = rows(sql, mapper, values)) {
            for (T row = rows.next(); row != null; row = rows.next()) {
                all.add(row);
            }
        }
        return all;
    }

    /// The first row of an answer, empty when it has none.
    ///
    /// @throws Failure when it is refused or cannot be read
    <T> Optional<T> first(String sql, Mapper<T> mapper, Object... values) {
        try (Rows<T> rows = rows(sql, mapper, values)) {
            return Optional.ofNullable(rows.next());
        }
    }

    /// The one number an answer consists of.
    ///
    /// @throws Failure when it is refused, cannot be read or has no row
    long number(String sql) {
        return first(sql, row -> row.getLong(1))
                .orElseThrow(() -> new Failure(new SQLException("no row answers " + sql)));
    }

    /// The rows of an answer one after the other, as they are read.
    ///
    /// @throws Failure when it is refused
    <T> Rows<T> rows(String sql, Mapper<T> mapper, Object... values) {
        return tried(() -> {
            PreparedStatement statement = connection.prepareStatement(sql);
            try {
                bind(statement, values);
                return new Rows<>(statement, statement.executeQuery(), mapper);
            } catch (SQLException e) {
                try (statement) {
                    throw e;
                }
            }
        });
    }

    /// Does what has no answer.
    ///
    /// @throws Failure when it is refused
    void execute(String sql, Object... values) {
        tried(() -> {
            try (PreparedStatement statement = connection.prepareStatement(sql)) {
                bind(statement, values);
                return statement.execute();
            }
        });
    }

    private static void bind(PreparedStatement statement, Object... values) throws SQLException {
        for (int i = 0; i < values.length; i++) {
            statement.setObject(i + 1, values[i]);
        }
    }

    /// A statement to be used again and again.
    PreparedStatement prepared(String sql) throws SQLException {
        return connection.prepareStatement(sql);
    }

    /// All of it or nothing.
    ///
    /// @throws Failure when it is refused; nothing of it is kept then, and when even that fails the session is over
    <T> T inTransaction(Work<T> work) {
        return tried(() -> {
            connection.setAutoCommit(false);
            T done;
            try {
                done = work.run();
                connection.commit();
            } catch (SQLException | RuntimeException | Error e) {
                takeBack(e);
                throw e;
            }
            connection.setAutoCommit(true);
            return done;
        });
    }

    /// Ends a transaction without keeping any of it. Autocommit is turned on only when that is done: turning it on
    /// commits what is open.
    private void takeBack(Throwable why) {
        try {
            connection.rollback();
            connection.setAutoCommit(true);
        } catch (SQLException e) {
            why.addSuppressed(e);
            closeQuietly(why);
        }
    }

    private void closeQuietly(Throwable why) {
        try {
            connection.close();
        } catch (SQLException e) {
            why.addSuppressed(e);
        }
    }

    /// @throws Failure when the database could not end it properly
    @Override
    public void close() {
        tried(() -> {
            connection.close();
            return true;
        });
    }

    /// Rows of an answer that is being read.
    static final class Rows<T> implements AutoCloseable {
        private final PreparedStatement statement;
        private final ResultSet result;
        private final Mapper<T> mapper;

        private Rows(PreparedStatement statement, ResultSet result, Mapper<T> mapper) {
            this.statement = statement;
            this.result = result;
            this.mapper = mapper;
        }

        /// The next one, null behind the last.
        ///
        /// @throws Failure when it cannot be read
        @Nullable
        T next() {
            try {
                return result.next() ? mapper.map(result) : null;
            } catch (SQLException e) {
                throw new Failure(e);
            }
        }

        @Override
        public void close() {
            tried(() -> {
                statement.close();
                return true;
            });
        }
    }
}
