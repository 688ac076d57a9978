package org.rollwright.coin;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DayStyleTest {
    @ParameterizedTest
    @CsvSource({
        "ISO,2026-03-14,2026-03-14",
        "ISO,2026/3/14,2026-03-14",
        "MONTH_FIRST,2026-03-14,2026-03-14",
        "MONTH_FIRST,3/14/2026,2026-03-14",
        "MONTH_FIRST,03/04/26,2026-03-04",
        "MONTH_FIRST,3/4/98,1998-03-04",
        "DAY_FIRST,14.3.2026,2026-03-14",
        "DAY_FIRST,'4. 3. 2026',2026-03-04",
        "DAY_FIRST,4-3-26,2026-03-04",
        "DAY_FIRST,29.2.2024,2024-02-29"
    })
    void a_day_is_read(DayStyle style, String text, LocalDate day) {
        assertThat(style.read(text)).contains(day);
    }

    /// A day no month has is none; the last day of its month was not meant.
    @ParameterizedTest
    @CsvSource({
        "ISO,14.3.2026",
        "ISO,2026-02-30",
        "ISO,''",
        "ISO,soon",
        "MONTH_FIRST,14/3/2026",
        "DAY_FIRST,31.4.2026",
        "DAY_FIRST,29.2.2026",
        "DAY_FIRST,1.1.1500",
        "DAY_FIRST,1.1.026",
        "DAY_FIRST,1.1.12026",
        "DAY_FIRST,1.1"
    })
    void what_is_no_day_is_not_read(DayStyle style, String text) {
        assertThat(style.read(text)).isEmpty();
    }
}
