package org.rollwright.album;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.rollwright.catalog.AlbumExample;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.catalog.Issue;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;

/// An album of ours has no hole that no coin can fill, and lacks none that a series has.
class AlbumHolesExistTest {
    private static final Catalog CATALOG = CatalogFolder.catalog();

    /// Years and mints that struck nothing, `denomination year mint`, `*` for every mint. From the summaries of the
    /// series in an encyclopaedia and the Mint's reports, as collected by an audit; common practice otherwise.
    private static final Set<String> NEVER = Set.of(
            "half 1914 D",
            "quarter 1938 D",
            "cent 1922 P",
            "cent 1922 S",
            "quarter 1931 *",
            "quarter 1933 *",
            "dime 1922 *",
            "dime 1932 *",
            "dime 1933 *",
            "nickel 1922 *",
            "nickel 1932 *",
            "nickel 1933 *",
            "half 1922 *",
            "half 1924 *",
            "half 1925 *",
            "half 1926 *",
            "half 1930 *",
            "half 1931 *",
            "half 1932 *",
            "quarter 1922 *",
            "quarter 1975 *",
            "half 1975 *",
            "nickel 1950 S",
            "half 1938 S",
            "quarter 1949 S",
            "cent 1932 S",
            "cent 1933 S",
            "cent 1934 S",
            "half 1940 D",
            "dime 1921 S",
            "quarter 1934 S",
            "quarter 1932 W",
            "nickel 1931 P",
            "nickel 1931 D");

    private static List<Hole> holes(String rule) {
        return switch (AlbumRule.parse(rule)) {
            case AlbumRule.Parsed.Good good -> good.rule().holes(CATALOG, Country.US);
            case AlbumRule.Parsed.Bad bad -> throw new AssertionError(rule + ": " + bad.wrong());
        };
    }

    @Test
    void every_hole_of_every_album_of_ours_has_a_coin_that_was_struck_for_circulation() {
        for (AlbumExample album : CATALOG.albums()) {
            List<Hole> holes = holes(album.rule());
            assertThat(holes).as(album.name()).isNotEmpty();
            Set<String> keys = new HashSet<>();
            for (Hole hole : holes) {
                assertThat(keys.add(hole.key() + "|" + hole.variety()))
                        .as("%s, %s twice", album.name(), hole.key())
                        .isTrue();
                assertThat(hole.issues())
                        .as("%s, %s", album.name(), hole.key())
                        .anyMatch(issue -> !issue.collectorOnly() && !never(issue));
            }
        }
    }

    @Test
    void the_catalogue_has_no_coin_that_was_never_struck() {
        assertThat(CATALOG.issues()).noneMatch(AlbumHolesExistTest::never);
    }

    private static boolean never(Issue issue) {
        Denomination denomination = issue.identity().denomination();
        String date = denomination.key() + " " + issue.year() + " ";
        return denomination.country().equals(Country.US)
                && (NEVER.contains(date + issue.mint().code()) || NEVER.contains(date + "*"));
    }

    /// Sizes as the series are published: 73 Barber halves by date and mint, 35 Franklin halves, 71 five cents of 1938
    /// to 1964, eleven of them wartime silver, 77 Mercury dimes, 48 silver Roosevelt dimes, 83 silver Washington
    /// quarters, fifty states and fifty-six parks; common practice where no summary was at hand.
    @Test
    void albums_of_whole_series_have_as_many_holes_as_the_series_has_coins() {
        Map<String, Integer> sizes = new TreeMap<>();
        sizes.put("series us-half-barber", 73);
        sizes.put("series us-half-franklin", 35);
        sizes.put("series us-nickel-jefferson; years 1938-1964", 70);
        sizes.put("series us-nickel-jefferson; years 1938-1964; kinds apart", 71);
        sizes.put("series us-nickel-jefferson; metal silver; kinds apart", 11);
        sizes.put("series us-dime-mercury", 77);
        sizes.put("series us-dime-roosevelt; metal silver", 48);
        sizes.put("series us-quarter-washington; metal silver", 83);
        sizes.put("series us-quarter-states; one per design and mint", 100);
        sizes.put("series us-quarter-parks; mints P; one per design", 56);
        sizes.put("series us-quarter-parks; mints W; one per design", 10);
        sizes.put("series us-quarter-women; one per design and mint", 40);
        sizes.put("series us-cent-lincoln-wheat; kinds apart; except 1922-D no d", 140);
        sizes.put("series us-cent-lincoln-shield", 32);
        sizes.put("series ca-cent-small; one per date", 93);
        // Wikipedia, Voyageur dollar: 1935 to 1939 and 1945 to 1986
        sizes.put("series ca-dollar; one per date", 47);
        // Wikipedia, United States Semiquincentennial coinage: cents of 2026 in sets only
        sizes.put("series us-cent-lincoln-shield; years 2025-2026", 2);
        Map<String, Integer> found = new TreeMap<>();
        sizes.keySet().forEach(rule -> found.put(rule, holes(rule).size()));
        assertThat(found).isEqualTo(sizes);
    }
}
