package org.rollwright.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicLong;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/// What is acknowledged is committed: a second connection, which sees committed rows only, looks at every number the
/// moment it is given out, while states are saved and backups made as fast as they can be.
class AcknowledgedTest {
    private record Seen(long acknowledged, long uncommitted) {}

    private static Seen hunt(Path folder, int entries, int saveEveryMillis) throws Exception {
        try (Store store = Stores.open(folder);
                ExecutorService saver = Executors.newSingleThreadExecutor();
                Session second = Database.beside(folder.resolve(Database.FILE))) {
            AtomicBoolean done = new AtomicBoolean();
            AtomicLong saves = new AtomicLong();
            Future<?> saving = saver.submit(() -> {
                while (!done.get()) {
                    store.saveSnapshotNow();
                    saves.incrementAndGet();
                    Thread.sleep(saveEveryMillis);
                }
                return null;
            });
            long uncommitted = 0;
            for (int i = 0; i < entries; i++) {
                Stores.add(store, "Box");
                long acknowledged = store.end().seq();
                uncommitted += SqliteJournal.last(second).seq() < acknowledged ? 1 : 0;
            }
            done.set(true);
            saving.get();
            assertThat(saves.get()).isPositive();
            return new Seen(entries, uncommitted);
        }
    }

    @Property(tries = 6)
    void every_number_given_out_is_seen_by_a_second_connection(
            @ForAll @IntRange(min = 50, max = 300) int entries, @ForAll @IntRange(min = 0, max = 5) int saveEvery)
            throws Exception {
        Path folder = java.nio.file.Files.createTempDirectory("rollwright-test");
        try {
            assertThat(hunt(folder, entries, saveEvery).uncommitted).isZero();
        } finally {
            Disk.deleteQuietly(folder);
        }
    }

    @Test
    void the_journal_keeps_its_connection_for_itself(@TempDir Path folder) throws Exception {
        try (Store store = Stores.open(folder);
                Session second = Database.beside(folder.resolve(Database.FILE))) {
            Stores.add(store, 250);
            long before = second.number("pragma data_version");
            store.saveSnapshotNow();
            long after = second.number("pragma data_version");
            assertThat(after)
                    .as("saving a state writes nothing into the journal's file")
                    .isEqualTo(before);
            assertThat(new Snapshots(folder).load()).isPresent();
        }
    }
}
