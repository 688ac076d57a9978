package org.rollwright.catalog;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Alloy;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;

/// One coin that exists: a row of the catalogue. Its identity always has year and mint.
///
/// @param words what one may type to single out this kind or design
/// @param collectorOnly struck for sets and collectors, not for circulation
/// @param mintage coins struck for circulation, null where no figure is given
/// @param check what deserves a look under the loupe, blank when nothing in particular
public record Issue(
        Identity identity,
        Series series,
        Alloy alloy,
        List<String> words,
        boolean collectorOnly,
        @Nullable Long mintage,
        Rarity rarity,
        String check,
        String note,
        String source) {

    public Issue {
        words = List.copyOf(words);
        if (identity.year() == null || identity.mint() == null) {
            throw new IllegalArgumentException("an issue has a year and a mint: " + identity);
        }
    }

    public int year() {
        Integer year = identity.year();
        if (year == null) {
            throw new AssertionError("checked on construction");
        }
        return year;
    }

    public Mint mint() {
        Mint mint = identity.mint();
        if (mint == null) {
            throw new AssertionError("checked on construction");
        }
        return mint;
    }
}
