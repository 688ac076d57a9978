package org.rollwright.hunt;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.coin.Identity;

/// What a box gave, and how it stands among the others.
///
/// @param strip one entry for each roll of the box, in order
/// @param searchedCoins coins in the rolls searched
/// @param nominalCoins coins a full box of this kind holds
/// @param difference coins more (or, negative, fewer) than full rolls, over the rolls counted
/// @param rank 1 for the box with most finds among boxes of its denomination that were searched to the end, 0 while
///     this one is not
/// @param ranked how many boxes were searched to the end
/// @param identities coins by date and mint
/// @param remarks what stands out, in plain words; facts only, no claim about chance
public record BoxReport(
        BoxId id,
        BoxDetails details,
        List<RollCell> strip,
        long searchedRolls,
        long searchedCoins,
        long nominalCoins,
        long difference,
        int foundCoins,
        int rank,
        int ranked,
        List<Find> finds,
        Map<Identity, Integer> identities,
        List<Tally.Line> byDecade,
        List<Tally.Line> byMint,
        List<Tally.Line> bySeries,
        List<Tally.Line> byMetal,
        List<Tally.Line> byWatch,
        List<Box.Enders> enders,
        List<Box.Weight> weights,
        List<String> remarks) {

    /// One roll on the strip.
    ///
    /// @param difference coins more or fewer than a full roll, 0 when full or not counted
    public record RollCell(int number, State state, int coins, int difference) {
        /// How far a roll has come.
        public enum State {
            UNSEARCHED,
            IN_HAND,
            SEARCHED,
            /// Put back before its end, with finds in it.
            PARTLY,
            /// Put back unsearched.
            LEFT
        }
    }

    /// Builds the report of a box.
    public static BoxReport of(HuntBook book, Box box, Catalog catalog) {
        List<Find> finds = box.finds().stream().map(book::known).toList();
        List<RollCell> strip = strip(book, box, finds);
        List<Tally.Line> byWatch = new ArrayList<>();
        watchesOf(book, box)
                .forEach(watch -> byWatch.add(new Tally.Line(
                        watch.name(),
                        Tally.watched(finds, watch, catalog, box.denomination().country()))));
        box.earlier()
                .ifPresent(earlier -> earlier.counts()
                        .forEach(count ->
                                byWatch.add(new Tally.Line(count.watch().name(), count.found()))));
        Ranking ranking = Ranking.of(book, box);
        return new BoxReport(
                box.id(),
                box.details(),
                strip,
                box.searchedRolls(),
                box.searchedCoins(),
                box.details().nominalCoins(),
                strip.stream().mapToLong(RollCell::difference).sum(),
                box.foundCoins(),
                ranking.rank(),
                ranking.of(),
                finds,
                Tally.byIdentity(finds),
                Tally.byDecade(finds),
                Tally.byMint(finds),
                Tally.bySeries(finds, catalog),
                Tally.byMetal(finds, catalog),
                byWatch,
                List.copyOf(box.enders()),
                List.copyOf(box.weights()),
                remarks(finds, strip, ranking, box));
    }

    /// Place of a box among those of its denomination that were searched to the end, 0 while it is not one of them: a
    /// box half searched has had half the chances.
    public record Ranking(int rank, int of) {
        public static Ranking of(HuntBook book, Box box) {
            int better = 0;
            int all = 0;
            for (Box other : book.boxes()) {
                if (other.denomination().equals(box.denomination()) && isOver(book, other)) {
                    all++;
                    better += other.foundCoins() > box.foundCoins() ? 1 : 0;
                }
            }
            return new Ranking(isOver(book, box) ? better + 1 : 0, all);
        }

        /// Whether a box was searched to the end: every roll of it was opened, or its hunt is finished and nobody
        /// counted rolls, or it was searched before the journal.
        public static boolean isOver(HuntBook book, Box box) {
            int rolls = box.details().rolls();
            boolean whole = rolls > 0 && box.searchedRolls() >= rolls;
            boolean uncounted = box.touched()
                    && box.rolls().isEmpty()
                    && box.hunt().flatMap(book::hunt).flatMap(Hunt::finished).isPresent();
            return whole || uncounted || box.earlier().isPresent();
        }
    }

    /// The strip of rolls of a box; every find is counted into its roll.
    public static List<RollCell> strip(HuntBook book, Box box, Collection<Find> finds) {
        Map<Integer, Integer> perRoll = new TreeMap<>();
        finds.forEach(find -> perRoll.merge(find.roll(), find.count(), Integer::sum));
        int full = box.details().coinsPerRoll();
        List<RollCell> strip = new ArrayList<>();
        // an older record may say more than are ever recorded now
        int most = Math.min(box.details().rolls(), HuntChecks.MOST_ROLLS);
        for (int number = 1; number <= most; number++) {
            Roll roll = box.roll(number);
            int coins = perRoll.getOrDefault(number, 0);
            Integer counted = roll == null ? null : roll.counted();
            strip.add(new RollCell(number, state(roll, coins), coins, counted == null ? 0 : counted - full));
        }
        return strip;
    }

    private static RollCell.State state(@Nullable Roll roll, int coins) {
        if (roll == null || roll.opened() == null) {
            return roll != null && roll.left() ? RollCell.State.LEFT : RollCell.State.UNSEARCHED;
        }
        if (roll.left()) {
            return coins > 0 ? RollCell.State.PARTLY : RollCell.State.LEFT;
        }
        return roll.open() ? RollCell.State.IN_HAND : RollCell.State.SEARCHED;
    }

    /// Every watch under which some roll of the box was opened, and those of its hunt now, each once.
    static List<Watch> watchesOf(HuntBook book, Box box) {
        Map<String, Watch> watches = new java.util.LinkedHashMap<>();
        box.rolls().forEach(roll -> roll.watches().forEach(watch -> watches.putIfAbsent(watch.name(), watch)));
        box.hunt()
                .flatMap(book::hunt)
                .ifPresent(hunt -> hunt.watches().forEach(watch -> watches.putIfAbsent(watch.name(), watch)));
        return List.copyOf(watches.values());
    }

    private static int year(Identity identity) {
        Integer year = identity.year();
        return year == null ? Integer.MAX_VALUE : year;
    }

    private static List<String> remarks(List<Find> finds, List<RollCell> strip, Ranking ranking, Box box) {
        List<String> remarks = new ArrayList<>();
        boolean wholeBox = box.details().rolls() > 0
                && box.searchedRolls() == box.details().rolls();
        if (box.earlier().isPresent()) {
            remarks.add(t("hunt.box-before-journal"));
        } else if (finds.isEmpty()) {
            remarks.add(wholeBox ? t("hunt.milestone-skunked") : t("hunt.no-finds-so-far"));
            return remarks;
        }
        if (ranking.rank() > 0 && ranking.of() > 1) {
            remarks.add(
                    ranking.rank() == 1
                            ? t("hunt.milestone-best-box", ranking.of())
                            : t("hunt.number-of-boxes", ranking.rank(), ranking.of()));
        }
        RollCell best = strip.stream()
                .max(java.util.Comparator.comparingInt(RollCell::coins)
                        .thenComparing(java.util.Comparator.comparingInt(RollCell::number)
                                .reversed()))
                .orElse(null);
        if (best != null && best.coins() >= 3) {
            remarks.add(t("hunt.roll-alone-held-finds", best.number(), best.coins()));
        }
        finds.stream()
                .map(find -> find.facts().identity())
                .filter(identity -> identity.year() != null)
                .min(java.util.Comparator.comparing((Identity identity) -> year(identity))
                        .thenComparing(Tally.IDENTITY_ORDER))
                .ifPresent(identity -> remarks.add(t("hunt.oldest", identity.dateAndMint())));
        long shorts = strip.stream().filter(cell -> cell.difference() < 0).count();
        long overs = strip.stream().filter(cell -> cell.difference() > 0).count();
        if (shorts + overs > 0) {
            remarks.add(t("hunt.rolls-short-and-over", shorts, overs));
        }
        long enders = finds.stream().filter(Find::ender).mapToInt(Find::count).sum();
        if (enders > 0) {
            remarks.add(t("hunt.finds-were-enders", enders));
        }
        return remarks;
    }
}
