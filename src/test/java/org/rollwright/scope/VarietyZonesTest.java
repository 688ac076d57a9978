package org.rollwright.scope;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.Spot;

/// Every "where to look" is a zone of the design.
class VarietyZonesTest {
    private static final Catalog CATALOG = CatalogFolder.catalog();

    @Test
    void every_variety_names_zones_its_coins_have_on_the_side_it_names() {
        for (Variety variety : Varieties.book().varieties()) {
            assertThat(variety.looks()).as(variety.key()).isNotEmpty();
            List<Issue> coins = variety.issues(CATALOG);
            assertThat(coins).as(variety.key()).isNotEmpty();
            for (Spot spot : variety.looks()) {
                if (spot instanceof Spot.On on) {
                    assertThat(variety.side())
                            .as(variety.key())
                            .isIn("both", on.side().word());
                }
                for (Issue coin : coins) {
                    assertThat(CATALOG.zones().has(coin, spot))
                            .as(variety.key() + ", " + coin.identity() + ": " + spot)
                            .isTrue();
                }
            }
        }
    }

    /// A mint mark over another can be looked for only on the side that bears it.
    @Test
    void a_variety_of_the_mint_mark_is_on_the_side_that_bears_it() {
        for (Variety variety : Varieties.book().varieties()) {
            boolean ofTheMark =
                    variety.type().contains("mint mark") && !variety.type().contains("missing");
            for (Spot spot : variety.looks()) {
                if (ofTheMark && spot instanceof Spot.On on && on.zone().equals("mint-mark")) {
                    assertThat(variety.issues(CATALOG))
                            .as(variety.key())
                            .allMatch(coin -> !CATALOG.zones()
                                    .shown(coin, on.side())
                                    .orElseThrow()
                                    .mint()
                                    .isEmpty());
                }
            }
        }
    }
}
