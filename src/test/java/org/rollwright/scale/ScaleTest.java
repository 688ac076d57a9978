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
import org.rollwright.journal.Word;

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
        double copper = MetalContent.of(BRASS, Map.of()).grams(Element.COPPER);
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
        double silver = MetalContent.of(alloy, Map.of()).grams(Element.SILVER);
        assertThat(silver / MetalContent.TROY_OUNCE).isCloseTo(ounces, within(0.0002));
    }

    @Test
    void a_metal_value_is_the_sum_of_its_metals() {
        Map<Word<Element>, MetalPrice> prices = Map.of(
                Word.of(Element.COPPER),
                        new MetalPrice(
                                Word.of(Element.COPPER), new BigDecimal("10"), "10 per kg", LocalDate.of(2026, 1, 1)),
                Word.of(Element.ZINC),
                        new MetalPrice(
                                Word.of(Element.ZINC), new BigDecimal("3"), "3 per kg", LocalDate.of(2026, 1, 1)));
        MetalContent content = MetalContent.of(BRASS, prices);
        assertThat(content.complete()).isTrue();
        assertThat(content.value().doubleValue()).isCloseTo(3.11 * 0.95 * 0.01 + 3.11 * 0.05 * 0.003, within(1e-4));
        assertThat(MetalContent.of(BRASS, Map.of()).complete()).isFalse();
        assertThat(MetalContent.caution()).contains("31 CFR part 82").contains("Silver coins are not");
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
                        bad -> assertThat(bad.flaw().wrong()).contains(wrong));
    }

    /// By hand: 100 coins of 3 g with a spread of 0.03 g on a scale of 1 g: n = 100, variance of the sum 100 ·
    /// 0.03² + 1/12 = 0.1733 g², so 0.1388 coins.
    @Test
    void a_count_by_weight_by_hand() {
        CountByWeight count = CountByWeight.of(300, 3, 0.03, 1);
        assertThat(count.coins()).isCloseTo(100, within(1e-12));
        assertThat(count.standardError()).isCloseTo(Math.sqrt(0.09 + 1 / 12.0) / 3, within(1e-12));
        // a mean itself unsure by 0.02 g of 3 g adds 100 · 0.02 / 3; two readings round twice
        CountByWeight unsure = new AlloyWeight(3, 0.03, 0.02, "").count(300, 1, 2);
        assertThat(unsure.coins()).isCloseTo(100, within(1e-12));
        assertThat(unsure.standardError())
                .isCloseTo(Math.sqrt((0.09 + 2 / 12.0) / 9 + Math.pow(100 * 0.02 / 3, 2)), within(1e-12));
    }

    /// 3.11 ± 0.13 g (the mint's specification of the brass cent): a third of the tolerance is the spread; of a
    /// pile of 100 on a scale of 0.6 g the mean is unsure by the root of (0.13/3)²/100 + 0.36/12/100².
    @Test
    void the_weight_of_an_alloy_by_hand() {
        AlloyWeight usual = AlloyWeight.of(BRASS, Map.of());
        assertThat(usual.sd()).isCloseTo(0.13 / 3, within(1e-12));
        assertThat(usual.meanSd()).isCloseTo(0.02, within(1e-12));
        CountedPile pile =
                new CountedPile("us-cent-brass", 100, Mass.ofGrams(306), Mass.ofGrams(0.6), java.time.Instant.EPOCH);
        AlloyWeight own = AlloyWeight.of(BRASS, Map.of("us-cent-brass", pile));
        assertThat(own.meanSd()).isCloseTo(Math.sqrt(Math.pow(0.13 / 3, 2) / 100 + 0.36 / 12 / 10_000), within(1e-12));
        assertThat(own.source()).contains("100 coins");
        Alloy without = new Alloy(
                "odd", BRASS.metal(), Mass.ofGrams(10), null, BRASS.diameter(), BRASS.composition(), false, "");
        assertThat(AlloyWeight.of(without, Map.of()).sd()).isCloseTo(0.13, within(1e-12));
    }

    /// Two coins, 3 g or 2 g, spread 0.1 g, 5 g in all: one of each is by far the likeliest; the chances are
    /// those of the normal densities, worked out here.
    @Test
    void a_mixed_pile_by_hand() {
        MixedPile pile = MixedPile.of(5.1, 2, 3, 2, 0.1, 0.2, 0.3);
        double[] densities = new double[3];
        double sum = 0;
        double step = 0.09 / 12;
        double[][] meanAndVariance = {{4, 0.08 + step}, {5, 0.05 + step}, {6, 0.02 + step}};
        for (int heavy = 0; heavy < 3; heavy++) {
            double off = 5.1 - meanAndVariance[heavy][0];
            double variance = meanAndVariance[heavy][1];
            densities[heavy] = Math.exp(-off * off / (2 * variance)) / Math.sqrt(variance);
            sum += densities[heavy];
        }
        double mean = (densities[1] + 2 * densities[2]) / sum;
        double square = (densities[1] + 4 * densities[2]) / sum;
        assertThat(pile.probabilities()).hasSize(3);
        for (int heavy = 0; heavy < 3; heavy++) {
            assertThat(pile.probabilities().get(heavy)).isCloseTo(densities[heavy] / sum, within(1e-12));
        }
        assertThat(pile.mean()).isCloseTo(mean, within(1e-12));
        assertThat(pile.sd()).isCloseTo(Math.sqrt(square - mean * mean), within(1e-9));
        assertThat(pile.moments()).isCloseTo(1.1, within(1e-12));
        assertThat(MixedPile.of(3, 1, 3, 2, 0.1, 0.1, 0).probabilities().get(1)).isGreaterThan(0.999);
        org.assertj.core.api.Assertions.assertThatThrownBy(() -> MixedPile.of(5, 2, 2, 3, 0.1, 0.1, 0))
                .hasMessageContaining("heavier");
        org.assertj.core.api.Assertions.assertThatThrownBy(() -> MixedPile.of(5, 2, 2, 2, 0.1, 0.1, 0))
                .hasMessageContaining("heavier");
        org.assertj.core.api.Assertions.assertThatThrownBy(() -> MixedPile.of(5, 0, 3, 2, 0.1, 0.1, 0))
                .hasMessageContaining("at least one");
        org.assertj.core.api.Assertions.assertThatThrownBy(() -> MixedPile.of(5, 2, 3, 2, 0, 0, 0))
                .hasMessageContaining("spread");
    }

    /// The borders: 3.11 + 0.13 + half a step above, 3.11 − 0.13 − 0.1 of wear − half a step below.
    @Test
    void a_single_coin_at_the_borders() {
        List<Alloy> brass = List.of(BRASS);
        assertThat(SingleCoin.of(3.2449, 0.01, brass).fits()).hasSize(1);
        assertThat(SingleCoin.of(3.2451, 0.01, brass).fits()).isEmpty();
        assertThat(SingleCoin.of(2.8751, 0.01, brass).fits()).hasSize(1);
        assertThat(SingleCoin.of(2.8749, 0.01, brass).fits()).isEmpty();
        assertThat(SingleCoin.of(3.08, 0.01, brass).sentence())
                .isEqualTo("brass (copper): 3.08 g lies within 3.11 ± 0.13 g (worn coins 0.1 g less).");
        assertThat(SingleCoin.of(4.6, 0.01, List.of(BRASS, ZINC)).sentence())
                .endsWith("Nearest is brass (copper) with 3.11 ± 0.13 g (worn coins 0.1 g less).");
        assertThat(SingleCoin.of(1, 0.01, List.of(BRASS, ZINC)).sentence())
                .contains("Nearest is zinc with 2.5 ± 0.1 g");
        Alloy without = new Alloy(
                "odd", BRASS.metal(), Mass.ofGrams(10), null, BRASS.diameter(), BRASS.composition(), false, "");
        assertThat(SingleCoin.of(10.13, 0, List.of(without)).fits()).hasSize(1);
        assertThat(SingleCoin.of(10.14, 0, List.of(without)).fits()).isEmpty();
        assertThat(SingleCoin.of(11, 0.01, List.of(without)).sentence()).contains("10 ± 0.13 g");
        // the gap between 3.11 and 2.5 g is 0.61 g: a step of that width cannot tell, a finer one can
        assertThat(SingleCoin.of(3, 0.61, List.of(BRASS, ZINC)).sentence())
                .isEqualTo(
                        "This scale cannot tell: its step of 0.61 g is as wide as the gap of 0.61 g between the alloys. Use one that shows 0.01 g.");
        assertThat(SingleCoin.of(3.1, 0.6, List.of(BRASS, ZINC)).sentence()).doesNotContain("cannot tell");
        assertThat(SingleCoin.of(2.8, 0.6, List.of(BRASS, ZINC)).sentence())
                .isEqualTo(
                        "Undecided between brass (copper) and zinc: weigh again with a finer scale, or let it ring.");
    }
}
