package org.rollwright.coin;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class LimitsTest {
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

    @Test
    void a_quote_is_short_and_steers_no_terminal() {
        assertThat(Refusal.quote("Hill Bank")).isEqualTo("Hill Bank");
        assertThat(Refusal.quote("x".repeat(1_000))).hasSize(61).endsWith("…");
        assertThat(Refusal.quote("a\u001b[31mb\u202Ec")).isEqualTo("a\uFFFD[31mb\uFFFDc");
    }
}
