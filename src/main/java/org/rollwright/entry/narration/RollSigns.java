package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/// Gathers whatever may tell which roll is in hand: every figure that could be a roll's number, with what speaks
/// for and against it, and turns such as "next roll" and "box two". [Rolls] weighs them together. Used by one
/// thread.
final class RollSigns extends RollClues {
    private final int rollsPerBox;
    private final List<RollSign> signs = new ArrayList<>();

    RollSigns(List<Word> heard, List<Cue> cues, int rollsPerBox, Phrases phrases) {
        super(heard, cues, phrases);
        this.rollsPerBox = rollsPerBox;
    }

    /// All signs in order.
    List<RollSign> signs() {
        Arrays.fill(figureAt, -1);
        for (int i = 0; i < words.size(); ) {
            Figure figure = figure(i);
            if (figure == null) {
                i++;
            } else {
                figureAt[i] = figures.size();
                figures.add(figure);
                i = figure.end();
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

    private @Nullable Figure figure(int i) {
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
        Integer alike = RollWords.ALIKE.get(words.get(i).text());
        boolean named = is(i - 1, "roll") && (stops(i) || opens(i + 1) || nothing.get(Math.min(i + 1, words.size())));
        boolean sentence =
                alike != null && alike == 10 && opens(i) && words.get(i).stops();
        return alike != null && (named || sentence) ? new Figure(i, i + 1, alike, false, true) : null;
    }

    private void figureSign(int f) {
        Figure figure = figures.get(f);
        int i = figure.word();
        int end = figure.end();
        if (boxBefore(i)) {
            if (figure.value() <= 20 && !figure.ordinal()) {
                box(i, end, figure.value());
            }
            return;
        }
        if (figure.ordinal() && is(end, "box") && figure.value() <= 20) {
            box(i, end, figure.value());
            return;
        }
        boolean rollsNext = is(end, "roll") && !opens(end);
        if (rollsNext && !figure.ordinal() && is(end + 1, "later", "after", "on", "further")) {
            add(i, end + 2, RollSign.Kind.ON, figure.value(), RollSign.bit(RollSign.Clue.ROLLS_LATER));
            return;
        }
        if (figure.ordinal() && rollsNext) {
            add(i, end + 1, RollSign.Kind.TO, figure.value(), RollSign.bit(RollSign.Clue.ORDINAL_ROLL));
            return;
        }
        boolean named = rollBefore(i);
        int value = figure.value();
        int other = 0;
        if (figure.ordinal() && named && end - i == 2) {
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
            if (before.value() % 100 >= 20
                    && value < 10
                    && before.value() % 10 + 1 == value
                    && i - before.end() <= 1
                    && !named
                    && !before.ordinal()) {
                other = before.value() + 1;
                clues |= RollSign.bit(RollSign.Clue.COUNTS_UP);
            }
            if (value > before.value() && value <= before.value() + 40 && ranges(before.end(), i)) {
                from = before.value();
                clues |= RollSign.bit(RollSign.Clue.RANGE);
            }
        }
        signs.add(new RollSign(i, end, RollSign.Kind.TO, value, other, from, 0, turns[i], clues));
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
        boolean joined = roll.word() == box.end()
                && box.value() <= 9
                && roll.value() <= rollsPerBox
                && words.get(box.word()).cue() == words.get(roll.word()).cue()
                && between(box.end() - 1, roll.word()).strip().matches("[-–—]")
                && words.get(box.word()).isNumber();
        if (joined) {
            signs.add(new RollSign(
                    box.word(),
                    roll.end(),
                    RollSign.Kind.BOX_ROLL,
                    roll.value(),
                    0,
                    0,
                    box.value(),
                    turns[box.word()],
                    RollSign.bit(RollSign.Clue.ROLL_BEFORE)));
        }
        return joined;
    }

    private String between(int a, int b) {
        String text = cues.get(words.get(a).cue()).text();
        int to = Math.min(words.get(b).from(), text.length());
        return words.get(a).to() <= to ? text.substring(words.get(a).to(), to) : "";
    }

    private boolean boxBefore(int i) {
        return (is(i - 1, "box") && !words.get(i - 1).stops()) || (is(i - 1, "number", "no") && is(i - 2, "box"));
    }

    private void box(int i, int end, int value) {
        int box = is(i - 1, "number", "no") ? i - 2 : is(i - 1, "box") ? i - 1 : i;
        boolean talk = is(box - 1, "in", "from", "of", "tie", "than", "for", "with", "so")
                || is(end, "done", "was", "had", "wins", "won", "is");
        add(
                i,
                end,
                RollSign.Kind.BOX,
                value,
                RollSign.bit(RollSign.Clue.BOX_NAMED) | (talk ? RollSign.bit(RollSign.Clue.BOX_SPOKEN_OF) : 0));
    }

    private void turn(int i) {
        if (is(i, "next", "following") && is(i + 1, "roll")) {
            add(i, i + 2, RollSign.Kind.ON, 1, RollSign.bit(RollSign.Clue.NEXT_ROLL));
        } else if (is(i, "roll") && is(i + 1, "after") && is(i + 2, "that", "this")) {
            add(i, i + 3, RollSign.Kind.ON, 1, RollSign.bit(RollSign.Clue.NEXT_ROLL));
        } else if (is(i, "another") && is(i + 1, "roll")) {
            add(i, i + 2, RollSign.Kind.ON, 1, RollSign.bit(RollSign.Clue.NEXT_ROLL));
        } else if (is(i, "next") && opens(i) && (stops(i) || (is(i + 1, "one") && stops(i + 1)))) {
            add(i, i + 1, RollSign.Kind.ON, 1, RollSign.bit(RollSign.Clue.NEXT_ALONE));
        } else if (is(i, "last", "final") && is(i + 1, "roll")) {
            add(i, i + 2, RollSign.Kind.LAST, 0, RollSign.bit(RollSign.Clue.LAST_ROLL));
        } else if ((is(i, "last", "final") && is(i + 1, "one") && is(i - 1, "very", "the", "and")) || lastOne(i)) {
            add(i, i + 2, RollSign.Kind.LAST, 0, RollSign.bit(RollSign.Clue.LAST_ONE));
        } else if (is(i, "next") && is(i + 1, "box")) {
            add(i, i + 2, RollSign.Kind.BOX, 0, RollSign.bit(RollSign.Clue.BOX_NAMED));
        }
    }

    /// `Fourteen, last one.`
    private boolean lastOne(int i) {
        return is(i, "last") && is(i + 1, "one") && i > 0 && figureEnds(i);
    }

    private void add(int i, int end, RollSign.Kind kind, int value, long clues) {
        signs.add(new RollSign(i, end, kind, value, 0, 0, 0, turns[i], clues));
    }
}
