package org.rollwright.album;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.stream.DoubleStream;
import org.jspecify.annotations.Nullable;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.Rarity;
import org.rollwright.coin.Grade;

/// What an album still wants, the easiest first: by how many boxes the hunter's own finds say each hole takes.
///
/// A hole of which they say nothing stands where its mintage puts it among the others, one without a mintage in the
/// middle of those as rare as it is. While the finds say nothing of any hole, common dates stand before scarce ones.
public final class WantList {
    /// One wish.
    ///
    /// @param has the coin in the hole when a better one is wished for, null for an empty hole
    /// @param boxes full boxes for an even chance by the hunter's own finds, empty when they say nothing of it
    public record Want(
            Hole hole,
            Rarity rarity,
            @Nullable Long mintage,
            @Nullable CoinRef has,
            OptionalDouble boxes) {}

    /// A variety is about one in so many of its date, where nobody knows better; our own guess, for the order only.
    private static final double ONE_IN = 1_000;

    private WantList() {}

    /// Empty holes, and holes whose coin is below a grade.
    ///
    /// @param wished holes with a coin below this grade are listed too; null for empty holes only
    /// @param boxes full boxes for an even chance of one of some issues, empty when nobody can say
    public static List<Want> of(
            AlbumState album,
            @Nullable Grade wished,
            Function<CoinRef, @Nullable Grade> grades,
            Function<List<Issue>, OptionalDouble> boxes) {
        List<Want> wants = new ArrayList<>();
        for (Hole hole : album.places().holes()) {
            CoinRef there = album.content().get(hole.key());
            Grade grade = there == null ? null : grades.apply(there);
            boolean poor = there != null && wished != null && grade != null && grade.compareTo(wished) < 0;
            if (there == null || poor) {
                // what is known of a date is not known of its varieties
                wants.add(new Want(
                        hole,
                        rarity(hole),
                        mintage(hole),
                        there,
                        hole.variety().isEmpty() ? boxes.apply(hole.issues()) : OptionalDouble.empty()));
            }
        }
        boolean known = wants.stream().anyMatch(want -> want.boxes.isPresent());
        ToDoubleFunction<Want> effort = effort(wants, boxes);
        Comparator<Want> byEffort = Comparator.comparingDouble(effort);
        wants.sort((known ? byEffort : Comparator.comparing(Want::rarity).thenComparing(byEffort))
                .thenComparing(want -> want.hole().key()));
        return wants;
    }

    /// Boxes, or where they are not known something that puts a wish between those of which they are.
    private static ToDoubleFunction<Want> effort(List<Want> wants, Function<List<Issue>, OptionalDouble> boxes) {
        // boxes times coins struck is about the same for all
        double perCoin = middle(wants.stream()
                        .filter(want -> want.boxes.isPresent() && want.mintage != null)
                        .mapToDouble(want -> want.boxes.getAsDouble() * mintageOr(want, 1)))
                .orElse(1);
        Map<Hole, Double> efforts = new HashMap<>();
        Map<Rarity, List<Double>> byRarity = new EnumMap<>(Rarity.class);
        for (Want want : wants) {
            if (want.boxes.isPresent() || want.mintage != null) {
                double effort = want.boxes.orElse(perCoin / mintageOr(want, 1));
                efforts.put(want.hole, effort);
                byRarity.computeIfAbsent(want.rarity, key -> new ArrayList<>()).add(effort);
            }
        }
        double all = middle(efforts.values().stream().mapToDouble(Double::doubleValue))
                .orElse(1);
        return want -> {
            if (!want.hole.variety().isEmpty()) {
                double struck = struck(want.hole);
                return ONE_IN * boxes.apply(want.hole.issues()).orElse(struck > 0 ? perCoin / struck : all);
            }
            return efforts.computeIfAbsent(
                    want.hole,
                    hole -> middle(byRarity.getOrDefault(want.rarity, List.of()).stream()
                                    .mapToDouble(Double::doubleValue))
                            .orElse(all));
        };
    }

    private static double mintageOr(Want want, long otherwise) {
        Long mintage = want.mintage;
        return Math.max(1, mintage == null ? otherwise : mintage);
    }

    private static OptionalDouble middle(DoubleStream some) {
        double[] sorted = some.sorted().toArray();
        return sorted.length == 0 ? OptionalDouble.empty() : OptionalDouble.of(sorted[sorted.length / 2]);
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
        long struck = struck(hole);
        return struck >= 0 && hole.variety().isEmpty() ? (Long) struck : null;
    }

    /// Coins struck of all issues of a hole, -1 when none has a figure.
    private static long struck(Hole hole) {
        long sum = -1;
        for (Issue issue : hole.issues()) {
            Long one = issue.mintage();
            if (one != null) {
                sum = Math.max(0, sum) + one;
            }
        }
        return sum;
    }
}
