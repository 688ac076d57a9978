package org.rollwright.store;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.Properties;
import org.flywaydb.core.Flyway;

/// Connections to a store's file, each with what it may do to it.
final class Database {
    static final String FILE = "rollwright.db";
    static final String WAL = FILE + "-wal";
    static final String SHM = FILE + "-shm";

    private Database() {}

    /// Reads and writes: write-ahead log, a synchronisation at every commit. Closing the last one folds the log
    /// into the file.
    static Session write(Path file) {
        Properties settings = new Properties();
        settings.setProperty("journal_mode", "WAL");
        settings.setProperty("synchronous", "FULL");
        settings.setProperty("busy_timeout", "5000");
        settings.setProperty("foreign_keys", "true");
        // no file outside the data folder is needed to write an entry
        settings.setProperty("temp_store", "MEMORY");
        return open(address(file), settings);
    }

    /// Reads what is committed, log included, also while another process writes. Changes neither file nor log;
    /// it may leave the index of the log (`-shm`) behind, which has no content of its own.
    static Session beside(Path file) {
        Properties settings = new Properties();
        settings.setProperty("busy_timeout", "5000");
        settings.setProperty("temp_store", "MEMORY");
        return open(address(file) + "?mode=ro", settings);
    }

    /// Reads the file alone as it is, without its log and without locks, also on a disk that cannot be written to.
    static Session frozen(Path file) {
        Properties settings = new Properties();
        settings.setProperty("temp_store", "MEMORY");
        return open(address(file) + "?immutable=1", settings);
    }

    /// The library first: a connection before it would have the driver unpack and load another copy, and two copies
    /// in one process end it.
    private static Session open(String address, Properties settings) {
        try {
            NativeLibrary.load();
        } catch (NativeLibrary.Missing e) {
            throw new Session.Failure(e);
        }
        return Session.open(address, settings);
    }

    /// The address of a file as a URI, so that a folder's name may hold any character.
    static String address(Path file) {
        return "jdbc:sqlite:file:" + file.toAbsolutePath().toUri().getRawPath();
    }

    static void migrate(Path file) {
        Flyway.configure()
                .dataSource(address(file), "", "")
                .locations("classpath:db/migration")
                .load()
                .migrate();
    }

    /// Makes a new store under another name and gives it its own when it is whole: a power cut leaves either no
    /// store or one that opens.
    static void create(Path file) throws IOException {
        Path part = file.resolveSibling(FILE + ".part");
        try {
            deleteWithLogs(part);
            createEmpty(part);
            migrate(part);
            // from here on with a log, which is folded in at once
            write(part).close();
            try (FileChannel made = FileChannel.open(part, StandardOpenOption.WRITE)) {
                made.force(true);
            }
            Disk.move(part, file);
        } finally {
            deleteWithLogs(part);
        }
    }

    private static void deleteWithLogs(Path file) throws IOException {
        for (String ending : List.of("", "-wal", "-shm", "-journal")) {
            Files.deleteIfExists(file.resolveSibling(file.getFileName() + ending));
        }
    }

    /// What SQLite says of the file's structure; one answer "ok" when it is sound.
    static List<String> structure(Session session) {
        return session.all("pragma integrity_check(3)", row -> row.getString(1));
    }

    /// Whether there is a log with anything in it.
    static boolean hasLog(Path file) {
        try {
            return Files.size(file.resolveSibling(WAL)) > 0;
        } catch (IOException e) {
            return false;
        }
    }

    /// Makes the empty file of a store that is the owner's alone; the database takes over its modes for the log.
    static void createEmpty(Path file) throws IOException {
        try (FileChannel made = Disk.create(file)) {
            made.force(true);
        }
        Disk.syncParent(file);
    }
}
