package org.rollwright.entry;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.Selection;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Mint;

/// Finds the issues a date, a mint and further words may mean, by the catalogue and the watch list.
///
/// The rules for a date of two digits, in order: only years in which such a coin exists count, and a date without a
/// mint mark is none of the century before where the later one had marks only; words that name a kind, a metal or a
/// weight narrow them; if a watch selects some since 1900, only those; a year before 1900 counts when a watch names
/// its series, and then the later one stays beside it; and if several years are left, the hunter is asked.
final class DateResolver {
    /// What a date may mean.
    sealed interface Resolved {
        /// One year, and the issues of that year that fit; never empty.
        record Issues(int year, List<Issue> issues) implements Resolved {}

        /// Several years are possible.
        record Years(List<Integer> years) implements Resolved {}

        /// None. The message says why and what would do.
        record Nothing(String wrong, String right) implements Resolved {}
    }

    private final EntryContext context;
    private final Denomination denomination;

    DateResolver(EntryContext context, Denomination denomination) {
        this.context = context;
        this.denomination = denomination;
    }

    /// Resolves a date.
    ///
    /// @param mint null when the mint could not be read
    /// @param words further words of the line; a weight, and words that name a kind or design of some candidate
    ///     year, narrow the choice
    Resolved resolve(DateWord date, @Nullable Mint mint, List<String> words) {
        List<Integer> years = date.hasCentury() ? List.of(date.number()) : yearsEndingIn(date.number());
        List<Integer> struck = years.stream()
                .filter(year -> !context.catalog().ofYear(denomination, year).isEmpty())
                .toList();
        if (struck.isEmpty()) {
            return noSuchYear(date);
        }
        List<Integer> fitting =
                struck.stream().filter(year -> !issues(year, mint).isEmpty()).toList();
        if (fitting.isEmpty()) {
            return noSuchMint(struck, struck, mint);
        }
        List<Integer> watchedYears = struck.stream()
                .filter(year -> year >= 1900)
                .filter(year -> issues(year, null).stream().anyMatch(this::watched))
                .toList();
        boolean named = words.stream().anyMatch(word -> fitting.stream().anyMatch(year -> names(word, year, mint)));
        boolean otherWatched = !watchedYears.isEmpty() && watchedYears.stream().noneMatch(fitting::contains);
        if (otherWatched && !named) {
            // With wheat cents watched, `22` is a slip for 22d far more often than a 2022 cent: do not guess.
            return noSuchMint(
                    java.util.stream.Stream.concat(watchedYears.stream(), fitting.stream())
                            .toList(),
                    watchedYears,
                    mint);
        }
        List<Integer> recent = struck.stream().filter(year -> year >= 1900).toList();
        boolean unmarked = Mint.P.equals(mint) || Mint.NONE.equals(mint);
        boolean onlyOld = unmarked && !recent.isEmpty() && recent.stream().noneMatch(fitting::contains);
        if (onlyOld && !named) {
            // `68` of nickels is a slip for 68d or 68s, not a Shield nickel of 1868
            return noSuchMint(
                    java.util.stream.Stream.concat(recent.stream(), fitting.stream())
                            .toList(),
                    recent,
                    mint);
        }
        List<Integer> left = narrowByWords(fitting, mint, words);
        if (left.size() > 1) {
            left = narrowByWatches(left, mint);
        }
        return left.size() == 1
                ? new Resolved.Issues(left.getFirst(), issues(left.getFirst(), mint))
                : new Resolved.Years(left);
    }

    private List<Integer> yearsEndingIn(int number) {
        List<Integer> years = new ArrayList<>();
        for (int century = 1700; century <= 2000; century += 100) {
            if (century + number <= context.thisYear()) {
                years.add(century + number);
            }
        }
        return years;
    }

    private List<Issue> issues(int year, @Nullable Mint mint) {
        return context.catalog().ofYear(denomination, year, mint);
    }

    private List<Integer> narrowByWords(List<Integer> years, @Nullable Mint mint, List<String> words) {
        List<Integer> left = years;
        for (String word : words) {
            List<Integer> named =
                    left.stream().filter(year -> names(word, year, mint)).toList();
            if (!named.isEmpty()) {
                left = named;
            }
        }
        return left;
    }

    /// Whether a word names the kind, design, metal or weight of a coin of a year.
    private boolean names(String word, int year, @Nullable Mint mint) {
        return issues(year, mint).stream()
                .anyMatch(issue -> Slug.belongs(issue, word)
                        || Slug.isMetalOf(issue, word)
                        || IdentityReader.weight(word)
                                .filter(mass -> IdentityReader.weighs(issue, mass))
                                .isPresent());
    }

    private List<Integer> narrowByWatches(List<Integer> years, @Nullable Mint mint) {
        List<Integer> watched = years.stream()
                .filter(year -> issues(year, mint).stream().anyMatch(this::watched))
                .toList();
        List<Integer> recent = years.stream().filter(year -> year >= 1900).toList();
        if (!watched.isEmpty() && !recent.isEmpty() && watched.stream().noneMatch(recent::contains)) {
            // `95` may be a doubled 1995 as well as the Indian that is watched for: it is asked
            return years.stream()
                    .filter(year -> year >= 1900 || watched.contains(year))
                    .toList();
        }
        List<Integer> left = watched.isEmpty() ? years : watched;
        List<Integer> since1900 = left.stream().filter(year -> year >= 1900).toList();
        return since1900.isEmpty() ? left : since1900;
    }

    private boolean watched(Issue issue) {
        return context.watches().stream().anyMatch(watch -> watches(watch, issue));
    }

    /// Whether a watch selects an issue; before 1900 only a watch that names the series counts.
    private boolean watches(Selection watch, Issue issue) {
        return watch.selects(CoinDescription.plain(issue.identity()), List.of(issue), context.home())
                && (issue.year() >= 1900 || watch.namesSeries());
    }

    /// The issues left when a watch selects those of one series only; otherwise all that were given.
    List<Issue> preferWatchedSeries(List<Issue> issues) {
        List<Issue> chosen = issues.stream().filter(this::watched).toList();
        return seriesOf(chosen).size() == 1 ? chosen : issues;
    }

    static Set<String> seriesOf(List<Issue> issues) {
        Set<String> series = new LinkedHashSet<>();
        issues.forEach(issue -> series.add(issue.series().id()));
        return series;
    }

    private Resolved noSuchYear(DateWord date) {
        String typed = date.hasCentury() ? date.digits() : "'" + date.digits();
        if (date.hasCentury() && date.number() > context.thisYear()) {
            return new Resolved.Nothing(t("entry.date-in-future", typed), t("entry.date-future", context.thisYear()));
        }
        Optional<Denomination> twin = date.hasCentury() ? sameFace(date.number()) : Optional.empty();
        if (twin.isPresent()) {
            return new Resolved.Nothing(
                    t("entry.the-catalogue-has-no-dated", denomination, typed),
                    t("entry.word-of-date", twin.get(), twin.get().key(), date.digits()));
        }
        Set<Integer> years = new TreeSet<>();
        context.catalog().issues().stream()
                .filter(issue -> issue.identity().denomination().equals(denomination))
                .forEach(issue -> years.add(issue.year()));
        if (date.hasCentury()) {
            int number = date.number();
            List<Integer> near = years.stream()
                    .sorted(Comparator.comparingInt((Integer year) -> Math.abs(year - number))
                            .thenComparingInt(year -> year))
                    .limit(2)
                    .sorted()
                    .toList();
            return new Resolved.Nothing(
                    t("entry.the-catalogue-has-no-dated", denomination, typed),
                    t("entry.the-nearest-dates-are-and", near.getFirst(), near.getLast()));
        }
        return new Resolved.Nothing(t("entry.the-catalogue-has-no-dated", denomination, typed), t("entry.date-again"));
    }

    /// Another denomination of the same face value that was struck in a year: large dollars beside small ones.
    private Optional<Denomination> sameFace(int year) {
        Optional<DenominationFacts> own = context.catalog().facts(denomination);
        return context.catalog().denominations().stream()
                .filter(other -> !other.denomination().equals(denomination))
                .filter(other -> other.denomination().country().equals(denomination.country()))
                .filter(other -> own.isPresent() && own.get().face().equals(other.face()))
                .map(DenominationFacts::denomination)
                .filter(other -> !context.catalog().ofYear(other, year).isEmpty())
                .findFirst();
    }

    private Resolved noSuchMint(List<Integer> offered, List<Integer> struck, @Nullable Mint mint) {
        List<String> forms = new ArrayList<>();
        for (int year : offered) {
            for (Issue issue : context.catalog().ofYear(denomination, year)) {
                String form = year + letters(denomination.country(), issue.mint());
                if (!forms.contains(form)) {
                    forms.add(form);
                }
            }
        }
        String where = mint == null || mint.equals(Mint.P) || mint.equals(Mint.NONE)
                ? t("entry.without-a-mint-mark")
                : t("entry.with-mint-mark", mint);
        String which = struck.size() == 1 ? struck.getFirst() + "" : t("entry.or", struck.getFirst(), struck.getLast());
        return new Resolved.Nothing(
                t("entry.coin-unknown", which, denomination, where),
                t(
                        "entry.write",
                        forms.stream().reduce((a, b) -> t("entry.or", a, b)).orElse("")));
    }

    /// What is typed behind a date for a mint; nothing for Philadelphia, whose coins mostly bear no mark.
    static String letters(Country country, Mint mint) {
        boolean philadelphia = mint.equals(Mint.P) && country.equals(Country.US);
        return philadelphia || mint.equals(Mint.NONE) ? "" : mint.code().toLowerCase(Locale.ROOT);
    }
}
