package org.rollwright.web;

import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;

/// Dates as pages show them, in the computer's time zone.
final class Days {
    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("d MMM yyyy", Locale.ENGLISH);

    private Days() {}

    static String day(Instant instant) {
        return DAY.withZone(ZoneId.systemDefault()).format(instant);
    }
}
