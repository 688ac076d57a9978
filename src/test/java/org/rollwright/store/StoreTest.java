package org.rollwright.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.util.Map;
import java.util.Random;
import java.util.TreeSet;
import org.jdbi.v3.core.Jdbi;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.rollwright.coin.Denomination;
import org.rollwright.desk.Desk;
import org.rollwright.desk.EventKinds;
import org.rollwright.desk.Histories;
import org.rollwright.desk.StateText;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.journal.JournalException;

class StoreTest {
    private static final InstantSource CLOCK = () -> Instant.parse("2026-03-01T19:00:00Z");

    @TempDir
    private Path folder;

    private Store open() {
        Store.Opening opening = Store.open(folder, Store.Mode.WRITE, CLOCK);
        assertThat(opening).isInstanceOf(Store.Opening.Opened.class);
        return ((Store.Opening.Opened) opening).store();
    }

    private Jdbi database() {
        return Jdbi.create("jdbc:sqlite:" + folder.resolve("rollwright.db"));
    }

    private static String state(Store store) {
        return store.desk().read(StateText::of);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6})
    void a_state_survives_closing_with_and_without_a_snapshot(long seed) throws IOException {
        String before;
        try (Store store = open()) {
            Histories.continued(store.desk(), new Random(seed), 400);
            before = state(store);
        }
        assertThat(folder.resolve(Snapshots.FILE)).exists();
        try (Store store = open()) {
            assertThat(state(store)).as("from the snapshot").isEqualTo(before);
            Histories.continued(store.desk(), new Random(seed + 100), 60);
            before = state(store);
        }
        try (Store store = open()) {
            assertThat(state(store)).as("snapshot and later entries").isEqualTo(before);
        }
        Files.delete(folder.resolve(Snapshots.FILE));
        try (Store store = open()) {
            assertThat(state(store)).as("from the journal alone").isEqualTo(before);
        }
    }

    @Test
    void what_was_done_before_the_snapshot_can_still_be_undone() {
        try (Store store = open()) {
            Histories.continued(store.desk(), new Random(7), 400);
        }
        try (Store store = open()) {
            int undone = 0;
            while (store.desk().undo(1, "<") instanceof Desk.Outcome.Kept) {
                undone++;
            }
            assertThat(undone).isPositive();
            String empty = state(store);
            for (int i = 0; i < undone; i++) {
                assertThat(store.desk().redo(1, ">")).isInstanceOf(Desk.Outcome.Kept.class);
            }
            assertThat(state(store)).isNotEqualTo(empty);
        }
    }

    @Test
    void a_broken_snapshot_is_passed_over() throws IOException {
        String before;
        try (Store store = open()) {
            Histories.continued(store.desk(), new Random(8), 400);
            before = state(store);
        }
        byte[] snapshot = Files.readAllBytes(folder.resolve(Snapshots.FILE));
        snapshot[snapshot.length / 2] ^= 1;
        Files.write(folder.resolve(Snapshots.FILE), snapshot);
        try (Store store = open()) {
            assertThat(state(store)).isEqualTo(before);
        }
    }

    @Test
    void a_damaged_entry_is_named_and_nothing_is_skipped() {
        try (Store store = open()) {
            Histories.continued(store.desk(), new Random(9), 50);
        }
        database().useHandle(handle -> handle.execute("update entry set raw = 'x' where seq = 5"));
        Store.Opening opening = Store.open(folder, Store.Mode.WRITE, CLOCK);
        assertThat(opening).isInstanceOf(Store.Opening.Unusable.class);
        assertThat(((Store.Opening.Unusable) opening).sentence())
                .contains("Entry 5")
                .contains("checksum");
    }

    @Test
    void a_missing_entry_is_named() {
        try (Store store = open()) {
            Histories.continued(store.desk(), new Random(10), 50);
        }
        database().useHandle(handle -> handle.execute("delete from entry where seq = 7"));
        Store.Opening opening = Store.open(folder, Store.Mode.WRITE, CLOCK);
        assertThat(((Store.Opening.Unusable) opening).sentence())
                .contains("Entry 7")
                .contains("missing");
    }

    @Test
    void a_store_of_a_newer_version_is_left_alone() {
        open().close();
        database().useHandle(handle -> handle.execute("pragma user_version = 99"));
        assertThat(Store.open(folder, Store.Mode.WRITE, CLOCK)).isEqualTo(new Store.Opening.TooNew(99, Store.SCHEMA));
    }

    @Test
    void a_second_opening_is_told_who_holds_the_store_and_may_still_read() {
        try (Store store = open()) {
            store.serving("http://127.0.0.1:7300/");
            Store.Opening second = Store.open(folder, Store.Mode.WRITE, CLOCK);
            assertThat(second).isInstanceOf(Store.Opening.Busy.class);
            assertThat(((Store.Opening.Busy) second).who())
                    .contains("process " + ProcessHandle.current().pid())
                    .contains("7300");
            add(store);
            Store.Opening reading = Store.open(folder, Store.Mode.READ, CLOCK);
            assertThat(reading).isInstanceOf(Store.Opening.Opened.class);
            try (Store reader = ((Store.Opening.Opened) reading).store()) {
                assertThat(state(reader)).isEqualTo(state(store));
                assertThatThrownBy(() -> add(reader)).isInstanceOf(JournalException.class);
            }
        }
        open().close();
    }

    private static Desk.Outcome add(Store store) {
        return store.desk()
                .record(
                        0,
                        "",
                        book -> new HuntEvent.BoxAdded(
                                book.hunt().nextBox(), Denomination.US_CENT, BoxDetails.plain("Box", 50, 50)));
    }

    @Test
    void a_full_disk_is_said_plainly_and_nothing_acknowledged_is_lost() {
        open().close();
        Store.Opening opening = Store.open(folder, Store.Mode.WRITE, CLOCK, 40);
        int kept = 0;
        String message = "";
        String state;
        try (Store store = ((Store.Opening.Opened) opening).store()) {
            for (int i = 0; i < 5_000 && message.isEmpty(); i++) {
                try {
                    add(store);
                    kept++;
                } catch (JournalException e) {
                    message = String.valueOf(e.getMessage());
                }
            }
            state = state(store);
            int boxes = store.desk().read(book -> book.hunt().boxes().size());
            assertThat(boxes).isEqualTo(kept);
        }
        assertThat(message).contains("the disk is full").contains("your line is kept");
        try (Store store = open()) {
            assertThat(state(store)).isEqualTo(state);
            assertThat(add(store)).as("with space again, it goes on").isInstanceOf(Desk.Outcome.Kept.class);
        }
    }

    @Test
    void a_folder_that_is_none_and_a_file_that_is_no_store_are_said_plainly() throws IOException {
        Path file = folder.resolve("file");
        Files.writeString(file, "not a folder");
        assertThat(((Store.Opening.Unusable) Store.open(file, Store.Mode.WRITE, CLOCK)).sentence())
                .contains("cannot be written");
        Path other = Files.createDirectory(folder.resolve("other"));
        Files.writeString(
                other.resolve("rollwright.db"), "this is no database at all, but long enough to be read as one");
        assertThat(((Store.Opening.Unusable) Store.open(other, Store.Mode.WRITE, CLOCK)).sentence())
                .contains("damaged or no store");
        assertThat(((Store.Opening.Unusable) Store.open(folder.resolve("none"), Store.Mode.READ, CLOCK)).sentence())
                .contains("no store");
    }

    @Test
    void every_kind_of_event_has_its_name_and_no_name_changes() {
        assertThat(EventJson.NAMES.keySet()).isEqualTo(EventKinds.all());
        // The names are the journal's format: a name that a version was released with never changes.
        assertThat(new TreeSet<>(EventJson.NAMES.values()))
                .contains(
                        "album-defined",
                        "album-removed",
                        "attributed",
                        "batch",
                        "box-added",
                        "box-changed",
                        "box-joined",
                        "box-tallied",
                        "branch-removed",
                        "branch-written",
                        "cash-moved",
                        "checked",
                        "coin-acquired",
                        "coin-added",
                        "coin-described",
                        "coin-submitted",
                        "coins-left",
                        "coins-put",
                        "cup-begun",
                        "cup-read",
                        "effort-noted",
                        "enders-seen",
                        "find-corrected",
                        "find-deleted",
                        "find-disposed",
                        "find-logged",
                        "find-moved",
                        "find-split",
                        "holes-filled",
                        "hunt-finished",
                        "hunt-resumed",
                        "hunt-started",
                        "marked",
                        "metal-priced",
                        "noted",
                        "opening-balance",
                        "order-ended",
                        "order-placed",
                        "photo-kept",
                        "photo-taken",
                        "pile-counted",
                        "place-made",
                        "place-removed",
                        "policy-changed",
                        "price-forgotten",
                        "price-noted",
                        "redone",
                        "roll-counted",
                        "roll-left",
                        "roll-opened",
                        "undone",
                        "variety-removed",
                        "variety-written",
                        "watch-began",
                        "watch-ended",
                        "weighed");
    }

    @Test
    void an_event_of_a_newer_version_is_not_guessed_at() {
        open().close();
        database()
                .useHandle(handle -> handle.execute(
                        "insert into entry values (1, '2026-01-01T00:00:00Z', 0, '', '{\"type\":\"holograms\"}', 0)"));
        long checksum = checksum("1\n2026-01-01T00:00:00Z\n0\n\n{\"type\":\"holograms\"}");
        database().useHandle(handle -> handle.execute("update entry set checksum = ?", checksum));
        Store.Opening opening = Store.open(folder, Store.Mode.WRITE, CLOCK);
        assertThat(((Store.Opening.Unusable) opening).sentence()).contains("newer version");
    }

    private static long checksum(String text) {
        java.util.zip.CRC32 crc = new java.util.zip.CRC32();
        crc.update(text.getBytes(java.nio.charset.StandardCharsets.UTF_8));
        return crc.getValue();
    }

    @Test
    void the_data_folder_is_the_usual_one_of_each_system() {
        Path home = Path.of("/home/hunter");
        assertThat(DataFolder.usual(Map.of(), "Linux", home))
                .isEqualTo(Path.of("/home/hunter/.local/share/rollwright"));
        assertThat(DataFolder.usual(Map.of("XDG_DATA_HOME", "/data"), "Linux", home))
                .isEqualTo(Path.of("/data/rollwright"));
        assertThat(DataFolder.usual(Map.of("XDG_DATA_HOME", "relative"), "Linux", home))
                .isEqualTo(Path.of("/home/hunter/.local/share/rollwright"));
        assertThat(DataFolder.usual(Map.of(), "Mac OS X", home))
                .isEqualTo(Path.of("/home/hunter/Library/Application Support/Rollwright"));
        assertThat(DataFolder.usual(Map.of("APPDATA", "/roaming"), "Windows 11", home))
                .isEqualTo(Path.of("/roaming/Rollwright"));
    }

    @Test
    void a_users_own_series_loads_and_a_bad_row_is_named() throws IOException {
        Path series = Files.createDirectories(folder.resolve("catalog/series"));
        String header =
                "country,denomination,year,mint,kind,design,words,alloy,issued,mintage,rarity,check,note,source\n";
        Files.writeString(
                series.resolve("my-halves.csv"),
                header + "US,half,1999,W,,my own,mine,us-half-clad,circulation,12,key,,,mine\n");
        Files.writeString(
                series.resolve("bad.csv"), header + "US,half,abcd,P,,bad,,us-half-clad,circulation,,,,,mine\n");
        CatalogTexts.Texts texts = CatalogTexts.read(folder);
        var loaded = org.rollwright.catalog.CatalogLoader.load(texts.files());
        assertThat(loaded.catalog().series())
                .extracting(one -> one.id())
                .contains("my-halves")
                .doesNotContain("bad");
        assertThat(loaded.problems()).singleElement().satisfies(problem -> {
            assertThat(problem.file()).isEqualTo("your catalog/series/bad.csv");
            assertThat(problem.line()).isEqualTo(2);
            assertThat(problem.column()).isEqualTo("year");
            assertThat(problem.toString()).contains("abcd").contains("whole number");
        });
    }
}
