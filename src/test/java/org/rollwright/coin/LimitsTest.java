package org.rollwright.coin;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Locale;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.rollwright.text.Texts;

class LimitsTest {
    @AfterEach
    void english_again() {
        Texts.use(Locale.ENGLISH);
    }

    /// Groups of three digits and a comma between them, as US prices are printed: common practice.
    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {"2,500;2500", "1,234,567.89;1234567.89", "12,000.;12000.", "25.00;25.00"})
    void a_comma_between_thousands_is_left_out(String typed, String plain) {
        assertThat(Limits.ungrouped(typed)).isEqualTo(plain);
    }

    /// In much of Canada and of Europe the comma is the point: a dollar and a half must not become a hundred and fifty.
    @ParameterizedTest
    @ValueSource(strings = {"1,50", "25,00", "1,2345", "12,34,567", ",500", "1234,567", "1,,000", "1,000,"})
    void a_comma_elsewhere_is_no_amount(String typed) {
        assertThat(Limits.money(Limits.ungrouped(typed))).isEmpty();
    }

    /// One or two digits behind a comma are decimals for everybody; three are thousands where a point is written, and
    /// nothing certain where a comma is.
    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "en;1,50;1.50",
                "en;25,0;25.0",
                "en;1,250;1250",
                "en;1,250.50;1250.50",
                "en;1 250.50;1250.50",
                "en;1,5,0;1,5,0",
                "fr-CA;1,50;1.50",
                "fr-CA;1.50;1.50",
                "fr-CA;1 250,50;1250.50",
                "fr-CA;1\u00A0250,50;1250.50",
                "fr-CA;1\u202F250;1250",
                "fr-CA;1,250;1,250",
                "fr-CA;1,250.50;1,250.50"
            })
    void a_comma_that_can_only_be_a_point_is_one(String language, String typed, String plain) {
        Texts.use(Locale.forLanguageTag(language));
        assertThat(Limits.typed(typed)).isEqualTo(plain);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {"1,5 kg;1500", "1899,4g;1899.4", "100,25 g;100.25"})
    void a_weight_may_have_a_decimal_comma(String typed, double grams) {
        assertThat(MassText.read(typed)).isEqualTo(new MassText.Result.Good(Mass.ofGrams(grams)));
    }

    @Test
    void a_road_may_have_one_too() {
        assertThat(Distance.kilometres("12,5 km", false)).contains(12.5);
        assertThat(Distance.kilometres("1,250", false)).isEmpty();
    }

    @Test
    void a_quote_is_short_and_steers_no_terminal() {
        assertThat(Refusal.quote("Hill Bank")).isEqualTo("Hill Bank");
        assertThat(Refusal.quote("x".repeat(1_000))).hasSize(61).endsWith("…");
        assertThat(Refusal.quote("a\u001b[31mb\u202Ec")).isEqualTo("a\uFFFD[31mb\uFFFDc");
    }
}
