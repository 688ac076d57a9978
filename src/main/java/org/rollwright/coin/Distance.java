package org.rollwright.coin;

import java.util.Locale;
import java.util.Optional;

/// Distances as people type them.
public final class Distance {
    /// By the international agreement of 1959.
    public static final double KM_PER_MILE = 1.609344;

    private Distance() {}

    /// Kilometres of a road typed with or without its unit: `12`, `12 km`, `7.5 mi`.
    ///
    /// @param miles what a bare number is in: miles, or kilometres
    /// @return empty when it is no distance of up to five digits
    public static Optional<Double> kilometres(String text, boolean miles) {
        String plain = Limits.pointed(text.toLowerCase(Locale.ROOT).replace(" ", ""));
        String number = plain.replaceAll("(km|mi|miles)$", "");
        if (!number.matches("[0-9]{1,5}(\\.[0-9]{1,3})?")) {
            return Optional.empty();
        }
        boolean inMiles = plain.equals(number) ? miles : !plain.endsWith("km");
        return Optional.of(Double.parseDouble(number) * (inMiles ? KM_PER_MILE : 1));
    }
}
