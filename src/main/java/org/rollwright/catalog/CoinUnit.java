package org.rollwright.catalog;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Country;

/// A unit of money that coins of elsewhere are told by: `2 euro 2002`, `20 centavos 1975`.
///
/// @param key name of the unit in a denomination, `2-euro`
/// @param words as typed, lower case
/// @param country the only one it can be of, null when there are several
public record CoinUnit(
        String key, List<String> words, @Nullable Country country) {
    public CoinUnit {
        words = List.copyOf(words);
    }
}
