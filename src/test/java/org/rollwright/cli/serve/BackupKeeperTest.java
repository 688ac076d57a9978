package org.rollwright.cli.serve;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.rollwright.store.Backups;
import org.rollwright.store.Settings;
import org.rollwright.store.Store;

/// A backup that fails by itself, at night, is told where the hunter looks: on every page.
class BackupKeeperTest {
    private static final Instant NOW = Instant.parse("2026-03-01T19:00:00Z");

    @TempDir
    private Path folder;

    private static Store open(Path data) {
        return ((Store.Opening.Opened) Store.open(data, Store.Mode.WRITE, InstantSource.fixed(NOW))).store();
    }

    @Test
    void a_backup_that_cannot_be_made_is_told_until_one_is() throws IOException {
        Path data = folder.resolve("data");
        try (Store store = open(data)) {
            assertThat(store.desk()).isNotNull();
            Path taken = Files.writeString(folder.resolve("a file, no folder"), "");
            new Settings(data).backups(taken);
            BackupKeeper keeper = new BackupKeeper(data, InstantSource.fixed(NOW), text -> text);
            assertThat(keeper.trouble()).isEmpty();
            keeper.run();
            assertThat(keeper.trouble()).contains("daily backup was not made", taken.toString());

            Path good = folder.resolve("backups");
            new Settings(data).backups(good);
            keeper.run();
            assertThat(keeper.trouble()).isEmpty();
            assertThat(new Backups(good).latest(NOW)).isPresent();
        }
    }

    @Test
    void a_backup_made_by_hand_ends_the_complaint() throws Exception {
        Path data = folder.resolve("data");
        try (Store store = open(data)) {
            assertThat(store.desk()).isNotNull();
            Path place = Files.writeString(folder.resolve("backups"), "");
            new Settings(data).backups(place);
            BackupKeeper keeper = new BackupKeeper(data, InstantSource.fixed(NOW), text -> text);
            keeper.run();
            assertThat(keeper.trouble()).isNotEmpty();
            Files.delete(place);
            new Backups(place).make(data, NOW);
            keeper.run();
            assertThat(keeper.trouble()).isEmpty();
        }
    }
}
