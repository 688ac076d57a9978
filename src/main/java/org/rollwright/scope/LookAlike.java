package org.rollwright.scope;

import java.util.List;
import org.rollwright.coin.Metal;

/// What is taken for a variety and is none, such as strike doubling.
///
/// @param types of varieties it is taken for
/// @param firstYear 0 when any
/// @param metal blank when any
/// @param share of ordinary coins that have it, 0 to 1
/// @param shows probability that such a coin shows a marker of the variety it is taken for, 0 to 1
public record LookAlike(
        String name,
        List<String> types,
        int firstYear,
        int lastYear,
        String metal,
        double share,
        double shows,
        List<Marker> markers,
        String note) {
    public LookAlike {
        types = List.copyOf(types);
        markers = List.copyOf(markers);
    }

    boolean mayBe(int year, String metalOfCoin) {
        return year >= firstYear && year <= lastYear && (metal.isEmpty() || metal.equals(metalOfCoin));
    }

    static boolean isMetal(String word) {
        for (Metal known : Metal.values()) {
            if (known.word().equals(word)) {
                return true;
            }
        }
        return false;
    }
}
