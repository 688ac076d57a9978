package org.rollwright.hunt;

import static org.rollwright.text.Texts.t;

import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.Selection;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;

/// Counts of finds by one thing or another. Counts are coins, not finds: `x3 48d` counts three.
public final class Tally {
    /// How many coins fall under one heading.
    public record Line(String label, int coins) {}

    private Tally() {}

    /// Total coins.
    public static int coins(Collection<Find> finds) {
        return finds.stream().mapToInt(Find::count).sum();
    }

    /// By decade, oldest first; coins without a date last.
    public static List<Line> byDecade(Collection<Find> finds) {
        Map<Integer, Integer> decades = new TreeMap<>();
        for (Find find : finds) {
            Integer year = find.facts().identity().year();
            decades.merge(year == null ? Integer.MAX_VALUE : year / 10 * 10, find.count(), Integer::sum);
        }
        return decades.entrySet().stream()
                .map(entry -> new Line(
                        entry.getKey() == Integer.MAX_VALUE ? t("hunt.no-date") : t("hunt.decade", entry.getKey()),
                        entry.getValue()))
                .toList();
    }

    /// By mint letter, most first; an unreadable mint is `?`, a coinage without mints `–`.
    public static List<Line> byMint(Collection<Find> finds) {
        return most(finds, find -> {
            org.rollwright.coin.Mint mint = find.facts().identity().mint();
            return mint == null ? "?" : mint.equals(org.rollwright.coin.Mint.NONE) ? "–" : mint.code();
        });
    }

    /// By series of the catalogue, most first; coins outside it by country and denomination.
    public static List<Line> bySeries(Collection<Find> finds, Catalog catalog) {
        return most(finds, find -> seriesName(find.facts().identity(), catalog));
    }

    /// By metal, most first.
    public static List<Line> byMetal(Collection<Find> finds, Catalog catalog) {
        return most(finds, find -> {
            List<String> metals = catalog.lookup(find.facts().identity()).stream()
                    .map(issue -> issue.alloy().metal().said())
                    .distinct()
                    .toList();
            return either(metals).orElseGet(() -> t("hunt.not-in-the-catalogue"));
        });
    }

    /// By identity, in order of date and mint.
    public static Map<Identity, Integer> byIdentity(Collection<Find> finds) {
        Map<Identity, Integer> counts = new TreeMap<>(IDENTITY_ORDER);
        finds.forEach(find -> counts.merge(find.facts().identity(), find.count(), Integer::sum));
        return counts;
    }

    /// Coins that a watch was meant for.
    public static int watched(Collection<Find> finds, Watch watch, Catalog catalog, Country home) {
        return Selection.parse(watch.rule()) instanceof Selection.Parsed.Good good
                ? finds.stream()
                        .filter(find -> good.selection()
                                .selects(
                                        find.facts(),
                                        catalog.lookup(find.facts().identity()),
                                        home))
                        .mapToInt(Find::count)
                        .sum()
                : 0;
    }

    /// Which part of a box's coins a watch was meant for, as far as it was watched for: finds of the roll in hand, of
    /// rolls searched before the watch began, and coins nobody looked at do not count.
    ///
    /// @param boxFinds finds of the box
    /// @return 0 to 1; 0 while nothing was searched
    public static double share(Box box, Collection<Find> boxFinds, Watch watch, Catalog catalog) {
        boolean loose = box.details().rolls() == 0;
        Set<Integer> rolls = box.rolls().stream()
                .filter(roll -> roll.searched()
                        && roll.watches().stream().anyMatch(one -> one.name().equals(watch.name())))
                .map(Roll::number)
                .collect(Collectors.toSet());
        long searched = loose
                ? box.searchedCoins()
                : box.rolls().stream()
                        .filter(roll -> rolls.contains(roll.number()))
                        .mapToLong(roll -> roll.coins(box.details().coinsPerRoll()))
                        .sum();
        List<Find> inside = boxFinds.stream()
                .filter(find -> loose || rolls.contains(find.roll()))
                .toList();
        return searched == 0
                ? 0
                : (double) watched(inside, watch, catalog, box.denomination().country()) / searched;
    }

    /// Coins of the whole journal that a watch was meant for, opening balances of the denomination included.
    public static long watchedInSeries(HuntBook book, Watch watch, Catalog catalog, Denomination denomination) {
        if (!(Selection.parse(watch.rule()) instanceof Selection.Parsed.Good good)) {
            return 0;
        }
        Country home = denomination.country();
        long coins = book.balances().stream()
                .filter(balance -> balance.denomination().equals(denomination)
                        && balance.watch().equals(watch.name()))
                .mapToLong(HuntBook.Balance::found)
                .sum();
        coins += book.boxes().stream()
                .filter(box -> box.denomination().equals(denomination))
                .flatMap(box -> box.earlier().stream())
                .flatMap(earlier -> earlier.counts().stream())
                .filter(count -> count.watch().name().equals(watch.name()))
                .mapToLong(HuntEvent.WatchCount::found)
                .sum();
        if (good.selection().looksAtState()) {
            return coins + watched(book.finds(), watch, catalog, home);
        }
        for (Map.Entry<Identity, Integer> entry : book.coinsByIdentity().entrySet()) {
            Identity identity = entry.getKey();
            if (good.selection().selects(CoinDescription.plain(identity), catalog.lookup(identity), home)) {
                coins += entry.getValue();
            }
        }
        return coins;
    }

    /// Country, denomination, date, mint, design, kind; what cannot be read comes last.
    public static final Comparator<Identity> IDENTITY_ORDER = Comparator.comparing(
                    (Identity identity) -> identity.denomination().toString())
            .thenComparing(identity -> identity.year() == null ? Integer.MAX_VALUE : identity.year())
            .thenComparing(
                    identity -> identity.mint() == null ? "~" : identity.mint().code())
            .thenComparing(Identity::design)
            .thenComparing(Identity::kind);

    static String seriesName(Identity identity, Catalog catalog) {
        return either(series(identity, catalog)).orElseGet(identity.denomination()::toString);
    }

    /// Names of the series a coin may be of, none when the catalogue does not know it.
    static List<String> series(Identity identity, Catalog catalog) {
        return catalog.lookup(identity).stream()
                .map(Issue::series)
                .map(org.rollwright.catalog.Series::name)
                .distinct()
                .toList();
    }

    private static Optional<String> either(List<String> some) {
        return some.stream().reduce((a, b) -> t("hunt.either", a, b));
    }

    private static List<Line> most(Collection<Find> finds, Function<Find, String> heading) {
        Map<String, Integer> counts = new LinkedHashMap<>();
        finds.forEach(find -> counts.merge(heading.apply(find), find.count(), Integer::sum));
        return counts.entrySet().stream()
                .sorted(Map.Entry.<String, Integer>comparingByValue(Comparator.reverseOrder())
                        .thenComparing(Map.Entry.comparingByKey()))
                .map(entry -> new Line(entry.getKey(), entry.getValue()))
                .toList();
    }
}
