package org.rollwright.hunt;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.rollwright.catalog.Catalog;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;

/// What is worth a word when a find has just been logged.
public final class Milestones {
    private static final int DRY_RUN_WORTH_A_WORD = 5;

    private Milestones() {}

    /// Milestones of a find that is already part of the state, the greatest first.
    public static List<String> of(HuntBook book, Find find, Catalog catalog) {
        List<String> words = new ArrayList<>();
        Identity identity = find.facts().identity();
        Denomination denomination = identity.denomination();
        Integer year = identity.year();
        if (year != null) {
            oldest(book, find, year).ifPresent(words::add);
            firsts(book, find, year, words);
        }
        rolls(book, find, catalog, words);
        dryRun(book, find).ifPresent(words::add);
        Box box = book.known(find.box());
        BoxReport.Ranking ranking = BoxReport.Ranking.of(book, box);
        int before = box.foundCoins() - find.count();
        boolean passed = ranking.rank() > 0
                && book.boxes().stream()
                        .anyMatch(other -> !other.id().equals(box.id())
                                && BoxReport.Ranking.isOver(book, other)
                                && other.denomination().equals(box.denomination())
                                && other.foundCoins() >= before
                                && other.foundCoins() < box.foundCoins()
                                && other.foundCoins() > 0);
        if (passed && ranking.rank() <= 10) {
            words.add(t("hunt.box-renumbered", ranking.rank(), ranking.of()));
        }
        if (words.isEmpty() && denomination.equals(box.denomination())) {
            int inHunt = book.known(find.hunt()).foundCoins();
            if (inHunt % 10 == 0) {
                words.add(t("hunt.milestone-find-number", inHunt));
            }
        }
        return words;
    }

    private static java.util.Optional<String> oldest(HuntBook book, Find find, int year) {
        Denomination denomination = find.facts().identity().denomination();
        long others = 0;
        for (Map.Entry<Identity, Integer> entry : book.coinsByIdentity().entrySet()) {
            Integer other = entry.getKey().year();
            if (entry.getKey().denomination().equals(denomination) && other != null) {
                boolean own = entry.getKey().equals(find.facts().identity());
                int coins = entry.getValue() - (own ? find.count() : 0);
                if (coins > 0) {
                    others += coins;
                    if (other <= year) {
                        return java.util.Optional.empty();
                    }
                }
            }
        }
        return others == 0
                ? java.util.Optional.empty()
                : java.util.Optional.of(t("hunt.milestone-oldest-ever", denomination.key()));
    }

    private static void firsts(HuntBook book, Find find, int year, List<String> words) {
        Identity identity = find.facts().identity();
        if (book.coinsByIdentity().getOrDefault(identity, 0) == find.count()) {
            words.add(t("hunt.milestone-first-ever", identity.dateAndMint()));
            return;
        }
        boolean firstInHunt = book.known(find.hunt()).finds().stream()
                .map(book::known)
                .noneMatch(other -> !other.id().equals(find.id())
                        && other.facts().identity().denomination().equals(identity.denomination())
                        && other.facts().identity().year() != null
                        && other.facts().identity().year() == year);
        if (firstInHunt) {
            words.add(t("hunt.milestone-first-of-hunt", year));
        }
    }

    /// Fifty wheat cents are a roll of them: told when a find completes one.
    private static void rolls(HuntBook book, Find find, Catalog catalog, List<String> words) {
        Box box = book.known(find.box());
        int full = catalog.facts(box.denomination())
                .map(org.rollwright.catalog.DenominationFacts::coinsPerRoll)
                .orElse(0);
        if (full == 0 || find.facts().identity().year() == null) {
            return;
        }
        List<String> series = Tally.series(find.facts().identity(), catalog);
        int total = 0;
        for (Map.Entry<Identity, Integer> entry : book.coinsByIdentity().entrySet()) {
            if (entry.getKey().denomination().equals(find.facts().identity().denomination())
                    && Tally.series(entry.getKey(), catalog).equals(series)) {
                total += entry.getValue();
            }
        }
        if (total / full > (total - find.count()) / full) {
            int rolls = total / full;
            words.add(t(
                    "hunt.full-rolls-of-them",
                    rolls,
                    total,
                    Tally.seriesName(find.facts().identity(), catalog)));
        }
    }

    /// The rolls searched without a find before this one, when no longer run ended earlier in the series.
    private static java.util.Optional<String> dryRun(HuntBook book, Find find) {
        Denomination denomination = book.known(find.box()).denomination();
        int longest = 0;
        int run = 0;
        for (Hunt hunt : book.hunts()) {
            for (BoxId id : hunt.boxes()) {
                Box box = book.known(id);
                if (!box.denomination().equals(denomination)) {
                    continue;
                }
                java.util.Set<Integer> withFinds = new java.util.HashSet<>();
                boolean here = box.id().equals(find.box());
                for (FindId other : box.finds()) {
                    if (!other.equals(find.id())) {
                        withFinds.add(book.known(other).roll());
                    }
                }
                for (Roll roll : box.rolls()) {
                    if (here && roll.number() == find.roll()) {
                        boolean ends =
                                !withFinds.contains(roll.number()) && run > longest && run >= DRY_RUN_WORTH_A_WORD;
                        return ends
                                ? java.util.Optional.of(t("hunt.milestone-dry-run", run))
                                : java.util.Optional.empty();
                    }
                    if (roll.searched()) {
                        if (withFinds.contains(roll.number())) {
                            longest = Math.max(longest, run);
                            run = 0;
                        } else {
                            run++;
                        }
                    }
                }
            }
        }
        return java.util.Optional.empty();
    }
}
