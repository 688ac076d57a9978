package org.rollwright.coin;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeFormatterBuilder;
import java.time.format.ResolverStyle;
import java.time.format.SignStyle;
import java.time.temporal.ChronoField;
import java.util.Locale;
import java.util.Optional;

/// How days are written in tables of other programs. Whatever the style, `2026-03-14` is read as well.
public enum DayStyle {
    /// 2026-03-14
    ISO("uuuu/M/"),
    /// 3/14/2026
    MONTH_FIRST("M/d/"),
    /// 14.3.2026, 14/3/2026
    DAY_FIRST("d/M/");

    /// Two digits of a year mean one of the hundred from here on.
    private static final int FIRST_SHORT_YEAR = 1950;

    private final DateTimeFormatter format;

    DayStyle(String start) {
        DateTimeFormatterBuilder builder = new DateTimeFormatterBuilder().appendPattern(start);
        this.format = (start.startsWith("u")
                        ? builder.appendValue(ChronoField.DAY_OF_MONTH, 1, 2, SignStyle.NOT_NEGATIVE)
                        : builder.appendValueReduced(ChronoField.YEAR, 2, 4, FIRST_SHORT_YEAR))
                .toFormatter(Locale.ROOT)
                .withResolverStyle(ResolverStyle.STRICT);
    }

    /// Reads a day; points, strokes and hyphens all part its numbers.
    ///
    /// @return empty when it is none or lies outside the record's days ([Limits#isDay])
    public Optional<LocalDate> read(String text) {
        String parted = text.strip().replaceAll("\\s*[./-]\\s*", "/");
        return ISO.parsed(parted).or(() -> parsed(parted)).filter(Limits::isDay);
    }

    private Optional<LocalDate> parsed(String text) {
        try {
            return Optional.of(LocalDate.parse(text, format));
        } catch (DateTimeException e) {
            return Optional.empty();
        }
    }
}
