package org.rollwright.scale;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.coin.Alloy;
import org.rollwright.coin.Mass;
import org.rollwright.coin.MassText;
import org.rollwright.hunt.CountedPile;
import org.rollwright.hunt.MetalPrice;

class ScaleTest {
    private static Alloy alloy(String name) {
        return CatalogFolder.catalog().alloys().stream()
                .filter(one -> one.name().equals(name))
                .findFirst()
                .orElseThrow();
    }

    private static final Alloy BRASS = alloy("us-cent-brass");
    private static final Alloy ZINC = alloy("us-cent-zinc");

    /// Trade checks (common practice): about 146 copper and 181 zinc cents to the pound, 153.5 to the pound of
    /// copper; US weights from the mint's specifications.
    @Test
    void cents_to_the_pound() {
        assertThat(Mass.GRAMS_PER_POUND / BRASS.weight().grams()).isCloseTo(146, within(0.5));
        assertThat(Mass.GRAMS_PER_POUND / ZINC.weight().grams()).isCloseTo(181, within(0.6));
        double copper = MetalContent.of(BRASS, Map.of()).grams().getOrDefault("copper", 0.0);
        assertThat(Mass.GRAMS_PER_POUND / copper).isCloseTo(153.5, within(0.1));
    }

    /// Troy ounces of silver in one coin, as the trade prints them (common practice): half .3617, 40 % half
    /// .1479, quarter .1808, dime .0723, war nickel .0563.
    @ParameterizedTest
    @CsvSource({"half,1960,0.3617", "half,1967,0.1479", "quarter,1960,0.1808", "dime,1960,0.0723", "nickel,1944,0.0563"
    })
    void silver_ounces(String denomination, int year, double ounces) {
        Alloy alloy = CatalogFolder.catalog()
                .ofYear(new org.rollwright.coin.Denomination(org.rollwright.coin.Country.US, denomination), year)
                .getFirst()
                .alloy();
        double silver = MetalContent.of(alloy, Map.of()).grams().getOrDefault("silver", 0.0);
        assertThat(silver / MetalContent.TROY_OUNCE).isCloseTo(ounces, within(0.0002));
    }

    @Test
    void a_metal_value_is_the_sum_of_its_metals() {
        Map<String, MetalPrice> prices = Map.of(
                "copper", new MetalPrice("copper", new BigDecimal("10"), "10 per kg", LocalDate.of(2026, 1, 1)),
                "zinc", new MetalPrice("zinc", new BigDecimal("3"), "3 per kg", LocalDate.of(2026, 1, 1)));
        MetalContent content = MetalContent.of(BRASS, prices);
        assertThat(content.complete()).isTrue();
        assertThat(content.value().doubleValue()).isCloseTo(3.11 * 0.95 * 0.01 + 3.11 * 0.05 * 0.003, within(1e-4));
        assertThat(MetalContent.of(BRASS, Map.of()).complete()).isFalse();
        assertThat(MetalContent.CAUTION).contains("31 CFR part 82").contains("Silver coins are not");
    }

    @Test
    void a_single_cent_of_1982() {
        List<Alloy> alloys = List.of(BRASS, ZINC);
        assertThat(SingleCoin.of(3.08, 0.01, alloys).sentence()).startsWith("brass (copper)");
        assertThat(SingleCoin.of(2.49, 0.01, alloys).sentence()).startsWith("zinc");
        assertThat(SingleCoin.of(2.75, 0.01, alloys).sentence()).startsWith("Neither");
        assertThat(SingleCoin.of(4.6, 0.01, alloys).sentence()).startsWith("Neither");
        assertThat(SingleCoin.of(3, 1, alloys).sentence()).startsWith("This scale cannot tell");
    }

    @Test
    void intervals_of_a_count_hold() {
        SplittableRandom random = new SplittableRandom(3);
        int inside = 0;
        for (int i = 0; i < 2_000; i++) {
            double mean = 3.09 - 0.02 + 0.02 * random.nextGaussian();
            int coins = 50 + random.nextInt(900);
            double grams = 0;
            for (int c = 0; c < coins; c++) {
                grams += mean + 0.13 / 3 * random.nextGaussian();
            }
            double shown = Math.round(grams);
            AlloyWeight weight = new AlloyWeight(3.09 - 0.02, 0.13 / 3, 0.02, "");
            CountByWeight count = weight.count(shown, 1, 1);
            inside += Math.abs(count.coins() - coins) <= 1.645 * count.standardError() ? 1 : 0;
        }
        assertThat(inside / 2_000.0).isBetween(0.86, 0.94);
    }

    @Test
    void a_counted_pile_replaces_the_standard() {
        CountedPile pile =
                new CountedPile("us-cent-brass", 100, Mass.ofGrams(306), Mass.ofGrams(0.1), java.time.Instant.EPOCH);
        AlloyWeight weight = AlloyWeight.of(BRASS, Map.of("us-cent-brass", pile));
        assertThat(weight.mean()).isCloseTo(3.06, within(1e-9));
        assertThat(weight.meanSd()).isLessThan(0.01);
        assertThat(AlloyWeight.of(BRASS, Map.of()).mean()).isCloseTo(3.09, within(1e-9));
    }

    @ParameterizedTest
    @CsvSource({"1899.4g,1899.4", "1.9 kg,1900", "3lb 4oz,1474.1752", "52 oz,1474.1752", "0.5lb,226.796185"})
    void weights_are_read_with_their_units(String text, double grams) {
        assertThat(MassText.read(text))
                .isInstanceOfSatisfying(
                        MassText.Result.Good.class,
                        good -> assertThat(good.mass().grams()).isCloseTo(grams, within(1e-4)));
    }

    @ParameterizedTest
    @CsvSource({
        "12,The unit is missing.",
        "-3g,A weight cannot be negative.",
        "3lb 20g,Grams and pounds do not go together",
        "5 stone,no unit of weight",
        "2000kg,more than a tonne"
    })
    void what_is_no_weight_is_refused(String text, String wrong) {
        assertThat(MassText.read(text))
                .isInstanceOfSatisfying(
                        MassText.Result.Bad.class,
                        bad -> assertThat(bad.wrong()).contains(wrong));
    }
}
