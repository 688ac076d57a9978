package org.rollwright.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;

/// A store opened to be looked at: nothing in its folder changes, whether a tool works on it, it was killed, or
/// it lies on a disk that cannot be written to.
///
/// @param session reads what is committed
/// @param copy where a copy lies that goes with it; empty when the store itself is read
record ReadAccess(Session session, Optional<Path> copy) implements AutoCloseable {
    /// Opens a folder's store.
    ///
    /// @throws Session.Failure when it cannot be opened
    static ReadAccess open(Path folder) {
        Path file = folder.resolve(Database.FILE);
        if (StoreLock.isHeld(folder)) {
            return new ReadAccess(Database.beside(file), Optional.empty());
        }
        if (!Database.hasLog(file)) {
            return new ReadAccess(Database.frozen(file), Optional.empty());
        }
        // reading a log in place would leave its index behind, and cannot be done on a disk that is read only
        Optional<Path> copy = copied(file);
        return copy.isPresent()
                ? new ReadAccess(Database.beside(copy.get().resolve(Database.FILE)), copy)
                : new ReadAccess(Database.beside(file), Optional.empty());
    }

    private static Optional<Path> copied(Path file) {
        try {
            Path copy = Files.createTempDirectory("rollwright-look");
            try {
                Disk.copyPlain(file, copy.resolve(Database.FILE));
                Disk.copyPlain(file.resolveSibling(Database.WAL), copy.resolve(Database.WAL));
                return Optional.of(copy);
            } catch (IOException e) {
                Disk.deleteQuietly(copy);
                return Optional.empty();
            }
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    @Override
    public void close() {
        session.close();
        copy.ifPresent(Disk::deleteQuietly);
    }
}
