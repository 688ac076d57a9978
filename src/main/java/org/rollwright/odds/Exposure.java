package org.rollwright.odds;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.Selection;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.FindId;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.HuntBook;
import org.rollwright.hunt.Roll;
import org.rollwright.hunt.Watch;

/// How many coins each issue could have been found among, and what was found there.
///
/// A coin is looked at when its roll was searched to the end while something was watched for that selects it; of
/// a parcel without rolls, all are looked at. What was seen in a roll put back, or in the one in hand, is a find,
/// but no rate may count it: the coins beside it were not all seen.
final class Exposure {
    private final Denomination denomination;
    private final Map<List<String>, Long> coinsByRules = new HashMap<>();
    private final Map<String, Optional<Selection>> rules = new HashMap<>();
    private final Map<Identity, Integer> found = new HashMap<>();

    private Exposure(Denomination denomination) {
        this.denomination = denomination;
    }

    /// @param denomination of the boxes
    static Exposure of(HuntBook book, Catalog catalog, Denomination denomination) {
        Exposure exposure = new Exposure(denomination);
        for (Box box : book.boxes()) {
            if (box.denomination().equals(denomination)) {
                exposure.add(book, catalog, box);
            }
        }
        return exposure;
    }

    /// Whether a box is a parcel without rolls that was opened.
    static boolean isLoose(Box box) {
        return box.details().rolls() == 0
                && box.details().looseCoins() > 0
                && box.hunt().isPresent();
    }

    private void add(HuntBook book, Catalog catalog, Box box) {
        Map<Integer, List<String>> watched = new HashMap<>();
        for (Roll roll : box.rolls()) {
            if (roll.searched()) {
                watched.put(
                        roll.number(),
                        exposed(roll.watches(), roll.coins(box.details().coinsPerRoll())));
            }
        }
        if (isLoose(box)) {
            List<Watch> watches =
                    box.hunt().flatMap(book::hunt).map(Hunt::watches).orElse(List.of());
            watched.put(0, exposed(watches, box.details().looseCoins()));
        }
        for (FindId id : box.finds()) {
            Find find = book.find(id).orElseThrow();
            List<String> names = watched.get(find.roll());
            if (names != null
                    && selects(names, find.facts(), catalog.lookup(find.facts().identity()))) {
                found.merge(find.facts().identity(), find.count(), Integer::sum);
            }
        }
    }

    private List<String> exposed(Collection<Watch> watches, long coins) {
        List<String> names = new ArrayList<>();
        watches.forEach(watch -> names.add(watch.rule()));
        names.sort(null);
        coinsByRules.merge(names, coins, Long::sum);
        return names;
    }

    private boolean selects(List<String> names, CoinDescription coin, List<Issue> issues) {
        return names.stream()
                .anyMatch(name -> rules.computeIfAbsent(
                                name,
                                rule -> Selection.parse(rule) instanceof Selection.Parsed.Good good
                                        ? Optional.of(good.selection())
                                        : Optional.empty())
                        .filter(rule -> rule.selects(coin, issues, denomination.country()))
                        .isPresent());
    }

    /// Coins looked at while an issue was watched for, 0 or more.
    long coins(Issue issue) {
        long coins = 0;
        for (Map.Entry<List<String>, Long> entry : coinsByRules.entrySet()) {
            boolean watched = selects(entry.getKey(), CoinDescription.plain(issue.identity()), List.of(issue));
            coins += watched ? entry.getValue() : 0;
        }
        return coins;
    }

    /// Coins found among those, by what they are.
    Map<Identity, Integer> found() {
        return found;
    }
}
