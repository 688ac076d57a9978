package org.rollwright.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.rollwright.coin.Denomination;
import org.rollwright.desk.Desk;
import org.rollwright.desk.Histories;
import org.rollwright.desk.StateText;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.scope.PhotoSubject;
import org.rollwright.scope.ScopeEvent;
import org.rollwright.scope.picture.PaintedCoin;
import org.rollwright.scope.picture.Photo;
import org.rollwright.scope.picture.PhotoReader;

class BackupTest {
    private static final Instant NOW = Instant.parse("2026-03-01T19:00:00Z");

    @TempDir
    private Path folder;

    private Store open(Path data) {
        Store.Opening opening = Store.open(data, Store.Mode.WRITE, InstantSource.fixed(NOW));
        assertThat(opening).isInstanceOf(Store.Opening.Opened.class);
        return ((Store.Opening.Opened) opening).store();
    }

    private static String state(Store store) {
        return store.desk().read(StateText::of);
    }

    private Photo photograph(Store store, Path data) {
        if (!(PhotoReader.read(PaintedCoin.png(PaintedCoin.paint(null))) instanceof PhotoReader.Read.Good good)) {
            throw new AssertionError("refused");
        }
        Photo photo = good.photo();
        new PhotoFolder(data).keep(photo);
        store.desk()
                .record(
                        0,
                        "",
                        book -> new ScopeEvent.PhotoKept(
                                photo.id(), photo.width(), photo.height(), PhotoSubject.BENCH, ""));
        return photo;
    }

    @Test
    void a_backup_beside_a_running_tool_restores_the_same_store() throws Exception {
        Path data = folder.resolve("data");
        Backups backups = new Backups(folder.resolve("other disk"));
        String then;
        try (Store store = open(data)) {
            Histories.continued(store.desk(), new Random(3), 300);
            Photo photo = photograph(store, data);
            Files.createDirectories(data.resolve("catalog"));
            Files.writeString(data.resolve("catalog/watches.csv"), "watch,words,rule,meaning\n");
            then = state(store);
            Backups.Backup made = backups.make(data, NOW);
            assertThat(made.photographs()).isEqualTo(1);
            // what happens later is not in it
            store.desk()
                    .record(
                            0,
                            "",
                            book -> new HuntEvent.BoxAdded(
                                    book.hunt().nextBox(), Denomination.US_CENT, BoxDetails.plain("later", 50, 50)));
            assertThat(state(store)).isNotEqualTo(then);
            assertThat(new PhotoFolder(folder.resolve("nowhere")).jpeg(photo.id()))
                    .isEmpty();
        }
        Path again = folder.resolve("again");
        Backups.Backup restored = backups.restore(backups.all().getFirst(), again);
        assertThat(restored.photographs()).isEqualTo(1);
        assertThat(again.resolve("catalog/watches.csv")).exists();
        try (Store store = open(again)) {
            assertThat(state(store)).isEqualTo(then);
        }
        assertThatThrownBy(() -> backups.restore(backups.all().getFirst(), again))
                .isInstanceOf(Backups.Failed.class)
                .hasMessageContaining("There is a store in");
        assertThat(Checkup.of(again, NOW))
                .filteredOn(finding -> finding.weight() == Checkup.Weight.BAD)
                .isEmpty();
    }

    @Test
    void a_damaged_store_makes_no_backup_and_the_good_one_stays() throws Exception {
        Path data = folder.resolve("data");
        Backups backups = new Backups(folder.resolve("backups"));
        try (Store store = open(data)) {
            Histories.continued(store.desk(), new Random(4), 300);
        }
        backups.make(data, NOW);
        org.jdbi.v3.core.Jdbi.create("jdbc:sqlite:" + data.resolve("rollwright.db"))
                .useHandle(handle -> handle.execute("update entry set raw = 'x' where seq = 5"));
        assertThatThrownBy(() -> backups.make(data, NOW.plusSeconds(60)))
                .isInstanceOf(Backups.Failed.class)
                .hasMessageContaining("Entry 5");
        assertThat(backups.all()).hasSize(1);
        assertThat(folder.resolve("backups")).isDirectoryNotContaining("glob:**.part");
        assertThat(Checkup.of(data, NOW))
                .filteredOn(finding -> finding.weight() == Checkup.Weight.BAD)
                .singleElement()
                .satisfies(finding -> assertThat(finding.what()).contains("Entry 5"));
    }

    @Test
    void a_check_names_photographs_missing_and_damaged_and_old_backups() throws Exception {
        Path data = folder.resolve("data");
        Photo photo;
        try (Store store = open(data)) {
            photo = photograph(store, data);
        }
        Path file = data.resolve("photos").resolve(photo.id().substring(0, 2)).resolve(photo.id() + ".jpg");
        byte[] bytes = Files.readAllBytes(file);
        bytes[bytes.length / 2] ^= 1;
        Files.write(file, bytes);
        assertThat(words(data)).anyMatch(words -> words.contains("1 photograph is damaged"));
        Files.delete(file);
        assertThat(words(data))
                .anyMatch(words -> words.contains("1 photograph is missing"))
                .anyMatch(words -> words.contains("There is no backup"));
        new Backups(new Settings(data).backups()).make(data, NOW.minusSeconds(20L * 24 * 3600));
        assertThat(words(data))
                .anyMatch(words -> words.contains("The newest backup is 20 days old"))
                .anyMatch(words -> words.contains("on the same disk as the data"));
        assertThat(Checkup.isNetwork("nfs4")).isTrue();
        assertThat(Checkup.isNetwork("ext4")).isFalse();
    }

    private static List<String> words(Path data) {
        return Checkup.of(data, NOW).stream().map(Checkup.Finding::what).toList();
    }

    @Test
    void rotation_keeps_the_newest_a_dozen_weeks_and_every_month() {
        List<LocalDateTime> daily = new ArrayList<>();
        for (int day = 0; day < 400; day++) {
            daily.add(LocalDateTime.of(2026, 3, 1, 19, 0).minusDays(day));
        }
        List<LocalDateTime> left = new ArrayList<>(daily);
        left.removeAll(Rotation.superfluous(daily));
        assertThat(left).hasSizeBetween(10 + 10 + 12, 10 + 12 + 15);
        assertThat(left).startsWith(daily.subList(0, 10).toArray(new LocalDateTime[0]));
        assertThat(left.stream().map(java.time.YearMonth::from).distinct()).hasSize(15);
        // thinning day by day leaves the same months
        List<LocalDateTime> kept = new ArrayList<>();
        for (LocalDateTime day : daily.reversed()) {
            kept.add(day);
            kept.removeAll(Rotation.superfluous(kept));
        }
        assertThat(kept.stream().map(java.time.YearMonth::from).distinct()).hasSize(15);
        assertThat(kept).contains(daily.getFirst());
    }

    @Test
    void settings_remember_the_folder_and_survive_nonsense() throws Exception {
        Settings settings = new Settings(folder);
        assertThat(settings.named()).isEmpty();
        settings.backups(folder.resolve("a b"));
        assertThat(settings.named()).contains(folder.resolve("a b"));
        Files.write(folder.resolve("settings.properties"), new byte[] {'\\', 'u', 'x', 0});
        assertThat(settings.backups()).isEqualTo(folder.resolve("backups"));
    }

    /// A clock set back: entries keep their order, and nothing depends on their times rising.
    @Test
    void a_clock_jumping_back_changes_no_order() {
        Instant[] now = {NOW};
        Path data = folder.resolve("data");
        String before;
        try (Store store = ((Store.Opening.Opened) Store.open(data, Store.Mode.WRITE, () -> now[0])).store()) {
            for (int i = 0; i < 30; i++) {
                now[0] = NOW.minusSeconds(3_600L * i);
                int number = i;
                assertThat(store.desk()
                                .record(
                                        0,
                                        "",
                                        book -> new HuntEvent.BoxAdded(
                                                book.hunt().nextBox(),
                                                Denomination.US_CENT,
                                                BoxDetails.plain("Box " + number, 50, 50))))
                        .isInstanceOf(Desk.Outcome.Kept.class);
            }
            store.desk().undo(0, "<");
            before = state(store);
        }
        try (Store store = open(data)) {
            assertThat(state(store)).isEqualTo(before);
            int boxes = store.desk().read(book -> book.hunt().boxes().size());
            assertThat(boxes).isEqualTo(29);
        }
    }
}
