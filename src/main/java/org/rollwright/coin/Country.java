package org.rollwright.coin;

import java.util.Locale;

/// The country whose name a coin bears.
///
/// @param code two upper-case letters: ISO 3166-1 alpha-2 where there is one, otherwise a code of our own
///     beginning with X (see catalog/countries.csv)
public record Country(String code) {
    public static final Country US = new Country("US");
    public static final Country CANADA = new Country("CA");

    public Country {
        if (code.length() != 2 || !code.equals(code.toUpperCase(Locale.ROOT))) {
            throw new IllegalArgumentException("country code must be two upper-case letters, was '" + code + "'");
        }
    }

    @Override
    public String toString() {
        return code;
    }
}
