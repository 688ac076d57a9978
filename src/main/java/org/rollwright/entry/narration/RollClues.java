package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/// What speaks for and against a figure being a roll's number, word by word around it. [RollSigns] says what the
/// figure would be. Used by one thread.
abstract class RollClues extends WordPlaces {
    /// A figure that could be a roll's number.
    ///
    /// @param alike whether it was only heard like one: `to`, `for`
    record Figure(int word, int end, int value, boolean ordinal, boolean alike) {}

    /// Captions with a full stop in fewer than so many words have none at all.
    private static final int FEW_STOPS = 50;

    final List<Cue> cues;
    final BitSet nothing = new BitSet();
    final List<Figure> figures = new ArrayList<>();
    final boolean unstopped;
    final int[] turns;

    /// At every word the number of the figure that begins there, -1 for none.
    final int[] figureAt;

    private final BitSet mints = new BitSet();

    RollClues(List<Word> heard, List<Cue> cues, Phrases phrases) {
        super(withoutIs(heard));
        this.cues = cues;
        Map<String, BitSet> places = phrases.heard(words);
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

    /// `ten of fifty`.
    boolean ofAll(int f) {
        Figure figure = figures.get(f);
        return is(figure.end, "of")
                && f + 1 < figures.size()
                && figures.get(f + 1).word == figure.end + 1
                && figures.get(f + 1).value >= Math.max(10, figure.value)
                && figures.get(f + 1).value <= 100;
    }

    long clues(int f, boolean named) {
        Figure figure = figures.get(f);
        int i = figure.word;
        int end = figure.end;
        long clues = 0;
        if (named) {
            clues |= RollSign.bit(RollSign.Clue.ROLL_BEFORE);
        } else if (rollNear(i)) {
            clues |= RollSign.bit(RollSign.Clue.ROLL_NEAR);
        }
        clues |= i > 0 && nothing.get(i - 1) ? RollSign.bit(RollSign.Clue.NOTHING_BEFORE) : 0;
        clues |= ofAll(f) ? RollSign.bit(RollSign.Clue.OF_ALL) : 0;
        clues |= figure.ordinal ? RollSign.bit(is(end, "one") ? RollSign.Clue.ORDINAL_ONE : RollSign.Clue.ORDINAL) : 0;
        clues |= ends(end) ? RollSign.bit(RollSign.Clue.ENDS_NEXT) : 0;
        clues |= end < words.size() && figureAt[end] >= 0 ? RollSign.bit(RollSign.Clue.FIGURE_NEXT) : 0;
        clues |= afterCoin(f) ? RollSign.bit(RollSign.Clue.AFTER_COIN) : 0;
        clues |= unstopped ? RollSign.bit(RollSign.Clue.NO_STOPS) : 0;
        clues |= figure.alike ? RollSign.bit(RollSign.Clue.HEARD_ALIKE) : 0;
        boolean closes = stops(end - 1) || opens(end);
        if (opens(i)) {
            clues |= RollSign.bit(closes ? RollSign.Clue.ALONE : RollSign.Clue.OPENING);
        }
        int n = end;
        while (n < Math.min(words.size(), end + 3)
                && !nothing.get(n)
                && figureAt[n] < 0
                && RollWords.FILLERS.contains(words.get(n).text())) {
            n++;
        }
        if (nothing.get(n)) {
            clues |= RollSign.bit(RollSign.Clue.NOTHING_NEXT);
        } else if (nothingNear(end)) {
            clues |= RollSign.bit(RollSign.Clue.NOTHING_NEAR);
        }
        clues |= verb(end) ? RollSign.bit(RollSign.Clue.VERB_NEXT) : 0;
        String before = i > 0 ? words.get(i - 1).text() : "";
        boolean joined = i > 0 && !words.get(i - 1).stops();
        boolean numbered = is(i - 1, "number", "no") && joined;
        int lead = numbered ? i - 2 : i - 1;
        if (lead >= 0 && !words.get(lead).stops()) {
            String text = words.get(lead).text();
            if (RollWords.INTO.contains(text)) {
                boolean counted = text.equals("in") && lead > 0 && figureEnds(lead);
                clues |= RollSign.bit(counted ? RollSign.Clue.COUNT_IN : RollSign.Clue.IN_BEFORE);
            }
            clues |= RollWords.OWNERS.contains(text) ? RollSign.bit(RollSign.Clue.MINE) : 0;
        }
        if (numbered && !named) {
            clues |= RollSign.bit(RollSign.Clue.NUMBER_BEFORE);
        }
        if (joined && !opens(i)) {
            clues |= RollWords.LEADS.contains(before) ? RollSign.bit(RollSign.Clue.TOTAL_BEFORE) : 0;
            clues |= RollWords.ARTICLES.contains(before) ? RollSign.bit(RollSign.Clue.ARTICLE_BEFORE) : 0;
            clues |= RollWords.THINGS.contains(before) && !before.equals("of")
                    ? RollSign.bit(RollSign.Clue.COIN_BEFORE)
                    : 0;
        }
        clues |= neighbours(f);
        clues |= mint(end) ? RollSign.bit(RollSign.Clue.MINT_NEXT) : 0;
        clues |= year(i) ? RollSign.bit(RollSign.Clue.YEAR) : 0;
        clues |= unit(i, end) ? RollSign.bit(RollSign.Clue.UNIT_NEXT) : 0;
        boolean thing = end < words.size()
                && !opens(end)
                && !ofAll(f)
                && !(figure.ordinal && is(end, "one"))
                && RollWords.THINGS.contains(words.get(end).text());
        // "two in this roll"
        boolean within = is(end, "in", "here")
                && !opens(end)
                && (is(end, "here") || is(end + 1, "this", "that", "here", "one", "a"));
        clues |= thing || within ? RollSign.bit(RollSign.Clue.THING_NEXT) : 0;
        clues |= pause(i) ? RollSign.bit(RollSign.Clue.PAUSE_BEFORE) : 0;
        return clues == 0 ? RollSign.bit(RollSign.Clue.PLAIN_FIGURE) : clues | RollSign.bit(RollSign.Clue.PLAIN_FIGURE);
    }

    private long neighbours(int f) {
        Figure figure = figures.get(f);
        long clues = 0;
        if (f > 0) {
            Figure before = figures.get(f - 1);
            if (before.value + 1 == figure.value && figure.word - before.end <= 2) {
                clues |= RollSign.bit(RollSign.Clue.COUNTS_UP);
            }
            if (before.value == figure.value && figure.word - before.end <= 2) {
                clues |= RollSign.bit(RollSign.Clue.LIKE_LAST);
            }
        }
        if (f + 1 < figures.size()) {
            Figure after = figures.get(f + 1);
            if (figure.value + 1 == after.value && after.word - figure.end <= 2) {
                clues |= RollSign.bit(RollSign.Clue.COUNTS_UP);
            }
        }
        return clues;
    }

    boolean figureEnds(int i) {
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
        boolean told = RollWords.VERBS.contains(words.get(end).text());
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
                && RollWords.UNITS.contains(words.get(end).text());
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

    boolean rollBefore(int i) {
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
}
