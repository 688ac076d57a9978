package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.List;

/// The shipped weights, moved towards one hunter's voice, and that voice's habits, by recordings whose finds are
/// known.
///
/// @param habits none for a voice nothing is known of
record Attuned(Weights weights, Habits habits) {
    private static final int STEPS = 60;

    /// How strongly the shipped weights hold: tried on 111 strangers' recordings, the one half of each learned for the
    /// other, and on pairs of recordings; half and three times as much do as well. Words the shipped weights do not
    /// know stay unknown: one recording tells too little of them.
    private static final double HOLDS = 3;

    /// @param recordings of the voice; none leaves the weights as they are
    static Attuned to(Weights shipped, List<Taught> recordings) {
        if (recordings.isEmpty()) {
            return new Attuned(shipped, Habits.NONE);
        }
        Regression.Names firsts = new Regression.Names();
        List<Regression.Example> early = new ArrayList<>();
        recordings.forEach(one -> early.addAll(one.early(firsts)));
        Regression.Names seconds = new Regression.Names();
        List<Regression.Example> late = new ArrayList<>();
        // the first listening as shipped: one that has learned this very recording would tell too much
        recordings.forEach(one -> late.addAll(one.told(shipped, seconds)));
        Weights own = moved(moved(shipped, firsts.list(), early), seconds.list(), late);
        return new Attuned(own, Habits.of(recordings));
    }

    private static Weights moved(Weights from, List<String> names, List<Regression.Example> examples) {
        int n = names.size();
        double[][] prior = new double[2][n];
        double[] ridge = new double[n];
        boolean[] used = new boolean[n];
        for (int o = 0; o < n; o++) {
            double[] known = from.known(names.get(o));
            ridge[o] = HOLDS;
            if (known != null) {
                used[o] = true;
                prior[0][o] = known[0];
                prior[1][o] = known[1];
            }
        }
        return from.with(names, Regression.fit(examples, used, ridge, prior, STEPS));
    }
}
