package org.rollwright.catalog;

import org.rollwright.coin.Denomination;

/// Something a hunter should be told where it matters.
///
/// @param topic what it is about: `supply`
/// @param country and
/// @param denomination of the coins it is about; blank for all
/// @param text one or two plain sentences
public record Caution(String topic, String country, String denomination, String text, String source) {
    boolean isAbout(Denomination coins) {
        return (country.isBlank() || country.equals(coins.country().code()))
                && (denomination.isBlank() || denomination.equals(coins.key()));
    }
}
