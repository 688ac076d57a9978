package org.rollwright.store;

import static org.rollwright.text.Texts.t;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/// Looks a store's files over before anything is written to them: a store that is damaged, or that lacks what was
/// acknowledged, is not written to, because writing would destroy what could still be brought back.
final class Inspection {
    private Inspection() {}

    /// What is wrong with a store whose file is missing or empty; empty when none was ever there.
    static Optional<String> ofNothing(Path folder) {
        Optional<HighWater.Mark> mark = HighWater.read(folder).mark().filter(one -> one.seq() > 0);
        if (mark.isPresent()) {
            return Optional.of(t("store.file-missing", mark.get().seq()));
        }
        return Database.hasLog(folder.resolve(Database.FILE))
                ? Optional.of(t("store.log-without-store"))
                : Optional.empty();
    }

    /// What is wrong with a store; empty when nothing is.
    ///
    /// @param folder where the mark and the log lie
    /// @param mark what was acknowledged, read before the session was opened
    /// @param session reads what is committed, log included
    static Optional<String> of(Path folder, Optional<HighWater.Mark> mark, Session session) {
        try {
            List<String> structure = Database.structure(session);
            if (!structure.equals(List.of("ok"))) {
                return Optional.of(t("store.file-damaged", structure.getFirst()));
            }
            HighWater.Mark end = SqliteJournal.last(session);
            Optional<String> missing = mark.flatMap(acknowledged -> behind(acknowledged, end.seq(), reading(session)));
            if (missing.isPresent()) {
                return missing;
            }
            return Database.hasLog(folder.resolve(Database.FILE)) ? ofLog(folder, end, session) : Optional.empty();
        } catch (Session.Failure | IOException e) {
            return Optional.of(t("store.journal-unreadable"));
        }
    }

    private interface Checksums {
        Optional<Long> at(long seq);
    }

    private static Checksums reading(Session session) {
        return seq -> SqliteJournal.checksum(session, seq);
    }

    /// Whether a journal lacks what is known to have been in it.
    private static Optional<String> behind(HighWater.Mark known, long end, Checksums journal) {
        if (known.seq() > end) {
            return Optional.of(
                    known.seq() == end + 1
                            ? t("store.entry-lost", known.seq())
                            : t("store.entries-lost", end + 1, known.seq()));
        }
        boolean same = known.seq() == 0
                || journal.at(known.seq())
                        .filter(sum -> sum == known.checksum())
                        .isPresent();
        return same ? Optional.empty() : Optional.of(t("store.entry-is-another-than", known.seq()));
    }

    /// A log that hides transactions behind a damaged place, or that belongs to an earlier state of the store or to
    /// another store.
    private static Optional<String> ofLog(Path folder, HighWater.Mark end, Session session) throws IOException {
        Optional<WalFile> log = WalFile.read(folder.resolve(Database.WAL));
        if (log.isPresent() && log.get().hiddenTransactions() > 1) {
            return Optional.of(t("store.the-log-is-damaged", log.get().hiddenTransactions()));
        }
        HighWater.Mark alone;
        try (Session file = Database.frozen(folder.resolve(Database.FILE))) {
            alone = SqliteJournal.last(file);
        } catch (Session.Failure e) {
            // a log half folded in: the file alone need not make sense
            return Optional.empty();
        }
        Optional<String> lacks = behind(alone, end.seq(), reading(session));
        return lacks.isPresent() ? Optional.of(t("store.log-foreign")) : Optional.empty();
    }

    /// Whether a folder has a store's file with something in it.
    static boolean hasStore(Path folder) {
        try {
            return Files.size(folder.resolve(Database.FILE)) > 0;
        } catch (IOException e) {
            return false;
        }
    }
}
