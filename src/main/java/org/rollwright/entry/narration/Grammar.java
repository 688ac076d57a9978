package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Issue;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Mass;
import org.rollwright.entry.EntryContext;

/// Reads words into mentions: coins, mints, running counts, rolls, boxes, weights. Used by one thread.
final class Grammar {
    private static final Country CANADA = new Country("CA");
    private static final Country UNITED_STATES = new Country("US");
    private static final int LONGEST_ROLL = 500;
    private static final Set<String> UNITS = Set.of(
            "dollar",
            "dollars",
            "percent",
            "million",
            "billion",
            "thousand",
            "year",
            "years",
            "minutes",
            "minute",
            "hours",
            "boxes",
            "box",
            "bucks",
            "times",
            "am",
            "pm",
            "ounces",
            "ounce",
            "pounds",
            "pound",
            "grams",
            "enders",
            "ender",
            "more",
            "of",
            "out",
            "and",
            "roll",
            "hundred");
    private static final Set<String> COUNTED = Set.of(
            "wheat",
            "cent",
            "cents",
            "penny",
            "pennies",
            "coin",
            "coins",
            "find",
            "finds",
            "keeper",
            "keepers",
            "silver",
            "silvers",
            "dime",
            "dimes",
            "nickel",
            "nickels",
            "one",
            "wheatback",
            "back",
            "backs");
    private static final Set<String> ARTICLES = Set.of(
            "a", "an", "another", "this", "that's", "it's", "as", "canadian", "american", "wheat", "cent", "penny");
    private static final Set<String> TOTAL_LEADS =
            Set.of("makes", "us", "number", "at", "was", "is", "it", "that's", "so");

    private final List<Word> words;
    private final EntryContext context;
    private final Map<String, BitSet> heard;
    private final List<Mention> mentions = new ArrayList<>();

    /// Where the present roll was named: what was said before it has nothing to do with what comes now.
    private int scene;

    Grammar(List<Word> words, EntryContext context, Phrases phrases) {
        this.words = words;
        this.context = context;
        this.heard = phrases.heard(words);
    }

    List<Mention> mentions() {
        int i = 0;
        while (i < words.size()) {
            Mention found = at(i);
            if (found == null) {
                i++;
            } else {
                mentions.add(found);
                scene = found instanceof Mention.RollTo || found instanceof Mention.RollNext ? found.end() : scene;
                i = Math.max(i + 1, found.end());
            }
        }
        return mentions;
    }

    private @Nullable Mention at(int i) {
        Mention mention = weight(i);
        mention = mention == null ? roll(i) : mention;
        mention = mention == null ? box(i) : mention;
        mention = mention == null ? promise(i) : mention;
        mention = mention == null ? total(i) : mention;
        mention = mention == null ? coin(i) : mention;
        mention = mention == null ? mintOnly(i) : mention;
        return mention == null ? kindOnly(i) : mention;
    }

    // words

    private boolean is(int i, String... any) {
        if (i < 0 || i >= words.size()) {
            return false;
        }
        for (String one : any) {
            if (words.get(i).is(one)) {
                return true;
            }
        }
        return false;
    }

    private boolean sequence(int i, String... all) {
        for (int k = 0; k < all.length; k++) {
            if (!is(i + k, all[k])) {
                return false;
            }
        }
        return true;
    }

    private boolean opens(int i) {
        return i <= 0 || i >= words.size() || words.get(i).opens();
    }

    private boolean stops(int i) {
        return i < 0 || i >= words.size() - 1 || words.get(i).stops();
    }

    /// Whether a phrase of the class lies within the sentence, up to so many words before a place.
    private boolean before(String kind, int i, int reach) {
        BitSet places = heard.get(kind);
        if (places == null) {
            return false;
        }
        for (int k = i - 1; k >= Math.max(scene, i - reach) && !words.get(k).stops(); k--) {
            if (places.get(k)) {
                return true;
            }
        }
        return false;
    }

    /// Whether a phrase of the class lies within the sentence, up to so many words from a place on.
    private boolean after(String kind, int i, int reach) {
        BitSet places = heard.get(kind);
        if (places == null) {
            return false;
        }
        for (int k = i; k < Math.min(words.size(), i + reach); k++) {
            if (k > 0 && words.get(k - 1).stops()) {
                return false;
            }
            if (is(k, "roll") && count(k + 1).isPresent()) {
                return false;
            }
            if (places.get(k)) {
                return true;
            }
        }
        return false;
    }

    private boolean heard(String kind, int i) {
        BitSet places = heard.get(kind);
        return places != null && i >= 0 && places.get(i);
    }

    private Optional<Numbers.Spoken> number(int i) {
        return Numbers.at(words, i);
    }

    /// A number that is a count: two digits said as one, not the first half of a year.
    private Optional<Numbers.Spoken> count(int i) {
        return Numbers.count(words, i);
    }

    // the box and its rolls

    private @Nullable Mention weight(int i) {
        Optional<Numbers.Spoken> first = count(i);
        if (first.isEmpty()) {
            return null;
        }
        int at = first.get().end();
        if (is(at, "pound", "pounds", "lb", "lbs")) {
            int after = is(at + 1, "and", "comma") ? at + 2 : at + 1;
            Optional<Numbers.Spoken> ounces = after < words.size() ? count(after) : Optional.empty();
            boolean both = ounces.isPresent() && is(ounces.get().end(), "ounce", "ounces", "oz");
            double grams = Mass.ofPoundsAndOunces(
                            first.get().value(), both ? ounces.get().value() : 0)
                    .grams();
            return new Mention.Weight(i, both ? ounces.get().end() + 1 : at + 1, Mass.ofGrams(grams));
        }
        if (is(at, "ounce", "ounces", "oz")) {
            return new Mention.Weight(
                    i, at + 1, Mass.ofPoundsAndOunces(0, first.get().value()));
        }
        if (is(at, "gram", "grams")) {
            return new Mention.Weight(i, at + 1, Mass.ofGrams(first.get().value()));
        }
        return null;
    }

    private @Nullable Mention roll(int i) {
        if (is(i, "roll")) {
            int at = is(i + 1, "number") ? i + 2 : i + 1;
            Optional<Numbers.Spoken> number = count(at);
            if (number.isPresent()
                    && !number.get().ordinal()
                    && number.get().value() >= 1
                    && number.get().value() <= LONGEST_ROLL) {
                int value = number.get().value();
                int end = number.get().end();
                while (is(end, "and", "through", "to")) {
                    Optional<Numbers.Spoken> further = count(end + 1);
                    boolean goesOn = further.isPresent()
                            && further.get().value() > value
                            && further.get().value() <= value + 6;
                    if (!goesOn) {
                        break;
                    }
                    value = further.get().value();
                    end = further.get().end();
                }
                return new Mention.RollTo(i, end, value);
            }
            return null;
        }
        Optional<Numbers.Spoken> ordinal = number(i);
        if (ordinal.isPresent()
                && ordinal.get().ordinal()
                && is(ordinal.get().end(), "roll")
                && !opens(ordinal.get().end())
                && ordinal.get().value() <= LONGEST_ROLL) {
            return new Mention.RollTo(i, ordinal.get().end() + 1, ordinal.get().value());
        }
        if (is(i, "next", "another") && is(i + 1, "roll")) {
            return is(i + 2, "number") || sequence(i + 2, "that's", "roll")
                    ? null
                    : new Mention.RollNext(i, i + 2, true);
        }
        if (is(i, "next") && opens(i)) {
            if (is(i + 1, "one") && stops(i + 1)) {
                return new Mention.RollNext(i, i + 2, false);
            }
            return stops(i) ? new Mention.RollNext(i, i + 1, false) : null;
        }
        return null;
    }

    private @Nullable Mention box(int i) {
        if (!is(i, "box")) {
            return null;
        }
        int at = is(i + 1, "number") ? i + 2 : i + 1;
        Optional<Numbers.Spoken> number = count(at);
        boolean usable = number.isPresent()
                && !number.get().ordinal()
                && number.get().value() >= 1
                && number.get().value() <= 50;
        return usable ? new Mention.BoxTo(i, number.get().end(), number.get().value()) : null;
    }

    // counts

    private int overCounted(int i) {
        int at = i;
        while (is(at, "wheat", "silver", "steel", "more", "other")
                || (at < words.size() && COUNTED.contains(words.get(at).text()))) {
            at++;
        }
        return at;
    }

    private @Nullable Mention promise(int i) {
        Optional<Numbers.Spoken> number = count(i);
        if (number.isEmpty()
                || number.get().ordinal()
                || number.get().value() < 1
                || number.get().value() > 12) {
            return null;
        }
        int value = number.get().value();
        int end = number.get().end();
        int at = overCounted(end);
        boolean said = is(at, "in")
                && (is(at + 1, "this", "that", "here")
                        || sequence(at + 1, "the", "same")
                        || sequence(at + 1, "a", "row")
                        || sequence(at + 1, "one", "roll"));
        boolean oneRoll = at > end && sequence(at, "one", "roll");
        boolean oneRollEaten = at > end && is(at - 1, "one") && is(at, "roll");
        boolean ofThem = sequence(end, "of", "them") && is(i - 1, "has", "had", "are");
        boolean here = is(end, "here") || is(end, "more");
        boolean hasCounted = is(i - 1, "has", "had") && at > end;
        if (!(said || oneRoll || oneRollEaten || ofThem || here || hasCounted)) {
            return null;
        }
        return new Mention.Promise(i, Math.max(end, at), value);
    }

    private @Nullable Mention total(int i) {
        Optional<Numbers.Spoken> number = count(i);
        if (number.isEmpty() || number.get().value() > 999 || number.get().value() < 1) {
            return null;
        }
        int value = number.get().value();
        int end = number.get().end();
        int at = overCounted(end);
        if (is(end, "canadian") || is(at, "canadian")) {
            return null;
        }
        if (number.get().ordinal()) {
            boolean lead = is(i - 1, "our", "the", "my") || (opens(i) && at > end);
            boolean coin = at > end || stops(end - 1) || opens(end);
            boolean second = value <= 3 && is(end, "one") && !is(i - 1, "our", "my");
            return lead && coin && !second && !is(end, "roll", "box", "time", "mint", "year")
                    ? new Mention.Total(i, at, value)
                    : null;
        }
        boolean unit = end < words.size()
                && !words.get(end).opens()
                && UNITS.contains(words.get(end).text());
        boolean soFar = sequence(at, "so", "far") || is(at, "now", "total", "today", "altogether");
        boolean inRolls = is(at, "in", "after")
                && count(at + 1).filter(n -> is(n.end(), "roll")).isPresent();
        boolean closes = stops(at - 1)
                || opens(at)
                || is(at, "and", "so", "which", "i", "already", "with")
                || at >= words.size();
        boolean lead = i > 0 && TOTAL_LEADS.contains(words.get(i - 1).text()) && leads(i - 1);
        boolean counted = soFar && (at > end || lead || opens(i) || is(i - 1, "have", "got", "with"));
        if (!unit && (counted || inRolls || (lead && (closes || at > end)))) {
            int last = inRolls ? count(at + 1).orElseThrow().end() + 1 : at;
            return new Mention.Total(i, last, value);
        }
        return null;
    }

    /// Whether the words up to a place lead into a running count.
    private boolean leads(int i) {
        return switch (words.get(i).text()) {
            case "makes", "number" -> !is(i - 1, "roll", "box", "lucky");
            case "us" -> is(i + 1, "to") || is(i - 1, "gives", "gave");
            case "at" -> is(i - 1, "we're", "are", "i'm", "now");
            case "it" -> is(i - 1, "makes", "made");
            case "was" -> is(i - 1, "that");
            case "is" -> is(i - 1, "that");
            case "that's", "so" -> true;
            default -> false;
        };
    }

    // coins

    private @Nullable Mention coin(int i) {
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
            if (dated) {
                return coin(i, end, date.get(), number.value());
            }
        }
        if (number.year()) {
            boolean pair = sequence(i - 2, "pair", "of") || sequence(i - 2, "couple", "of");
            boolean both = is(i - 1, "are") && bothBefore(i);
            return coin(i, i, number, pair || both ? 2 : 1);
        }
        if (!number.twoDigits() || (!number.words() && words.get(i).text().length() != 2)) {
            return bareOrNothing(i, number, null);
        }
        if (number.words() && number.value() < 10) {
            return bareOrNothing(i, number, null);
        }
        boolean unit = end < words.size()
                && !words.get(end).opens()
                && UNITS.contains(words.get(end).text())
                && !(is(end, "roll") && count(end + 1).isPresent());
        if (words.get(i).currency() || unit) {
            return null;
        }
        Mention.Coin coin = coin(i, i, number, 1);
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
            if (is(k, "both")) {
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
        boolean follows = !mentions.isEmpty()
                && i - mentions.getLast().end() <= 1
                && (mentions.getLast() instanceof Mention.Coin
                        || mentions.getLast() instanceof Mention.Bare
                        || mentions.getLast() instanceof Mention.RollTo);
        boolean usable = alone || (coin != null && follows);
        if (number.value() < 1 || number.value() > LONGEST_ROLL || !usable) {
            return null;
        }
        return new Mention.Bare(i, number.end(), number.value(), alone, coin);
    }

    private boolean marked(int i) {
        return is(i, "d", "s", "ds", "p", "w") || heard("plain", i) || heard("mint D", i) || heard("mint S", i);
    }

    private record Mark(Mention.Said said, String code, int end, boolean plural, boolean decade) {}

    /// The mint told right behind a date.
    private Mark mark(int from, int year, boolean counted, int dateFrom) {
        int i = from;
        boolean glued = i < words.size()
                && words.get(i).is("s")
                && words.get(i).cue() == words.get(i - 1).cue()
                && isGlued(i);
        if (glued && (counted || !is(dateFrom - 1, "a", "an", "another", "it's"))) {
            boolean decade = year % 10 == 0 && is(dateFrom - 1, "the", "early", "late", "mid");

            Mark further = mark(i + 1, year, counted, dateFrom);
            return further.said == Mention.Said.NOTHING
                    ? new Mark(Mention.Said.NOTHING, "", i + 1, true, decade)
                    : new Mark(further.said, further.code, further.end, true, decade);
        }
        for (int skip = 0; skip <= 3 && i + skip < words.size(); skip++) {
            int at = i + skip;
            if (words.get(at - 1).stops() || number(at).isPresent()) {
                break;
            }
            String text = words.get(at).text();
            boolean letter = text.length() == 1 && "dspw".contains(text);
            if (letter && (skip == 0 || is(at - 1, "a", "an", "the", "little") || is(at + 1, "mint"))) {
                boolean plain = text.equals("p") && !showsP(year);
                return new Mark(
                        plain ? Mention.Said.PLAIN : Mention.Said.MARK,
                        plain ? "" : text.toUpperCase(java.util.Locale.ROOT),
                        at + 1,
                        false,
                        false);
            }
            if (text.equals("ds") && skip == 0) {
                return new Mark(Mention.Said.MARK, "D", at + 1, true, false);
            }
            if (heard("plain", at)) {
                return new Mark(Mention.Said.PLAIN, "", over("plain", at), false, false);
            }
            if (heard("mint D", at)) {
                return new Mark(Mention.Said.MARK, "D", over("mint D", at), false, false);
            }
            if (heard("mint S", at)) {
                return new Mark(Mention.Said.MARK, "S", over("mint S", at), false, false);
            }
        }
        return new Mark(Mention.Said.NOTHING, "", from, false, false);
    }

    /// Whether nothing lies between a word and the one before it, as in `1944s`.
    private boolean isGlued(int i) {
        return words.get(i).from() == words.get(i - 1).to();
    }

    private int over(String kind, int at) {
        int i = at;
        while (heard(kind, i) && (i == at || !words.get(i - 1).stops())) {
            i++;
        }
        return i;
    }

    /// Whether coins of the year show a P: war nickels, and from 1979 on most others.
    private boolean showsP(int year) {
        boolean nickel = context.denomination().key().equals("nickel");
        return (nickel && year >= 1942 && year <= 1945) || year >= 1979;
    }

    private Mention.@Nullable Coin coin(int start, int dateFrom, Numbers.Spoken number, int count) {
        Denomination denomination = denomination(start, number.end());
        boolean abroad = !denomination.country().equals(context.denomination().country());
        Optional<Integer> year = number.year() ? Optional.of(number.value()) : year(number.value(), denomination);
        if (year.isEmpty()
                || context.catalog().ofYear(denomination, year.get()).isEmpty()
                || year.get() > context.thisYear()) {
            return null;
        }
        Mark mark = mark(number.end(), year.get(), count > 1, dateFrom);
        if (mark.decade) {
            return null;
        }
        int end = mark.end;
        List<String> extras = new ArrayList<>();
        if (sequence(end, "v", "d", "b")) {
            extras.add("vdb");
            end += 3;
        } else if (is(end, "vdb")) {
            extras.add("vdb");
            end++;
        }
        extras.addAll(varieties(end));
        return new Mention.Coin(
                start,
                end,
                denomination,
                year.get(),
                mark.said,
                mark.code,
                abroad,
                count,
                extras,
                features(start, dateFrom, end, number, year.get(), denomination, mark, count),
                number.year() ? -1 : number.value());
    }

    private List<String> varieties(int end) {
        List<String> found = new ArrayList<>();
        for (int i = end; i < Math.min(words.size(), end + 9); i++) {
            boolean denied = is(i - 1, "no", "not", "isn't")
                    || before("deny", i, 5)
                    || before("hope", i, 5)
                    || is(i - 2, "no", "not");
            if (sequence(i, "doubled", "die") && !denied) {
                found.add("ddo");
            } else if ((sequence(i, "repunched", "mint", "mark") || is(i, "rpm")) && !denied) {
                found.add("rpm");
            } else if (is(i, "small", "large") && is(i + 1, "date") && !denied) {
                found.add(words.get(i).text());
            }
            if (words.get(i).stops()) {
                break;
            }
        }
        return found;
    }

    private Denomination denomination(int start, int end) {
        Denomination home = context.denomination();
        Country country = home.country();
        for (int i = start - 1; i >= Math.max(0, start - 4); i--) {
            if (words.get(i).stops() || (number(i).isPresent() && !is(i, "one")) || is(i, "and", "then", "with")) {
                break;
            }
            country = country(i, country);
        }
        boolean list = !mentions.isEmpty()
                && mentions.getLast() instanceof Mention.Coin before
                && before.abroad()
                && start - before.end() <= 3
                && severalAbroad(before.word())
                && country.equals(home.country());
        if (list) {
            country = ((Mention.Coin) mentions.getLast()).denomination().country();
        }
        for (int i = end;
                i < Math.min(words.size(), end + 2) && !words.get(i - 1).stops();
                i++) {
            country = country(i, country);
        }
        return country.equals(home.country()) ? home : new Denomination(country, home.key());
    }

    /// Whether several foreign coins were announced shortly before: `two Canadians, a 1964 and a 1974`.
    private boolean severalAbroad(int i) {
        for (int k = i; k >= Math.max(1, i - 8); k--) {
            if (is(k, "canadian", "american")
                    && !opens(k)
                    && count(k - 1).filter(n -> n.value() > 1).isPresent()) {
                return true;
            }
        }
        return false;
    }

    private Country country(int i, Country otherwise) {
        if (is(i, "canadian", "canada")) {
            return CANADA;
        }
        return is(i, "american") ? UNITED_STATES : otherwise;
    }

    /// The year two digits mean: one that is watched for, else one of the last century.
    private Optional<Integer> year(int twoDigits, Denomination denomination) {
        Optional<Integer> plausible = Optional.empty();
        for (int century : new int[] {1900, 2000, 1800}) {
            int year = century + twoDigits;
            if (year > context.thisYear()
                    || context.catalog().ofYear(denomination, year).isEmpty()) {
                continue;
            }
            if (watched(year, denomination)) {
                return Optional.of(year);
            }
            plausible = plausible.or(() -> Optional.of(year));
        }
        return plausible;
    }

    private boolean watched(int year, Denomination denomination) {
        for (Issue issue : context.catalog().ofYear(denomination, year)) {
            boolean chosen = context.watches().stream()
                    .anyMatch(watch -> watch.selects(
                            CoinDescription.plain(issue.identity()),
                            List.of(issue),
                            context.denomination().country()));
            if (chosen) {
                return true;
            }
        }
        return false;
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
        if (mark.said == Mention.Said.MARK) {
            features.add(Feature.MINT_MARK_SAID);
        } else if (mark.said == Mention.Said.PLAIN) {
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
        boolean wanted = context.watches().isEmpty()
                || watched(year, denomination)
                || !denomination.equals(context.denomination());
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
        add(features, Feature.PLURAL_WITHOUT_COUNT, mark.plural && count == 1);
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

    private boolean asks(int end) {
        for (int k = Math.max(0, end - 1); k < Math.min(words.size(), end + 6); k++) {
            if (words.get(k).asks()) {
                return true;
            }
            if (words.get(k).stops()) {
                return false;
            }
        }
        return false;
    }

    private boolean totalNear(int start) {
        return !mentions.isEmpty()
                && mentions.getLast() instanceof Mention.Total
                && start - mentions.getLast().end() <= 8;
    }

    private @Nullable Mention mintOnly(int i) {
        if (mentions.isEmpty() || i - lastCoinEnd() > 16) {
            return null;
        }
        boolean correcting = before("correction", i, 8) || before("correction", i + 1, 1) || is(i - 1, "no");
        if (heard("plain", i)) {
            return new Mention.MintOnly(i, over("plain", i), Mention.Said.PLAIN, "", correcting);
        }
        if (heard("mint D", i)) {
            return new Mention.MintOnly(i, over("mint D", i), Mention.Said.MARK, "D", correcting);
        }
        if (heard("mint S", i)) {
            return new Mention.MintOnly(i, over("mint S", i), Mention.Said.MARK, "S", correcting);
        }
        boolean letter = is(i, "d", "s");
        boolean answer = opens(i) && stops(i);
        boolean led = answer || is(i - 1, "a", "an", "little", "the", "it's") || is(i + 1, "mint");
        boolean closed = stops(i) || opens(i + 1) || is(i + 1, "mint", "under", "on", "too");
        return letter && led && closed
                ? new Mention.MintOnly(
                        i, i + 1, Mention.Said.MARK, words.get(i).text().toUpperCase(java.util.Locale.ROOT), correcting)
                : null;
    }

    private int lastCoinEnd() {
        for (int m = mentions.size() - 1; m >= 0; m--) {
            if (mentions.get(m) instanceof Mention.Coin coin) {
                return coin.end();
            }
            if (mentions.get(m) instanceof Mention.Bare bare && bare.coin() != null) {
                return bare.end();
            }
        }
        return Integer.MIN_VALUE / 2;
    }

    /// A coin of which only the kind was named: a buffalo, an Indian head, a Canadian.
    private @Nullable Mention kindOnly(int i) {
        boolean buffalo = is(i, "buffalo") && context.denomination().key().equals("nickel");
        boolean indian =
                sequence(i, "indian", "head") && context.denomination().key().equals("cent");
        boolean canadian = is(i, "canadian") && context.denomination().country().equals(UNITED_STATES);
        boolean named = is(i - 1, "a", "an", "another", "worn", "dateless") || opens(i);
        if (!(buffalo || indian || canadian) || !named) {
            return null;
        }
        for (int k = Math.max(scene, i - 4);
                k < Math.min(words.size(), i + 12)
                        && (k <= i || !words.get(k - 1).stops());
                k++) {
            if (number(k)
                    .filter(n -> n.year() || (n.twoDigits() && n.value() > 12))
                    .isPresent()) {
                return null;
            }
        }
        Denomination denomination =
                canadian ? new Denomination(CANADA, context.denomination().key()) : context.denomination();
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
