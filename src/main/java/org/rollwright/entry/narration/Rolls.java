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
        spread(track.turns(best));
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
