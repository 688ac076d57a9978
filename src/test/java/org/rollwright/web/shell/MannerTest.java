package org.rollwright.web.shell;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Locale;
import java.util.Map;
import org.joda.money.CurrencyUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/// Days and money as Unicode's CLDR 47 has them for English in these countries (the JDK 25 carries that
/// edition); pounds, ounces and miles by the international yard and pound agreement of 1959.
class MannerTest {
    private static final LocalDate DAY = LocalDate.of(2026, 3, 1);

    @AfterEach
    void plain_again() {
        Manner.use(Manner.PLAIN);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            US | Mar 1, 2026 | $1,250.00   | CA$7.10
            CA | Mar 1, 2026 | US$1,250.00 | $7.10
            GB | 1 Mar 2026  | US$1,250.00 | CA$7.10
            AU | 1 Mar 2026  | USD1,250.00 | CAD7.10
            """)
    void days_and_money_follow_the_region(String region, String day, String dollars, String canadian) {
        Manner.use(Manner.of(Map.of("region", region)));
        assertThat(Manner.day(DAY)).isEqualTo(day);
        assertThat(Manner.amount(new BigDecimal("1250.00"), CurrencyUnit.USD).replace('\u00a0', ' '))
                .isEqualTo(dollars);
        assertThat(Manner.amount(new BigDecimal("7.10"), CurrencyUnit.CAD).replace('\u00a0', ' '))
                .isEqualTo(canadian);
    }

    @Test
    void without_a_region_nothing_can_be_misread() {
        assertThat(Manner.day(DAY)).isEqualTo("1 Mar 2026");
        assertThat(Manner.amount(new BigDecimal("1250.00"), CurrencyUnit.USD)).isEqualTo("1250.00");
        assertThat(Manner.mass(1899.4)).isEqualTo("1,899.4 g (4 lb 3.0 oz)");
        assertThat(Manner.road(12.1)).isEqualTo("12.1 km (7.5 mi)");
    }

    @Test
    void numbers_are_written_as_the_texts_write_them_in_every_region() {
        for (Manner.Region region : Manner.Region.values()) {
            Manner.use(new Manner(region, Manner.Weights.BOTH, Manner.Roads.BOTH));
            assertThat(Manner.amount(new BigDecimal("1250.50"), CurrencyUnit.USD))
                    .containsPattern("1,?250\\.50$");
            assertThat(Manner.amount(new BigDecimal("-3.00"), CurrencyUnit.USD))
                    .contains("-")
                    .contains("3.00");
        }
    }

    @Test
    void weights_and_roads_come_in_the_units_chosen() {
        Manner.use(Manner.of(Map.of("weights", "grams", "roads", "kilometres")));
        assertThat(Manner.mass(1899.4)).isEqualTo("1,899.4 g");
        assertThat(Manner.mass(3.11)).isEqualTo("3.11 g");
        assertThat(Manner.road(12.1)).isEqualTo("12.1 km");
        Manner.use(Manner.of(Map.of("weights", "ounces", "roads", "miles")));
        assertThat(Manner.mass(453.59237)).isEqualTo("1 lb 0.0 oz");
        assertThat(Manner.mass(28.349523125)).isEqualTo("1.000 oz");
        assertThat(Manner.road(1.609344)).isEqualTo("1.0 mi");
    }

    @Test
    void ounces_never_come_to_a_whole_pound() {
        Manner.use(Manner.of(Map.of("weights", "ounces")));
        assertThat(Manner.mass(2 * 453.59237 - 0.1)).isEqualTo("2 lb 0.0 oz");
        assertThat(Manner.mass(2 * 453.59237 - 3)).isEqualTo("1 lb 15.9 oz");
        assertThat(Manner.mass(453.5)).isEqualTo("1 lb 0.0 oz");
        assertThat(Manner.mass(200)).isEqualTo("7.1 oz");
    }

    @Test
    void a_road_as_a_field_shows_it_reads_back_as_it_was() {
        for (Manner.Roads roads : Manner.Roads.values()) {
            Manner.use(new Manner(Manner.Region.NONE, Manner.Weights.BOTH, roads));
            assertThat(Manner.kilometres(Manner.roadField(21.5)).orElseThrow()).isCloseTo(21.5, within(0.1));
        }
        Manner.use(Manner.PLAIN);
        assertThat(Manner.kilometres("10").orElseThrow()).isEqualTo(10);
        Manner.use(Manner.of(Map.of("roads", "miles")));
        assertThat(Manner.kilometres("10").orElseThrow()).isCloseTo(16.09344, within(1e-9));
        assertThat(Manner.kilometres("10 KM").orElseThrow()).isEqualTo(10);
        assertThat(Manner.kilometres("ten")).isEmpty();
        assertThat(Manner.kilometres("10 mi mi")).isEmpty();
    }

    @Test
    void what_is_unknown_counts_as_not_chosen() {
        assertThat(Manner.of(Map.of("region", "XX", "weights", "stones", "roads", "")))
                .isEqualTo(Manner.PLAIN);
        assertThat(Manner.of(Map.of("region", "us".toUpperCase(Locale.ROOT), "weights", "GRAMS")))
                .isEqualTo(new Manner(Manner.Region.US, Manner.Weights.GRAMS, Manner.Roads.BOTH));
    }
}
