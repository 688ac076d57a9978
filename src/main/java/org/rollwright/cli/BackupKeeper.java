package org.rollwright.cli;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.Optional;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.rollwright.store.Backups;
import org.rollwright.store.Settings;

/// Sees to a backup a day while the tool runs.
final class BackupKeeper implements Runnable {
    private static final Logger LOG = Logger.getLogger(BackupKeeper.class.getName());
    private static final Duration DUE = Duration.ofHours(20);

    private final Path folder;
    private final InstantSource clock;

    BackupKeeper(Path folder, InstantSource clock) {
        this.folder = folder;
        this.clock = clock;
    }

    /// Makes one when the newest, but for those dated in the future, is older than most of a day. A failure is
    /// logged and tried again later; it never disturbs the hunt.
    @Override
    public void run() {
        Backups backups = new Backups(new Settings(folder).backups());
        Instant now = clock.instant();
        Optional<Instant> newest = backups.newest(now);
        if (newest.isPresent() && Duration.between(newest.get(), now).compareTo(DUE) < 0) {
            return;
        }
        try {
            backups.make(folder, now).warnings().forEach(warning -> LOG.log(Level.WARNING, warning));
        } catch (Backups.Failed e) {
            LOG.log(Level.WARNING, e.getMessage());
        } catch (RuntimeException e) {
            // a scheduled task that throws would not be called again
            LOG.log(Level.WARNING, "backup", e);
        }
    }
}
