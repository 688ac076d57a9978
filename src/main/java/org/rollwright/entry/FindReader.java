package org.rollwright.entry;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.CoinUnit;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.TradeWord;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Colour;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Strike;
import org.rollwright.hunt.Disposition;

/// Reads one find: `x3 ca 67`, `36d rpm vf30 bn "notch under the D"`. Used once, for one segment of one line.
///
/// Country stands before the date, the mint on it or right behind it; all else follows in any order. Words that say
/// which coin it is may stand before the date as well: `wheat 44`, `silver dime 64`.
///
/// Long because the words of a find come in any order, and what one means hangs on those read before it.
final class FindReader {
    /// What came of it.
    sealed interface Result {
        record Draft(Command.FindDraft draft) implements Result {}

        record Other(Reading reading) implements Result {}
    }

    private static final int MOST_COINS = 1_000_000;

    private final EntryContext context;
    private final String line;
    private List<Token> tokens;

    private @Nullable Integer count;
    private @Nullable Country country;
    private @Nullable String denominationKey;
    private int dateAt = -1;
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

    FindReader(EntryContext context, String line, List<Token> tokens) {
        this.context = context;
        this.line = line;
        this.tokens = Phrases.joined(Glued.apart(tokens, context.catalog(), context.home()), context.catalog());
    }

    Result read() {
        @Nullable Reading failure = head();
        if (failure != null) {
            return new Result.Other(failure);
        }
        denominationAfterDate();
        IdentityReader.Result read = new IdentityReader(context, line, tokens, dateAt, denomination()).read();
        if (read instanceof IdentityReader.Result.Unclear unclear) {
            return new Result.Other(unclear.reading());
        }
        IdentityReader.Result.Coin coin = (IdentityReader.Result.Coin) read;
        for (Token token : tokens.subList(coin.rest(), tokens.size())) {
            failure = tail(token, coin);
            if (failure != null) {
                return new Result.Other(failure);
            }
        }
        CoinDescription facts = new CoinDescription(
                coin.identity(), grade, details, colour, strike, varieties, errors, String.join(" ", notes), photos);
        return new Result.Draft(new Command.FindDraft(facts, count == null ? 1 : count, ender, disposition));
    }

    /// Everything up to the date.
    private @Nullable Reading head() {
        List<Token> early = new ArrayList<>();
        for (int i = 0; i < tokens.size(); i++) {
            Token token = tokens.get(i);
            String word = token.lower();
            Optional<CoinUnit> unit = faceOf(i);
            if (unit.isPresent()) {
                @Nullable Reading failure = face(token, unit.get());
                if (failure != null) {
                    return failure;
                }
                i++;
            } else if (token.quoted()) {
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
                tokens = new ArrayList<>(tokens);
                tokens.addAll(early);
                return null;
            } else if (country == null && context.catalog().countryByWord(word).isPresent()) {
                country = context.catalog().countryByWord(word).orElseThrow().country();
            } else if (denominationWord(word).isPresent()) {
                denominationKey =
                        denominationWord(word).orElseThrow().denomination().key();
            } else if (country != null && !isCatalogued(country) && denominationKey == null) {
                denominationKey = word;
            } else if (onlyAbroad(word).isPresent()) {
                Denomination abroad = onlyAbroad(word).orElseThrow();
                country = abroad.country();
                denominationKey = abroad.key();
            } else if (tellsCoin(word)) {
                early.add(token);
            } else {
                return unknown(token, headWords());
            }
        }
        Token last = tokens.getLast();
        return new Reading.Problem(last.end(), 0, t("entry.the-date-is-missing"), t("entry.date-form"));
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

    /// A number with a unit of money in front of the date: `2 euro 2002`.
    private Optional<CoinUnit> faceOf(int at) {
        boolean number = denominationKey == null
                && !tokens.get(at).quoted()
                && digits(tokens.get(at).text())
                && at + 2 < tokens.size()
                && !tokens.get(at + 1).quoted();
        return number
                ? context.catalog()
                        .unitByWord(tokens.get(at + 1).lower())
                        .filter(unit -> tokens.subList(at + 2, tokens.size()).stream()
                                .anyMatch(later -> !later.quoted()
                                        && DateWord.parse(later.text()).isPresent()))
                : Optional.empty();
    }

    private @Nullable Reading face(Token number, CoinUnit unit) {
        if (country == null) {
            country = unit.country();
        }
        if (country == null) {
            return number.problem(
                    t("entry.unit-of-several", number.text() + " " + unit.key()), t("entry.country-before-unit"));
        }
        denominationKey = number.text() + "-" + unit.key();
        return null;
    }

    /// Whether a word before the date says which coin it is: its series, its metal, its state.
    private boolean tellsCoin(String word) {
        Country of = country == null ? context.home() : country;
        Set<String> ofSeries = new TreeSet<>();
        boolean here = false;
        boolean metal = false;
        for (Issue issue : context.catalog().issues()) {
            Denomination denomination = issue.identity().denomination();
            if (denomination.country().equals(of)) {
                metal |= Slug.isMetalOf(issue, word);
                if (issue.series().words().contains(word)) {
                    ofSeries.add(denomination.key());
                    here |= denomination.key().equals(context.denomination().key());
                }
            }
        }
        if (ofSeries.size() == 1 && !here && denominationKey == null) {
            // `mercury 44` strayed into a box of cents
            denominationKey = ofSeries.iterator().next();
        }
        return !ofSeries.isEmpty()
                || metal
                || context.catalog().tradeWord(word).isPresent()
                // f12 in front is a find's number
                || (!word.matches("f[0-9]+") && Grade.parse(gradePart(word)).isPresent());
    }

    private boolean isCatalogued(Country which) {
        return context.catalog().denominations().stream()
                .anyMatch(facts -> facts.denomination().country().equals(which));
    }

    private Optional<DenominationFacts> denominationWord(String word) {
        Country of = country == null ? context.home() : country;
        return context.catalog().denominationByWord(of, word);
    }

    /// The coin a word names that one other country has and home has not: `loonie 1987` needs no country before it.
    private Optional<Denomination> onlyAbroad(String word) {
        if (country != null || denominationKey != null) {
            return Optional.empty();
        }
        List<Denomination> named = context.catalog().denominations().stream()
                .filter(facts -> facts.words().contains(word))
                .map(DenominationFacts::denomination)
                .toList();
        return named.size() == 1 ? Optional.of(named.getFirst()) : Optional.empty();
    }

    /// `64 dime` is as good as `dime 64`.
    private void denominationAfterDate() {
        if (denominationKey != null) {
            return;
        }
        for (Token token : tokens.subList(dateAt + 1, tokens.size())) {
            if (!token.quoted() && token.text().length() > 1) {
                Optional<DenominationFacts> facts = denominationWord(token.lower());
                if (facts.isPresent()) {
                    denominationKey = facts.get().denomination().key();
                    return;
                }
                Optional<Denomination> abroad = onlyAbroad(token.lower());
                if (abroad.isPresent()) {
                    country = abroad.get().country();
                    denominationKey = abroad.get().key();
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

    /// One word behind date and mint.
    private @Nullable Reading tail(Token token, IdentityReader.Result.Coin coin) {
        if (token.quoted()) {
            return tagged(token);
        }
        String word = token.lower();
        if (coin.kindWords().contains(word)) {
            return null;
        }
        if (isCount(word)) {
            return readCount(token);
        }
        if (word.equals("ender") || word.equals("end")) {
            ender = true;
            return null;
        }
        if (IdentityReader.weight(word).isPresent()) {
            notes.add(word);
            return null;
        }
        if (word.startsWith("photo:") && word.length() > 6) {
            photos.add(token.text().substring(6));
            return null;
        }
        Optional<DenominationFacts> said = denominationWord(word);
        if (said.isPresent()) {
            return unlessSaidOtherwise(
                    token, coin.identity().denomination(), said.get().denomination());
        }
        Optional<TradeWord> trade = context.catalog().tradeWord(word);
        if (trade.isPresent()) {
            return take(trade.get(), token);
        }
        if (Grade.parse(gradePart(word)).isPresent()) {
            return readGrade(token);
        }
        return misplaced(token, coin).orElseGet(() -> unknown(token, tailWords(coin.issues())));
    }

    /// A word that could stand behind another date, or begin another find; empty when it is none of these.
    private Optional<Reading> misplaced(Token token, IdentityReader.Result.Coin coin) {
        String word = token.lower();
        Identity identity = coin.identity();
        Integer year = identity.year();
        String here = t("entry.out-of-place", token.text());
        if (IdentityReader.mintWord(context.catalog(), identity.denomination().country(), word)
                .isPresent()) {
            return Optional.of(token.problem(here, t("entry.mint-once")));
        }
        if (context.catalog().countryByWord(word).isPresent()) {
            return Optional.of(token.problem(here, t("entry.country-first")));
        }
        List<Issue> all = context.catalog().issues().stream()
                .filter(issue -> issue.identity().denomination().equals(identity.denomination()))
                .toList();
        String wrong = t("entry.does-not-go", token.text(), identity.dateAndMint());
        if (!coin.issues().isEmpty() && all.stream().anyMatch(issue -> Slug.isMetalOf(issue, word))) {
            String metals = coin.issues().stream()
                    .map(issue -> issue.alloy().metal().said())
                    .distinct()
                    .reduce((a, b) -> t("entry.or", a, b))
                    .orElseThrow();
            return Optional.of(token.problem(wrong, t("entry.struck-on", metals, word)));
        }
        List<Issue> elsewhere =
                all.stream().filter(issue -> Slug.belongs(issue, word)).toList();
        if (year != null && !elsewhere.isEmpty()) {
            return Optional.of(token.problem(wrong, t("entry.goes-with", dates(elsewhere, year))));
        }
        String letters = gradePart(word).replaceAll("-?[0-9]+$", "");
        Optional<Grade> band = letters.equals(word) ? Optional.empty() : Grade.parse(letters);
        if (band.isPresent()) {
            return Optional.of(token.problem(
                    t("entry.grade-wrong", token.text()), t("entry.the-steps-there-are", steps(band.get()))));
        }
        return DateWord.parse(word).isPresent()
                ? Optional.of(token.problem(t("entry.word-behind-date", token.text()), t("entry.two-finds")))
                : Optional.empty();
    }

    private static String steps(Grade one) {
        return one.band().stream()
                .map(grade -> grade.toString().toLowerCase(Locale.ROOT))
                .collect(Collectors.joining(", "));
    }

    /// The issues of the year by date and mint; else the first and the last year.
    private static String dates(List<Issue> issues, int year) {
        List<String> sameYear = issues.stream()
                .filter(issue -> issue.year() == year)
                .map(issue -> issue.identity().dateAndMint())
                .distinct()
                .toList();
        if (!sameYear.isEmpty()) {
            return String.join(", ", sameYear);
        }
        int first = issues.stream().mapToInt(Issue::year).min().orElseThrow();
        int last = issues.stream().mapToInt(Issue::year).max().orElseThrow();
        return first == last ? Integer.toString(first) : t("entry.years-to", first, last);
    }

    /// Two words that say the same thing are fine; two that differ are a slip, and neither is the one to keep.
    private static @Nullable Reading unlessSaidOtherwise(Token token, @Nullable Object before, Object now) {
        return before == null || before.equals(now)
                ? null
                : token.problem(t("entry.contradicts-what-stands-before-it", token.text()), t("entry.take-one-away"));
    }

    /// A grade without the colour glued behind it, as in `ms64rd`.
    private static String gradePart(String word) {
        return gluedColour(word).isPresent() ? word.substring(0, word.length() - 2) : word;
    }

    private static Optional<Colour> gluedColour(String word) {
        return word.length() <= 4
                ? Optional.empty()
                : Arrays.stream(Colour.values())
                        .filter(one -> word.endsWith(one.name().toLowerCase(Locale.ROOT)))
                        .findFirst();
    }

    private @Nullable Reading readGrade(Token token) {
        String head = gradePart(token.lower());
        Grade read = Grade.parse(head).orElseThrow();
        @Nullable Reading failure = unlessSaidOtherwise(token, grade, read);
        grade = read;
        if (head.startsWith("pf") || head.startsWith("pr")) {
            strike = Strike.PROOF;
        }
        Optional<Colour> glued = gluedColour(token.lower());
        return failure != null || glued.isEmpty() ? failure : colour(token, glued.get());
    }

    private @Nullable Reading colour(Token token, Colour said) {
        @Nullable Reading failure = unlessSaidOtherwise(token, colour, said);
        colour = said;
        return failure;
    }

    /// A coin may be cleaned and bent as well.
    private void details(String said) {
        details = details == null || details.equals(said) ? said : details + ", " + said;
    }

    private @Nullable Reading take(TradeWord trade, Token token) {
        String said = trade.canonical();
        switch (trade.role()) {
            case VARIETY -> varieties.add(said);
            case ERROR -> errors.add(said);
            case STRIKE -> strike = said.equals("proof") ? Strike.PROOF : Strike.SPECIMEN;
            case DETAILS -> details(said);
            case REMARK -> notes.add(said);
            case COLOUR -> {
                return colour(token, Colour.valueOf(said.toUpperCase(Locale.ROOT)));
            }
            case DISPOSITION -> {
                @Nullable Disposition before = disposition == Disposition.OPEN ? null : disposition;
                disposition = Disposition.valueOf(said.toUpperCase(Locale.ROOT));
                return unlessSaidOtherwise(token, before, disposition);
            }
        }
        return null;
    }

    private @Nullable Reading tagged(Token token) {
        switch (token.tag()) {
            case "", "note" -> notes.add(token.text());
            case "var" -> varieties.add(token.text());
            case "err" -> errors.add(token.text());
            case "details" -> details(token.text());
            case "photo" -> photos.add(token.text());
            default -> {
                return new Reading.Problem(
                        token.start(), token.tag().length(), t("entry.label-unknown", token.tag()), t("entry.quotes"));
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
            return token.problem(t("entry.a-find-cannot-be-coins", number), t("entry.count-form", MOST_COINS));
        }
        @Nullable Reading failure = unlessSaidOtherwise(token, count, (int) coins);
        count = (int) coins;
        return failure;
    }

    private Reading unknown(Token token, Collection<String> known) {
        String word = token.lower();
        Optional<String> near = Nearest.to(word, known);
        String right = near.map(suggestion -> t("entry.did-you-mean", suggestion))
                .orElse(dateAt < 0 ? t("entry.find-first") : t("entry.put-free-words-into-quotes", token.text()));
        return token.problem(t("entry.word-unknown", token.text()), right);
    }

    private Collection<String> headWords() {
        Set<String> known = new TreeSet<>(EntryParser.COMMAND_WORDS);
        context.catalog().countries().forEach(facts -> known.addAll(facts.words()));
        context.catalog().denominations().forEach(facts -> known.addAll(facts.words()));
        return known;
    }

    private Collection<String> tailWords(List<Issue> issues) {
        Set<String> known = new TreeSet<>();
        known.add("ender");
        context.catalog().tradeWords().forEach(trade -> known.add(trade.word()));
        issues.forEach(issue -> known.addAll(issue.words()));
        return known;
    }
}
