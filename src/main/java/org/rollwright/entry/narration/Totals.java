package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.Selection;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Country;
import org.rollwright.coin.Identity;

/// Holds what is said of how many there are against the finds: box by box, and kind by kind. It decides nothing; a
/// number that does not agree tells the hunter where to look.
final class Totals {
    /// Words that lead a number in that sums up: `that makes nine wheats`.
    private static final Set<String> SUMMING =
            Set.of("makes", "make", "that's", "total", "have", "got", "at", "now", "is", "of", "were", "are");

    /// How well a figure sits in its chain to be a running count.
    private static final double RUNNING = 2;

    /// A kind of coin as it is spoken of, and the rule of the catalogue that selects it.
    private record Spoken(Narration.Kind kind, Set<String> words, Selection rule) {}

    private final Listening heard;
    private final Catalog catalog;
    private final Country home;
    private final List<Spoken> kinds = new ArrayList<>();

    Totals(Listening heard, Catalog catalog) {
        this.heard = heard;
        this.catalog = catalog;
        this.home = heard.homes().getFirst().country();
        watched(Narration.Kind.WHEAT, "wheat", "wheat", "wheats", "wheaties", "wheatie");
        watched(Narration.Kind.SILVER, "silver", "silver", "silvers");
        if (home.equals(Country.CANADA)) {
            kind(Narration.Kind.AMERICAN, "country US", "american", "americans");
        } else {
            watched(Narration.Kind.CANADIAN, "canadian", "canadian", "canadians");
        }
        // heads on the coins, from memory: Edward VII from 1902, George VI to 1952
        kind(Narration.Kind.KING, "country CA; years 1902-1952", "king", "kings");
    }

    /// A kind that the catalogue has a watch for.
    private void watched(Narration.Kind kind, String watch, String... words) {
        catalog.watchByWord(watch).ifPresent(known -> kind(kind, known.rule(), words));
    }

    private void kind(Narration.Kind kind, String rule, String... words) {
        if (Selection.parse(rule) instanceof Selection.Parsed.Good good) {
            kinds.add(new Spoken(kind, Set.of(words), good.selection()));
        }
    }

    private boolean is(Spoken kind, Identity coin) {
        return kind.rule.selects(CoinDescription.plain(coin), catalog.lookup(coin), home);
    }

    /// The last number said in each box and of each kind, and the finds up to there: first those that do not agree.
    ///
    /// @param said running counts that fit, by box: the number and its word
    List<Narration.Total> of(List<Narration.Proposed> finds, Map<Integer, int[]> said) {
        List<Narration.Total> totals = new ArrayList<>();
        int boxes = finds.stream().mapToInt(Narration.Proposed::box).max().orElse(1);
        for (int box = 1; box <= boxes && boxes > 1; box++) {
            int here = box;
            int @Nullable [] last = said.get(box);
            Narration.Total alone = total(box, false, null, finds, find -> find.box() == here, last);
            Narration.Total through = total(box, true, null, finds, find -> find.box() <= here, last);
            Integer spoken = alone.spoken();
            boolean goesOn = spoken != null && Math.abs(spoken - through.finds()) < Math.abs(spoken - alone.finds());
            totals.add(goesOn ? through : alone);
        }
        for (Spoken kind : kinds) {
            int @Nullable [] last = lastSaid(kind.words);
            Narration.Total total = total(0, false, kind.kind, finds, find -> is(kind, find.identity()), last);
            if (total.finds() > 0 || total.spoken() != null) {
                totals.add(total);
            }
        }
        totals.sort(Comparator.comparing(Narration.Total::agrees));
        return totals;
    }

    private Narration.Total total(
            int box,
            boolean through,
            Narration.@Nullable Kind kind,
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
    private int @Nullable [] lastSaid(Set<String> kind) {
        List<Word> words = heard.words();
        int[] last = null;
        for (int i = 0; i < words.size(); i++) {
            if (!kind.contains(words.get(i).text())) {
                continue;
            }
            int before = figureBefore(i);
            if (before > 0 && SUMMING.contains(words.get(before - 1).text())) {
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
