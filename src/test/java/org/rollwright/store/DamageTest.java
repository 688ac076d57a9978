package org.rollwright.store;

import static java.nio.file.StandardCopyOption.REPLACE_EXISTING;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Properties;
import java.util.Random;
import java.util.TreeMap;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.rollwright.coin.Denomination;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.HuntEvent;

/// Damage to a store's files, its log above all: it is noticed before anything is written, nothing of what is
/// left is touched, and what is left can be brought back.
class DamageTest {
    private static final int ENTRIES = 60;

    @TempDir
    private Path folder;

    private Path data;
    private Path killed;

    /// A store of which 60 of 120 entries lie in the log alone, as after a kill.
    @BeforeEach
    void kill() throws IOException {
        data = folder.resolve("data");
        killed = folder.resolve("killed");
        try (Store store = Stores.open(data)) {
            Stores.add(store, ENTRIES);
        }
        try (Store store = Stores.open(data)) {
            Stores.add(store, ENTRIES);
            Stores.copyAsKilled(data, killed);
        }
        assertThat(Files.size(killed.resolve(Database.WAL))).isGreaterThan(100_000);
    }

    private static Map<String, String> bytes(Path folder) throws IOException {
        Map<String, String> all = new TreeMap<>();
        for (Path file : Disk.files(folder)) {
            all.put(
                    folder.relativize(file).toString(),
                    java.util.HexFormat.of().formatHex(sha256(Files.readAllBytes(file))));
        }
        return all;
    }

    private static byte[] sha256(byte[] bytes) {
        try {
            return java.security.MessageDigest.getInstance("SHA-256").digest(bytes);
        } catch (java.security.NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
    }

    @Test
    void a_killed_store_checks_sound_and_a_check_changes_nothing() throws IOException {
        Map<String, String> before = bytes(killed);
        assertThat(Stores.bad(killed)).isEmpty();
        assertThat(Checkup.of(killed, Stores.NOW))
                .anyMatch(finding -> finding.what().startsWith("120 entries"));
        assertThat(bytes(killed)).isEqualTo(before);
        assertThat(Stores.labels(killed)).isEqualTo(Stores.boxes(2 * ENTRIES));
    }

    @Test
    void a_flipped_bit_anywhere_in_the_log_is_noticed_and_every_other_entry_comes_back() throws Exception {
        Random random = new Random(33);
        long bits = Files.size(killed.resolve(Database.WAL)) * 8;
        Path trial = folder.resolve("trial");
        for (int i = 0; i < 33; i++) {
            Disk.deleteAll(trial);
            Stores.copyAsKilled(killed, trial);
            long bit = i == 0 ? 9 : random.nextLong(bits);
            Stores.flip(trial.resolve(Database.WAL), bit);
            Map<String, String> before = bytes(trial);
            boolean harmless =
                    WalFile.read(trial.resolve(Database.WAL)).orElseThrow().hiddenTransactions() == 0;
            assertThat(harmless).as("bit %d", bit).isFalse();
            assertThat(Stores.bad(trial)).as("bit %d", bit).isNotEmpty();
            assertThat(bytes(trial)).as("a check changes nothing").isEqualTo(before);
            assertThat(Stores.refusal(trial)).contains("salvage");
            assertThat(bytes(trial).get(Database.WAL)).isEqualTo(before.get(Database.WAL));
            assertThat(bytes(trial).get(Database.FILE)).isEqualTo(before.get(Database.FILE));
            Salvage salvage = Salvage.of(trial);
            assertThat(salvage.acknowledged()).isEqualTo(2 * ENTRIES);
            Path again = folder.resolve("again" + i);
            // all but the last one at most, whose only copy may be the damaged one
            assertThat(salvage.into(again).entries()).as("bit %d", bit).isGreaterThanOrEqualTo(2 * ENTRIES - 1);
            assertThat(Stores.labels(again)).isEqualTo(Stores.boxes(2 * ENTRIES).subList(0, (int)
                    salvage.runs().getLast().to()));
            assertThat(Stores.bad(again)).isEmpty();
        }
    }

    /// The log torn at any place by a power cut that also took the mark's last state, which is not synchronised at
    /// every entry: the store opens with a beginning of the entries, none skipped.
    @Test
    void a_torn_log_opens_with_a_beginning_of_the_entries_and_is_noticed_with_the_mark() throws Exception {
        long whole = Files.size(killed.resolve(Database.WAL));
        Random random = new Random(5);
        for (int i = 0; i < 20; i++) {
            Path trial = folder.resolve("torn" + i);
            Stores.copyAsKilled(killed, trial);
            try (RandomAccessFile file =
                    new RandomAccessFile(trial.resolve(Database.WAL).toFile(), "rw")) {
                file.setLength(random.nextLong(whole - 5_000));
            }
            assertThat(Stores.refusal(trial)).contains("acknowledged").contains("to 120");
            Files.delete(trial.resolve(HighWater.FILE));
            List<String> labels = Stores.labels(trial);
            assertThat(labels).hasSizeBetween(ENTRIES, 2 * ENTRIES).isEqualTo(Stores.boxes(labels.size()));
        }
    }

    @Test
    void a_log_that_was_deleted_is_missed() throws Exception {
        Files.delete(killed.resolve(Database.WAL));
        assertThat(Stores.refusal(killed)).contains("Entries 61 to 120 were acknowledged");
        assertThat(Stores.bad(killed)).isNotEmpty();
        Salvage salvage = Salvage.of(killed);
        assertThat(salvage.runs()).containsExactly(new Salvage.Run("the store's file alone", 1, 60));
        assertThat(salvage.acknowledged()).isEqualTo(120);
    }

    @Test
    void an_older_log_beside_a_newer_store_is_not_folded_in() throws Exception {
        Path older = folder.resolve("older");
        Stores.copyAsKilled(killed, older);
        try (Store store = Stores.open(data)) {
            Stores.add(store, 100);
        }
        Files.copy(older.resolve(Database.WAL), data.resolve(Database.WAL));
        assertThat(Stores.refusal(data)).contains("salvage");
        // without the mark as well
        Path mark = folder.resolve("mark aside");
        Files.move(data.resolve(HighWater.FILE), mark);
        assertThat(Stores.refusal(data)).contains("does not belong");
        Files.move(mark, data.resolve(HighWater.FILE));
        assertThat(Stores.bad(data)).isNotEmpty();
        assertThat(Salvage.of(data).into(folder.resolve("again")).entries()).isEqualTo(220);
        // the cure by hand: the log put aside
        Files.move(data.resolve(Database.WAL), folder.resolve("aside"));
        assertThat(Stores.labels(data)).isEqualTo(Stores.boxes(220));
    }

    /// Found by an attack from outside: what was brought back was the other store's.
    @Test
    void a_log_of_another_store_does_not_speak_for_this_one() throws Exception {
        Path other = folder.resolve("other");
        try (Store store = Stores.open(other)) {
            for (int i = 0; i < 221; i++) {
                Stores.add(store, "Other " + i);
            }
            Path left = folder.resolve("left");
            Stores.copyAsKilled(other, left);
            Files.copy(left.resolve(Database.WAL), data.resolve(Database.WAL));
        }
        assertThat(Stores.refusal(data)).contains("salvage");
        for (boolean marked : List.of(true, false)) {
            if (!marked) {
                Files.delete(data.resolve(HighWater.FILE));
            }
            Salvage salvage = Salvage.of(data);
            assertThat(salvage.others()).isNotEmpty();
            Path again = folder.resolve("again " + marked);
            assertThat(salvage.into(again).entries()).isEqualTo(120);
            assertThat(Stores.labels(again)).isEqualTo(Stores.boxes(120));
        }
    }

    /// Found by an attack from outside: entries lay in the log alone, the log was overwritten by another
    /// store's, and the foreign ones were taken although a backup held the own ones.
    @Test
    void entries_that_the_mark_disproves_are_not_brought_back() throws Exception {
        Path mine = folder.resolve("mine");
        Path other = folder.resolve("stranger");
        Path left = folder.resolve("mine as killed");
        Path shelf = folder.resolve("shelf of mine");
        try (Store store = Stores.open(mine)) {
            for (int i = 0; i < 30; i++) {
                Stores.add(store, "Mine " + i);
            }
            new Settings(mine).backups(shelf);
            new Backups(shelf).make(mine, java.time.Instant.parse("2026-03-01T19:00:00Z"));
            for (int i = 30; i < 50; i++) {
                Stores.add(store, "Mine " + i);
            }
            Stores.copyAsKilled(mine, left);
        }
        try (Store store = Stores.open(other)) {
            for (int i = 0; i < 66; i++) {
                Stores.add(store, "Stranger " + i);
            }
            Path killed = folder.resolve("stranger as killed");
            Stores.copyAsKilled(other, killed);
            Files.copy(killed.resolve(Database.WAL), left.resolve(Database.WAL), REPLACE_EXISTING);
        }
        Salvage salvage = Salvage.of(left);
        assertThat(salvage.others()).isNotEmpty();
        assertThat(salvage.acknowledged()).isEqualTo(50);
        Path again = folder.resolve("mine again");
        assertThat(salvage.into(again).entries()).isEqualTo(30);
        assertThat(Stores.labels(again)).allMatch(label -> label.startsWith("Mine"));
    }

    /// Found by an attack from outside: with the first page gone, or one in the middle of the tree, nothing was
    /// brought back, though every page with entries was whole.
    @Test
    void entries_are_read_from_their_pages_when_the_way_to_them_is_destroyed() throws Exception {
        for (boolean first : List.of(true, false)) {
            Path whole = folder.resolve("pages " + first);
            try (Store store = Stores.open(whole)) {
                for (int i = 0; i < 399; i++) {
                    Stores.add(store, "Box " + i);
                }
                // longer than a page
                store.desk()
                        .record(
                                0,
                                "x".repeat(4_096),
                                book -> new HuntEvent.BoxAdded(
                                        book.hunt().nextBox(), Denomination.US_CENT, BoxDetails.plain("Long", 50, 50)));
                Stores.add(store, "Box 400");
            }
            int root;
            try (Session session = Database.frozen(whole.resolve(Database.FILE))) {
                root = (int) session.number("select rootpage from sqlite_schema where name = 'entry'");
            }
            try (java.io.RandomAccessFile file =
                    new java.io.RandomAccessFile(whole.resolve(Database.FILE).toFile(), "rw")) {
                file.seek(first ? 0 : (root - 1) * 4096L);
                file.write(new byte[4096]);
            }
            assertThat(Stores.refusal(whole)).contains("salvage");
            Path again = folder.resolve("pages again " + first);
            assertThat(Salvage.of(whole).into(again).entries()).isEqualTo(401);
            assertThat(Stores.labels(again)).hasSize(401);
        }
    }

    /// Whatever the bytes are, reading pages ends, and without an exception.
    @Test
    void pages_of_any_content_are_read_without_a_fault() {
        java.util.Random random = new java.util.Random(7);
        byte[] whole = Disk.bytes(data.resolve(Database.FILE)).orElseThrow();
        int found = 0;
        for (int i = 0; i < 3_000; i++) {
            byte[] damaged = whole.clone();
            int flips = 1 + random.nextInt(400);
            int from = random.nextInt(damaged.length);
            for (int k = 0; k < flips; k++) {
                damaged[Math.min(damaged.length - 1, from + random.nextInt(4_096))] = (byte) random.nextInt(256);
            }
            found = Math.max(found, PageScan.rows(damaged).size());
        }
        assertThat(found).isPositive();
        byte[] noise = new byte[40_960];
        for (int i = 0; i < 300; i++) {
            random.nextBytes(noise);
            for (int page = 4_096; page < noise.length; page += 4_096) {
                noise[page] = 0x0d;
            }
            PageScan.rows(noise);
        }
    }

    /// Found by an attack from outside: with log and mark gone the tool went on, and what the backup held more
    /// was called another store's from the next line on.
    @Test
    void a_store_that_its_backup_knows_more_of_is_not_written_to() throws Exception {
        Path mine = folder.resolve("behind");
        Path left = folder.resolve("behind as copied");
        Path shelf = folder.resolve("shelf of behind");
        try (Store store = Stores.open(mine)) {
            Stores.add(store, "Box 0");
        }
        Stores.copyAsKilled(mine, left);
        try (Store store = Stores.open(mine)) {
            Stores.add(store, "Box 1");
            new Backups(shelf).make(mine, java.time.Instant.parse("2026-03-01T19:00:00Z"));
        }
        Files.deleteIfExists(left.resolve(HighWater.FILE));
        new Settings(left).backups(shelf);
        assertThat(Stores.refusal(left)).contains("holds 2 entries, the store 1", "salvage", "on purpose");
        assertThat(Salvage.of(left).into(folder.resolve("not behind")).entries())
                .isEqualTo(2);
    }

    @Test
    void rows_deleted_changed_or_swapped_by_another_program_are_noticed() throws Exception {
        Path rows = folder.resolve("rows");
        for (String change : List.of(
                "delete from entry where seq > 40",
                "delete from entry where seq = 40",
                "delete from entry",
                "update entry set raw = 'x' where seq = 7",
                "update entry set body = (select body from entry where seq = 8), raw = 'Box 8' where seq = 7",
                "update entry set checksum = checksum + 1 where seq = 60",
                "update chain set since = 30",
                "delete from chain")) {
            Disk.deleteAll(rows);
            Stores.copyAsKilled(data, rows);
            try (Handle handle = Jdbi.open("jdbc:sqlite:" + rows.resolve(Database.FILE))) {
                handle.execute(change);
            }
            boolean harmless = change.equals("delete from chain");
            assertThat(Stores.bad(rows).isEmpty()).as(change).isEqualTo(harmless);
        }
        // a row made right by itself: only the next one's checksum gives it away
        Disk.deleteAll(rows);
        Stores.copyAsKilled(data, rows);
        try (Session session = Session.open("jdbc:sqlite:" + rows.resolve(Database.FILE), new Properties())) {
            SqliteJournal.Row row = session.first(
                            "select at, body from entry where seq = 7",
                            found -> new SqliteJournal.Row(7, found.getString(1), 0, "forged", found.getString(2), 0))
                    .orElseThrow();
            long before = SqliteJournal.checksum(session, 6).orElseThrow();
            session.execute("update entry set raw = 'forged', checksum = ? where seq = 7", row.chained(before));
        }
        assertThat(Stores.bad(rows)).anyMatch(finding -> finding.what().contains("Entry 8"));
    }

    @Test
    void a_store_that_is_gone_is_not_made_anew() throws Exception {
        Files.delete(data.resolve(Database.FILE));
        assertThat(Stores.refusal(data)).contains("missing or empty").contains("120");
        Files.write(data.resolve(Database.FILE), new byte[0]);
        assertThat(Stores.refusal(data)).contains("missing or empty");
        assertThat(Files.size(data.resolve(Database.FILE))).isZero();
    }

    @Test
    void a_malformed_store_is_never_written_to() throws Exception {
        byte[] bytes = Files.readAllBytes(data.resolve(Database.FILE));
        Random random = new Random(6);
        int refused = 0;
        for (int i = 0; i < 20; i++) {
            Path trial = folder.resolve("malformed" + i);
            Stores.copyAsKilled(data, trial);
            byte[] torn = bytes.clone();
            int page = 1 + random.nextInt(bytes.length / 4096 - 1);
            for (int at = 0; at < 16; at++) {
                torn[page * 4096 + at] = (byte) random.nextInt();
            }
            Files.write(trial.resolve(Database.FILE), torn);
            if (!Stores.bad(trial).isEmpty()
                    && Store.open(trial, Store.Mode.WRITE, java.time.InstantSource.fixed(Stores.NOW))
                            instanceof Store.Opening.Unusable) {
                refused++;
                assertThat(Files.readAllBytes(trial.resolve(Database.FILE))).isEqualTo(torn);
            }
        }
        assertThat(refused).isGreaterThan(15);
    }

    @Test
    void a_damaged_mark_is_told_and_made_anew() throws Exception {
        Stores.flip(data.resolve(HighWater.FILE), 8);
        assertThat(Stores.troubles(data)).anyMatch(finding -> finding.what().contains("rollwright.mark"));
        assertThat(Stores.labels(data)).hasSize(120);
        assertThat(Stores.troubles(data)).noneMatch(finding -> finding.what().contains("rollwright.mark"));
    }
}
