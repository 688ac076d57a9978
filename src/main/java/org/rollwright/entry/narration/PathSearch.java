package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.entry.EntryContext;

/// One recording being decoded. Used by one thread.
///
/// Long because its steps work on the tables of one recording, which are too large to be copied.
final class PathSearch {
    static final int FRESH = 1;
    static final int SAME = 2;
    static final int ASIDE = 3;
    static final int TOTAL_FITS = 4;
    static final int TOTAL_SLIPS = 5;
    static final int TOTAL_NOISE = 6;
    static final int PASSES = 8;

    private static final int BEAM = 160;
    private static final int NO_BASE = 1023;
    private static final int BASE_ZERO = 100;
    static final int LATER_WORDS = 60;
    private static final double NO_ROLL = 0.01;
    /// Share of paths on which a date left is a find, to be offered all the same.
    private static final double PERHAPS = 0.15;

    /// Words behind a find and before it that may be about it.
    private static final int SPOKEN_OF = 70;

    private static final int SPOKEN_BEFORE = 6;

    /// Words from one coin to the next within which a count sums up coins alike.
    private static final int SUMMED_WITHIN = 16;

    private final Weights weights;
    private final Listening heard;
    private final List<Mention> mentions;
    private final Mention.@Nullable Coin[] coins;
    private final Rolls rolls;
    private final boolean abroadMentioned;
    private final double[][] around;
    private final Proposals proposals;
    private final Catalog catalog;

    PathSearch(Listening heard, EntryContext context, Weights weights, Habits habits) {
        this.weights = weights;
        this.heard = heard;
        this.mentions = heard.mentions().subList(0, Math.min(heard.mentions().size(), 65_000));
        this.coins = new Mention.Coin[mentions.size()];
        this.around = new double[mentions.size()][];
        this.rolls = heard.rolls();
        this.catalog = context.catalog();
        this.proposals = new Proposals(heard, context, weights);
        List<List<String>> observed = Voice.of(heard, Decoder.first(heard, weights), habits);
        boolean abroad = false;
        for (int m = 0; m < mentions.size(); m++) {
            Mention mention = mentions.get(m);
            around[m] = weights.together(observed.get(m));
            coins[m] = mention instanceof Mention.Coin coin
                    ? coin
                    : mention instanceof Mention.Bare number ? number.coin() : null;
            abroad |= mention instanceof Mention.Coin coin && coin.abroad();
        }
        this.abroadMentioned = abroad;
    }

    Narration narration(List<String> remarks) {
        Lattice lattice = new Lattice(mentions.size(), BEAM, new State(0, 0, NO_BASE, 0));
        Map<Integer, double[]> verdicts = new HashMap<>();
        for (int m = 0; m < mentions.size(); m++) {
            lattice.begin();
            verdicts.clear();
            State[] states = lattice.states();
            for (int s = 0; s < states.length; s++) {
                steps(lattice, m, s, states[s], verdicts);
            }
            lattice.end();
        }
        double[] finals = new double[lattice.finalStates()];
        for (int i = 0; i < finals.length; i++) {
            finals[i] = lattice.finalState(i).announced() * weights.of("announced_missing");
        }
        if (mentions.isEmpty()) {
            return Decoder.nothing(remarks);
        }
        return assemble(lattice.bestPath(finals), lattice.posteriors(PASSES, finals), remarks);
    }

    private void steps(Lattice lattice, int m, int s, State state, Map<Integer, double[]> verdicts) {
        switch (mentions.get(m)) {
            case Mention.Coin coin -> coinSteps(lattice, m, s, state, coin, verdicts);
            case Mention.Bare bare -> bareSteps(lattice, m, s, state, bare, verdicts);
            case Mention.Total total -> totalSteps(lattice, s, state, total.value(), 0, true);
            case Mention.Promise promise -> {
                State announced = new State(state.counted(), state.last(), state.base(), promise.value());
                lattice.step(s, announced, PASSES, weights.of("promise_ahead"));
                lattice.step(s, state, PASSES, weights.of("promise_behind"));
            }
            case Mention.RollTo to -> turn(lattice, m, s, state);
            case Mention.RollNext next -> turn(lattice, m, s, state);
            case Mention.BoxTo box -> turn(lattice, m, s, state);
            case Mention.MintOnly mint -> lattice.step(s, state, PASSES, 0);
            case Mention.Weight weight -> lattice.step(s, state, PASSES, 0);
        }
    }

    /// @return the logarithm of the probability that it is no coin held
    private double coinSteps(
            Lattice lattice, int m, int s, State state, Mention.Coin coin, Map<Integer, double[]> verdicts) {
        int lastIndex = state.last();
        double[] verdict = verdicts.computeIfAbsent(lastIndex, key -> {
            Mention.Coin last = lastIndex == 0 ? null : coins[lastIndex - 1];
            boolean changed = last != null && rolls.turned(last.end(), coin.word());
            Mention.MintOnly told = Relation.told(mentions, lastIndex, m);
            return verdict(
                    Relation.features(heard, coin, last, told, changed),
                    weights.together(Relation.twin(heard, coin, last, told)),
                    around[m],
                    last != null);
        });
        int announced = state.announced();
        boolean counts = heard.homes().contains(coin.denomination());
        int counted = state.counted() + (counts ? coin.count() : 0);
        State found = new State(counted, m + 1, state.base(), Math.max(0, announced - coin.count()));
        lattice.step(s, found, FRESH, verdict[0] + (announced > 0 ? weights.of("announced_find") : 0));
        boolean corrects = coin.features().contains(Feature.CORRECTING);
        State again = corrects ? new State(state.counted(), m + 1, state.base(), announced) : state;
        lattice.step(s, again, SAME, verdict[1]);
        lattice.step(s, state, ASIDE, verdict[2] + (announced > 0 ? weights.of("announced_aside") : 0));
        return verdict[2];
    }

    private void bareSteps(
            Lattice lattice, int m, int s, State state, Mention.Bare bare, Map<Integer, double[]> verdicts) {
        Mention.Coin coin = bare.coin();
        double aside = 0;
        double roll = rolls.meant(bare.word());
        if (coin == null) {
            double otherwise = Math.log(Math.max(NO_ROLL, 1 - roll));
            lattice.step(s, state, PASSES, otherwise + weights.of("bare_nothing"));
        } else {
            aside = coinSteps(lattice, m, s, state, coin, verdicts);
        }
        if (bare.strong()) {
            totalSteps(lattice, s, state, bare.value(), aside + weights.of("strong_total"), true);
        } else if (bare.alone() || coin != null) {
            double alone = weights.of(bare.alone() ? "bare_total" : "inner_total");
            totalSteps(lattice, s, state, bare.value(), aside + alone, false);
        }
        if (roll > NO_ROLL) {
            int left = rolls.turned(bare.word(), bare.word()) ? state.announced() : 0;
            State next = left > 0 ? new State(state.counted(), state.last(), state.base(), 0) : state;
            lattice.step(
                    s,
                    next,
                    PASSES,
                    aside + Math.log(roll) + weights.of("bare_roll") + left * weights.of("announced_missing"));
        }
    }

    /// @param slips whether the number may be a slip: a number by itself must fit to be a count at all
    private void totalSteps(Lattice lattice, int s, State state, int spoken, double extra, boolean slips) {
        int counted = state.counted();
        int base = state.base();
        int announced = state.announced();
        if (base == NO_BASE) {
            if (spoken < counted) {
                lattice.step(s, state, TOTAL_NOISE, extra + weights.of("total_noise"));
                return;
            }
            based(lattice, s, state, spoken - counted, announced, extra + weights.of("total_now"));
            if (spoken > counted) {
                based(
                        lattice,
                        s,
                        state,
                        spoken - counted - 1,
                        Math.max(1, announced),
                        extra + weights.of("total_next"));
            }
            if (announced > 1 && spoken >= counted + announced) {
                based(
                        lattice,
                        s,
                        state,
                        spoken - counted - announced,
                        announced,
                        extra + weights.of("total_announced"));
            }
            if (slips) {
                lattice.step(s, state, TOTAL_NOISE, extra + weights.of("total_noise"));
            }
            return;
        }
        int now = counted + base - BASE_ZERO;
        if (spoken == now) {
            lattice.step(s, state, TOTAL_FITS, extra + weights.of("total_now"));
        }
        if (spoken == now + 1) {
            State next = new State(counted, state.last(), base, Math.max(1, announced));
            lattice.step(s, next, TOTAL_FITS, extra + weights.of("total_next"));
        }
        if (announced > 1 && spoken == now + announced) {
            lattice.step(s, state, TOTAL_FITS, extra + weights.of("total_announced"));
        }
        if (!slips) {
            return;
        }
        if (spoken > now + 1 && spoken <= now + 6) {
            // several announced at once, to be named after
            State ahead = new State(counted, state.last(), base, spoken - now);
            lattice.step(s, ahead, TOTAL_FITS, extra + weights.of("total_ahead"));
        }
        lattice.step(s, state, TOTAL_NOISE, extra + weights.of("total_noise"));
        int slip = spoken - counted + BASE_ZERO;
        int by = Math.abs(spoken - now);
        if (by > 0 && by <= 12 && slip >= 0 && slip < NO_BASE) {
            double price = weights.of(abroadMentioned && by <= 3 ? "total_slip_abroad" : "total_slip") - 0.4 * by;
            lattice.step(s, new State(counted, state.last(), slip, announced), TOTAL_SLIPS, extra + price);
        }
    }

    private void based(Lattice lattice, int s, State state, int base, int announced, double weight) {
        if (base + BASE_ZERO >= NO_BASE) {
            return;
        }
        double price = base == 0 ? weights.of("count_from_zero") : weights.of("count_from_elsewhere");
        State next = new State(state.counted(), state.last(), base + BASE_ZERO, announced);
        lattice.step(s, next, TOTAL_FITS, weight + price);
    }

    /// A roll named: if it is another one, coins announced for the last do not come any more.
    private void turn(Lattice lattice, int m, int s, State state) {
        Mention mention = mentions.get(m);
        boolean turned = rolls.turned(mention.word(), mention.end());
        int left = turned ? state.announced() : 0;
        State next = turned ? new State(state.counted(), state.last(), state.base(), 0) : state;
        lattice.step(s, next, PASSES, left * weights.of("announced_missing"));
    }

    // from the best path to proposals

    private Narration assemble(List<Lattice.Passed> path, double[][] shares, List<String> remarks) {
        List<Building> finds = new ArrayList<>();
        List<Narration.Weighing> weighings = new ArrayList<>();
        List<Narration.Conflict> conflicts = new ArrayList<>();
        Map<Integer, int[]> said = new HashMap<>();
        Integer spokenTotal = null;
        int decodedTotal = 0;
        boolean open = false;
        int base = 0;
        for (int m = 0; m < path.size(); m++) {
            int action = path.get(m).action();
            State state = path.get(m).behind();
            Mention mention = mentions.get(m);
            Mention.Coin coin = coins[m];
            base = state.base() == NO_BASE ? base : state.base() - BASE_ZERO;
            if (coin != null && action == FRESH) {
                finds.add(new Building(coin, from(coin), shares[m]));
                open = true;
            } else if (coin != null && action == SAME && !finds.isEmpty()) {
                again(finds.getLast(), coin);
                open = true;
            } else if (coin != null && action == ASIDE) {
                open &= !finds.isEmpty()
                        && coin.year() != null
                        && coin.year().equals(finds.getLast().coin.year());
            } else if (mention instanceof Mention.MintOnly mint && open && !finds.isEmpty()) {
                told(finds.getLast(), mint);
            } else if (mention instanceof Mention.Weight weight) {
                weighings.add(new Narration.Weighing(
                        heard.words().get(weight.word()).at(), weight.mass(), heard.said(weight.word(), weight.end())));
            }
            if (action == TOTAL_FITS || action == TOTAL_SLIPS || action == TOTAL_NOISE) {
                int spoken = mention instanceof Mention.Total total ? total.value() : ((Mention.Bare) mention).value();
                spokenTotal = spoken;
                if (action == TOTAL_FITS) {
                    said.put(rolls.box(mention.word()), new int[] {spoken, mention.word()});
                }
                decodedTotal = state.counted() + base;
                if (action != TOTAL_FITS) {
                    int before = action == TOTAL_SLIPS && m > 0 ? state.counted() + baseBefore(path, m) : decodedTotal;
                    conflicts.add(new Narration.Conflict(
                            heard.words().get(mention.word()).at(),
                            spoken,
                            before,
                            heard.said(mention.word() - 4, mention.end())));
                }
            }
        }
        sumUp(finds);
        spread(finds);
        List<Narration.Proposed> proposed = new ArrayList<>();
        double plainByHabit = proposals.plainByHabit(finds);
        for (Building find : finds) {
            Narration.Proposed one = proposals.of(find, plainByHabit);
            if (one != null) {
                proposed.add(one);
            }
        }
        return new Narration(
                proposed,
                left(path, shares, finds, plainByHabit),
                rolls.visits(),
                weighings,
                new Totals(heard, catalog).of(proposed, said),
                spokenTotal,
                decodedTotal,
                conflicts,
                remarks);
    }

    /// A count that sums up what was just named one by one, `57 d and 57 d, three of them`, tells only of the rest.
    private void sumUp(List<Building> finds) {
        for (int f = finds.size() - 1; f > 0; f--) {
            Building find = finds.get(f);
            int named = 0;
            int place = find.word;
            for (int k = f - 1; k >= 0 && find.count > 1; k--) {
                Building before = finds.get(k);
                if (!alike(before, find) || place - before.word > SUMMED_WITHIN) {
                    break;
                }
                named += before.count;
                place = before.word;
            }
            if (named > 0 && find.count > named) {
                find.count -= named;
            } else if (named > 0) {
                finds.remove(f);
            }
        }
    }

    private boolean alike(Building one, Building other) {
        boolean mint =
                one.said == Mention.Said.NOTHING || other.said == Mention.Said.NOTHING || one.code.equals(other.code);
        return mint
                && one.coin.year() != null
                && one.coin.year().equals(other.coin.year())
                && one.coin.denomination().equals(other.coin.denomination());
    }

    /// From where and how far it is spoken of each find: a few words before its date in the same sentence, and up
    /// to the next find or roll.
    private void spread(List<Building> finds) {
        int m = 0;
        for (int f = 0; f < finds.size(); f++) {
            Building find = finds.get(f);
            int until = Math.min(heard.words().size(), find.end + SPOKEN_OF);
            until = f + 1 < finds.size() ? Math.min(until, finds.get(f + 1).from) : until;
            while (m < mentions.size() && mentions.get(m).word() < find.end) {
                m++;
            }
            for (int k = m; k < mentions.size() && mentions.get(k).word() < until; k++) {
                if (mentions.get(k) instanceof Mention.RollTo to) {
                    until = to.word();
                }
            }
            find.until = Math.max(find.until, until);
        }
    }

    /// Dates on the best path's wayside that were finds on enough other paths.
    private List<Narration.Proposed> left(
            List<Lattice.Passed> path, double[][] shares, List<Building> finds, double plainByHabit) {
        List<Narration.Proposed> left = new ArrayList<>();
        for (int m = 0; m < path.size(); m++) {
            Mention.Coin coin = coins[m];
            if (coin == null || coin.year() == null || path.get(m).action() == FRESH || shares[m][FRESH] < PERHAPS) {
                continue;
            }
            boolean said = finds.stream()
                    .anyMatch(find ->
                            coin.year().equals(find.coin.year()) && Math.abs(find.word - coin.word()) < LATER_WORDS);
            Narration.Proposed one =
                    said ? null : proposals.of(new Building(coin, from(coin), shares[m]), plainByHabit);
            if (one != null) {
                left.add(one);
            }
        }
        return left;
    }

    private int from(Mention.Coin coin) {
        int from = coin.word();
        while (from > 0
                && coin.word() - from < SPOKEN_BEFORE
                && !heard.words().get(from - 1).stops()) {
            from--;
        }
        return from;
    }

    private int baseBefore(List<Lattice.Passed> path, int m) {
        int base = path.get(m - 1).behind().base();
        return base == NO_BASE ? 0 : base - BASE_ZERO;
    }

    private static void again(Building find, Mention.Coin coin) {
        boolean corrects = coin.features().contains(Feature.CORRECTING);
        boolean sameYear = coin.year() != null && coin.year().equals(find.coin.year());
        if (corrects || find.coin.year() == null) {
            find.coin = coin;
            if (coin.said() != Mention.Said.NOTHING || !sameYear) {
                find.said = coin.said();
                find.code = coin.code();
            }
        } else if ((find.said == Mention.Said.NOTHING || find.faint)
                && coin.said() != Mention.Said.NOTHING
                && sameYear) {
            find.said = coin.said();
            find.code = coin.code();
            find.faint = false;
        }
        find.end = coin.end();
    }

    private static void told(Building find, Mention.MintOnly mint) {
        if (mint.word() - find.end > 16) {
            return;
        }
        if (find.said == Mention.Said.NOTHING || find.faint || mint.correcting()) {
            find.said = mint.said();
            find.code = mint.code();
            find.faint = mint.faint();
        }
    }

    /// Logarithms of the probabilities of a new find, the same coin, an aside.
    private double[] verdict(List<Feature> features, double[] twin, double[] around, boolean mayBeSame) {
        double fresh = around[0] + twin[0];
        double same = around[1] + twin[1];
        for (Feature feature : features) {
            fresh += weights.fresh[feature.index()];
            same += weights.same[feature.index()];
        }
        if (!mayBeSame) {
            same = Double.NEGATIVE_INFINITY;
        }
        double high = Math.max(0, Math.max(fresh, same));
        double all = high + Math.log(Math.exp(-high) + Math.exp(fresh - high) + Math.exp(same - high));
        return new double[] {fresh - all, same - all, -all};
    }
}
