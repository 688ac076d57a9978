package org.rollwright.scope;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.catalog.NamedText;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;

class VarietyBookTest {
    private static final Catalog CATALOG = CatalogFolder.catalog();

    @Test
    void the_catalogue_is_whole() {
        assertThat(Varieties.loaded().problems()).isEmpty();
        Map<String, Integer> counts = new HashMap<>();
        Varieties.book()
                .varieties()
                .forEach(one -> counts.merge(one.denomination().toString(), 1, Integer::sum));
        System.out.println("varieties: " + counts);
        assertThat(counts.get("US cent")).isGreaterThanOrEqualTo(80);
        int others = java.util.stream.Stream.of("US nickel", "US dime", "US quarter", "US half")
                .mapToInt(name -> counts.getOrDefault(name, 0))
                .sum();
        assertThat(others).isGreaterThanOrEqualTo(60);
    }

    @Test
    void every_variety_is_of_a_coin_that_exists() {
        for (Variety variety : Varieties.book().varieties()) {
            boolean exists = false;
            for (int year = variety.years().first(); year <= variety.years().last(); year++) {
                for (Mint mint : variety.mints()) {
                    Identity coin = Identity.of(variety.denomination(), year, mint);
                    exists |= CATALOG.ofYear(variety.denomination(), year).stream()
                            .anyMatch(issue -> mint.equals(issue.mint())
                                    && (variety.coinKind().isEmpty()
                                            || issue.identity().kind().equals(variety.coinKind())
                                            || issue.identity().design().equals(variety.coinKind())));
                    assertThat(variety.coinKind().isEmpty() ? variety.mayBe(coin) : true)
                            .as(variety.key())
                            .isTrue();
                }
            }
            assertThat(exists).as(variety.key()).isTrue();
        }
    }

    @Test
    void markers_tell_something_and_names_are_plain() {
        Set<String> names = new HashSet<>();
        for (Variety variety : Varieties.book().varieties()) {
            assertThat(names.add(variety.denomination() + variety.name()))
                    .as("twice: " + variety.name())
                    .isTrue();
            for (Marker marker : variety.markers()) {
                assertThat(marker.onVariety())
                        .as(variety.key() + ": " + marker.text())
                        .isGreaterThan(marker.onOthers());
                assertThat(Marker.parse(marker.written()).orElseThrow()).containsExactly(marker);
            }
            // numbers of lists and of other books have no place here
            assertThat(variety.name()).doesNotContainPattern("[A-Z]{2,4}-?[0-9]{2,3}$|#|FS|WDDO|RPM-");
        }
    }

    @Test
    void a_row_reads_back_as_it_was_written() {
        for (Variety variety : Varieties.book().varieties()) {
            VarietyBook.Rows rows = VarietyBook.row(variety.cells(), CATALOG);
            assertThat(rows.problems()).isEmpty();
            assertThat(rows.varieties()).containsExactly(variety);
        }
    }

    @Test
    void a_bad_row_is_named_with_line_column_and_what_would_be_right() {
        String header = String.join(",", VarietyBook.COLUMNS);
        VarietyBook.Rows rows = VarietyBook.rows(
                new NamedText(
                        "mine.csv",
                        header + "\n"
                                + ",mine,US,cent,1955,P,,front,doubled die,date,,seen [90/2 10s],rare,5,,,me\n"
                                + ",other,US,cent,55,P,,obverse,doubled die,date,,seen well,rare,5,,,me\n"
                                + ",third,US,,1955,P,,obverse,doubled die,date,,seen [90/2 10s],rare,5,,,me\n"),
                CATALOG);
        assertThat(rows.varieties()).isEmpty();
        assertThat(rows.problems().stream().map(Object::toString))
                .anyMatch(
                        text -> text.contains("2") && text.contains("side") && text.contains("obverse, reverse, both"))
                .anyMatch(text -> text.contains("3") && text.contains("years"))
                .anyMatch(text -> text.contains("4") && text.contains("'' is no denomination of US"))
                .anyMatch(text -> text.contains("markers") && text.contains("[90/2 10s fine]"));
    }

    @Test
    void prompts_put_the_most_worthwhile_look_first() {
        Identity coin = Identity.of(Denomination.US_CENT, 1972, Mint.P);
        List<Prompt> prompts = Prompt.of(Varieties.book(), coin, Map.of());
        assertThat(prompts).hasSizeGreaterThanOrEqualTo(2);
        assertThat(prompts.getFirst().variety().key()).isEqualTo("cent-1972-strongly-doubled-obverse");
        Map<String, Integer> often = Map.of("cent-1972-strongly-doubled-obverse", 5_000_000);
        assertThat(Prompt.of(Varieties.book(), coin, often).getFirst().variety().key())
                .isEqualTo("cent-1972-lesser-doubled-obverse");
    }
}
