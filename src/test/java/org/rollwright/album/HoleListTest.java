package org.rollwright.album;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.coin.Country;

/// Holes named as one reads them off an album. Dates and mints of the wheat cents by the published mintage tables.
class HoleListTest {
    private static final List<Hole> WHEAT = holes("series us-cent-lincoln-wheat; one per date and mint");

    private static List<Hole> holes(String rule) {
        return ((AlbumRule.Parsed.Good) AlbumRule.parse(rule)).rule().holes(CatalogFolder.catalog(), Country.US);
    }

    private static List<String> named(String text) {
        return ((HoleList.Read.Good) HoleList.read(WHEAT, text))
                .holes().stream().map(Hole::key).toList();
    }

    @ParameterizedTest
    @CsvSource({
        "10, 1910-P",
        "1910, 1910-P",
        "10s, 1910-S",
        "1911-D, 1911-D",
        "55 s, 1955-S",
        "31 s, 1931-S",
    })
    void inside_a_wheat_album_two_digits_are_enough(String text, String hole) {
        assertThat(named(text)).containsExactly(hole);
    }

    @Test
    void a_span_of_years_is_every_hole_of_it() {
        // from 1956 on cents were struck at Philadelphia and Denver only
        assertThat(named("all of 1956 to 1958"))
                .containsExactlyInAnyOrder("1956-P", "1956-D", "1957-P", "1957-D", "1958-P", "1958-D");
        assertThat(named("56-58")).hasSize(6);
        assertThat(named("1910, 56-58, 1910")).hasSize(7);
    }

    @Test
    void what_is_no_hole_is_named_with_what_would_be() {
        HoleList.Read.Bad bad = (HoleList.Read.Bad) HoleList.read(WHEAT, "1910, 1965");
        assertThat(bad.why().wrong()).contains("1965");
        assertThat(bad.why().right()).contains("1909");
        for (String slip : List.of("99-45", "60-12", "1958-1956", "45-99")) {
            assertThat(HoleList.read(WHEAT, slip))
                    .as("%s is no span of this album", slip)
                    .isInstanceOf(HoleList.Read.Bad.class);
        }
        assertThat(HoleList.read(holes("denomination cent; one per date"), "10-56"))
                .as("1910 and 2010 are in this album")
                .isInstanceOf(HoleList.Read.Bad.class);
        assertThat(HoleList.read(WHEAT, "22"))
                .as("none was struck at Philadelphia")
                .isInstanceOf(HoleList.Read.Bad.class);
    }

    @Test
    void a_hole_tells_of_its_coin_what_its_issues_share() {
        List<Hole> dates = holes("series us-cent-lincoln-wheat; one per date");
        Hole hole = ((HoleList.Read.Good) HoleList.read(dates, "1944")).holes().getFirst();
        assertThat(HoleList.coin(hole).year()).isEqualTo(1944);
        assertThat(HoleList.coin(hole).mint()).as("three mints struck it").isNull();
        Hole one = ((HoleList.Read.Good) HoleList.read(WHEAT, "44d")).holes().getFirst();
        assertThat(HoleList.coin(one)).hasToString("US cent 1944-D wheat ears");
    }
}
