package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/// Gathers whatever may tell which roll is in hand: every figure that could be a roll's number, with what speaks
/// for and against it, and turns such as "next roll" and "box two". [Rolls] weighs them together. Used by one
/// thread.
final class RollSigns {
    /// What a sign would do if it is meant.
    enum Kind {
        /// Turns to a roll by its number.
        TO,
        /// Turns so many rolls on.
        ON,
        /// Turns to the last roll of the box.
        LAST,
        /// Turns to a box.
        BOX,
        /// Turns to a roll of a box: `2-31`.
        BOX_ROLL
    }

    /// What speaks for or against a sign. Each has a weight for a roll, `sign_` and its name,
    /// and one for a running count, `count_` and its name.
    enum Clue {
        ROLL_BEFORE,
        ORDINAL_ROLL,
        ROLL_NEAR,
        ALONE,
        OPENING,
        NOTHING_NEXT,
        NOTHING_NEAR,
        VERB_NEXT,
        IN_BEFORE,
        COUNT_IN,
        MINE,
        COUNTS_UP,
        RANGE,
        PAUSE_BEFORE,
        NUMBER_BEFORE,
        TOTAL_BEFORE,
        MINT_NEXT,
        ARTICLE_BEFORE,
        YEAR,
        UNIT_NEXT,
        THING_NEXT,
        COIN_BEFORE,
        LIKE_LAST,
        NOTHING_BEFORE,
        NO_STOPS,
        ORDINAL,
        ORDINAL_ONE,
        OF_ALL,
        ENDS_NEXT,
        FIGURE_NEXT,
        AFTER_COIN,
        PLAIN_FIGURE,
        HEARD_ALIKE,
        NEXT_ROLL,
        NEXT_ALONE,
        ROLLS_LATER,
        LAST_ROLL,
        LAST_ONE,
        BOX_NAMED,
        BOX_SPOKEN_OF;

        static final int COUNT = values().length;

        /// Its place among the weights.
        @SuppressWarnings("EnumOrdinal")
        int index() {
            return ordinal();
        }

        String weight() {
            return "sign_" + name().toLowerCase(Locale.ROOT);
        }

        /// Its weight for a running count.
        String weightAsCount() {
            return "count_" + name().toLowerCase(Locale.ROOT);
        }
    }

    /// A sign.
    ///
    /// @param value the roll, the box, or how many rolls on
    /// @param other another reading of the roll, 0 for none: `one, two` behind `forty`
    /// @param from first roll of a range that ends with it, 0 for none
    /// @param box of a [Kind#BOX_ROLL], 0 otherwise
    /// @param turns how often the speaker changed before it
    /// @param clues bits by [Clue#index]
    record Sign(int word, int end, Kind kind, int value, int other, int from, int box, int turns, long clues) {
        boolean has(Clue clue) {
            return (clues & bit(clue)) != 0;
        }
    }

    private record Figure(int word, int end, int value, boolean ordinal, boolean alike) {}

    private static final Set<String> VERBS = Set.of(
            "has", "had", "have", "gave", "gives", "is", "was", "were", "starts", "started", "got", "isn't", "wasn't",
            "didn't", "don't", "doesn't", "hasn't", "are", "aren't");
    private static final Set<String> FILLERS = Set.of(
            "has", "had", "gave", "is", "was", "were", "are", "a", "an", "just", "all", "got", "uh", "um", "also",
            "both", "s", "me", "another", "i", "have", "there", "there's", "with");
    private static final Set<String> INTO = Set.of("did", "opened", "in", "into", "from", "through", "on", "out", "of");
    private static final Set<String> OWNERS = Set.of("my", "mine", "his", "her");
    private static final Set<String> LEADS = Set.of(
            "makes", "that's", "at", "be", "total", "count", "we're", "i'm", "keeper", "keepers", "find", "finds",
            "coin", "is", "it's", "was", "about", "around", "only", "than", "maybe", "says", "said", "worth");
    private static final Set<String> ARTICLES = Set.of("a", "an", "another", "the", "these", "those", "this", "that");
    private static final Set<String> THINGS = Set.of(
            "wheat",
            "wheats",
            "coin",
            "coins",
            "cent",
            "cents",
            "penny",
            "pennies",
            "keeper",
            "keepers",
            "find",
            "finds",
            "silver",
            "silvers",
            "dime",
            "dimes",
            "nickel",
            "nickels",
            "quarter",
            "quarters",
            "half",
            "halves",
            "king",
            "kings",
            "queen",
            "queens",
            "canadian",
            "steel",
            "war",
            "old",
            "new",
            "of",
            "more",
            "different",
            "memorials",
            "shields",
            "indian",
            "people",
            "kinds");
    private static final Set<String> UNITS = Set.of(
            "dollar",
            "dollars",
            "percent",
            "million",
            "billion",
            "thousand",
            "hundred",
            "year",
            "years",
            "minutes",
            "minute",
            "hours",
            "hour",
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
            "gram",
            "roll",
            "miles",
            "degrees",
            "o'clock",
            "point",
            "power",
            "holes",
            "weeks",
            "months",
            "days",
            "centimetres",
            "millimetres",
            "millimeters",
            "inches",
            "feet",
            "o",
            "oh",
            "seconds");
    private static final Map<String, Integer> ALIKE =
            Map.of("to", 2, "too", 2, "for", 4, "fore", 4, "won", 1, "ate", 8, "then", 10, "tree", 3, "fourth", 4);

    /// Captions with a full stop in fewer than so many words have none at all.
    private static final int FEW_STOPS = 50;

    private final List<Word> words;
    private final List<Cue> cues;
    private final int rollsPerBox;
    private final BitSet nothing;
    private final BitSet mints;
    private final List<Figure> figures = new ArrayList<>();
    private final boolean unstopped;
    private final int[] turns;
    private final int[] figureAt;
    private final List<Sign> signs = new ArrayList<>();

    RollSigns(List<Word> heard, List<Cue> cues, int rollsPerBox, Phrases phrases) {
        this.words = withoutIs(heard);
        this.cues = cues;
        this.rollsPerBox = rollsPerBox;
        Map<String, BitSet> places = phrases.heard(words);
        this.nothing = new BitSet();
        this.mints = new BitSet();
        places.forEach((kind, where) -> {
            switch (kind) {
                case "nothing", "barren" -> nothing.or(where);
                case "plain", "mint D", "mint S" -> mints.or(where);
                default -> {}
            }
        });
        long stops = words.stream().filter(Word::stops).count();
        this.unstopped = stops * FEW_STOPS < words.size();
        this.turns = turns(words, cues);
        this.figureAt = new int[words.size() + 1];
    }

    /// `thirty-two's` is a number and a verb to be heard apart.
    private static List<Word> withoutIs(List<Word> heard) {
        List<Word> apart = new ArrayList<>(heard.size());
        for (Word word : heard) {
            String text = word.text();
            boolean verb = text.endsWith("'s") || text.endsWith("'d");
            boolean number = verb
                    && Numbers.count(List.of(named(word, text.substring(0, text.length() - 2))), 0)
                            .isPresent();
            apart.add(number ? named(word, text.substring(0, text.length() - 2)) : word);
        }
        return apart;
    }

    private static Word named(Word word, String text) {
        return new Word(
                text,
                word.at(),
                word.cue(),
                word.from(),
                word.to(),
                word.opens(),
                word.stops(),
                word.asks(),
                word.currency());
    }

    /// How often `>>` marked a new speaker before each word.
    private static int[] turns(List<Word> words, List<Cue> cues) {
        int[] turns = new int[words.size() + 1];
        int now = 0;
        for (int i = 0; i < words.size(); i++) {
            Word word = words.get(i);
            boolean sameCue = i > 0 && words.get(i - 1).cue() == word.cue();
            int from = sameCue ? words.get(i - 1).to() : 0;
            if (i > 0 && !sameCue) {
                now += cues.get(words.get(i - 1).cue())
                                        .text()
                                        .indexOf(">>", words.get(i - 1).to())
                                >= 0
                        ? 1
                        : 0;
            }
            String text = cues.get(word.cue()).text();
            int mark = text.indexOf(">>", from);
            now += mark >= 0 && mark < word.from() ? 1 : 0;
            turns[i] = now;
        }
        return turns;
    }

    /// All signs in order.
    List<Sign> signs() {
        java.util.Arrays.fill(figureAt, -1);
        for (int i = 0; i < words.size(); ) {
            Figure figure = figure(i);
            if (figure == null) {
                i++;
            } else {
                figureAt[i] = figures.size();
                figures.add(figure);
                i = figure.end;
            }
        }
        for (int i = nothing.nextSetBit(0); i >= 0; i = nothing.nextSetBit(i + 1)) {
            boolean lone = is(i, "no", "any", "good", "clean", "modern", "quiet", "dry");
            boolean last = stops(i) || opens(i + 1) || figureAt[i + 1] >= 0 || is(i + 1, "no", "and", "roll", "next");
            boolean thing = is(
                    i + 1, "mint", "meant", "mark", "letter", "date", "d", "s", "more", "way", "luck", "it", "that",
                    "wait");
            if (lone && (unstopped ? thing : !last)) {
                nothing.clear(i);
            }
        }
        for (int i = 0; i < words.size(); i++) {
            if (figureAt[i] >= 0) {
                figureSign(figureAt[i]);
            } else {
                turn(i);
            }
        }
        return signs;
    }

    private @org.jspecify.annotations.Nullable Figure figure(int i) {
        Optional<Numbers.Spoken> said = Numbers.count(words, i);
        if (said.isPresent()) {
            Numbers.Spoken number = said.get();
            if (is(number.end(), "hundred") && number.value() < 5) {
                Optional<Numbers.Spoken> more = Numbers.count(words, number.end() + 1);
                boolean joined = more.isPresent()
                        && !opens(number.end() + 1)
                        && !more.get().ordinal();
                int value = number.value() * 100 + (joined ? more.get().value() : 0);
                return new Figure(i, joined ? more.get().end() : number.end() + 1, value, false, false);
            }
            return number.value() >= 1 && number.value() <= CourseGrammar.LONGEST_ROLL
                    ? new Figure(i, number.end(), number.value(), number.ordinal(), false)
                    : null;
        }
        Integer alike = ALIKE.get(words.get(i).text());
        boolean named = is(i - 1, "roll") && (stops(i) || opens(i + 1) || nothing.get(Math.min(i + 1, words.size())));
        boolean sentence =
                alike != null && alike == 10 && opens(i) && words.get(i).stops();
        return alike != null && (named || sentence) ? new Figure(i, i + 1, alike, false, true) : null;
    }

    private void figureSign(int f) {
        Figure figure = figures.get(f);
        int i = figure.word;
        int end = figure.end;
        if (boxBefore(i)) {
            if (figure.value <= 20 && !figure.ordinal) {
                box(i, end, figure.value);
            }
            return;
        }
        if (figure.ordinal && is(end, "box") && figure.value <= 20) {
            box(i, end, figure.value);
            return;
        }
        boolean rollsNext = is(end, "roll") && !opens(end);
        if (rollsNext && !figure.ordinal && is(end + 1, "later", "after", "on", "further")) {
            add(i, end + 2, Kind.ON, figure.value, bit(Clue.ROLLS_LATER));
            return;
        }
        if (figure.ordinal && rollsNext) {
            add(i, end + 1, Kind.TO, figure.value, bit(Clue.ORDINAL_ROLL));
            return;
        }
        boolean named = rollBefore(i);
        int value = figure.value;
        int other = 0;
        if (figure.ordinal && named && end - i == 2) {
            // "roll forty first wheat of the night"
            other = value;
            value = value / 10 * 10;
        }
        if (boxRoll(f) || (f > 0 && ofAll(f - 1))) {
            return;
        }
        long clues = clues(f, named);
        int from = 0;
        if (f > 0) {
            Figure before = figures.get(f - 1);
            if (before.value % 100 >= 20
                    && value < 10
                    && before.value % 10 + 1 == value
                    && i - before.end <= 1
                    && !named
                    && !before.ordinal) {
                other = before.value + 1;
                clues |= bit(Clue.COUNTS_UP);
            }
            if (value > before.value && value <= before.value + 40 && ranges(before.end, i)) {
                from = before.value;
                clues |= bit(Clue.RANGE);
            }
        }
        signs.add(new Sign(i, end, Kind.TO, value, other, from, 0, turns[i], clues));
    }

    /// `ten of fifty`.
    private boolean ofAll(int f) {
        Figure figure = figures.get(f);
        return is(figure.end, "of")
                && f + 1 < figures.size()
                && figures.get(f + 1).word == figure.end + 1
                && figures.get(f + 1).value >= Math.max(10, figure.value)
                && figures.get(f + 1).value <= 100;
    }

    private boolean ranges(int end, int i) {
        boolean word = i - end == 1 && is(end, "through", "thru", "to", "till", "until");
        boolean words3 = i - end == 3 && is(i - 1, "to", "through");
        return word || words3;
    }

    /// `2-31`: roll 31 of box 2.
    private boolean boxRoll(int f) {
        if (f + 1 >= figures.size()) {
            return false;
        }
        Figure box = figures.get(f);
        Figure roll = figures.get(f + 1);
        boolean joined = roll.word == box.end
                && box.value <= 9
                && roll.value <= rollsPerBox
                && words.get(box.word).cue() == words.get(roll.word).cue()
                && between(box.end - 1, roll.word).strip().matches("[-–—]")
                && words.get(box.word).isNumber();
        if (joined) {
            signs.add(new Sign(
                    box.word,
                    roll.end,
                    Kind.BOX_ROLL,
                    roll.value,
                    0,
                    0,
                    box.value,
                    turns[box.word],
                    bit(Clue.ROLL_BEFORE)));
        }
        return joined;
    }

    private String between(int a, int b) {
        String text = cues.get(words.get(a).cue()).text();
        int to = Math.min(words.get(b).from(), text.length());
        return words.get(a).to() <= to ? text.substring(words.get(a).to(), to) : "";
    }

    private long clues(int f, boolean named) {
        Figure figure = figures.get(f);
        int i = figure.word;
        int end = figure.end;
        long clues = 0;
        if (named) {
            clues |= bit(Clue.ROLL_BEFORE);
        } else if (rollNear(i)) {
            clues |= bit(Clue.ROLL_NEAR);
        }
        clues |= i > 0 && nothing.get(i - 1) ? bit(Clue.NOTHING_BEFORE) : 0;
        clues |= ofAll(f) ? bit(Clue.OF_ALL) : 0;
        clues |= figure.ordinal ? bit(is(end, "one") ? Clue.ORDINAL_ONE : Clue.ORDINAL) : 0;
        clues |= ends(end) ? bit(Clue.ENDS_NEXT) : 0;
        clues |= end < words.size() && figureAt[end] >= 0 ? bit(Clue.FIGURE_NEXT) : 0;
        clues |= afterCoin(f) ? bit(Clue.AFTER_COIN) : 0;
        clues |= unstopped ? bit(Clue.NO_STOPS) : 0;
        clues |= figure.alike ? bit(Clue.HEARD_ALIKE) : 0;
        boolean closes = stops(end - 1) || opens(end);
        if (opens(i)) {
            clues |= bit(closes ? Clue.ALONE : Clue.OPENING);
        }
        int n = end;
        while (n < Math.min(words.size(), end + 3)
                && !nothing.get(n)
                && figureAt[n] < 0
                && FILLERS.contains(words.get(n).text())) {
            n++;
        }
        if (nothing.get(n)) {
            clues |= bit(Clue.NOTHING_NEXT);
        } else if (nothingNear(end)) {
            clues |= bit(Clue.NOTHING_NEAR);
        }
        clues |= verb(end) ? bit(Clue.VERB_NEXT) : 0;
        String before = i > 0 ? words.get(i - 1).text() : "";
        boolean joined = i > 0 && !words.get(i - 1).stops();
        boolean numbered = is(i - 1, "number", "no") && joined;
        int lead = numbered ? i - 2 : i - 1;
        if (lead >= 0 && !words.get(lead).stops()) {
            String text = words.get(lead).text();
            if (INTO.contains(text)) {
                boolean counted = text.equals("in") && lead > 0 && figureEnds(lead);
                clues |= bit(counted ? Clue.COUNT_IN : Clue.IN_BEFORE);
            }
            clues |= OWNERS.contains(text) ? bit(Clue.MINE) : 0;
        }
        if (numbered && !named) {
            clues |= bit(Clue.NUMBER_BEFORE);
        }
        if (joined && !opens(i)) {
            clues |= LEADS.contains(before) ? bit(Clue.TOTAL_BEFORE) : 0;
            clues |= ARTICLES.contains(before) ? bit(Clue.ARTICLE_BEFORE) : 0;
            clues |= THINGS.contains(before) && !before.equals("of") ? bit(Clue.COIN_BEFORE) : 0;
        }
        clues |= neighbours(f);
        clues |= mint(end) ? bit(Clue.MINT_NEXT) : 0;
        clues |= year(i) ? bit(Clue.YEAR) : 0;
        clues |= unit(i, end) ? bit(Clue.UNIT_NEXT) : 0;
        boolean thing = end < words.size()
                && !opens(end)
                && !ofAll(f)
                && !(figure.ordinal && is(end, "one"))
                && THINGS.contains(words.get(end).text());
        // "two in this roll"
        boolean within = is(end, "in", "here")
                && !opens(end)
                && (is(end, "here") || is(end + 1, "this", "that", "here", "one", "a"));
        clues |= thing || within ? bit(Clue.THING_NEXT) : 0;
        clues |= pause(i) ? bit(Clue.PAUSE_BEFORE) : 0;
        return clues == 0 ? bit(Clue.PLAIN_FIGURE) : clues | bit(Clue.PLAIN_FIGURE);
    }

    private long neighbours(int f) {
        Figure figure = figures.get(f);
        long clues = 0;
        if (f > 0) {
            Figure before = figures.get(f - 1);
            if (before.value + 1 == figure.value && figure.word - before.end <= 2) {
                clues |= bit(Clue.COUNTS_UP);
            }
            if (before.value == figure.value && figure.word - before.end <= 2) {
                clues |= bit(Clue.LIKE_LAST);
            }
        }
        if (f + 1 < figures.size()) {
            Figure after = figures.get(f + 1);
            if (figure.value + 1 == after.value && after.word - figure.end <= 2) {
                clues |= bit(Clue.COUNTS_UP);
            }
        }
        return clues;
    }

    private boolean figureEnds(int i) {
        return i > 0 && (figureAt[i - 1] >= 0 || (i > 1 && figureAt[i - 2] >= 0));
    }

    private boolean nothingNear(int end) {
        for (int k = end; k < Math.min(words.size(), end + 7); k++) {
            if (nothing.get(k)) {
                return true;
            }
            if (figureAt[k] >= 0) {
                return false;
            }
        }
        return false;
    }

    /// Whether a date or a mint was said right before.
    private boolean afterCoin(int f) {
        int i = figures.get(f).word;
        boolean mint = i > 0 && (mints.get(i - 1) || is(i - 1, "d", "s", "p", "dee", "ess", "ds", "letter", "mark"));
        boolean date = f > 0 && figures.get(f - 1).end == i && (figures.get(f - 1).value >= 10 || year(i - 1));
        boolean inFull =
                i > 0 && Numbers.at(words, i - 1).map(Numbers.Spoken::year).orElse(false);
        return mint || date || inFull;
    }

    private boolean ends(int end) {
        for (int k = end; k < Math.min(words.size(), end + 5) && figureAt[k] < 0; k++) {
            if (is(k, "end", "ends", "ender", "enders", "end's", "ends're")) {
                return true;
            }
        }
        return false;
    }

    private boolean verb(int end) {
        if (end >= words.size()) {
            return false;
        }
        boolean told = VERBS.contains(words.get(end).text());
        boolean short2 = words.get(end).is("s") && !glued(end);
        String rest = cues.get(words.get(end - 1).cue()).text();
        int to = words.get(end - 1).to();
        boolean shortened =
                to >= 2 && to <= rest.length() && rest.substring(to - 2, to).matches("['\u2019]s");
        return told || short2 || shortened;
    }

    private boolean glued(int i) {
        return i > 0
                && words.get(i).cue() == words.get(i - 1).cue()
                && words.get(i).from() == words.get(i - 1).to();
    }

    private boolean mint(int end) {
        if (end >= words.size() || (words.get(end - 1).stops() && !mints.get(end))) {
            return false;
        }
        boolean letter =
                is(end, "d", "s", "p", "w", "ds", "dee", "ess", "the") && !(is(end, "s") && !glued(end) && apart(end));
        boolean none = is(end, "no") && is(end + 1, "meant", "men", "mark", "letter", "mint");
        return none || (letter && (!is(end, "the") || stops(end))) || mints.get(end);
    }

    /// Whether an apostrophe stands in front: `27's`.
    private boolean apart(int i) {
        return words.get(i).cue() == words.get(i - 1).cue()
                && words.get(i).from() == words.get(i - 1).to() + 1
                && "'\u2019"
                                .indexOf(cues.get(words.get(i).cue())
                                        .text()
                                        .charAt(words.get(i).from() - 1))
                        >= 0;
    }

    private boolean year(int i) {
        for (int k = Math.max(0, i - 2); k <= i; k++) {
            Optional<Numbers.Spoken> said = Numbers.at(words, k);
            if (said.isPresent() && said.get().year() && said.get().end() > i) {
                return true;
            }
        }
        for (int k = Math.max(0, i - 3); k <= i; k++) {
            // "one nine five six"
            boolean century = (is(k, "one") && is(k + 1, "nine", "eight")) || (is(k, "two") && is(k + 1, "oh"));
            if (century && i - k < 4 && digit(k + 2) && digit(k + 3)) {
                return true;
            }
        }
        boolean and = is(i, "nineteen", "eighteen") && is(i + 1, "and") && i + 2 < words.size() && figureAt[i + 2] >= 0;
        return and || (is(i - 1, "and") && is(i - 2, "nineteen", "eighteen"));
    }

    private boolean digit(int i) {
        return is(i, "oh", "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine");
    }

    private boolean unit(int i, int end) {
        boolean follows = end < words.size()
                && !words.get(end).opens()
                && UNITS.contains(words.get(end).text());
        boolean decimal = (i > 0 && words.get(i).isNumber() && near(i - 1, '.'))
                || (end < words.size() && words.get(end).isNumber() && near(end - 1, '.'));
        return follows || words.get(i).currency() || decimal || is(i - 1, "point");
    }

    /// Whether a sign and nothing else lies between a word and the next.
    private boolean near(int i, char sign) {
        Word a = words.get(i);
        Word b = words.get(i + 1);
        return a.cue() == b.cue()
                && b.from() == a.to() + 1
                && cues.get(a.cue()).text().charAt(a.to()) == sign;
    }

    /// Whether silence came before: the caption before holds few words for its length.
    private boolean pause(int i) {
        if (i == 0 || words.get(i).cue() == words.get(i - 1).cue()) {
            return false;
        }
        Cue before = cues.get(words.get(i - 1).cue());
        long span = Math.max(1, cues.get(words.get(i).cue()).start() - before.start());
        return before.text().length() * 1000L / span < 7;
    }

    private boolean rollBefore(int i) {
        boolean direct = is(i - 1, "roll") && !words.get(i - 1).stops();
        boolean number = is(i - 1, "number", "no", "is", "was", "called") && is(i - 2, "roll");
        return direct || number || (is(i - 1, "and") && i >= 3 && rollBeforeList(i));
    }

    /// `rolls 4 and 5`.
    private boolean rollBeforeList(int i) {
        int k = i - 2;
        while (k > 0 && k > i - 4 && figureAt[k] < 0) {
            k--;
        }
        return k > 0 && figureAt[k] >= 0 && is(k - 1, "roll");
    }

    private boolean rollNear(int i) {
        for (int k = i - 1; k >= Math.max(0, i - 6) && !words.get(k).stops(); k--) {
            if (is(k, "roll")) {
                return true;
            }
            if (figureAt[k] >= 0) {
                return false;
            }
        }
        return false;
    }

    private boolean boxBefore(int i) {
        return (is(i - 1, "box") && !words.get(i - 1).stops()) || (is(i - 1, "number", "no") && is(i - 2, "box"));
    }

    private void box(int i, int end, int value) {
        int box = is(i - 1, "number", "no") ? i - 2 : is(i - 1, "box") ? i - 1 : i;
        boolean talk = is(box - 1, "in", "from", "of", "tie", "than", "for", "with", "so")
                || is(end, "done", "was", "had", "wins", "won", "is");
        add(i, end, Kind.BOX, value, bit(Clue.BOX_NAMED) | (talk ? bit(Clue.BOX_SPOKEN_OF) : 0));
    }

    private void turn(int i) {
        if (is(i, "next", "following") && is(i + 1, "roll")) {
            add(i, i + 2, Kind.ON, 1, bit(Clue.NEXT_ROLL));
        } else if (is(i, "roll") && is(i + 1, "after") && is(i + 2, "that", "this")) {
            add(i, i + 3, Kind.ON, 1, bit(Clue.NEXT_ROLL));
        } else if (is(i, "another") && is(i + 1, "roll")) {
            add(i, i + 2, Kind.ON, 1, bit(Clue.NEXT_ROLL));
        } else if (is(i, "next") && opens(i) && (stops(i) || (is(i + 1, "one") && stops(i + 1)))) {
            add(i, i + 1, Kind.ON, 1, bit(Clue.NEXT_ALONE));
        } else if (is(i, "last", "final") && is(i + 1, "roll")) {
            add(i, i + 2, Kind.LAST, 0, bit(Clue.LAST_ROLL));
        } else if ((is(i, "last", "final") && is(i + 1, "one") && is(i - 1, "very", "the", "and")) || lastOne(i)) {
            add(i, i + 2, Kind.LAST, 0, bit(Clue.LAST_ONE));
        } else if (is(i, "next") && is(i + 1, "box")) {
            add(i, i + 2, Kind.BOX, 0, bit(Clue.BOX_NAMED));
        }
    }

    /// `Fourteen, last one.`
    private boolean lastOne(int i) {
        return is(i, "last") && is(i + 1, "one") && i > 0 && figureEnds(i);
    }

    private void add(int i, int end, Kind kind, int value, long clues) {
        signs.add(new Sign(i, end, kind, value, 0, 0, 0, turns[i], clues));
    }

    private static long bit(Clue clue) {
        return 1L << clue.index();
    }

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

    private boolean opens(int i) {
        return i <= 0 || i >= words.size() || words.get(i).opens();
    }

    private boolean stops(int i) {
        return i < 0 || i >= words.size() - 1 || words.get(i).stops();
    }
}
