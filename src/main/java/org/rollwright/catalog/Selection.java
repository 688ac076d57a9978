package org.rollwright.catalog;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Country;
import org.rollwright.coin.Identity;

/// Which coins are meant: the small rule language shared by watch lists and albums.
///
/// A rule is a list of clauses separated by `;` or line ends. A coin is selected when every clause holds.
/// Clauses:
///
/// ```
/// everything                     any coin
/// series wheat, indian           coins of a series, by its file name or one of its words
/// denomination cent              coins of a denomination
/// country CA                     coins of a country; `country other` for any but the hunter's own
/// years 1909-1958, 1982          coins of these years
/// mints D, S                     coins of these mints
/// metal copper, silver           coins of these metals
/// kind small date                coins of this kind;   design bison: of this design
/// rarity key, semi-key           coins the catalogue marks so
/// variety ddo                    coins noted as this variety; `variety any`;   likewise error clip, error any
/// except 1922, 1909-S vdb        but not these dates
/// ```
///
/// Immutable and thread-safe.
public final class Selection {
    /// The outcome of reading a rule.
    public sealed interface Parsed {
        record Good(Selection selection) implements Parsed {}

        /// @param position of the clause in the text, from 0
        record Bad(int position, String wrong, String right) implements Parsed {}
    }

    private sealed interface Clause {
        record Everything() implements Clause {}

        record OneOf(Field field, Set<String> values) implements Clause {}

        record Years(List<YearRange> ranges) implements Clause {}

        record Except(List<DateMint> dates) implements Clause {}
    }

    private enum Field {
        SERIES("series"),
        DENOMINATION("denomination"),
        COUNTRY("country"),
        MINTS("mints"),
        METAL("metal"),
        KIND("kind"),
        DESIGN("design"),
        RARITY("rarity"),
        VARIETY("variety"),
        ERROR("error");

        private final String word;

        Field(String word) {
            this.word = word;
        }
    }

    /// Years with both ends included.
    record YearRange(int first, int last) {}

    /// A date, perhaps a mint and a kind: `1909-S vdb`; without a mint every mint of the year is meant.
    record DateMint(int year, @Nullable String mint, String kind) {
        static Optional<DateMint> parse(String text) {
            String trimmed = text.strip();
            int space = trimmed.indexOf(' ');
            String head = space < 0 ? trimmed : trimmed.substring(0, space);
            String kind = space < 0 ? "" : trimmed.substring(space + 1).strip();
            int dash = head.indexOf('-');
            String digits = dash < 0 ? head : head.substring(0, dash);
            if (digits.length() != 4 || !digits.chars().allMatch(Character::isDigit)) {
                return Optional.empty();
            }
            String mint = dash < 0 ? null : head.substring(dash + 1).toUpperCase(Locale.ROOT);
            return Optional.of(new DateMint(Integer.parseInt(digits), mint, kind));
        }

        boolean covers(Identity identity) {
            boolean sameYear = identity.year() != null && identity.year() == year;
            boolean sameMint = mint == null
                    || (identity.mint() != null && identity.mint().code().equals(mint));
            return sameYear && sameMint && (kind.isEmpty() || kind.equals(identity.kind()));
        }
    }

    private final String rule;
    private final List<Clause> clauses;

    private Selection(String rule, List<Clause> clauses) {
        this.rule = rule;
        this.clauses = List.copyOf(clauses);
    }

    /// The rule that selects every coin.
    public static Selection everything() {
        return new Selection("everything", List.of(new Clause.Everything()));
    }

    /// Reads a rule.
    public static Parsed parse(String text) {
        List<Clause> clauses = new ArrayList<>();
        int position = 0;
        for (String piece : text.split("[;\n]", -1)) {
            String clause = piece.strip();
            if (!clause.isEmpty()) {
                int space = clause.indexOf(' ');
                String keyword = (space < 0 ? clause : clause.substring(0, space)).toLowerCase(Locale.ROOT);
                String rest = space < 0 ? "" : clause.substring(space + 1).strip();
                Object read = clause(keyword, rest);
                if (read instanceof Clause good) {
                    clauses.add(good);
                } else {
                    return new Parsed.Bad(position, t("catalog.rule-unknown", clause), String.valueOf(read));
                }
            }
            position += piece.length() + 1;
        }
        if (clauses.isEmpty()) {
            return new Parsed.Bad(0, t("catalog.the-rule-is-empty"), t("catalog.write-for-example-series-wheat"));
        }
        return new Parsed.Good(new Selection(text.strip(), clauses));
    }

    /// Whether a word opens a clause of this language.
    public static boolean isKeyword(String word) {
        return word.equals("everything")
                || word.equals("years")
                || word.equals("except")
                || Arrays.stream(Field.values()).anyMatch(field -> field.word.equals(word));
    }

    /// A clause, or the advice to give when it cannot be read.
    private static Object clause(String keyword, String rest) {
        if (keyword.equals("everything")) {
            return rest.isEmpty() ? new Clause.Everything() : t("catalog.write-everything-alone");
        }
        if (rest.isEmpty()) {
            return isKeyword(keyword) ? t("catalog.clause-value", keyword) : knownKeywords();
        }
        List<String> values = Arrays.stream(rest.split(","))
                .map(String::strip)
                .filter(v -> !v.isEmpty())
                .toList();
        return switch (keyword) {
            case "years" -> years(values);
            case "except" -> except(values);
            default -> {
                for (Field field : Field.values()) {
                    if (field.word.equals(keyword)) {
                        Set<String> lower = new HashSet<>();
                        values.forEach(value -> lower.add(value.toLowerCase(Locale.ROOT)));
                        yield new Clause.OneOf(field, lower);
                    }
                }
                yield knownKeywords();
            }
        };
    }

    private static String knownKeywords() {
        return t("catalog.clauses");
    }

    private static Object years(List<String> values) {
        List<YearRange> ranges = new ArrayList<>();
        for (String value : values) {
            String[] ends = value.split("[-–]", -1);
            boolean good = ends.length <= 2
                    && Arrays.stream(ends)
                            .allMatch(end -> end.strip().length() == 4
                                    && end.strip().chars().allMatch(Character::isDigit));
            if (!good) {
                return t("catalog.years-form");
            }
            int first = Integer.parseInt(ends[0].strip());
            int last = Integer.parseInt(ends[ends.length - 1].strip());
            if (last < first) {
                return t("catalog.write-the-earlier-year-first", last, first);
            }
            ranges.add(new YearRange(first, last));
        }
        return new Clause.Years(ranges);
    }

    private static Object except(List<String> values) {
        List<DateMint> dates = new ArrayList<>();
        for (String value : values) {
            Optional<DateMint> date = DateMint.parse(value);
            if (date.isEmpty()) {
                return t("catalog.dates-form");
            }
            dates.add(date.get());
        }
        return new Clause.Except(dates);
    }

    /// The rule as it was written.
    public String rule() {
        return rule;
    }

    /// Whether an issue of the catalogue is selected. Clauses on varieties and errors are not satisfied by an
    /// issue.
    ///
    /// @param home the hunter's own country, for `country other`
    public boolean selects(Issue issue, Country home) {
        return clauses.stream()
                .allMatch(clause -> holds(clause, CoinDescription.plain(issue.identity()), List.of(issue), home));
    }

    /// Whether a coin as found is selected. A coin that could be one of several issues is selected when any of
    /// them is.
    ///
    /// @param candidates the issues the coin may be, from [Catalog#lookup]; empty for a coin not in the
    ///     catalogue
    public boolean selects(CoinDescription facts, List<Issue> candidates, Country home) {
        if (candidates.isEmpty()) {
            return clauses.stream().allMatch(clause -> holds(clause, facts, candidates, home));
        }
        return candidates.stream()
                .anyMatch(issue -> clauses.stream().allMatch(clause -> holds(clause, facts, List.of(issue), home)));
    }

    /// Whether the rule names a series outright. A two-digit year is read as before 1900 only under such a
    /// rule.
    public boolean namesSeries() {
        return clauses.stream().anyMatch(clause -> clause instanceof Clause.OneOf one && one.field == Field.SERIES);
    }

    /// Whether the rule looks at more than which coin it is: at varieties or errors noted.
    public boolean looksAtState() {
        return clauses.stream()
                .anyMatch(clause ->
                        clause instanceof Clause.OneOf one && (one.field == Field.VARIETY || one.field == Field.ERROR));
    }

    private static boolean holds(Clause clause, CoinDescription facts, List<Issue> issues, Country home) {
        Identity identity = facts.identity();
        return switch (clause) {
            case Clause.Everything all -> true;
            case Clause.Years years -> {
                Integer year = identity.year();
                yield year != null
                        && years.ranges.stream().anyMatch(range -> range.first <= year && year <= range.last);
            }
            case Clause.Except except -> except.dates.stream().noneMatch(date -> date.covers(identity));
            case Clause.OneOf one -> oneOf(one, facts, issues, home);
        };
    }

    private static boolean oneOf(Clause.OneOf one, CoinDescription facts, List<Issue> issues, Country home) {
        Identity identity = facts.identity();
        Set<String> values = one.values;
        return switch (one.field) {
            case SERIES -> issues.stream().anyMatch(issue -> names(values, issue.series()));
            case DENOMINATION -> values.contains(identity.denomination().key());
            case COUNTRY -> {
                Country country = identity.denomination().country();
                yield values.contains(country.code().toLowerCase(Locale.ROOT))
                        || (values.contains("other") && !country.equals(home));
            }
            case MINTS ->
                identity.mint() != null
                        && values.contains(identity.mint().code().toLowerCase(Locale.ROOT));
            case METAL ->
                issues.stream()
                        .anyMatch(issue -> values.contains(issue.alloy().metal().word()));
            case KIND ->
                values.contains(identity.kind())
                        || issues.stream()
                                .filter(issue -> identity.kind().isEmpty() || issue.hasKind(identity.kind()))
                                .anyMatch(issue -> values.stream().anyMatch(issue::hasKind));
            case DESIGN ->
                values.contains(identity.design())
                        || issues.stream()
                                .filter(issue -> identity.design().isEmpty() || issue.hasDesign(identity.design()))
                                .anyMatch(issue -> values.stream().anyMatch(issue::hasDesign));
            case RARITY ->
                issues.stream().anyMatch(issue -> values.contains(issue.rarity().word()));
            case VARIETY -> anyOf(values, facts.varieties());
            case ERROR -> anyOf(values, facts.errors());
        };
    }

    private static boolean anyOf(Set<String> values, List<String> said) {
        return values.contains("any") ? !said.isEmpty() : said.stream().anyMatch(values::contains);
    }

    private static boolean names(Set<String> values, Series series) {
        return values.contains(series.id()) || series.words().stream().anyMatch(values::contains);
    }

    @Override
    public String toString() {
        return rule;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Selection selection && selection.rule.equals(rule);
    }

    @Override
    public int hashCode() {
        return rule.hashCode();
    }
}
