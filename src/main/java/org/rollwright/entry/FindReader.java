package org.rollwright.entry;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.TradeWord;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Colour;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;
import org.rollwright.coin.Strike;
import org.rollwright.hunt.Disposition;

/// Reads one find: `x3 ca 67`, `36d rpm vf30 bn "notch under the D"`. Used once, for one segment of one line.
///
/// Country stands before the date, the mint on it or right behind it; all else follows in any order.
final class FindReader {
    /// What came of it.
    sealed interface Result {
        record Draft(Command.FindDraft draft) implements Result {}

        record Other(Reading reading) implements Result {}
    }

    private static final int MOST_COINS = 1_000_000;

    private final EntryContext context;
    private final String line;
    private final List<Token> tokens;

    private @Nullable Integer count;
    private @Nullable Country country;
    private @Nullable String denominationKey;
    private int dateAt = -1;
    private @Nullable Mint mint;
    private @Nullable Grade grade;
    private @Nullable String details;
    private @Nullable Colour colour;
    private Strike strike = Strike.BUSINESS;
    private final List<String> varieties = new ArrayList<>();
    private final List<String> errors = new ArrayList<>();
    private final List<String> photos = new ArrayList<>();
    private final List<String> notes = new ArrayList<>();
    private boolean ender;
    private Disposition disposition = Disposition.OPEN;
    private List<Issue> issues = List.of();
    private final Set<String> kindWords = new LinkedHashSet<>();

    FindReader(EntryContext context, String line, List<Token> tokens) {
        this.context = context;
        this.line = line;
        this.tokens = tokens;
    }

    Result read() {
        @Nullable Reading failure = head();
        if (failure != null) {
            return new Result.Other(failure);
        }
        Token dateToken = tokens.get(dateAt);
        DateWord date = DateWord.parse(dateToken.text()).orElseThrow();
        denominationAfterDate();
        Denomination denomination = denomination();
        failure = mintOf(date, dateToken, denomination.country());
        if (failure != null) {
            return new Result.Other(failure);
        }
        int rest = dateAt + 1 + (mintToken != null ? 1 : 0);
        Identity identity;
        if (date.unreadable()) {
            identity = undated(denomination, rest);
        } else if (!context.catalog().covers(denomination)) {
            Object found = uncatalogued(date, dateToken, denomination);
            if (found instanceof Reading reading) {
                return new Result.Other(reading);
            }
            identity = (Identity) found;
        } else {
            Object found = catalogued(date, dateToken, denomination, rest);
            if (found instanceof Reading reading) {
                return new Result.Other(reading);
            }
            identity = (Identity) found;
        }
        for (Token token : tokens.subList(rest, tokens.size())) {
            failure = tail(token);
            if (failure != null) {
                return new Result.Other(failure);
            }
        }
        CoinDescription facts = new CoinDescription(
                identity, grade, details, colour, strike, varieties, errors, String.join(" ", notes), photos);
        return new Result.Draft(new Command.FindDraft(facts, count == null ? 1 : count, ender, disposition));
    }

    private @Nullable Token mintToken;

    /// Everything up to the date.
    private @Nullable Reading head() {
        for (int i = 0; i < tokens.size(); i++) {
            Token token = tokens.get(i);
            String word = token.lower();
            if (token.quoted()) {
                @Nullable Reading failure = tagged(token);
                if (failure != null) {
                    return failure;
                }
            } else if (isCount(word)) {
                @Nullable Reading failure = readCount(token);
                if (failure != null) {
                    return failure;
                }
            } else if (foreignFace(word, i)) {
                denominationKey = word;
            } else if (DateWord.parse(word).isPresent()) {
                dateAt = i;
                return null;
            } else if (country == null && context.catalog().countryByWord(word).isPresent()) {
                country = context.catalog().countryByWord(word).orElseThrow().country();
            } else if (denominationWord(word).isPresent()) {
                denominationKey =
                        denominationWord(word).orElseThrow().denomination().key();
            } else if (country != null && !isCatalogued(country) && denominationKey == null) {
                denominationKey = word;
            } else {
                return unknown(token, headWords());
            }
        }
        Token last = tokens.getLast();
        return new Reading.Problem(
                last.end(), 0, "The date is missing.", "Write it as 39s, 1944-D, or nd when it cannot be read.");
    }

    /// A face value as foreign coins bear it, `1p` or `50c`, in front of the date.
    private boolean foreignFace(String word, int at) {
        if (country == null || isCatalogued(country) || denominationKey != null) {
            return false;
        }
        Optional<DateWord> face = DateWord.parse(word);
        return face.isPresent()
                && !face.get().suffix().isEmpty()
                && !face.get().suffix().equals("?")
                && at + 1 < tokens.size()
                && tokens.subList(at + 1, tokens.size()).stream()
                        .anyMatch(token ->
                                !token.quoted() && DateWord.parse(token.text()).isPresent());
    }

    private boolean isCatalogued(Country which) {
        return context.catalog().denominations().stream()
                .anyMatch(facts -> facts.denomination().country().equals(which));
    }

    private Optional<DenominationFacts> denominationWord(String word) {
        Country of = country == null ? context.home() : country;
        return context.catalog().denominationByWord(of, word);
    }

    /// `64 dime` is as good as `dime 64`.
    private void denominationAfterDate() {
        if (denominationKey != null) {
            return;
        }
        for (Token token : tokens.subList(dateAt + 1, tokens.size())) {
            if (!token.quoted() && token.text().length() > 2) {
                Optional<DenominationFacts> facts = denominationWord(token.lower());
                if (facts.isPresent()) {
                    denominationKey = facts.get().denomination().key();
                    return;
                }
            }
        }
    }

    private Denomination denomination() {
        Country of = country == null ? context.home() : country;
        if (denominationKey != null) {
            return new Denomination(of, denominationKey);
        }
        Denomination same = new Denomination(of, context.denomination().key());
        return context.catalog().facts(same).isPresent() ? same : new Denomination(of, "coin");
    }

    private @Nullable Reading mintOf(DateWord date, Token dateToken, Country of) {
        String suffix = date.suffix();
        Mint unmarked = of.equals(Country.US) ? Mint.P : Mint.NONE;
        if (suffix.equals("?")) {
            mint = null;
            return null;
        }
        if (!suffix.isEmpty()) {
            Optional<Mint> read = mintWord(of, suffix);
            if (read.isEmpty()) {
                String known = context.catalog().mints().stream()
                        .filter(facts -> facts.country().equals(of))
                        .map(facts -> facts.mint().code())
                        .filter(code -> !code.equals("-"))
                        .reduce((a, b) -> a + ", " + b)
                        .orElse("none");
                return new Reading.Problem(
                        dateToken.start(),
                        dateToken.end() - dateToken.start(),
                        "'" + suffix + "' is no mint mark of " + of + ".",
                        "Mint marks there are: " + known + ". Leave a space before any other word.");
            }
            mint = read.get();
            return null;
        }
        if (dateAt + 1 < tokens.size() && !tokens.get(dateAt + 1).quoted()) {
            Token next = tokens.get(dateAt + 1);
            Optional<Mint> read = mintWord(of, next.lower());
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

    private Optional<Mint> mintWord(Country of, String word) {
        return context.catalog()
                .mintByWord(of, word)
                .map(org.rollwright.catalog.MintFacts::mint)
                .or(() -> context.catalog().mints().stream()
                        .filter(facts -> facts.country().equals(of)
                                && !facts.mint().equals(Mint.NONE)
                                && facts.mint().code().equals(word.toUpperCase(Locale.ROOT)))
                        .map(org.rollwright.catalog.MintFacts::mint)
                        .findFirst());
    }

    /// A coin whose date cannot be read; its design may be told by a word of its series, as with a dateless
    /// Buffalo.
    private Identity undated(Denomination denomination, int rest) {
        String design = "";
        for (Token token : tokens.subList(rest, tokens.size())) {
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

    /// An [Identity], or the [Reading] that says why there is none.
    private Object uncatalogued(DateWord date, Token token, Denomination denomination) {
        if (date.hasCentury()) {
            int year = date.number();
            if (year > context.thisYear() || year < Identity.FIRST_YEAR) {
                return new Reading.Problem(
                        token.start(),
                        token.end() - token.start(),
                        "A coin dated " + year + " is not possible.",
                        "Write a year from " + Identity.FIRST_YEAR + " to " + context.thisYear() + ".");
            }
            return new Identity(denomination, year, mint, "", "");
        }
        if (date.digits().length() != 2) {
            return badDigits(date, token);
        }
        int early = 1900 + date.number();
        int late = 2000 + date.number();
        if (late > context.thisYear()) {
            return new Identity(denomination, early, mint, "", "");
        }
        return new Reading.Choose(
                token.start(),
                "Which year?",
                List.of(
                        new Reading.Option(Integer.toString(early), withDate(token, date, early, "")),
                        new Reading.Option(Integer.toString(late), withDate(token, date, late, ""))));
    }

    private static Reading badDigits(DateWord date, Token token) {
        return new Reading.Problem(
                token.start(),
                token.end() - token.start(),
                "'" + date.digits() + "' is no date.",
                "Write two digits or four: 39 or 1939. A count is written x3, a roll r17.");
    }

    /// An [Identity], or the [Reading] that says why there is none.
    private Object catalogued(DateWord date, Token token, Denomination denomination, int rest) {
        if (date.digits().length() != 2 && !date.hasCentury()) {
            return badDigits(date, token);
        }
        List<String> words = tokens.subList(rest, tokens.size()).stream()
                .filter(other -> !other.quoted())
                .map(Token::lower)
                .toList();
        DateResolver resolver = new DateResolver(context, denomination);
        return switch (resolver.resolve(date, mint, words)) {
            case DateResolver.Resolved.Nothing nothing ->
                new Reading.Problem(token.start(), token.end() - token.start(), nothing.wrong(), nothing.right());
            case DateResolver.Resolved.Years years ->
                new Reading.Choose(
                        token.start(),
                        "Which year is it?",
                        years.years().stream()
                                .map(year -> new Reading.Option(
                                        year
                                                + DateResolver.letters(mint == null ? Mint.NONE : mint)
                                                        .toUpperCase(Locale.ROOT)
                                                + " "
                                                + seriesNames(denomination, year),
                                        withDate(token, date, year, "")))
                                .toList());
            case DateResolver.Resolved.Issues found -> oneYear(resolver, found, date, token, words);
        };
    }

    private String seriesNames(Denomination denomination, int year) {
        Set<String> names = new LinkedHashSet<>();
        for (Issue issue : context.catalog().ofYear(denomination, year)) {
            if (mint == null || mint.equals(issue.mint())) {
                names.add(issue.series().name());
            }
        }
        return String.join(" / ", names);
    }

    private Object oneYear(
            DateResolver resolver, DateResolver.Resolved.Issues found, DateWord date, Token token, List<String> words) {
        List<Issue> left = found.issues();
        for (String word : words) {
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
            }
        }
        if (kindWords.isEmpty() && DateResolver.seriesOf(left).size() > 1) {
            left = resolver.preferWatchedSeries(left);
        }
        if (DateResolver.seriesOf(left).size() > 1) {
            return choose(left, date, token, found.year());
        }
        if (left.size() > 1 && kindWords.isEmpty()) {
            List<Issue> ordinary = left.stream()
                    .filter(issue -> issue.identity().kind().isEmpty())
                    .toList();
            left = ordinary.isEmpty() ? left : ordinary;
        } else if (left.size() > 1) {
            // A word may name the design while the kind stays ordinary: `09 log-cabin`.
            List<Issue> ordinary = left.stream()
                    .filter(issue -> issue.identity().kind().isEmpty())
                    .toList();
            left = ordinary.size() == 1 ? ordinary : left;
            if (left.size() > 1 && mint != null) {
                return choose(left, date, token, found.year());
            }
        }
        issues = left;
        return identity(found.year(), left);
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
        Denomination denomination = left.getFirst().identity().denomination();
        Set<String> kinds = new TreeSet<>();
        Set<String> designs = new TreeSet<>();
        left.forEach(issue -> {
            kinds.add(issue.identity().kind());
            designs.add(issue.identity().design());
        });
        return new Identity(
                denomination,
                year,
                mint,
                kinds.size() == 1 ? kinds.iterator().next() : "",
                designs.size() == 1 ? designs.iterator().next() : "");
    }

    private Reading choose(List<Issue> left, DateWord date, Token token, int year) {
        List<Reading.Option> options = new ArrayList<>();
        Set<String> labels = new LinkedHashSet<>();
        for (Issue issue : left) {
            Identity identity = issue.identity();
            String extra = (identity.design().isEmpty() ? "" : " " + Slug.of(identity.design()))
                    + (identity.kind().isEmpty() ? "" : " " + Slug.of(identity.kind()));
            String label = identity.shortName();
            if (labels.add(label)) {
                options.add(new Reading.Option(label, withDate(token, date, year, extra)));
            }
        }
        return new Reading.Choose(token.start(), "Which one is it?", options);
    }

    /// The line with its date written in full, and further words behind it; words that were too vague are taken
    /// out.
    private String withDate(Token token, DateWord date, int year, String extra) {
        StringBuilder full = new StringBuilder(line.substring(0, token.start()));
        full.append(year).append(date.suffix());
        int from = token.end();
        if (mintToken != null) {
            full.append(' ').append(mintToken.text());
            from = mintToken.end();
        }
        full.append(extra);
        for (Token other : tokens.subList(dateAt + 1 + (mintToken != null ? 1 : 0), tokens.size())) {
            boolean vague = !extra.isEmpty() && !other.quoted() && kindWords.contains(other.lower());
            if (vague) {
                full.append(line, from, other.start());
                from = other.end();
            }
        }
        full.append(line.substring(from));
        return full.toString().strip().replaceAll(" {2,}", " ");
    }

    /// One word behind date and mint.
    private @Nullable Reading tail(Token token) {
        if (token.quoted()) {
            return tagged(token);
        }
        String word = token.lower();
        if (kindWords.contains(word)) {
            return null;
        }
        if (isCount(word)) {
            return readCount(token);
        }
        if (word.equals("ender")) {
            ender = true;
            return null;
        }
        if (word.startsWith("photo:") && word.length() > 6) {
            photos.add(token.text().substring(6));
            return null;
        }
        if (denominationWord(word).isPresent()) {
            return null;
        }
        Optional<TradeWord> trade = context.catalog().tradeWord(word);
        if (trade.isPresent()) {
            take(trade.get());
            return null;
        }
        if (readGrade(word)) {
            return null;
        }
        return unknown(token, tailWords());
    }

    private boolean readGrade(String word) {
        String head = word;
        Colour said = null;
        if (word.length() > 4) {
            for (Colour one : Colour.values()) {
                if (word.endsWith(one.name().toLowerCase(Locale.ROOT))) {
                    said = one;
                    head = word.substring(0, word.length() - 2);
                }
            }
        }
        Optional<Grade> read = Grade.parse(head);
        if (read.isEmpty()) {
            return false;
        }
        grade = read.get();
        if (said != null) {
            colour = said;
        }
        if (head.startsWith("pf") || head.startsWith("pr")) {
            strike = Strike.PROOF;
        }
        return true;
    }

    private void take(TradeWord trade) {
        switch (trade.role()) {
            case VARIETY -> varieties.add(trade.canonical());
            case ERROR -> errors.add(trade.canonical());
            case DETAILS -> details = trade.canonical();
            case STRIKE -> strike = trade.canonical().equals("proof") ? Strike.PROOF : Strike.SPECIMEN;
            case COLOUR -> colour = Colour.valueOf(trade.canonical().toUpperCase(Locale.ROOT));
            case DISPOSITION ->
                disposition = Disposition.valueOf(trade.canonical().toUpperCase(Locale.ROOT));
        }
    }

    private @Nullable Reading tagged(Token token) {
        switch (token.tag()) {
            case "", "note" -> notes.add(token.text());
            case "var" -> varieties.add(token.text());
            case "err" -> errors.add(token.text());
            case "details" -> details = token.text();
            case "photo" -> photos.add(token.text());
            default -> {
                return new Reading.Problem(
                        token.start(),
                        token.tag().length(),
                        "'" + token.tag() + ":' is not known.",
                        "Quotes may stand alone for a note, or behind note:, var:, err:, details: or photo:.");
            }
        }
        return null;
    }

    private static boolean isCount(String word) {
        boolean front = word.length() > 1 && word.charAt(0) == 'x' && digits(word.substring(1));
        boolean back = word.length() > 1 && word.endsWith("x") && digits(word.substring(0, word.length() - 1));
        return front || back;
    }

    private static boolean digits(String text) {
        return !text.isEmpty() && text.chars().allMatch(c -> c >= '0' && c <= '9');
    }

    private @Nullable Reading readCount(Token token) {
        String number = token.lower().replace("x", "");
        long coins = number.length() > 7 ? Long.MAX_VALUE : Long.parseLong(number);
        if (coins < 1 || coins > MOST_COINS) {
            return new Reading.Problem(
                    token.start(),
                    token.end() - token.start(),
                    "A find cannot be " + number + " coins.",
                    "Write a count from x1 to x" + MOST_COINS + ".");
        }
        count = (int) coins;
        return null;
    }

    private Reading unknown(Token token, Collection<String> known) {
        String word = token.lower();
        Optional<String> near = Nearest.to(word, known);
        String right = near.map(suggestion -> "Did you mean " + suggestion + "?")
                .orElse(
                        dateAt < 0
                                ? "Begin a find with its date, such as 39s; or type ? for help."
                                : "Put free words into quotes: \"" + token.text() + "\".");
        return new Reading.Problem(
                token.start(), token.end() - token.start(), "'" + token.text() + "' is not a word I know.", right);
    }

    private Collection<String> headWords() {
        Set<String> known = new TreeSet<>(EntryParser.COMMAND_WORDS);
        context.catalog().countries().forEach(facts -> known.addAll(facts.words()));
        context.catalog().denominations().forEach(facts -> known.addAll(facts.words()));
        return known;
    }

    private Collection<String> tailWords() {
        Set<String> known = new TreeSet<>();
        known.add("ender");
        context.catalog().tradeWords().forEach(trade -> known.add(trade.word()));
        issues.forEach(issue -> known.addAll(issue.words()));
        return known;
    }
}
