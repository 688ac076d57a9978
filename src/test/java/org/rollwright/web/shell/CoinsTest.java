package org.rollwright.web.shell;

import static org.assertj.core.api.Assertions.assertThat;

import gg.jte.output.StringOutput;
import java.io.StringReader;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.catalog.Drawing;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.Side;
import org.rollwright.coin.Colour;
import org.rollwright.coin.Grade;
import org.xml.sax.InputSource;

class CoinsTest {
    private static final Catalog CATALOG = CatalogFolder.catalog();
    /// Classes of the style sheet.
    private static final Set<String> TINTS = Set.of(
            "copper-bn",
            "copper-rb",
            "copper-rd",
            "plated",
            "steel",
            "silver",
            "cupronickel",
            "nickel",
            "brass",
            "two-metals");

    private static String drawn(Coins.Coin coin) {
        StringOutput out = new StringOutput();
        coin.marks().writeTo(out);
        return out.toString();
    }

    private static void wellFormed(String svg) throws Exception {
        DocumentBuilderFactory.newInstance().newDocumentBuilder().parse(new InputSource(new StringReader(svg)));
    }

    @Test
    void every_coin_of_the_catalogue_has_a_drawing_a_metal_and_its_date_or_mint_mark_where_its_sides_bear_them()
            throws Exception {
        Set<String> bare = new TreeSet<>();
        for (Issue issue : CATALOG.issues()) {
            Coins.Coin coin = Coins.of(CATALOG, issue);
            assertThat(TINTS).as(issue.identity().toString()).contains(coin.tint());
            if (coin.face().isEmpty()) {
                bare.add(issue.identity().toString());
            }
            boolean dated = java.util.stream.Stream.of(Side.values())
                    .flatMap(side -> CATALOG.zones().shown(issue, side).stream())
                    .anyMatch(shown -> !shown.date().isEmpty());
            if (dated) {
                assertThat(drawn(coin)).as(issue.identity().toString()).contains("<path");
            }
        }
        assertThat(bare).isEmpty();
    }

    /// Bronze cents of 1943 are not the usual ones: 99 % steel (31 U.S.C. as of 1942, Act of Dec. 18, 1942; from
    // memory).
    @Test
    void metal_colour_and_wear_are_seen() {
        Issue steel = issue(1943);
        assertThat(Coins.of(CATALOG, steel).tint()).isEqualTo("steel");
        Issue wheat = issue(1939);
        assertThat(Coins.of(CATALOG, wheat, null, null, null).tint()).isEqualTo("copper-bn");
        assertThat(Coins.of(CATALOG, wheat, Colour.RD, null, null).tint()).isEqualTo("copper-rd");
        assertThat(Coins.of(CATALOG, wheat, null, Grade.parse("g4").orElseThrow(), null)
                        .wear())
                .isEqualTo("worn-4");
        assertThat(Coins.of(CATALOG, wheat, null, Grade.parse("au50").orElseThrow(), null)
                        .wear())
                .isEqualTo("worn-1");
        assertThat(Coins.of(CATALOG, wheat, null, Grade.parse("ms65").orElseThrow(), null)
                        .wear())
                .isEqualTo("mint-state");
        assertThat(Coins.of(CATALOG, issue(2012)).tint()).isEqualTo("plated");
    }

    private static Issue issue(int year) {
        return CATALOG.issues().stream()
                .filter(issue -> issue.year() == year
                        && issue.identity().denomination().equals(org.rollwright.coin.Denomination.US_CENT))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void a_small_drawing_is_well_formed_has_no_fine_lines_and_leaves_out_what_it_is_told() throws Exception {
        Pattern fine = Pattern.compile("class=\"fine\"");
        for (var face : CATALOG.zones().faces()) {
            String svg = CoinPictures.drawing(face.name());
            for (boolean small : new boolean[] {false, true}) {
                String alone = Drawing.face(svg, small, Set.of());
                wellFormed(alone);
                Matcher lines = fine.matcher(alone);
                assertThat(lines.find() && small).as(face.name()).isFalse();
                assertThat(alone).contains("var(--coin-field");
            }
        }
        String king = CoinPictures.drawing("ca-george-v-obverse");
        assertThat(Drawing.face(king, false, Set.of("dei-gra"))).contains("visibility=\"hidden\"");
        assertThat(Drawing.face(king, false, Set.of())).doesNotContain("visibility=\"hidden\"");
    }
}
