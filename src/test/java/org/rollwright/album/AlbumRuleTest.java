package org.rollwright.album;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.rollwright.catalog.AlbumExample;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;
import org.rollwright.coin.Strike;

class AlbumRuleTest {
    private static final Catalog CATALOG = CatalogFolder.catalog();

    static AlbumRule rule(String text) {
        AlbumRule.Parsed parsed = AlbumRule.parse(text);
        assertThat(parsed).as(text).isInstanceOf(AlbumRule.Parsed.Good.class);
        return ((AlbumRule.Parsed.Good) parsed).rule();
    }

    static Places places(String text) {
        AlbumRule rule = rule(text);
        return new Places(rule, CATALOG, rule.holes(CATALOG, Country.US));
    }

    private static CoinDescription cent(int year, Mint mint) {
        return CoinDescription.plain(CATALOG.lookup(Identity.of(Denomination.US_CENT, year, mint))
                .getFirst()
                .identity());
    }

    private static List<String> keys(List<Hole> holes) {
        return holes.stream().map(Hole::key).toList();
    }

    @Test
    void every_shipped_album_has_holes_with_keys_of_their_own() {
        assertThat(CATALOG.albums()).hasSizeGreaterThan(15);
        for (AlbumExample example : CATALOG.albums()) {
            List<Hole> holes = places(example.rule()).holes();
            assertThat(holes).as(example.name()).isNotEmpty();
            assertThat(keys(holes)).as(example.name()).doesNotHaveDuplicates();
        }
    }

    @ParameterizedTest
    @CsvSource({
        // Counts by common practice of the trade: eleven wartime silver nickels (1942-P, 1942-S, and P, D, S of
        // 1943-45);
        // fifty states from two mints; ten designs with a W in 2019 and 2020; 35 Franklin halves; 50 wheat cents of
        // 1934
        // to 1958 by date and mint need no opinion: they are counted in the mintage table's rows.
        "War nickels, 11",
        "State quarters, 100",
        "West Point quarters, 10",
        "Women quarters, 40",
        "Franklin halves, 35",
        "Canadian small cents, 93",
    })
    void shipped_albums_count_as_the_trade_counts(String album, int holes) {
        AlbumExample example = CATALOG.albums().stream()
                .filter(one -> one.name().equals(album))
                .findFirst()
                .orElseThrow();
        assertThat(places(example.rule()).holes()).hasSize(holes);
    }

    @Test
    void the_wheat_album_has_a_hole_for_every_row_of_the_mintage_table() throws java.io.IOException {
        long rows = java.nio.file.Files.readAllLines(
                        java.nio.file.Path.of("src/test/resources/reference/cent_mintage.csv"))
                .stream()
                .skip(1)
                .filter(line -> Integer.parseInt(line.substring(0, 4)) <= 1958)
                .count();
        assertThat(places("series us-cent-lincoln-wheat; kinds apart; except 1922-D no d")
                        .holes())
                .hasSize((int) rows);
    }

    @Test
    void kinds_share_a_hole_unless_told_apart() {
        assertThat(keys(places("series memorial; years 1960").holes())).containsExactly("1960-P", "1960-D");
        assertThat(keys(places("series memorial; years 1960; kinds apart").holes()))
                .containsExactly("1960-P large date", "1960-P small date", "1960-D large date", "1960-D small date");
        Places apart = places("series memorial; years 1960; kinds apart");
        CoinDescription untold = CoinDescription.plain(Identity.of(Denomination.US_CENT, 1960, Mint.D));
        assertThat(apart.fit(untold).holes()).isEmpty();
        assertThat(keys(apart.fit(untold).untold()))
                .containsExactlyInAnyOrder("1960-D large date", "1960-D small date");
        assertThat(keys(places("series memorial; years 1960").fit(untold).holes()))
                .containsExactly("1960-D");
    }

    @Test
    void a_variety_hole_takes_only_a_coin_with_that_variety() {
        Places places = places("series wheat; years 1955; also 1955 ddo");
        CoinDescription plain = cent(1955, Mint.P);
        CoinDescription doubled = new CoinDescription(
                plain.identity(), null, null, null, Strike.BUSINESS, List.of("ddo"), List.of(), "", List.of());
        assertThat(keys(places.fit(plain).holes())).containsExactly("1955-P");
        assertThat(keys(places.fit(doubled).holes())).containsExactly("1955 ddo");
        assertThat(keys(places.fit(doubled).plain())).containsExactly("1955-P");
        assertThat(keys(places("series wheat; years 1955; also 1955 ddo; varieties too")
                        .fit(doubled)
                        .holes()))
                .containsExactly("1955 ddo", "1955-P");
    }

    @Test
    void conditions_keep_coins_out() {
        CoinDescription coin = cent(1944, Mint.D);
        CoinDescription poor = coin.withGrade(new Grade(4));
        CoinDescription proof = new CoinDescription(
                coin.identity(), null, null, null, Strike.PROOF, List.of(), List.of(), "", List.of());
        CoinDescription bent = new CoinDescription(
                coin.identity(), null, "bent", null, Strike.BUSINESS, List.of(), List.of(), "", List.of());
        assertThat(places("series wheat; least vf20").fit(poor).holes()).isEmpty();
        assertThat(places("series wheat; least vf20").fit(coin).holes()).hasSize(1);
        assertThat(places("series wheat").fit(proof).holes()).isEmpty();
        assertThat(places("series wheat; proofs too").fit(proof).holes()).hasSize(1);
        assertThat(places("series wheat; sound only").fit(bent).holes()).isEmpty();
        assertThat(places("series wheat").fit(bent).holes()).hasSize(1);
    }

    @Test
    void a_list_of_the_users_own_is_an_album() {
        assertThat(keys(places("list 1909-S vdb, 1914-D, 1931-S; series wheat; kinds apart")
                        .holes()))
                .containsExactly("1909-S vdb", "1914-D", "1931-S");
    }

    @Test
    void a_bad_rule_says_where_and_what_would_be_right() {
        AlbumRule.Parsed.Bad bad = (AlbumRule.Parsed.Bad) AlbumRule.parse("series wheat; one per week");
        assertThat(bad.position()).isEqualTo(13);
        assertThat(bad.right()).contains("date and mint");
        assertThat(AlbumRule.parse("kinds apart")).isInstanceOf(AlbumRule.Parsed.Bad.class);
        assertThat(AlbumRule.parse("blue ones")).isInstanceOf(AlbumRule.Parsed.Bad.class);
        assertThat(AlbumRule.parse("series wheat; least nice")).isInstanceOf(AlbumRule.Parsed.Bad.class);
        assertThat(AlbumRule.parse("series wheat; also 1955")).isInstanceOf(AlbumRule.Parsed.Bad.class);
    }
}
