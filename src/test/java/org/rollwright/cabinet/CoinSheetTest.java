package org.rollwright.cabinet;

import static org.assertj.core.api.Assertions.assertThat;

import de.siegmar.fastcsv.reader.CsvReader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.SheetCell;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Colour;
import org.rollwright.coin.DayStyle;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Strike;
import org.rollwright.desk.Desk;
import org.rollwright.desk.MemoryJournal;
import org.rollwright.desk.State;
import org.rollwright.journal.Event;

class CoinSheetTest {
    private static final Catalog CATALOG = CatalogFolder.catalog();
    private static final LocalDate TODAY = LocalDate.of(2026, 3, 1);

    private static Desk desk() {
        return new Desk(new MemoryJournal(), () -> Instant.parse("2026-03-01T12:00:00Z"), State.EMPTY);
    }

    private static List<List<String>> parse(String csv) {
        List<List<String>> table = new ArrayList<>();
        try (var reader = CsvReader.builder().ofCsvRecord(csv)) {
            reader.forEach(row -> table.add(row.getFields()));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return table;
    }

    private static String csv(Desk desk) {
        return desk.read(book -> CoinSheet.csv(CoinSheet.rows(
                book.holdings(),
                CabinetIndex.of(book.holdings(), book.album().lying(), CATALOG).entries())));
    }

    private static void fill(Desk desk, Random random) {
        String[] words = {
            "=1+1",
            "@sum",
            "-3",
            "'x",
            "a, \"b\"",
            "tab\there",
            "plain",
            "",
            "ümlaut › arrow",
            "＝1+1",
            "＠sum",
            " =1",
            "\n=1",
            "ends in a space ",
            "'"
        };
        desk.record(
                0,
                "",
                book -> new Event.Batch(List.of(
                        new CabinetEvent.PlaceMade(new Place(new PlaceId(1), null, "oak cabinet", 0)),
                        new CabinetEvent.PlaceMade(new Place(new PlaceId(2), new PlaceId(1), "tube 12", 0)))));
        for (int i = 0; i < 30; i++) {
            Issue issue = CATALOG.issues().get(random.nextInt(CATALOG.issues().size()));
            CoinDescription coin = new CoinDescription(
                    issue.identity(),
                    random.nextBoolean() ? new Grade(Grade.steps().get(random.nextInt(24))) : null,
                    random.nextInt(5) == 0 ? "cleaned" : null,
                    random.nextInt(3) == 0
                            ? List.of(Colour.BN, Colour.RB, Colour.RD).get(random.nextInt(3))
                            : null,
                    random.nextInt(9) == 0 ? Strike.PROOF : Strike.BUSINESS,
                    random.nextInt(4) == 0 ? List.of("rpm", "ddo") : List.of(),
                    random.nextInt(6) == 0 ? List.of("clip") : List.of(),
                    words[random.nextInt(words.length)],
                    List.of());
            Acquisition how = new Acquisition(
                    random.nextBoolean() ? "bought" : "given",
                    words[random.nextInt(words.length)],
                    LocalDate.of(2020 + random.nextInt(6), 1 + random.nextInt(12), 1 + random.nextInt(28)),
                    random.nextBoolean() ? null : BigDecimal.valueOf(random.nextInt(100_000), 2));
            int piece = i + 1;
            desk.record(0, "", book -> new CabinetEvent.CoinAcquired(new CoinRef(0, piece), coin, how));
            if (coin.grade() != null && coin.grade().points() < 60 && random.nextBoolean()) {
                desk.record(0, "", book -> new CabinetEvent.CoinDescribed(new CoinRef(0, piece), coin, new Grade(63)));
            }
            if (random.nextBoolean()) {
                desk.record(
                        0,
                        "",
                        book -> new CabinetEvent.CoinsPut(
                                List.of(new CoinRef(0, piece)), new PlaceId(1 + random.nextInt(2))));
            }
        }
    }

    @Property(tries = 60)
    void what_is_saved_is_taken_in_again_and_saved_the_same(@ForAll long seed) {
        Desk first = desk();
        fill(first, new Random(seed));
        String saved = csv(first);
        CoinSheet.Outcome read = CoinSheet.read(parse(saved), Map.of(), null, TODAY, CATALOG);
        assertThat(read.problems()).isEmpty();
        Desk second = desk();
        assertThat(second.record(0, "", book -> CoinSheet.events(book.cabinet(), read.coins())))
                .isInstanceOf(Desk.Outcome.Kept.class);
        assertThat(csv(second)).isEqualTo(saved);
    }

    @Test
    void no_cell_can_be_a_formula() {
        for (String bad :
                List.of("=cmd|' /C calc'!A0", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "'=1", "＝1+1", "＋1", " =1")) {
            assertThat(SheetCell.out(bad)).startsWith("'");
        }
        assertThat(SheetCell.out("-")).isEqualTo("-");
        assertThat(SheetCell.out("plain")).isEqualTo("plain");
    }

    @Test
    void a_foreign_table_is_read_by_mapping_and_every_wrong_cell_is_named() {
        List<List<String>> table = List.of(
                List.of("Date", "MM", "Paid", "Grade", "Bought on", "Coin"),
                List.of("1936", "d", "$1,250.00", "vf30", "3/14/2025", "cent"),
                List.of("36", "d", "free", "nice", "14.3.2025", ""),
                List.of("", "", "", "", "", ""),
                List.of("1909", "S", "12", "65", "2025-03-14", "cent"));
        Map<String, String> mapping =
                Map.of("year", "Date", "mint", "MM", "price", "Paid", "day", "Bought on", "denomination", "Coin");
        CoinSheet.Outcome unsaid = CoinSheet.read(table, mapping, null, TODAY, CATALOG);
        assertThat(unsaid.problems().stream().map(Object::toString))
                .anyMatch(text ->
                        text.contains("row 2, column day") && text.contains("two ways") && text.contains("month-first"))
                .anyMatch(text -> text.contains("row 3, column year") && text.contains("four digits"))
                .anyMatch(text -> text.contains("row 3, column price"))
                .anyMatch(text -> text.contains("row 3, column grade"))
                .anyMatch(text -> text.contains("row 3, column denomination") && text.contains("not said"));
        CoinSheet.Outcome said = CoinSheet.read(table, mapping, DayStyle.MONTH_FIRST, TODAY, CATALOG);
        assertThat(said.coins()).hasSize(2);
        assertThat(said.coins().getFirst().how().day()).isEqualTo(LocalDate.of(2025, 3, 14));
        assertThat(said.coins().getFirst().how().price()).isEqualByComparingTo("1250");
        assertThat(CoinSheet.read(table, Map.of("year", "Year"), null, TODAY, CATALOG)
                        .problems()
                        .getFirst()
                        .toString())
                .contains("no column 'Year'")
                .contains("Date, MM, Paid");
    }
}
