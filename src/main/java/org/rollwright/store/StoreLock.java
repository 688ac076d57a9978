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
import java.util.Optional;
import java.util.Set;

/// Keeps a second process from writing to a store. The lock lies on a byte behind the text of its file, so that
/// others can read who holds it, also where locks forbid reading.
final class StoreLock implements AutoCloseable {
    static final String FILE = "rollwright.lock";
    private static final int PLACE = 1_000;

    private final FileChannel channel;
    private boolean known;

    private StoreLock(FileChannel channel) {
        this.channel = channel;
    }

    /// Takes the lock of a folder; empty when another holds it.
    ///
    /// @throws IOException when the folder cannot be written to
    static Optional<StoreLock> take(Path folder) throws IOException {
        Path file = folder.resolve(FILE);
        if (!Files.exists(file)) {
            Disk.create(file).close();
        }
        StoreLock lock =
                new StoreLock(FileChannel.open(file, Set.of(StandardOpenOption.READ, StandardOpenOption.WRITE)));
        if (lock.taken()) {
            return Optional.of(lock);
        }
        lock.close();
        return Optional.empty();
    }

    private boolean taken() {
        try {
            FileLock held = channel.tryLock(PLACE, 1, false);
            known = held != null;
            return known;
        } catch (OverlappingFileLockException e) {
            return false;
        } catch (IOException e) {
            // A file system without locks: rather work than refuse; SQLite has its own.
            return true;
        }
    }

    /// Whether a process works on a folder's store now, as far as can be told.
    static boolean isHeld(Path folder) {
        try (FileChannel file = FileChannel.open(folder.resolve(FILE), StandardOpenOption.READ)) {
            FileLock probe = file.tryLock(PLACE, 1, true);
            return probe == null;
        } catch (OverlappingFileLockException e) {
            return true;
        } catch (IOException e) {
            return false;
        }
    }

    /// What the holder wrote of itself, for a person.
    static String holder(Path folder) {
        String who = Disk.bytes(folder.resolve(FILE))
                .map(bytes -> new String(bytes, StandardCharsets.UTF_8).strip())
                .orElse("");
        return who.isEmpty() || who.length() > 500 ? t("store.another-process") : who;
    }

    /// Whether the disk knows of locks, so that nobody else can have it.
    boolean isExclusive() {
        return known;
    }

    /// Says who holds it.
    void write(String who) {
        try {
            channel.truncate(0);
            channel.write(ByteBuffer.wrap((who + "\n").getBytes(StandardCharsets.UTF_8)), 0);
        } catch (IOException e) {
            // who holds it is a courtesy; the lock itself is what counts
        }
    }

    @Override
    public void close() {
        try {
            channel.close();
        } catch (IOException e) {
            // nothing can be done about it, and the lock goes with the process
        }
    }
}
