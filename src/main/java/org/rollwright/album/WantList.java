package org.rollwright.album;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.Rarity;
import org.rollwright.coin.Grade;

/// What an album still wants, in order of how findable it is: common dates first, then the larger mintage;
/// dates without a mintage stand last among their like.
public final class WantList {
    /// One wish.
    ///
    /// @param has the coin in the hole when a better one is wished for, null for an empty hole
    public record Want(
            Hole hole,
            Rarity rarity,
            @Nullable Long mintage,
            @Nullable CoinRef has) {}

    private WantList() {}

    /// Empty holes, and holes whose coin is below a grade.
    ///
    /// @param wished holes with a coin below this grade are listed too; null for empty holes only
    public static List<Want> of(
            AlbumState album, @Nullable Grade wished, java.util.function.Function<CoinRef, @Nullable Grade> grades) {
        List<Want> wants = new ArrayList<>();
        for (Hole hole : album.places().holes()) {
            CoinRef there = album.content().get(hole.key());
            Grade grade = there == null ? null : grades.apply(there);
            boolean poor = there != null && wished != null && grade != null && grade.compareTo(wished) < 0;
            if (there == null || poor) {
                wants.add(new Want(hole, rarity(hole), mintage(hole), there));
            }
        }
        wants.sort(Comparator.comparing(Want::rarity)
                .thenComparing(want -> want.mintage() == null ? 0L : -want.mintage())
                .thenComparing(want -> want.hole().key()));
        return wants;
    }

    /// The rarity of the easiest of the issues that would do.
    private static Rarity rarity(Hole hole) {
        return hole.issues().stream()
                .map(Issue::rarity)
                .min(Comparator.naturalOrder())
                .orElse(Rarity.COMMON);
    }

    /// Together the coins struck of all issues that would do; null when none has a figure.
    private static @Nullable Long mintage(Hole hole) {
        long sum = 0;
        boolean known = false;
        for (Issue issue : hole.issues()) {
            Long one = issue.mintage();
            if (one != null) {
                sum += one;
                known = true;
            }
        }
        return known && hole.variety().isEmpty() ? (Long) sum : null;
    }
}
