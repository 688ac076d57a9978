package org.rollwright.store;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;

/// A turn at something that only one process may do at a time; it ends with the process at the latest.
final class Turn implements AutoCloseable {
    private final @Nullable FileChannel channel;
    private final boolean taken;
    private final boolean sure;

    private Turn(@Nullable FileChannel channel, boolean taken, boolean sure) {
        this.channel = channel;
        this.taken = taken;
        this.sure = sure;
    }

    /// Takes the turn that a file stands for.
    static Turn take(Path file) {
        FileChannel channel;
        try {
            channel = Disk.create(file);
        } catch (IOException e) {
            return new Turn(null, false, false);
        }
        try {
            FileLock held = channel.tryLock();
            return new Turn(channel, held == null, true);
        } catch (OverlappingFileLockException e) {
            return new Turn(channel, true, true);
        } catch (IOException e) {
            return new Turn(channel, false, false);
        }
    }

    /// Whether another has it.
    boolean isTaken() {
        return taken;
    }

    /// Whether the disk knows of locks, so that nobody else can have it.
    boolean isSure() {
        return sure && !taken;
    }

    @Override
    public void close() {
        FileChannel open = channel;
        if (open != null) {
            try {
                open.close();
            } catch (IOException e) {
                // it goes with the process
            }
        }
    }
}
