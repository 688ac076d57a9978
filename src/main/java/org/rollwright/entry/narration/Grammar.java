package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Denomination;
import org.rollwright.entry.EntryContext;

/// Reads words into mentions: coins here, countries and denominations in [KindGrammar], mints in [MintGrammar],
/// the course of the search in [CourseGrammar]. Used by one thread.
///
/// Long, because the readings of one figure exclude each other and are tried in one order.
final class Grammar extends KindGrammar {
    /// No coin of use in a hunt is older.
    private static final int EARLIEST = 1790;

    private static final Set<String> ARTICLES = Set.of(
            "a", "an", "another", "this", "that's", "it's", "as", "canadian", "american", "wheat", "cent", "penny");

    private final List<Denomination> homes;
    private final Rolls rolls;
    /// Words behind a date within which it is said how many there were.
    private static final int FAR_COUNT = 12;

    /// Times a date is said in a row from which on it is so many coins.
    private static final int RUN = 3;

    /// Countries whose coins bear letters that sound like those of the States' mints, from memory.
    private static final Set<String> MARKING = Set.of("US", "DE", "XE", "AU");

    private final Strays strays;

    /// @param homes denominations of the boxes, in order; the last one goes on
    Grammar(List<Word> words, EntryContext context, List<Denomination> homes, Rolls rolls, Phrases phrases) {
        super(words, context, phrases);
        this.homes = homes;
        this.rolls = rolls;
        this.strays = new Strays(this, phrases);
    }

    @Override
    boolean meantAsRoll(int i) {
        return rolls.meant(i) > 0.5;
    }

    @Override
    Denomination home(int i) {
        int box = homes.size() == 1 ? 1 : rolls.box(Math.min(i, words.size()));
        return homes.get(Math.min(box, homes.size()) - 1);
    }

    @Override
    Optional<Denomination> stray(int start, int end, Denomination home) {
        return strays.at(start, end, home);
    }

    List<Mention> mentions() {
        int i = 0;
        while (i < words.size()) {
            Mention found = at(i);
            if (found == null) {
                i++;
            } else {
                understood(found);
                i = Math.max(i + 1, found.end());
            }
        }
        markRuns();
        return mentions;
    }

    /// Marks dates that are said three times and more in a row, `58 d 58 d 58 d`: so many coins, not one said again.
    private void markRuns() {
        int from = 0;
        for (int m = 1; m <= mentions.size(); m++) {
            if (m < mentions.size() && goesOn(m)) {
                continue;
            }
            for (int k = from; k < m && m - from >= RUN; k++) {
                mentions.set(k, inRun(mentions.get(k)));
            }
            from = m;
        }
    }

    private boolean goesOn(int m) {
        Mention.Coin before = Cues.coin(mentions.get(m - 1));
        Mention.Coin coin = Cues.coin(mentions.get(m));
        return before != null
                && coin != null
                && coin.year() != null
                && coin.year().equals(before.year())
                && coin.code().equals(before.code())
                && coin.word() - before.end() <= 1;
    }

    private static Mention inRun(Mention mention) {
        Mention.Coin coin = Objects.requireNonNull(Cues.coin(mention));
        List<Feature> more = new ArrayList<>(coin.features());
        more.add(Feature.IN_RUN);
        Mention.Coin marked = new Mention.Coin(
                coin.word(),
                coin.end(),
                coin.denomination(),
                coin.year(),
                coin.said(),
                coin.code(),
                coin.abroad(),
                coin.count(),
                coin.extras(),
                more,
                coin.number());
        return mention instanceof Mention.Bare bare
                ? new Mention.Bare(bare.word(), bare.end(), bare.value(), bare.alone(), bare.strong(), marked)
                : marked;
    }

    private @Nullable Mention at(int i) {
        Mention mention = course(i);
        if (mention instanceof Mention.Total total && total.value() >= 10 && total.value() <= 99) {
            // a figure that is said like a count may be a date all the same; what fits decides
            mention = coin(i) instanceof Mention.Bare bare && bare.coin() != null
                    ? new Mention.Bare(bare.word(), total.end(), bare.value(), bare.alone(), true, bare.coin())
                    : total;
        }
        mention = mention == null ? coin(i) : mention;
        mention = mention == null ? mintOnly(i) : mention;
        return mention == null ? kindOnly(i) : mention;
    }

    /// Last digits of a decade that was named before: `fifties: a seven D, a nine`.
    private Mention.@Nullable Coin ofDecade(int i) {
        int digit = Numbers.digit(words.get(i).text());
        boolean led = is(i - 1, "a", "an", "another", "and", "one") || opens(i) || (i > 0 && decade(i - 1) >= 0);
        if (digit < 0 || !led) {
            return null;
        }
        int decade = -1;
        for (int k = i - 1; k >= Math.max(0, i - 30) && decade < 0; k--) {
            decade = decade(k);
        }
        return decade < 0
                ? null
                : coin(
                        i,
                        i,
                        new Numbers.Spoken(
                                decade + digit,
                                i + 1,
                                false,
                                false,
                                !words.get(i).isNumber()),
                        1);
    }

    private int decade(int i) {
        return Numbers.decade(words.get(i).text());
    }

    private @Nullable Mention coin(int i) {
        Mention.Coin decade = ofDecade(i);
        if (decade != null) {
            return new Mention.Bare(
                    i, decade.end(), Math.max(0, Numbers.digit(words.get(i).text())), false, false, decade);
        }
        Optional<Numbers.Spoken> said = number(i);
        if (said.isEmpty() || said.get().ordinal()) {
            return null;
        }
        Numbers.Spoken number = said.get();
        int end = number.end();
        if (!number.year()
                && number.value() >= 2
                && number.value() <= 9
                && end < words.size()
                && !words.get(end).opens()) {
            Optional<Numbers.Spoken> date = number(end);
            boolean dated = date.isPresent()
                    && !date.get().ordinal()
                    && (date.get().year() || marked(date.get().end()));
            // `nine sixty dee` is the ninth coin, not nine of them; nor is `thirty-two two thousand two D` two of them
            dated &= i == 0 || opens(i) || !Numbers.isTens(words.get(i - 1).text());
            boolean several = dated && (plural(date.get().end()) || (date.get().year() && number.value() <= 4));
            if (several) {
                return coin(i, end, date.get(), number.value());
            }
        }
        if (number.year()) {
            boolean pair = sequence(i - 2, "pair", "of") || sequence(i - 2, "couple", "of");
            boolean both = (is(i - 1, "are") && bothBefore(i)) || is(i - 1, "both") || is(number.end(), "both");
            return coin(i, i, number, pair || both ? 2 : 1);
        }
        if (!number.twoDigits()
                || (!number.words()
                        && !Numbers.isOh(words, i)
                        && words.get(i).text().length() != 2)) {
            return bareOrNothing(i, number, null);
        }
        if (number.value() < 10 && !Numbers.isOh(words, i) && number.words()) {
            return bareOrNothing(i, number, null);
        }
        if (words.get(i).currency()) {
            return null;
        }
        Mention.Coin coin = coin(i, i, number, bothBefore(i) || is(i - 1, "twins") ? 2 : 1);
        if (coin == null) {
            return bareOrNothing(i, number, null);
        }
        boolean article =
                i > 0 && !opens(i) && ARTICLES.contains(words.get(i - 1).text());
        if (coin.said() != Mention.Said.NOTHING || (article && !is(i - 1, "that's", "it's", "as", "this"))) {
            return coin;
        }
        return bareOrNothing(i, number, coin);
    }

    private boolean bothBefore(int i) {
        for (int k = i - 1; k >= Math.max(0, i - 5) && !words.get(k).stops(); k--) {
            if (is(k, "both") && !is(k + 1, "sides", "ends")) {
                return true;
            }
        }
        return false;
    }

    private @Nullable Mention bareOrNothing(int i, Numbers.Spoken number, Mention.@Nullable Coin coin) {
        boolean alone = opens(i)
                && (stops(number.end() - 1)
                        || opens(number.end())
                        || heard("nothing", number.end())
                        || is(number.end(), "was", "has", "had"));
        boolean usable = alone || coin != null;
        if (number.value() < 1 || number.value() > LONGEST_ROLL || !usable) {
            return null;
        }
        return new Mention.Bare(i, number.end(), number.value(), alone, false, coin);
    }

    private Mention.@Nullable Coin coin(int start, int dateFrom, Numbers.Spoken number, int count) {
        Denomination denomination = denomination(start, number.end());
        boolean abroad = !denomination.country().equals(home(start).country());
        boolean listed = Strays.isListed(denomination.country());
        Optional<Integer> year =
                number.year() ? Optional.of(number.value()) : year(number.value(), listed ? denomination : home(start));
        if (year.isEmpty()
                || (listed && context.catalog().ofYear(denomination, year.get()).isEmpty())
                || year.get() < EARLIEST
                || year.get() > context.thisYear()) {
            return null;
        }
        Mark before = markBefore(dateFrom, number.end());
        Mark mark = mintFirst && before.said() != Mention.Said.NOTHING
                ? before
                : mark(number.end(), year.get(), count > 1, dateFrom);
        mark = mark.said() == Mention.Said.NOTHING && before.said() != Mention.Said.NOTHING
                ? new Mark(before.said(), before.code(), mark.end(), mark.plural(), mark.decade())
                : mark;
        if (mark.decade()) {
            return null;
        }
        if (listed
                && !number.year()
                && mark.said() == Mention.Said.MARK
                && !bears(denomination, year.get(), mark.code())) {
            // `oh five D` of a quarter is 2005: none of 1905 has a D
            year = Optional.of(
                    otherCentury(denomination, number.value(), mark.code()).orElse(year.get()));
        }
        if (mark.said() == Mention.Said.MARK
                && !MARKING.contains(denomination.country().code())) {
            // a letter under the date is the States': the country named was the last coin's
            Denomination american = home(start).country().equals(UNITED_STATES)
                    ? home(start)
                    : new Denomination(UNITED_STATES, denomination.key());
            if (bears(american, year.get(), mark.code())) {
                denomination = american;
                abroad = !denomination.country().equals(home(start).country());
            }
        }
        int end = mark.end();
        List<String> extras = new ArrayList<>();
        if (sequence(end, "v", "d", "b")) {
            extras.add("vdb");
            end += 3;
        } else if (is(end, "vdb")) {
            extras.add("vdb");
            end++;
        }
        int several = count > 1 ? count : alike(end);
        return new Mention.Coin(
                start,
                end,
                denomination,
                year.get(),
                mark.said(),
                mark.code(),
                abroad,
                several,
                extras,
                features(start, dateFrom, end, number, year.get(), denomination, mark, several),
                number.year() ? -1 : number.value());
    }

    /// How many were meant when it is said behind the date: `1945, two of those`, `58 d hang on there's six of them`.
    private int alike(int end) {
        for (int i = end; i < Math.min(words.size() - 1, end + FAR_COUNT); i++) {
            Optional<Numbers.Spoken> number = count(i);
            if (number.isEmpty()) {
                continue;
            }
            int behind = number.get().end();
            boolean of = number.get().value() >= 2
                    && number.get().value() <= 12
                    && ((is(behind, "of") && is(behind + 1, "them", "those", "these", "em", "'em"))
                            || (is(i - 1, "all") && i == end + 1 && stops(behind - 1)));
            boolean near = i == end || is(i - 1, "there's", "there", "are", "all", "have", "got") || opens(i);
            if (of && near && !is(behind + 2, "now", "so", "today", "tonight")) {
                return number.get().value();
            }
            if (number.get().year() || number.get().twoDigits()) {
                return 1;
            }
        }
        return 1;
    }

    private List<Feature> features(
            int start,
            int dateFrom,
            int end,
            Numbers.Spoken number,
            int year,
            Denomination denomination,
            Mark mark,
            int count) {
        List<Feature> features = new ArrayList<>();
        features.add(Feature.ALWAYS);
        if (mark.said() == Mention.Said.MARK) {
            features.add(Feature.MINT_MARK_SAID);
        } else if (mark.said() == Mention.Said.PLAIN) {
            features.add(Feature.PLAIN_SAID);
        }
        add(features, Feature.HOLDING, before("hold", start, 6));
        add(features, Feature.AGAIN, before("again", start, 6) || after("again", end, 4));
        add(features, Feature.RECALLING, before("recall", start, 12) || after("recall", end, 9));
        add(features, Feature.HOPING, before("hope", start, 9));
        add(features, Feature.DENYING, before("deny", start, 7));
        add(features, Feature.YEAR_AS_TIME, heard("before a year", start - 1) && !is(start - 2, "pair", "couple"));
        add(features, Feature.EXPLAINING_AFTER, after("explain", end, 6) || before("explain", start, 9));
        add(features, Feature.PRICE, after("price", end, 8) || before("price", start, 5));
        boolean wanted =
                context.watches().isEmpty() || watched(year, denomination) || !denomination.equals(home(start));
        features.add(wanted ? Feature.WATCHED : Feature.NOT_WATCHED);
        boolean article = start > 0
                && !opens(start)
                && ARTICLES.contains(words.get(start - 1).text());
        if (number.year()) {
            features.add(Feature.YEAR_IN_FULL);
        } else {
            features.add(article ? Feature.ARTICLE_AND_HALF : Feature.BARE_HALF);
        }
        add(features, Feature.FIRST_IN_SENTENCE, opens(start) || (article && opens(start - 1)));
        add(features, Feature.LAST_IN_SENTENCE, stops(end - 1));
        boolean rangeAfter = is(end, "to", "through", "and")
                && number(end + 1).filter(Numbers.Spoken::year).isPresent()
                && (is(end, "to", "through") || before("before a year", start, 2));
        boolean rangeBefore = is(start - 1, "to", "through")
                || (is(start - 1, "and") && mentionsYearBefore(start - 1) && before("before a year", start, 5));
        add(features, Feature.RANGE, rangeAfter || rangeBefore);
        add(features, Feature.GRADE_AFTER, after("grade", end, 8));
        add(features, Feature.NEW_ROLL, rollSinceCoin());
        add(features, Feature.ASKING, asks(end));
        add(features, Feature.TOTAL_NEAR, totalNear(start));
        add(features, Feature.PLURAL_WITHOUT_COUNT, mark.plural() && count == 1);
        add(
                features,
                Feature.LIST,
                !mentions.isEmpty()
                        && mentions.getLast() instanceof Mention.Coin
                        && start - mentions.getLast().end() <= 4
                        && !words.get(mentions.getLast().end() - 1).stops());
        add(features, Feature.DEFINITE, is(start - 1, "the", "that", "those", "your"));
        add(features, Feature.REPEAT_WORD, before("repeat", start, 6));
        add(features, Feature.CURRENCY, words.get(dateFrom).currency());
        add(features, Feature.COUNTED, count > 1);
        add(features, Feature.CORRECTING, before("correction", start, 8));
        return features;
    }

    private static void add(List<Feature> features, Feature feature, boolean holds) {
        if (holds) {
            features.add(feature);
        }
    }

    private boolean mentionsYearBefore(int i) {
        return !mentions.isEmpty()
                && mentions.getLast() instanceof Mention.Coin
                && i - mentions.getLast().end() <= 1;
    }

    private boolean rollSinceCoin() {
        for (int m = mentions.size() - 1; m >= 0; m--) {
            Mention mention = mentions.get(m);
            if (mention instanceof Mention.Coin) {
                return false;
            }
            boolean aloneNumber = mention instanceof Mention.Bare bare && bare.alone();
            if (mention instanceof Mention.RollTo || mention instanceof Mention.RollNext || aloneNumber) {
                return true;
            }
        }
        return true;
    }

    private boolean totalNear(int start) {
        return !mentions.isEmpty()
                && mentions.getLast() instanceof Mention.Total
                && start - mentions.getLast().end() <= 8;
    }

    /// A coin of which only the kind was named: a buffalo, an Indian head, a Canadian.
    private @Nullable Mention kindOnly(int i) {
        boolean buffalo = is(i, "buffalo") && home(i).key().equals("nickel");
        boolean indian = sequence(i, "indian", "head") && home(i).key().equals("cent");
        boolean canadian = is(i, "canadian") && home(i).country().equals(UNITED_STATES);
        boolean named = is(i - 1, "a", "an", "another", "worn", "dateless") || opens(i);
        if (!(buffalo || indian || canadian) || !named) {
            return null;
        }
        for (int k = since(i, 4);
                k < Math.min(words.size(), i + 12)
                        && (k <= i || !words.get(k - 1).stops());
                k++) {
            if (number(k)
                    .filter(n -> n.year() || (n.twoDigits() && n.value() > 12))
                    .isPresent()) {
                return null;
            }
        }
        Denomination denomination = canadian ? new Denomination(CANADA, home(i).key()) : home(i);
        List<Feature> features = new ArrayList<>(List.of(Feature.ALWAYS, Feature.KIND_ONLY));
        add(features, Feature.HOLDING, before("hold", i, 6));
        add(features, Feature.AGAIN, before("again", i, 6));
        add(features, Feature.RECALLING, before("recall", i, 12) || after("recall", i, 9));
        add(features, Feature.HOPING, before("hope", i, 9));
        add(features, Feature.DENYING, before("deny", i, 7));
        add(features, Feature.ASKING, asks(i + 1));
        add(features, Feature.NEW_ROLL, rollSinceCoin());
        return new Mention.Coin(
                i,
                indian ? i + 2 : i + 1,
                denomination,
                null,
                Mention.Said.NOTHING,
                "",
                canadian,
                1,
                buffalo ? List.of("buffalo") : indian ? List.of("indian") : List.of(),
                features,
                -1);
    }
}
