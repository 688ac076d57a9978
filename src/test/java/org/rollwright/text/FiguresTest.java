package org.rollwright.text;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/// Figures against Unicode's CLDR, which the JDK carries: cldr-numbers-full, `fr-CA/numbers.json` (decimal `,`, group
/// U+00A0, percent `#,##0 %`) and `en/numbers.json`; plural rules in cldr-core, `supplemental/plurals.json`.
class FiguresTest {
    @AfterEach
    void english_again() {
        Texts.use(Locale.ENGLISH);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "en;%,d;3600;3,600",
                "en;%,d;999;999",
                "fr-CA;%,d;3600;3\u00A0600",
                "fr-CA;%,d;1234567;1\u00A0234\u00A0567",
                "fr-CA;%d;3600;3600",
                "fr-CA;%+d;-3;-3"
            })
    void whole_numbers(String language, String marks, long number, String written) {
        Texts.use(Locale.forLanguageTag(language));
        assertThat(Figures.of(marks, number)).isEqualTo(written);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "en;%,.2f;12345.678;12,345.68",
                "fr-CA;%,.2f;12345.678;12\u00A0345,68",
                "fr-CA;%.1f;-0.25;-0,3",
                "fr-CA;%.2g;0.00012;0,00012"
            })
    void decimals(String language, String marks, double number, String written) {
        Texts.use(Locale.forLanguageTag(language));
        assertThat(Figures.of(marks, number)).isEqualTo(written);
    }

    @Test
    void shares_and_plain_numbers() {
        assertThat(Figures.percent(0.125, 1)).isEqualTo("12.5 %");
        assertThat(Figures.plain(new BigDecimal("1250.00"))).isEqualTo("1250.00");
        assertThat(Figures.comma()).isFalse();
        Texts.use(Locale.CANADA_FRENCH);
        assertThat(Figures.percent(0.125, 1)).isEqualTo("12,5\u00A0%");
        assertThat(Figures.plain(new BigDecimal("1250.00"))).isEqualTo("1250,00");
        assertThat(Figures.plain(2.5)).isEqualTo("2,5");
        assertThat(Figures.plain(3.0)).isEqualTo("3");
        assertThat(Figures.comma()).isTrue();
    }

    @Test
    void a_number_in_a_sentence_is_written_as_the_sentence_is() {
        Texts.use(Locale.CANADA_FRENCH);
        assertThat(Texts.fill("{0} {1} {2}", new Object[] {new BigDecimal("12.50"), 2.5, "a.b"}, value -> value))
                .isEqualTo("12,50 2,5 a.b");
        assertThat(Texts.f("odds.mint-s-2f-times", "D", 1.234)).contains("1,23");
    }

    /// French has `one` for 0 and 1 (`i = 0,1`), English for 1 alone.
    @Test
    void none_is_said_as_one_is_in_french() {
        Texts.use(Locale.CANADA_FRENCH);
        assertThat(List.of(0, 1, 2, 21))
                .extracting(count -> Texts.t("series.boxes", count))
                .containsExactly("<b>0</b> boîte", "<b>1</b> boîte", "<b>2</b> boîtes", "<b>21</b> boîtes");
    }
}
