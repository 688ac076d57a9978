package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/// The signs of a recording under one habit: what each costs and where it leads.
///
/// A state is the roll in hand and the running count so far, because a figure may be the next of either; with two
/// people who search a box each it is the roll of each, whose was named last, and whether the marks of their
/// turns have slipped.
final class RollTrack {
    private static final int MOST_BOXES = 20;
    private static final int MOST_COUNT = 511;
    private static final int TAIL = 8;
    private static final int HEAD = 4;
    private static final int ALONE_WIDTH = 32;
    private static final int TWO_WIDTH = 120;

    /// Prices of steps and habits. Each has a weight, `step_` and its name.
    enum Step {
        START,
        START_EACH,
        NEXT,
        SAME,
        SKIP,
        SKIP_EACH,
        FAR,
        BACK,
        NEW_BOX,
        NEW_BOX_EARLY,
        NEW_BOX_UNNAMED,
        HUNT_NUMBER,
        BOX_MOVES,
        BOX_SKIPS,
        BOX_BACK,
        BOX_STAYS,
        PICKED,
        PICKED_AT_ALL,
        THROUGH_AT_ALL,
        NUMBERED,
        NUMBERED_AT_ALL,
        TWO_AT_ALL,
        TWO_EACH,
        TWO_SLIPS,
        COUNT_START,
        COUNT_START_EACH,
        COUNT_NEXT,
        COUNT_SAME,
        COUNT_SKIP,
        COUNT_SKIP_EACH,
        COUNT_FAR,
        COUNT_BACK;

        static final int COUNT = values().length;

        @SuppressWarnings("EnumOrdinal")
        int index() {
            return ordinal();
        }

        String weight() {
            return "step_" + name().toLowerCase(Locale.ROOT);
        }
    }

    /// How somebody goes about it, for a recording as a whole.
    ///
    /// @param picked rolls are taken as they come, not in order
    /// @param through numbers run on over the boxes: 51 is the first of the second
    /// @param numbered `number seven` is a roll
    /// @param two two people search a box each
    /// @param first who has box 1, if two
    record Habit(boolean picked, boolean through, boolean numbered, boolean two, int first) {}

    /// What was decided about one sign.
    ///
    /// @param meant whether it is meant as a roll, its probability
    record Turn(int word, int box, int roll, double sure, double meant) {}

    private final double[] step = new double[Step.COUNT];
    private final double[] asRoll = new double[RollSign.Clue.COUNT];
    private final double[] asCount = new double[RollSign.Clue.COUNT];
    private final List<RollSign> signs;
    private final int rollsPerBox;
    private final int boxCount;
    private final int namedBoxes;

    RollTrack(List<RollSign> signs, int rollsPerBox, Weights weights) {
        this.signs = signs;
        this.rollsPerBox = rollsPerBox;
        for (Step one : Step.values()) {
            step[one.index()] = weights.of(one.weight());
        }
        for (RollSign.Clue one : RollSign.Clue.values()) {
            asRoll[one.index()] = weights.of(one.weight());
            asCount[one.index()] = weights.of(one.weightAsCount());
        }
        int most = 1;
        int named = 1;
        for (RollSign sign : signs) {
            int box =
                    switch (sign.kind()) {
                        case BOX -> sign.value();
                        case BOX_ROLL -> sign.box();
                        case TO -> sign.has(RollSign.Clue.ROLL_BEFORE) ? (sign.value() - 1) / rollsPerBox + 1 : 1;
                        case ON, LAST -> 1;
                    };
            most = Math.max(most, box);
            boolean next = sign.kind() == RollSign.Kind.BOX && sign.value() == 0;
            named = next ? MOST_BOXES : sign.kind() == RollSign.Kind.BOX ? Math.max(named, box) : named;
        }
        this.namedBoxes = Math.max(named, most);
        this.boxCount = Math.min(most + 1, MOST_BOXES);
    }

    /// Whether more than one box is spoken of.
    boolean severalBoxes() {
        return boxCount > 2;
    }

    private double of(Step one) {
        return step[one.index()];
    }

    /// Logarithm of the evidence for a habit.
    double evidence(Habit habit) {
        return new Run(habit, false).beam.evidence() + prior(habit);
    }

    private double prior(Habit habit) {
        double prior = habit.picked ? of(Step.PICKED_AT_ALL) : 0;
        prior += habit.through ? of(Step.THROUGH_AT_ALL) : 0;
        prior += habit.numbered ? of(Step.NUMBERED_AT_ALL) : 0;
        if (habit.two) {
            // who shares a box does not say "in my fourteen"
            long[] mine = new long[2];
            for (RollSign sign : signs) {
                mine[sign.turns() & 1] += sign.has(RollSign.Clue.MINE) ? 1 : 0;
            }
            prior += of(Step.TWO_AT_ALL) + of(Step.TWO_EACH) * 2 * Math.min(mine[0], mine[1]);
        }
        return prior;
    }

    /// What each sign means under a habit.
    List<Turn> turns(Habit habit) {
        Run run = new Run(habit, true);
        Turn[] turns = new Turn[signs.size()];
        run.beam.back((sign, states, share, meant) -> {
            double high = -1;
            int best = 0;
            for (int i = 0; i < states.length; i++) {
                int here = run.here(states[i]);
                double sum = 0;
                for (int k = 0; k < states.length; k++) {
                    sum += run.here(states[k]) == here ? share[k] : 0;
                }
                if (sum > high) {
                    high = sum;
                    best = here;
                }
            }
            int width = rollsPerBox + 1;
            turns[sign] = new Turn(signs.get(sign).word(), best / width + 1, best % width, Math.min(1, high), meant);
        });
        return new ArrayList<>(Arrays.asList(turns));
    }

    /// One pass under one habit. A state: place of the first voice, of the second, their counts, slipped, whose place
    /// counts.
    private final class Run {
        private final Habit habit;
        private final RollBeam beam;
        private final int width = rollsPerBox + 1;
        private final double[] ahead = new double[2 * rollsPerBox + 1];
        private final double[] start = new double[rollsPerBox + 1];
        private final double[] counted = new double[2 * MOST_COUNT + 1];

        Run(Habit habit, boolean keeps) {
            this.habit = habit;
            for (int d = -rollsPerBox; d <= rollsPerBox; d++) {
                ahead[d + rollsPerBox] = Math.exp(price(d));
            }
            for (int r = 1; r <= rollsPerBox; r++) {
                start[r] = Math.exp(of(Step.START)
                        + (habit.picked ? of(Step.PICKED) : Math.max(of(Step.FAR), of(Step.START_EACH) * (r - 1))));
            }
            for (int d = -MOST_COUNT; d <= MOST_COUNT; d++) {
                double skip = of(Step.COUNT_SKIP) + of(Step.COUNT_SKIP_EACH) * (d - 2);
                double price = d == 1
                        ? of(Step.COUNT_NEXT)
                        : d == 0
                                ? of(Step.COUNT_SAME)
                                : d < 0 ? of(Step.COUNT_BACK) : Math.max(of(Step.COUNT_FAR), skip);
                counted[d + MOST_COUNT] = Math.exp(price);
            }
            RollState start = new RollState(
                    habit.two && habit.first == 1 ? width : 0,
                    habit.two && habit.first == 0 ? width : 0,
                    0,
                    0,
                    false,
                    0);
            this.beam = new RollBeam(signs.size(), habit.two ? TWO_WIDTH : ALONE_WIDTH, start, keeps);
            int turns = 0;
            for (RollSign sign : signs) {
                sign(sign, sign.turns() - turns);
                turns = sign.turns();
                beam.end();
            }
        }

        private double price(int d) {
            if (d == 0) {
                return of(Step.SAME);
            }
            if (habit.picked) {
                return of(Step.PICKED);
            }
            if (d == 1) {
                return of(Step.NEXT);
            }
            if (d < 0) {
                return of(Step.BACK);
            }
            return Math.max(of(Step.SKIP) + of(Step.SKIP_EACH) * (d - 2), of(Step.FAR));
        }

        /// The place that counts now.
        int here(RollState state) {
            return state.place(state.voice());
        }

        private void sign(RollSign sign, int turns) {
            double roll = 0;
            double count = 0;
            for (long left = sign.clues(); left != 0; left &= left - 1) {
                int clue = Long.numberOfTrailingZeros(left);
                roll += asRoll[clue];
                count += asCount[clue];
            }
            if (habit.numbered && sign.has(RollSign.Clue.NUMBER_BEFORE)) {
                roll += of(Step.NUMBERED);
                count -= of(Step.NUMBERED);
            }
            double slips = habit.two ? 0.5 * (1 - Math.pow(1 - 2 * Math.exp(of(Step.TWO_SLIPS)), turns)) : 0;
            double odds = Math.exp(roll);
            int size = beam.size();
            for (int i = 0; i < size; i++) {
                RollState state = beam.state(i);
                options(sign, i, state, 1 - slips, odds, Math.exp(count));
                if (slips > 0) {
                    options(sign, i, state.slip(), slips, odds, Math.exp(count));
                }
            }
        }

        private void options(RollSign sign, int i, RollState state, double share, double odds, double countOdds) {
            int voice = habit.two ? (sign.turns() & 1) ^ (state.slipped() ? 1 : 0) : 0;
            int here = state.place(voice);
            boolean box = sign.kind() == RollSign.Kind.BOX;
            boolean there = box && here / width == sign.value() - 1;
            beam.step(i, state, share * (box && !there && !habit.two ? Math.exp(of(Step.BOX_STAYS)) : 1), false);
            int b = here / width;
            int r = here % width;
            double own = share * odds;
            switch (sign.kind()) {
                case TO -> {
                    to(i, state, voice, b, r, sign.value(), sign.from(), own);
                    if (sign.other() > 0) {
                        to(i, state, voice, b, r, sign.other(), 0, own);
                    }
                    if (sign.value() <= MOST_COUNT) {
                        int counts = state.count(voice);
                        double factor = counts == 0
                                ? Math.exp(Math.max(
                                        of(Step.COUNT_FAR),
                                        of(Step.COUNT_START) + of(Step.COUNT_START_EACH) * (sign.value() - 1)))
                                : counted[sign.value() - counts + MOST_COUNT];
                        beam.step(i, state.counted(voice, sign.value()), share * countOdds * factor, false);
                    }
                }
                case ON -> {
                    int roll = r + sign.value();
                    double first = r == 0 ? start[Math.min(roll, rollsPerBox)] : 1;
                    if (roll <= rollsPerBox) {
                        move(i, state, voice, here + sign.value(), own * first);
                    } else if (b + 1 < boxCount && r >= rollsPerBox - TAIL) {
                        move(i, state, voice, (b + 1) * width + 1, own * Math.exp(of(Step.NEW_BOX)));
                    }
                }
                case LAST -> {
                    if (r > 0) {
                        double price = Math.exp(r == rollsPerBox ? of(Step.SAME) : price(1));
                        double usual = r >= rollsPerBox - TAIL ? 1 : Math.exp(of(Step.SKIP));
                        move(i, state, voice, b * width + rollsPerBox, own * price * usual);
                        if (r < rollsPerBox - 1) {
                            // the box may hold fewer rolls than usual
                            move(i, state, voice, here + 1, own * price);
                        }
                    }
                }
                case BOX -> {
                    int named = sign.value() == 0 ? b + 1 : sign.value() - 1;
                    if (named < boxCount && named != b && !habit.two) {
                        Step moves = named == b + 1 ? Step.BOX_MOVES : named > b ? Step.BOX_SKIPS : Step.BOX_BACK;
                        move(i, state, voice, named * width, own * Math.exp(of(moves)));
                    }
                }
                case BOX_ROLL -> {
                    int target = (sign.box() - 1) * width + sign.value();
                    if (sign.box() <= boxCount) {
                        boolean usual = target >= here && target <= here + width;
                        move(i, state, voice, target, own * (usual ? 1 : Math.exp(of(Step.BACK))));
                    }
                }
            }
        }

        private void to(int i, RollState state, int voice, int b, int r, int said, int rangeFrom, double own) {
            if (said > rollsPerBox) {
                int box = (said - 1) / rollsPerBox;
                if (box < boxCount && b >= box - 1 && b <= box) {
                    double odds = own * Math.exp(habit.through ? 0 : of(Step.HUNT_NUMBER));
                    int from = Math.max(0, rangeFrom - box * rollsPerBox);
                    enter(i, state, voice, b, r, box, (said - 1) % rollsPerBox + 1, from, odds);
                }
                return;
            }
            double odds = b > 0 && habit.through ? own * Math.exp(of(Step.HUNT_NUMBER)) : own;
            enter(i, state, voice, b, r, b, said, rangeFrom, odds);
            if (b + 1 < boxCount && r > 0 && !habit.two) {
                enter(i, state, voice, b, r, b + 1, said, 0, own);
            }
        }

        private void enter(
                int i, RollState state, int voice, int b, int r, int box, int roll, int rangeFrom, double odds) {
            double factor;
            if (b != box) {
                boolean natural = r >= rollsPerBox - TAIL && roll <= HEAD;
                double unnamed = box < namedBoxes ? 0 : of(Step.NEW_BOX_UNNAMED);
                factor = r == 0
                        ? 0
                        : Math.exp(unnamed
                                + (natural
                                        ? of(Step.NEW_BOX) + of(Step.START_EACH) * (roll - 1)
                                        : of(Step.NEW_BOX_EARLY)));
            } else if (r == 0) {
                factor = start[roll];
            } else {
                factor = r == rangeFrom ? ahead[1 + rollsPerBox] : ahead[roll - r + rollsPerBox];
            }
            move(i, state, voice, box * width + roll, odds * factor);
        }

        private void move(int i, RollState state, int voice, int target, double factor) {
            beam.step(i, state.at(voice, target), factor, true);
        }
    }
}
