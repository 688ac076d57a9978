package org.rollwright.till;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.ToLongFunction;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Denomination;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.HuntBook;
import org.rollwright.hunt.HuntId;
import org.rollwright.hunt.Roll;

/// Where the hunter's time, road and fuel went.
///
/// Time at the Mat is measured from the record: the pauses between entries, each counted up to [#PAUSE].
/// Minutes noted by hand as searching take its place for their hunt.
///
/// @param minutes by phase, over everything
/// @param measured minutes of searching that were measured, not noted
/// @param sources by denomination and source
public record TimeSpent(
        Map<Effort.Phase, Double> minutes, double measured, double kilometres, BigDecimal fuel, List<Source> sources) {
    /// A longer pause is a break, not searching; ours.
    public static final Duration PAUSE = Duration.ofMinutes(10);

    /// What one source took.
    ///
    /// @param fullBoxes coins searched, in full boxes of the denomination
    /// @param minutes all phases; what belongs to no hunt is shared among all by coins searched
    public record Source(Denomination denomination, String source, double fullBoxes, double minutes) {
        /// Hours that a full box takes, endless when none was searched.
        public double hoursPerBox() {
            return minutes / 60 / fullBoxes;
        }
    }

    public TimeSpent {
        minutes = java.util.Collections.unmodifiableMap(new EnumMap<>(minutes));
        sources = List.copyOf(sources);
    }

    /// @param coinsPerBox coins of a full box, by denomination
    /// @param sourceOf what a box's source is called

    public static TimeSpent of(
            TillBook till, HuntBook book, ToLongFunction<Denomination> coinsPerBox, Function<Box, String> sourceOf) {
        Map<Effort.Phase, Double> minutes = new EnumMap<>(Effort.Phase.class);
        Map<HuntId, Double> perHunt = new LinkedHashMap<>();
        Map<HuntId, Double> noted = new LinkedHashMap<>();
        double shared = 0;
        double kilometres = 0;
        BigDecimal fuel = BigDecimal.ZERO.setScale(2);
        for (Effort effort : till.efforts()) {
            minutes.merge(effort.phase(), (double) effort.minutes(), Double::sum);
            kilometres += effort.kilometres();
            fuel = fuel.add(effort.fuel());
            @Nullable HuntId hunt = effort.hunt();
            if (hunt == null) {
                shared += effort.minutes();
            } else {
                perHunt.merge(hunt, (double) effort.minutes(), Double::sum);
                if (effort.phase() == Effort.Phase.SEARCH) {
                    noted.merge(hunt, (double) effort.minutes(), Double::sum);
                }
            }
        }
        double measured = 0;
        for (Hunt hunt : book.hunts()) {
            if (!noted.containsKey(hunt.id())) {
                double own = measured(book, hunt);
                measured += own;
                perHunt.merge(hunt.id(), own, Double::sum);
                minutes.merge(Effort.Phase.SEARCH, own, Double::sum);
            }
        }
        return new TimeSpent(
                minutes, measured, kilometres, fuel, sources(book, perHunt, shared, coinsPerBox, sourceOf));
    }

    private record Key(Denomination denomination, String source) {}

    private static List<Source> sources(
            HuntBook book,
            Map<HuntId, Double> perHunt,
            double shared,
            ToLongFunction<Denomination> coinsPerBox,
            Function<Box, String> sourceOf) {
        long all = book.boxes().stream()
                .filter(box -> box.hunt().isPresent())
                .mapToLong(Box::searchedCoins)
                .sum();
        Map<Key, double[]> sums = new LinkedHashMap<>();
        for (Hunt hunt : book.hunts()) {
            List<Box> boxes = hunt.boxes().stream()
                    .map(book::box)
                    .flatMap(Optional::stream)
                    .toList();
            long coins = boxes.stream().mapToLong(Box::searchedCoins).sum();
            for (Box box : boxes) {
                if (box.searchedCoins() > 0) {
                    double share = box.searchedCoins() / (double) coins;

                    double[] sum = sums.computeIfAbsent(
                            new Key(box.denomination(), sourceOf.apply(box)), key -> new double[2]);
                    sum[0] += box.searchedCoins() / (double) coinsPerBox.applyAsLong(box.denomination());
                    sum[1] +=
                            share * perHunt.getOrDefault(hunt.id(), 0.0) + shared * box.searchedCoins() / (double) all;
                }
            }
        }
        List<Source> sources = new ArrayList<>();
        sums.forEach((key, sum) -> sources.add(new Source(key.denomination, key.source, sum[0], sum[1])));
        return sources;
    }

    /// Minutes at the Mat: pauses between entries, none counted longer than [#PAUSE].
    static double measured(HuntBook book, Hunt hunt) {
        List<Instant> moments = new ArrayList<>();
        moments.add(hunt.started());
        hunt.finished().ifPresent(moments::add);
        hunt.finds().forEach(id -> book.find(id).ifPresent(find -> moments.add(find.at())));
        for (var id : hunt.boxes()) {
            book.box(id)
                    .ifPresent(box -> box.rolls().stream()
                            .map(Roll::opened)
                            .filter(java.util.Objects::nonNull)
                            .forEach(moments::add));
        }
        hunt.marks().forEach(mark -> moments.add(mark.at()));
        hunt.notes().forEach(note -> moments.add(note.at()));
        moments.sort(Comparator.naturalOrder());
        double minutes = 0;
        for (int i = 1; i < moments.size(); i++) {
            Duration pause = Duration.between(moments.get(i - 1), moments.get(i));
            minutes += Math.min(pause.toSeconds(), PAUSE.toSeconds()) / 60.0;
        }
        return minutes;
    }
}
