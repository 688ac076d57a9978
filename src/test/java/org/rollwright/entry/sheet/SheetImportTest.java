package org.rollwright.entry.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.coin.Denomination;
import org.rollwright.desk.Desk;
import org.rollwright.desk.MemoryJournal;
import org.rollwright.desk.State;
import org.rollwright.hunt.HuntBook;
import org.rollwright.hunt.Tally;
import org.rollwright.hunt.Watch;

class SheetImportTest {
    private static List<SheetRow> sheet(String... lines) {
        List<SheetRow> rows = new ArrayList<>();
        for (int i = 0; i < lines.length; i++) {
            rows.add(new SheetRow(i + 1L, List.of(lines[i].split("\\|", -1))));
        }
        return rows;
    }

    private static Mapping mapping(String text) {
        Mapping.Parsed parsed = Mapping.parse(text);
        assertThat(parsed).isInstanceOf(Mapping.Parsed.Good.class);
        return ((Mapping.Parsed.Good) parsed).mapping();
    }

    private static SheetImport.Plan plan(String mapping, String... lines) {
        return SheetImport.plan(sheet(lines), mapping(mapping), CatalogFolder.catalog(), HuntBook.EMPTY);
    }

    @Test
    void a_first_guess_comes_from_the_headings_and_its_text_reads_back() {
        Mapping guess =
                Mapping.guess(List.of("Box", "Date", "Bank", "Wheats", "Weather", "copper"), CatalogFolder.catalog());
        assertThat(guess.columns()).containsEntry("label", "Box").containsEntry("bank", "Bank");
        assertThat(guess.found()).containsEntry("wheat", "Wheats").containsEntry("copper", "copper");
        assertThat(guess.fixed()).containsEntry("denomination", "cent");
        assertThat(mapping(guess.text())).isEqualTo(guess);
    }

    @Test
    void rows_become_boxes_with_their_counts() {
        SheetImport.Plan plan = plan(
                "label=Box; date=Day; bank=From; coins=Searched; found:wheat=Wheats; found:1909-S=Key; denomination is cent;"
                        + " dates=dmy",
                "Box|Day|From|Searched|Wheats|Key",
                "A 1|3.5.2026|Bank of Examples|2,500|12|0",
                "A 2|4/5/26|Bank of Examples|2500.0|7|1");
        assertThat(plan.problems()).isEmpty();
        assertThat(plan.refused()).isZero();
        Desk desk = new Desk(new MemoryJournal(), () -> Instant.EPOCH, State.EMPTY);
        assertThat(desk.record(0, "import", known -> plan.event(known.hunt()))).isInstanceOf(Desk.Outcome.Kept.class);
        List<String> labels = desk.read(book ->
                book.hunt().boxes().stream().map(box -> box.details().label()).toList());
        assertThat(labels).containsExactly("A 1", "A 2");
        List<String> days = desk.read(book -> book.hunt().boxes().stream()
                .map(box -> String.valueOf(box.details().pickedUp()))
                .toList());
        assertThat(days).containsExactly("2026-05-03", "2026-05-04");
        long wheats = desk.read(book -> Tally.watchedInSeries(
                book.hunt(), new Watch("wheat", "series wheat"), CatalogFolder.catalog(), Denomination.US_CENT));
        assertThat(wheats).isEqualTo(19);
        assertThat(desk.undo(0, "<")).isInstanceOf(Desk.Outcome.Kept.class);
        int left = desk.read(book -> book.hunt().boxes().size());
        assertThat(left).isZero();
    }

    @Test
    void a_bad_cell_is_named_by_row_and_column_and_the_other_rows_are_still_read() {
        SheetImport.Plan plan = plan(
                "label=Box; date=Day; found:wheat=Wheats; denomination is cent; dates=iso",
                "Box|Day|Wheats",
                "A 1|2026-05-03|twelve",
                "A 2|2026-02-30|7",
                "A 3|2026-05-04|-1",
                "A 4|2026-05-05|3",
                "A 4|2026-05-06|3");
        assertThat(plan.rows()).extracting(SheetImport.RowReport::line).containsExactly(2L, 3L, 4L, 5L, 6L);
        assertThat(plan.rows())
                .extracting(SheetImport.RowReport::column)
                .containsExactly("Wheats", "Day", "Wheats", "", "");
        assertThat(plan.rows().getFirst().wrong()).contains("twelve");
        assertThat(plan.rows().getLast().warning()).contains("already a box called A 4");
        assertThat(plan.refused()).isEqualTo(3);
    }

    @Test
    void a_mapping_that_fits_no_sheet_is_refused_as_a_whole() {
        assertThat(plan("label=Box; found:wheat=Wheats", "Box|Pennies", "1|2").problems())
                .singleElement()
                .asString()
                .contains("no column 'Wheats'")
                .contains("Box, Pennies");
        assertThat(plan("label=Box", "Box|Wheats", "1|2").problems())
                .anyMatch(problem -> problem.contains("found:wheat="));
        assertThat(plan("label=Box; found:moon dust=Wheats", "Box|Wheats", "1|2")
                        .problems())
                .anyMatch(problem -> problem.contains("moon dust"));
        assertThat(plan("label=Box; found:wheat=Wheats", "Box|Wheats").problems())
                .anyMatch(problem -> problem.contains("no rows"));
        assertThat(Mapping.parse("label").toString()).contains("says of no column");
        assertThat(Mapping.parse("dates=roman").toString()).contains("no order of dates");
    }
}
