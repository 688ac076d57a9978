package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.Issue;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Metal;

/// Holds what is said of how many there are against the finds: box by box, and kind by kind. It decides nothing; a
/// number that does not agree tells the hunter where to look.
final class Totals {
    /// Words that lead a number in that sums up: `that makes nine wheats`.
    private static final Set<String> SUMMING =
            Set.of("makes", "make", "that's", "total", "have", "got", "at", "now", "is", "of", "were", "are");

    /// How well a figure sits in its chain to be a running count.
    private static final double RUNNING = 2;

    /// A kind of coin hunters count.
    ///
    /// @param words as they are spoken
    private record Kind(String name, Set<String> words, Predicate<Identity> is) {}

    private final Listening heard;
    private final List<Kind> kinds;

    Totals(Listening heard, Catalog catalog) {
        this.heard = heard;
        Country home = heard.homes().getFirst().country();
        this.kinds = List.of(
                new Kind(
                        "wheat",
                        Set.of("wheat", "wheats", "wheaties", "wheatie"),
                        coin -> coin.denomination().equals(Denomination.US_CENT) && within(coin, 1909, 1958)),
                new Kind("silver", Set.of("silver", "silvers"), coin -> isSilver(catalog, coin)),
                new Kind(
                        "Canadian",
                        Set.of("canadian", "canadians"),
                        coin -> !home.equals(Country.CANADA)
                                && coin.denomination().country().equals(Country.CANADA)),
                new Kind(
                        "American",
                        Set.of("american", "americans"),
                        coin -> !home.equals(Country.US)
                                && coin.denomination().country().equals(Country.US)),
                new Kind(
                        "king",
                        Set.of("king", "kings"),
                        coin -> coin.denomination().country().equals(Country.CANADA) && within(coin, 1902, 1952)));
    }

    private static boolean within(Identity coin, int first, int last) {
        Integer year = coin.year();
        return year != null && year >= first && year <= last;
    }

    private static boolean isSilver(Catalog catalog, Identity coin) {
        Integer year = coin.year();
        return year != null
                && catalog.ofYear(coin.denomination(), year).stream()
                        .filter(issue -> coin.mint() == null || issue.mint().equals(coin.mint()))
                        .map(Issue::alloy)
                        .anyMatch(alloy -> alloy.metal() == Metal.SILVER);
    }

    /// The last number said in each box, and the finds up to there.
    ///
    /// @param said running counts that fit, by box: the number and its word
    List<Narration.Total> of(List<Narration.Proposed> finds, Map<Integer, int[]> said) {
        List<Narration.Total> totals = new ArrayList<>();
        int boxes = finds.stream().mapToInt(Narration.Proposed::box).max().orElse(1);
        for (int box = 1; box <= boxes && boxes > 1; box++) {
            int here = box;
            int @Nullable [] last = said.get(box);
            Narration.Total alone = total(box, false, "", finds, find -> find.box() == here, last);
            Narration.Total through = total(box, true, "", finds, find -> find.box() <= here, last);
            Integer spoken = alone.spoken();
            boolean goesOn = spoken != null && Math.abs(spoken - through.finds()) < Math.abs(spoken - alone.finds());
            totals.add(goesOn ? through : alone);
        }
        for (Kind kind : kinds) {
            int @Nullable [] last = lastSaid(kind);
            Narration.Total total = total(0, false, kind.name, finds, find -> kind.is.test(find.identity()), last);
            if (total.finds() > 0 || total.spoken() != null) {
                totals.add(total);
            }
        }
        return totals;
    }

    private Narration.Total total(
            int box,
            boolean through,
            String kind,
            List<Narration.Proposed> finds,
            Predicate<Narration.Proposed> counts,
            int @Nullable [] said) {
        long until = said == null ? Long.MAX_VALUE : heard.words().get(said[1]).at();
        int coins = finds.stream()
                .filter(counts)
                .filter(find -> find.at() <= until)
                .mapToInt(Narration.Proposed::count)
                .sum();
        return new Narration.Total(box, through, kind, coins, said == null ? null : said[0], said == null ? -1 : until);
    }

    /// The last number said of a kind and its word: `that makes nine wheats`, or `wheat nine` of a running count.
    private int @Nullable [] lastSaid(Kind kind) {
        List<Word> words = heard.words();
        int[] last = null;
        for (int i = 0; i < words.size(); i++) {
            if (!kind.words.contains(words.get(i).text())) {
                continue;
            }
            int before = figureBefore(i);
            if (before >= 0
                    && before > 0
                    && SUMMING.contains(words.get(before - 1).text())) {
                last = new int[] {value(before), i};
            }
            int behind = i + 1 < words.size() && words.get(i + 1).is("number") ? i + 2 : i + 1;
            if (heard.chains().end(behind) > 0 && heard.chains().strength(behind) >= RUNNING && !isDate(behind)) {
                last = new int[] {value(behind), behind};
            }
        }
        return last;
    }

    private int figureBefore(int i) {
        for (int from = Math.max(0, i - 2); from < i; from++) {
            if (heard.chains().end(from) == i && !isDate(from)) {
                return from;
            }
        }
        return -1;
    }

    private int value(int i) {
        Optional<Numbers.Spoken> number = Numbers.count(heard.words(), i);
        return number.map(Numbers.Spoken::value).orElse(0);
    }

    /// A year in full is no count.
    private boolean isDate(int i) {
        return Numbers.at(heard.words(), i).filter(Numbers.Spoken::year).isPresent() || value(i) < 1;
    }
}
