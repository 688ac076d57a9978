package org.rollwright.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.zip.GZIPInputStream;
import org.jdbi.v3.core.Jdbi;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.rollwright.coin.Denomination;
import org.rollwright.desk.Desk;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.HuntEvent;
import tools.jackson.databind.json.JsonMapper;

/// Stores that earlier versions of the tool wrote, with the snapshots of their time: they open, every entry
/// counts, and work goes on in them. Each time the journal's events grow, a store of that time joins them.
class EarlierStoresTest {
    @TempDir
    private Path folder;

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 4, 5})
    void a_store_of_an_earlier_version_opens_and_goes_on(int number) throws Exception {
        try (InputStream packed = EarlierStoresTest.class.getResourceAsStream("/stores/early-" + number + ".db.gz")) {
            Files.copy(new GZIPInputStream(packed), folder.resolve("rollwright.db"));
        }
        Instant now = Instant.parse("2026-11-25T00:00:00Z");
        // the tool's own copy of the database's machine code comes first; a second one beside it would be fatal
        NativeLibrary.load();
        List<String> bodies = Jdbi.create("jdbc:sqlite:" + folder.resolve("rollwright.db"))
                .withHandle(handle -> handle.createQuery("select body from entry order by seq")
                        .mapTo(String.class)
                        .list());
        int logged = bodies.stream()
                .mapToInt(body -> body.split("\"find-logged\"", -1).length - 1)
                .sum();
        JsonMapper json = new JsonMapper();
        assertThat(bodies)
                .allSatisfy(body -> assertThat(json.readTree(EventJson.write(EventJson.read(body))))
                        .isEqualTo(json.readTree(body)));
        Store.Opening opening = Store.open(folder, Store.Mode.WRITE, InstantSource.fixed(now));
        assertThat(opening).isInstanceOf(Store.Opening.Opened.class);
        try (Store store = ((Store.Opening.Opened) opening).store()) {
            int finds = store.desk().read(book -> book.hunt().finds().size());
            assertThat(finds).isEqualTo(logged).isGreaterThan(50);
            assertThat(store.desk()
                            .record(
                                    0,
                                    "",
                                    book -> new HuntEvent.BoxAdded(
                                            book.hunt().nextBox(),
                                            Denomination.US_CENT,
                                            BoxDetails.plain("new", 50, 50))))
                    .isInstanceOf(Desk.Outcome.Kept.class);
            assertThat(store.desk().undo(1, "<")).isInstanceOf(Desk.Outcome.Kept.class);
            assertThat(store.desk().redo(1, ">")).isInstanceOf(Desk.Outcome.Kept.class);
        }
        assertThat(Checkup.of(folder, now))
                .filteredOn(finding -> finding.weight() == Checkup.Weight.BAD)
                .isEmpty();
        new Backups(folder.resolve("backups")).make(folder, now);
    }
}
