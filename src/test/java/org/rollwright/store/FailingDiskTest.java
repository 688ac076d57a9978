package org.rollwright.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.rollwright.desk.Desk;
import org.rollwright.journal.JournalException;

/// After an error of the disk the next line works as soon as the disk does, without a restart.
class FailingDiskTest {
    @TempDir
    private Path folder;

    @Test
    void a_full_disk_ends_nothing_for_good() {
        try (Store store = Stores.open(folder)) {
            Stores.add(store, 5);
        }
        Store.Opening opening = Store.open(folder, Store.Mode.WRITE, java.time.InstantSource.system(), 8);
        int kept = 5;
        try (Store store = ((Store.Opening.Opened) opening).store()) {
            String message = "";
            for (int i = 0; i < 500 && message.isEmpty(); i++) {
                try {
                    Stores.add(store, "Box " + (kept + 1));
                    kept++;
                } catch (JournalException e) {
                    message = String.valueOf(e.getMessage());
                }
            }
            assertThat(message).contains("the disk is full");
            assertThatThrownBy(() -> Stores.add(store, "another"))
                    .as("still full, and still said as such")
                    .isInstanceOf(JournalException.class)
                    .hasMessageContaining("the disk is full");
            store.mostPages(0);
            assertThat(Stores.add(store, "Box " + (kept + 1))).isInstanceOf(Desk.Outcome.Kept.class);
            kept++;
            assertThat(Stores.labels(store)).isEqualTo(Stores.boxes(kept));
        }
        assertThat(Stores.labels(folder)).isEqualTo(Stores.boxes(kept));
        assertThat(Stores.bad(folder)).isEmpty();
    }

    @Test
    void another_program_holding_the_store_is_waited_for_named_and_then_forgotten() throws Exception {
        try (Store store = Stores.open(folder)) {
            Stores.add(store, 3);
            try (Handle other = Jdbi.open("jdbc:sqlite:" + folder.resolve(Database.FILE))) {
                other.execute("begin immediate");
                assertThatThrownBy(() -> Stores.add(store, "refused"))
                        .isInstanceOf(JournalException.class)
                        .hasMessageContaining("another program");
                other.execute("rollback");
            }
            Stores.add(store, 3);
            assertThat(Stores.labels(store)).isEqualTo(Stores.boxes(6));
        }
        assertThat(Stores.labels(folder)).isEqualTo(Stores.boxes(6));
    }

    @Test
    void an_entry_that_was_refused_but_reached_the_disk_is_taken_out_again() {
        try (Store store = Stores.open(folder)) {
            Stores.add(store, 3);
            store.shake();
            // as a commit whose synchronisation was reported failed and was not
            try (Handle other = Jdbi.open("jdbc:sqlite:" + folder.resolve(Database.FILE))) {
                other.execute(
                        "insert into entry select 4, at, scope, 'refused', body, checksum from entry where seq = 3");
            }
            Stores.add(store, 1);
            assertThat(Stores.labels(store)).isEqualTo(Stores.boxes(4));
        }
        assertThat(Stores.labels(folder)).isEqualTo(Stores.boxes(4));
    }

    @Test
    void a_place_where_the_library_cannot_be_unpacked_is_passed_over_and_named_when_there_is_no_other()
            throws Exception {
        Path file = Files.writeString(folder.resolve("file"), "no folder");
        Path good = folder.resolve("good");
        NativeLibrary.load(List.of(file.resolve("below"), good));
        assertThat(good).isDirectoryContaining(path -> path.toString().contains("sqlitejdbc"));
        assertThatThrownBy(() -> NativeLibrary.load(List.of(file.resolve("below"))))
                .isInstanceOf(NativeLibrary.Missing.class)
                .hasMessageContaining(file.toString())
                .hasMessageContaining("Your data are untouched");
    }

    @Test
    void a_damaged_library_is_unpacked_anew() throws IOException, NativeLibrary.Missing {
        Path place = folder.resolve("place");
        NativeLibrary.load(List.of(place));
        Path library = Disk.files(place).getFirst();
        byte[] right = Files.readAllBytes(library);
        Stores.flip(library, 80_000);
        NativeLibrary.load(List.of(place));
        assertThat(Files.readAllBytes(library)).isEqualTo(right);
    }
}
