package org.rollwright.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.rollwright.desk.StateText;
import org.rollwright.scope.picture.Photo;

/// One flipped bit anywhere: in the database, its log, the saved state, the mark, a photograph, a backup, the settings.
/// Either a check names it and exits badly or with care, or it is harmless: the store opens with the very same record,
/// every photograph is shown with the very same bytes, and the backup restores the same.
///
/// The number of flips is 120, or that of the system property `rollwright.flips`; bench/flips asks for 2,000.
class FlipTest {
    private static final int FLIPS = Integer.getInteger("rollwright.flips", 120);

    @TempDir
    private Path folder;

    private String record = "";
    private List<Photo> photos = List.of();
    private Map<String, String> settings = Map.of();

    private void fill(Path killed) throws Exception {
        Path data = folder.resolve("data");
        try (Store store = Stores.open(data)) {
            Stores.add(store, 150);
            photos = List.of(Stores.photograph(store, data, 1), Stores.photograph(store, data, 2));
            Stores.add(store, 100);
        }
        new Settings(data).choose(Map.of("region", "CA"));
        new Settings(data).backups(data.resolve("backups"));
        new Backups(data.resolve("backups")).make(data, Stores.NOW);
        try (Store store = Stores.open(data)) {
            Stores.add(store, 30);
            record = store.desk().read(StateText::of);
            Stores.copyAsKilled(data, killed);
        }
        settings = new Settings(data).all();
    }

    @Test
    void one_flipped_bit_is_noticed_or_harmless() throws Exception {
        Path killed = folder.resolve("killed");
        fill(killed);
        Map<String, Integer> noticed = new TreeMap<>();
        Map<String, Integer> harmless = new TreeMap<>();
        List<String> silent = new ArrayList<>();
        Random random = new Random(2000);
        List<Path> files = Disk.files(killed).stream()
                .filter(file -> !file.endsWith(StoreLock.FILE))
                .sorted()
                .toList();
        Path trial = folder.resolve("trial");
        Stores.copyAsKilled(killed, trial);
        assertThat(isTold(trial)).as("without a flip there is nothing to tell").isFalse();
        assertThat(isTheSame(trial)).as("without a flip all is the same").isTrue();
        for (int i = 0; i < FLIPS; i++) {
            Disk.deleteAll(trial);
            Stores.copyAsKilled(killed, trial);
            Path file = files.get(i % files.size());
            String name = killed.relativize(file).toString();
            long bit = random.nextLong(Files.size(file) * 8);
            Stores.flip(trial.resolve(name), bit);
            String kind = name.replaceAll("\\d{4}-\\d\\d-\\d\\dT\\d{6}", "TIME")
                    .replaceAll("[0-9a-f]{2}/[0-9a-f]{32}", "HASH");
            if (isTold(trial)) {
                noticed.merge(kind, 1, Integer::sum);
            } else if (isTheSame(trial)) {
                harmless.merge(kind, 1, Integer::sum);
            } else {
                silent.add(name + " bit " + bit);
            }
        }
        System.out.println(
                FLIPS + " bits flipped: noticed " + noticed + ", harmless " + harmless + ", silent " + silent.size());
        assertThat(silent).isEmpty();
        assertThat(noticed).isNotEmpty();
    }

    private static boolean isTold(Path trial) {
        // all of a test lies on one disk, which is told with a flip or without
        boolean told = Stores.troubles(trial).stream()
                .anyMatch(finding -> !finding.what().contains("on the same disk"));
        return told || isToldOfBackups(trial);
    }

    /// Of the copy's own backups: its settings name those of the original.
    private static boolean isToldOfBackups(Path trial) {
        Backups backups = new Backups(trial.resolve("backups"));
        for (Path backup : backups.all()) {
            try {
                Backups.Content content = Backups.read(backup, Stores.NOW);
                for (String photo : content.photographs()) {
                    if (backups.photographs().state(photo) != PhotoFolder.State.SOUND) {
                        return true;
                    }
                }
            } catch (Backups.Failed e) {
                return true;
            }
        }
        return backups.all().isEmpty();
    }

    private boolean isTheSame(Path trial) throws IOException {
        PhotoFolder shelf = new PhotoFolder(trial);
        for (Photo photo : photos) {
            if (!java.util.Arrays.equals(shelf.jpeg(photo.id()).orElse(new byte[0]), photo.jpeg())
                    || shelf.thumbnail(photo.id()).isEmpty()) {
                return false;
            }
        }
        try (Store store = Stores.open(trial)) {
            if (!store.desk().read(StateText::of).equals(record)) {
                return false;
            }
            Stores.add(store, 1);
        }
        Backups backups = new Backups(trial.resolve("backups"));
        Path again = trial.resolveSibling("again");
        Disk.deleteAll(again);
        try {
            Backups.Backup restored = backups.restore(backups.all().getFirst(), again);
            return restored.entries() == 252
                    && restored.warnings().isEmpty()
                    && new Settings(trial).all().equals(settings);
        } catch (Backups.Failed e) {
            return false;
        }
    }
}
