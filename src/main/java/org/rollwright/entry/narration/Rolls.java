package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/// Which box and roll is in hand at every word.
///
/// A hidden Markov model over the signs that [RollSigns] gathers: a state is a roll of a box, or a box with no
/// roll named yet, and the running count. Every sign is meant, and then leads to its roll at the price of the step
/// from the one in hand (the next one is cheap, a jump or a step back is dear), or it is the next running count, or
/// talk of something else. All paths are summed, forward and backward. Whether rolls come in order or as somebody
/// picks them, whether numbers run on over the boxes, and whether two people search a box each, is decided for the
/// recording as a whole. Immutable once built.
final class Rolls {
    private static final int MOST_ROLLS = 511;
    private static final int FEW_TURNS = 12;
    /// Rolls named behind their finds that make a habit.
    private static final int FEW_CLOSED = 5;

    private static final double SURELY = 0.5;

    /// Two digits from here on are a date sooner than a count.
    private static final int SURELY_DATE = 36;

    /// Said of a roll that is over.
    private static final Set<String> CLOSERS = Set.of("done", "over", "finished", "was", "lid");

    private final int[] boxes;
    private final int[] rolls;
    private final double[] sure;
    private final double[] meant;
    private final BitSet turned = new BitSet();
    private final Set<Narration.Visit> visits = new LinkedHashSet<>();

    /// @param words as understood
    /// @param rollsPerBox rolls in a full box, 1 or more
    Rolls(List<Word> words, List<Cue> cues, int rollsPerBox, Phrases phrases, Weights weights) {
        int usual = Math.clamp(rollsPerBox, 1, MOST_ROLLS);
        this.boxes = new int[words.size() + 1];
        this.rolls = new int[words.size() + 1];
        this.sure = new double[words.size() + 1];
        this.meant = new double[words.size() + 1];
        Arrays.fill(boxes, 1);
        Arrays.fill(sure, 1);
        List<RollSign> signs = new RollSigns(words, cues, usual, phrases).signs();
        RollTrack track = new RollTrack(signs, usual, weights);
        boolean two = !signs.isEmpty() && signs.getLast().turns() >= FEW_TURNS;
        RollTrack.Habit best = likeliest(track, habits(track, two, signs));
        if (!best.two()) {
            RollTrack.Habit numbered = new RollTrack.Habit(best.picked(), best.through(), true, false, 0);
            best = likeliest(track, List.of(best, numbered));
        }
        List<RollTrack.Turn> turns = track.turns(best);
        spread(turns);
        if (!best.two() && closes(words, turns)) {
            closed(turns);
        }
    }

    /// Whether this voice names the roll when it is over, or behind the date: `47, roll twenty`, `twenty's done`.
    private boolean closes(List<Word> words, List<RollTrack.Turn> turns) {
        int behind = 0;
        int ahead = 0;
        int closing = 0;
        int all = 0;
        for (RollTrack.Turn turn : turns) {
            if (turn.meant() < SURELY || turn.roll() == 0) {
                continue;
            }
            all++;
            int from = turn.word();
            int end = Numbers.count(words, from).map(Numbers.Spoken::end).orElse(from + 1);
            behind += endsDate(words, from) || (from > 0 && endsDate(words, from - 1)) ? 1 : 0;
            ahead += isDate(words, end) ? 1 : 0;
            boolean closed = false;
            for (int i = Math.max(0, from - 3); i < Math.min(words.size(), end + 3); i++) {
                boolean near = i < from
                        ? !words.get(i).stops()
                        : i == 0 || i == end || !words.get(i - 1).stops();
                closed |= near && CLOSERS.contains(words.get(i).text());
            }
            closing += closed ? 1 : 0;
        }
        return (behind >= FEW_CLOSED && behind > 3 * ahead && 3 * behind > all)
                || (closing >= FEW_CLOSED && 3 * closing > 2 * all);
    }

    /// A figure that is a date rather than a count: a year in full, or too high for most counts.
    private static boolean isDate(List<Word> words, int i) {
        return Numbers.at(words, i)
                .filter(said -> said.year() || (said.twoDigits() && said.value() >= SURELY_DATE))
                .isPresent();
    }

    private static boolean endsDate(List<Word> words, int end) {
        for (int i = end - 1; i >= Math.max(0, end - 4); i--) {
            boolean date = isDate(words, i)
                    && Numbers.at(words, i).filter(said -> said.end() == end).isPresent();
            if (date) {
                return true;
            }
        }
        return false;
    }

    /// Every roll named reaches back to where the one before was named.
    private void closed(List<RollTrack.Turn> turns) {
        int from = 0;
        for (RollTrack.Turn turn : turns) {
            if (turn.meant() < SURELY || turn.roll() == 0) {
                continue;
            }
            for (int i = from; i <= turn.word(); i++) {
                boxes[i] = turn.box();
                rolls[i] = turn.roll();
                sure[i] = turn.sure();
            }
            from = turn.word() + 1;
        }
    }

    private static RollTrack.Habit likeliest(RollTrack track, List<RollTrack.Habit> habits) {
        RollTrack.Habit best = habits.getFirst();
        double high = Double.NEGATIVE_INFINITY;
        for (RollTrack.Habit habit : habits) {
            double evidence = track.evidence(habit);
            if (evidence > high) {
                high = evidence;
                best = habit;
            }
        }
        return best;
    }

    private static List<RollTrack.Habit> habits(RollTrack track, boolean two, List<RollSign> signs) {
        List<RollTrack.Habit> habits = new ArrayList<>();
        habits.add(new RollTrack.Habit(false, false, false, false, 0));
        habits.add(new RollTrack.Habit(true, false, false, false, 0));
        if (track.severalBoxes()) {
            habits.add(new RollTrack.Habit(false, true, false, false, 0));
        }
        if (two) {
            habits.add(new RollTrack.Habit(false, false, false, true, firstBox(signs)));
        }
        return habits;
    }

    /// Which of two speakers has box 1: whoever names a box first has the one he names.
    private static int firstBox(List<RollSign> signs) {
        for (RollSign sign : signs) {
            if (sign.kind() == RollSign.Kind.BOX && (sign.value() == 1 || sign.value() == 2)) {
                return sign.turns() + (sign.value() == 1 ? 0 : 1) & 1;
            }
        }
        return 0;
    }

    private void spread(List<RollTrack.Turn> turns) {
        int t = 0;
        RollTrack.Turn now = null;
        for (int i = 0; i < boxes.length; i++) {
            while (t < turns.size() && turns.get(t).word() <= i) {
                RollTrack.Turn next = turns.get(t++);
                meant[next.word()] = Math.max(meant[next.word()], next.meant());
                boolean moves = now == null || now.box() != next.box() || now.roll() != next.roll();
                if (next.roll() > 0 && moves) {
                    turned.set(next.word());
                    visits.add(new Narration.Visit(next.box(), next.roll()));
                }
                now = next;
            }
            if (now != null) {
                boxes[i] = now.box();
                rolls[i] = now.roll();
                sure[i] = now.sure();
            }
        }
    }

    /// Box in hand at a word, from 1.
    int box(int word) {
        return boxes[word];
    }

    /// Roll in hand, within its box; 0 where none was named.
    int roll(int word) {
        return rolls[word];
    }

    /// Probability of box and roll.
    double sure(int word) {
        return sure[word];
    }

    /// Probability that the figure that begins at a word is meant as a roll's number.
    double meant(int word) {
        return meant[word];
    }

    /// Whether a roll was turned to between two words, the latter included.
    boolean turned(int from, int to) {
        int next = turned.nextSetBit(Math.max(0, from));
        return next >= 0 && next <= to;
    }

    /// Rolls turned to, each once, in order of time.
    List<Narration.Visit> visits() {
        return List.copyOf(visits);
    }
}
