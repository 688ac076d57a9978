package org.rollwright.catalog;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Alloy;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;

/// One coin that exists: a row of the catalogue. Its identity always has year and mint.
///
/// @param alloys what it was struck on, the usual one first; several where the planchets changed within the date and
///     nothing on the coin tells which, as with the steel cents of 1943
/// @param words what one may type to single out this kind or design
/// @param collectorOnly struck for sets and collectors, not for circulation
/// @param mintage coins struck for circulation, or for collectors where there are none other; null where no figure
///     is given
/// @param formerly names its kind or design bore in earlier catalogues, so that what was recorded then is found
/// @param looks where to look for what `check` says and for what tells its kind
/// @param check what deserves a look under the loupe, blank when nothing in particular
public record Issue(
        Identity identity,
        Series series,
        List<Alloy> alloys,
        List<String> words,
        boolean collectorOnly,
        @Nullable Long mintage,
        Rarity rarity,
        String check,
        List<Spot> looks,
        String note,
        List<String> formerly,
        Evidence evidence) {

    public Issue {
        words = List.copyOf(words);
        looks = List.copyOf(looks);
        formerly = List.copyOf(formerly);
        alloys = List.copyOf(alloys);
        if (identity.year() == null || identity.mint() == null) {
            throw new IllegalArgumentException("an issue has a year and a mint: " + identity);
        }
        if (alloys.isEmpty()) {
            throw new IllegalArgumentException("an issue has an alloy: " + identity);
        }
    }

    /// The usual alloy.
    public Alloy alloy() {
        return alloys.getFirst();
    }

    /// Where the row stands.
    public String source() {
        return evidence.source();
    }

    /// Whether its design is, or was once, called so.
    boolean hasDesign(String name) {
        return identity.design().equals(name) || formerly.contains(name);
    }

    /// Whether its kind is, or was once, called so.
    boolean hasKind(String name) {
        return identity.kind().equals(name) || formerly.contains(name);
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
