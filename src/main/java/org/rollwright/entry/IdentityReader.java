package org.rollwright.entry;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.MintFacts;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mass;
import org.rollwright.coin.Mint;

/// Tells which coin a date, its mint and the words behind them mean. Used once, for one find of one line.
final class IdentityReader {
    /// What came of it.
    sealed interface Result {
        /// @param rest index of the first word behind date and mint
        /// @param kindWords words that told its kind or design, lower case
        /// @param issues of the catalogue that it may be; empty for a coin the catalogue does not cover
        record Coin(Identity identity, int rest, Set<String> kindWords, List<Issue> issues) implements Result {}

        record Unclear(Reading reading) implements Result {}
    }

    /// Share of its weight that a coin may have lost or gained: wear and what a mint may err, common practice.
    private static final double WORN = 0.06;

    private final EntryContext context;
    private final String line;
    private final List<Token> tokens;
    private final int dateAt;
    private final Token token;
    private final DateWord date;
    private final Denomination denomination;

    private @Nullable Mint mint;
    private @Nullable Token mintToken;
    private final Set<String> kindWords = new LinkedHashSet<>();

    /// @param dateAt index of the word that is a date
    IdentityReader(EntryContext context, String line, List<Token> tokens, int dateAt, Denomination denomination) {
        this.context = context;
        this.line = line;
        this.tokens = tokens;
        this.dateAt = dateAt;
        this.token = tokens.get(dateAt);
        this.date = DateWord.parse(token.text()).orElseThrow();
        this.denomination = denomination;
    }

    Result read() {
        @Nullable Reading failure = mintOf();
        if (failure != null) {
            return new Result.Unclear(failure);
        }
        if (date.unreadable()) {
            return coin(undated(), List.of());
        }
        return context.catalog().covers(denomination) ? catalogued() : uncatalogued();
    }

    private int rest() {
        return dateAt + 1 + (mintToken != null ? 1 : 0);
    }

    private List<Token> behind() {
        return tokens.subList(rest(), tokens.size());
    }

    private Result coin(Identity identity, List<Issue> issues) {
        return new Result.Coin(identity, rest(), kindWords, issues);
    }

    /// Reads the mint, on the date or right behind it; answers a reading only when that cannot be taken.
    private @Nullable Reading mintOf() {
        Country of = denomination.country();
        String suffix = date.suffix();
        Mint unmarked = of.equals(Country.US) ? Mint.P : Mint.NONE;
        if (suffix.equals("?")) {
            mint = null;
            return null;
        }
        if (!suffix.isEmpty()) {
            Optional<Mint> read = mintWord(context.catalog(), of, suffix);
            if (read.isEmpty()) {
                String known = context.catalog().mints().stream()
                        .filter(facts -> facts.country().equals(of))
                        .map(facts -> facts.mint().code())
                        .filter(code -> !code.equals("-"))
                        .reduce((a, b) -> a + ", " + b)
                        .orElse("none");
                return token.problem(t("entry.mint-unknown", suffix, of), t("entry.mint-marks", known));
            }
            mint = read.get();
            return null;
        }
        boolean dated = date.hasCentury() || date.digits().length() == 2;
        Mint named = dated && !date.unreadable() ? namedMint(unmarked) : unmarked;
        if (!named.equals(unmarked)) {
            mint = named;
            return null;
        }
        if (dateAt + 1 < tokens.size() && !tokens.get(dateAt + 1).quoted()) {
            Token next = tokens.get(dateAt + 1);
            Optional<Mint> read = mintWord(context.catalog(), of, next.lower());
            if (read.isPresent()) {
                mintToken = next;
                mint = read.get();
                return null;
            }
            if (next.text().equals("?")) {
                mintToken = next;
                mint = null;
                return null;
            }
        }
        mint = date.unreadable() ? null : unmarked;
        return null;
    }

    /// The mint of the coin that a word behind the date names, `22 no d`, when none of the usual mint is called so.
    private Mint namedMint(Mint unmarked) {
        for (Token other : behind()) {
            String word = other.lower();
            if (other.quoted() || isTradeWord(word)) {
                continue;
            }
            List<Issue> named = context.catalog().issues().stream()
                    .filter(issue -> issue.identity().denomination().equals(denomination)
                            && (date.hasCentury() ? issue.year() == date.number() : issue.year() % 100 == date.number())
                            && !issue.identity().kind().isEmpty()
                            && (Slug.of(issue.identity().kind()).equals(word)
                                    || issue.words().contains(word)))
                    .toList();
            Set<Mint> mints = new LinkedHashSet<>();
            named.forEach(issue -> mints.add(issue.mint()));
            if (mints.size() == 1 && !mints.contains(unmarked)) {
                return mints.iterator().next();
            }
        }
        return unmarked;
    }

    /// The weight of one coin as a word, `2.5g`.
    static Optional<Mass> weight(String word) {
        return word.matches("[0-9]{1,3}([.][0-9]{1,3})?g")
                ? Optional.of(Mass.ofGrams(Double.parseDouble(word.substring(0, word.length() - 1))))
                : Optional.empty();
    }

    /// The issues whose metal weighs as much as the coin did, allowing for wear; all when none does.
    private static List<Issue> ofWeight(List<Issue> issues, Mass mass) {
        double least =
                issues.stream().mapToDouble(issue -> off(issue, mass)).min().orElse(1);
        return least > WORN
                ? issues
                : issues.stream()
                        .filter(issue -> off(issue, mass) <= least + 1e-9)
                        .toList();
    }

    /// Whether a coin of this weight can be of an issue, allowing for wear.
    static boolean weighs(Issue issue, Mass mass) {
        return off(issue, mass) <= WORN;
    }

    private static double off(Issue issue, Mass mass) {
        double full = issue.alloy().weight().grams();
        return Math.abs(mass.grams() - full) / full;
    }

    /// A mint of a country by its letters, its name or its words.
    static Optional<Mint> mintWord(Catalog catalog, Country of, String word) {
        return catalog.mintByWord(of, word)
                .map(MintFacts::mint)
                .or(() -> catalog.mints().stream()
                        .filter(facts -> facts.country().equals(of)
                                && !facts.mint().equals(Mint.NONE)
                                && facts.mint().code().equals(word.toUpperCase(Locale.ROOT)))
                        .map(MintFacts::mint)
                        .findFirst());
    }

    /// A coin whose date cannot be read; its design may be told by a word of its series, as with a dateless
    /// Buffalo.
    private Identity undated() {
        String design = "";
        for (Token token : behind()) {
            if (token.quoted()) {
                continue;
            }
            String word = token.lower();
            for (Issue issue : context.catalog().issues()) {
                boolean same = issue.identity().denomination().equals(denomination)
                        && !issue.identity().design().isEmpty();
                if (same
                        && (issue.series().words().contains(word)
                                || Slug.of(issue.identity().design()).equals(word))) {
                    design = issue.identity().design();
                    kindWords.add(word);
                    break;
                }
            }
        }
        return new Identity(denomination, null, mint, "", design);
    }

    private Result uncatalogued() {
        if (date.hasCentury()) {
            int year = date.number();
            if (year > context.thisYear() || year < Identity.FIRST_YEAR) {
                return new Result.Unclear(token.problem(
                        t("entry.date-impossible", year),
                        t("entry.write-a-year-from-to", Identity.FIRST_YEAR, context.thisYear())));
            }
            return coin(new Identity(denomination, year, mint, "", ""), List.of());
        }
        if (date.digits().length() != 2) {
            return badDigits();
        }
        int early = 1900 + date.number();
        int late = 2000 + date.number();
        if (late > context.thisYear()) {
            return coin(new Identity(denomination, early, mint, "", ""), List.of());
        }
        return new Result.Unclear(new Reading.Choose(
                token.start(),
                t("entry.which-year"),
                List.of(
                        new Reading.Option(Integer.toString(early), withDate(early, "")),
                        new Reading.Option(Integer.toString(late), withDate(late, "")))));
    }

    private Result badDigits() {
        return new Result.Unclear(token.problem(t("entry.date-wrong", date.digits()), t("entry.year-form")));
    }

    private Result catalogued() {
        if (date.digits().length() != 2 && !date.hasCentury()) {
            return badDigits();
        }
        List<String> words = behind().stream()
                .filter(other -> !other.quoted())
                .map(Token::lower)
                .toList();
        DateResolver resolver = new DateResolver(context, denomination);
        return switch (resolver.resolve(date, mint, words)) {
            case DateResolver.Resolved.Nothing nothing ->
                new Result.Unclear(token.problem(nothing.wrong(), nothing.right()));
            case DateResolver.Resolved.Years years ->
                new Result.Unclear(new Reading.Choose(
                        token.start(),
                        t("entry.which-year-is-it"),
                        years.years().stream()
                                .map(year -> new Reading.Option(
                                        new Identity(denomination, year, mint, "", "").dateAndMint() + " "
                                                + seriesNames(year),
                                        withDate(year, "")))
                                .toList()));
            case DateResolver.Resolved.Issues found -> oneYear(resolver, found, words);
        };
    }

    private String seriesNames(int year) {
        Set<String> names = new LinkedHashSet<>();
        for (Issue issue : context.catalog().ofYear(denomination, year)) {
            if (mint == null || mint.equals(issue.mint())) {
                names.add(issue.series().name());
            }
        }
        return String.join(" / ", names);
    }

    private Result oneYear(DateResolver resolver, DateResolver.Resolved.Issues found, List<String> words) {
        List<Issue> left = found.issues();
        boolean told = false;
        for (String word : words) {
            Optional<Mass> weighed = weight(word);
            if (weighed.isPresent()) {
                List<Issue> fitting = ofWeight(left, weighed.get());
                told |= fitting.size() < left.size();
                left = fitting;
                continue;
            }
            List<Issue> named =
                    left.stream().filter(issue -> Slug.isNameOf(issue, word)).toList();
            if (named.isEmpty()) {
                named = left.stream()
                        .filter(issue -> Slug.names(issue, word))
                        .filter(issue -> issue.words().contains(word) || !isTradeWord(word))
                        .toList();
            }
            if (named.isEmpty()) {
                named = left.stream()
                        .filter(issue -> issue.series().words().contains(word))
                        .toList();
            }
            if (!named.isEmpty() && !isMeantOtherwise(word, named, left)) {
                left = named;
                kindWords.add(word);
                told = true;
            } else if (named.isEmpty()) {
                List<Issue> ofMetal = left.stream()
                        .filter(issue -> Slug.isMetalOf(issue, word))
                        .toList();
                if (!ofMetal.isEmpty()) {
                    kindWords.add(word);
                    told |= ofMetal.size() < left.size();
                    left = ofMetal;
                }
            }
        }
        if (!told && DateResolver.seriesOf(left).size() > 1) {
            left = resolver.preferWatchedSeries(left);
        }
        if (DateResolver.seriesOf(left).size() > 1) {
            return choose(left, found.year());
        }
        if (left.size() > 1 && !told) {
            left = Catalog.ordinary(left);
        } else if (left.size() > 1) {
            // A word may name the design while the kind stays ordinary: `09 log-cabin`.
            List<Issue> ordinary = left.stream()
                    .filter(issue -> issue.identity().kind().isEmpty())
                    .toList();
            left = ordinary.size() == 1 ? ordinary : left;
            if (left.size() > 1 && mint != null) {
                return choose(left, found.year());
            }
        }
        return coin(identity(found.year(), left), left);
    }

    /// A word that every candidate bears says nothing, so a trade word wins over it. A word of the trade that
    /// is only part of a kind's name, as in `reverse proof`, keeps its own meaning.
    private boolean isTradeWord(String word) {
        return context.catalog().tradeWord(word).isPresent();
    }

    private boolean isMeantOtherwise(String word, List<Issue> named, List<Issue> all) {
        return named.size() == all.size()
                && (context.catalog().tradeWord(word).isPresent()
                        || Grade.parse(word).isPresent());
    }

    private Identity identity(int year, List<Issue> left) {
        Set<String> kinds = new TreeSet<>();
        Set<String> designs = new TreeSet<>();
        Set<Mint> marks = new LinkedHashSet<>();
        left.forEach(issue -> {
            kinds.add(issue.identity().kind());
            designs.add(issue.identity().design());
            marks.add(issue.mint());
        });
        // no mark was typed because every coin of the year bears the same
        boolean understood = Mint.NONE.equals(mint) && marks.size() == 1;
        return new Identity(
                denomination,
                year,
                understood ? marks.iterator().next() : mint,
                kinds.size() == 1 ? kinds.iterator().next() : "",
                designs.size() == 1 ? designs.iterator().next() : "");
    }

    private Result choose(List<Issue> left, int year) {
        List<Reading.Option> options = new ArrayList<>();
        Set<String> labels = new LinkedHashSet<>();
        for (Issue issue : left) {
            Identity identity = issue.identity();
            String extra = (identity.design().isEmpty() ? "" : " " + Slug.of(identity.design()))
                    + (identity.kind().isEmpty() ? "" : " " + Slug.of(identity.kind()));
            String label = identity.shortName();
            if (labels.add(label)) {
                options.add(new Reading.Option(label, withDate(year, extra)));
            }
        }
        return new Result.Unclear(new Reading.Choose(token.start(), t("entry.which-one-is-it"), options));
    }

    /// The line with its date written in full, and further words behind it; words that were too vague are taken
    /// out.
    private String withDate(int year, String extra) {
        StringBuilder full = new StringBuilder(line.substring(0, token.start()));
        full.append(year).append(date.suffix());
        int from = token.end();
        if (mintToken != null) {
            full.append(' ').append(mintToken.text());
            from = mintToken.end();
        }
        full.append(extra);
        if (!extra.isEmpty() && from < line.length() && Character.isLetterOrDigit(line.charAt(from))) {
            full.append(' ');
        }
        for (Token other : behind()) {
            boolean vague =
                    !extra.isEmpty() && !other.quoted() && other.start() >= from && kindWords.contains(other.lower());
            if (vague) {
                full.append(line, from, other.start());
                from = other.end();
            }
        }
        full.append(line.substring(from));
        return full.toString().strip().replaceAll(" {2,}", " ");
    }
}
