package org.rollwright.cli.serve;

import static org.rollwright.text.Texts.t;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
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
    private final UnaryOperator<String> advice;
    private volatile String trouble = "";
    private boolean failed;

    /// @param advice makes sentences name the folder they are about
    BackupKeeper(Path folder, InstantSource clock, UnaryOperator<String> advice) {
        this.folder = folder;
        this.clock = clock;
        this.advice = advice;
    }

    /// Why the last backup was not made, or what is missing in it; blank when all is well.
    String trouble() {
        return trouble;
    }

    /// Makes one when the newest, but for those dated in the future, is older than most of a day. A failure is
    /// told on the pages and tried again later; it never disturbs the hunt.
    @Override
    public void run() {
        Backups backups = new Backups(new Settings(folder).backups());
        backups.makePrivate();
        Instant now = clock.instant();
        Optional<Instant> newest = backups.newest(now);
        if (newest.isPresent() && Duration.between(newest.get(), now).compareTo(DUE) < 0) {
            // made by hand since
            trouble = failed ? "" : trouble;
            failed = false;
            return;
        }
        try {
            List<String> warnings = backups.make(folder, now).warnings();
            tell(warnings.isEmpty() ? "" : t("store.backup-made-but", String.join(" ", warnings)));
            failed = false;
        } catch (Backups.Failed e) {
            tell(t("store.backup-retried", e.getMessage()));
            failed = true;
        } catch (RuntimeException e) {
            // a scheduled task that throws would not be called again
            LOG.log(Level.WARNING, "backup", e);
            tell(t("store.backup-retried", ""));
            failed = true;
        }
    }

    private void tell(String sentence) {
        trouble = advice.apply(sentence).strip();
        if (!trouble.isEmpty()) {
            LOG.log(Level.WARNING, trouble);
        }
    }
}
