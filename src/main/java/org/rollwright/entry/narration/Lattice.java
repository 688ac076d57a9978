package org.rollwright.entry.narration;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/// The paths through a recording: states after each mention, and the steps between them. Forward and backward
/// sums, and the best path. All weights are logarithms.
final class Lattice {
    /// A step from a state to a state.
    private static final class Steps {
        int[] from = new int[256];
        int[] to = new int[256];
        byte[] action = new byte[256];
        double[] weight = new double[256];
        int size;

        void add(int a, int b, int act, double w) {
            if (size == from.length) {
                from = Arrays.copyOf(from, size * 2);
                to = Arrays.copyOf(to, size * 2);
                action = Arrays.copyOf(action, size * 2);
                weight = Arrays.copyOf(weight, size * 2);
            }
            from[size] = a;
            to[size] = b;
            action[size] = (byte) act;
            weight[size++] = w;
        }
    }

    private final int beam;
    private final Steps[] steps;
    private final double[][] forward;
    private final double[][] best;
    private final State[][] states;
    private int at;
    private Map<State, Integer> index = new HashMap<>();
    private State[] next = new State[512];
    private double[] sum = new double[512];
    private double[] top = new double[512];
    private int size;

    Lattice(int mentions, int beam, State start) {
        this.beam = beam;
        this.steps = new Steps[mentions];
        this.forward = new double[mentions + 1][];
        this.best = new double[mentions + 1][];
        this.states = new State[mentions + 1][];
        states[0] = new State[] {start};
        forward[0] = new double[] {0};
        best[0] = new double[] {0};
    }

    /// The states before the mention in hand.
    State[] states() {
        return states[at];
    }

    void begin() {
        steps[at] = new Steps();
        index = new HashMap<>();
        size = 0;
    }

    void step(int from, State to, int action, double weight) {
        if (weight == Double.NEGATIVE_INFINITY) {
            return;
        }
        int place = index.computeIfAbsent(to, key -> grow(key));
        steps[at].add(from, place, action, weight);
        sum[place] = plus(sum[place], forward[at][from] + weight);
        top[place] = Math.max(top[place], best[at][from] + weight);
    }

    private int grow(State state) {
        if (size == next.length) {
            next = Arrays.copyOf(next, size * 2);
            sum = Arrays.copyOf(sum, size * 2);
            top = Arrays.copyOf(top, size * 2);
        }
        next[size] = state;
        sum[size] = Double.NEGATIVE_INFINITY;
        top[size] = Double.NEGATIVE_INFINITY;
        return size++;
    }

    /// Closes the mention in hand, keeping only the likeliest states.
    void end() {
        double[] sorted = Arrays.copyOf(sum, size);
        Arrays.sort(sorted);
        double least = size <= beam ? Double.NEGATIVE_INFINITY : sorted[size - beam];
        double likely = sorted[size - 1] - 25;
        int[] kept = new int[size];
        int count = 0;
        for (int i = 0; i < size; i++) {
            boolean keep = sum[i] >= least && sum[i] >= likely && count < beam;
            kept[i] = keep ? count++ : -1;
        }
        State[] keptStates = new State[count];
        double[] keptSum = new double[count];
        double[] keptTop = new double[count];
        for (int i = 0; i < size; i++) {
            if (kept[i] >= 0) {
                keptStates[kept[i]] = next[i];
                keptSum[kept[i]] = sum[i];
                keptTop[kept[i]] = top[i];
            }
        }
        Steps here = steps[at];
        int left = 0;
        for (int e = 0; e < here.size; e++) {
            int to = kept[here.to[e]];
            if (to >= 0) {
                here.from[left] = here.from[e];
                here.to[left] = to;
                here.action[left] = here.action[e];
                here.weight[left++] = here.weight[e];
            }
        }
        here.size = left;
        at++;
        states[at] = keptStates;
        forward[at] = keptSum;
        best[at] = keptTop;
    }

    /// What a path does at a mention, and the state it is in behind it.
    record Passed(int action, State behind) {}

    /// What the best path does at each mention, and the state it is in behind it.
    ///
    /// @param finals a weight for each last state
    List<Passed> bestPath(double[] finals) {
        int mentions = steps.length;
        int place = 0;
        for (int i = 1; i < finals.length; i++) {
            if (best[mentions][i] + finals[i] > best[mentions][place] + finals[place]) {
                place = i;
            }
        }
        Passed[] path = new Passed[mentions];
        for (int m = mentions - 1; m >= 0; m--) {
            Steps here = steps[m];
            int chosen = -1;
            double score = Double.NEGATIVE_INFINITY;
            for (int e = 0; e < here.size; e++) {
                double reached = best[m][here.from[e]] + here.weight[e];
                if (here.to[e] == place && reached > score) {
                    score = reached;
                    chosen = e;
                }
            }
            path[m] = new Passed(here.action[chosen], states[m + 1][place]);
            place = here.from[chosen];
        }
        return List.of(path);
    }

    /// The probability of every action at every mention.
    ///
    /// @param actions how many there are, counted from 1
    /// @return by mention, then by action
    double[][] posteriors(int actions, double[] finals) {
        int mentions = steps.length;
        double[] after = finals.clone();
        double all = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < finals.length; i++) {
            all = plus(all, forward[mentions][i] + finals[i]);
        }
        double[][] posteriors = new double[mentions][actions + 1];
        for (int m = mentions - 1; m >= 0; m--) {
            Steps here = steps[m];
            double[] before = new double[states[m].length];
            Arrays.fill(before, Double.NEGATIVE_INFINITY);
            for (int e = 0; e < here.size; e++) {
                double onward = here.weight[e] + after[here.to[e]];
                before[here.from[e]] = plus(before[here.from[e]], onward);
                posteriors[m][here.action[e]] += Math.exp(forward[m][here.from[e]] + onward - all);
            }
            for (int action = 1; action <= actions; action++) {
                posteriors[m][action] = Math.min(1, posteriors[m][action]);
            }
            after = before;
        }
        return posteriors;
    }

    int finalStates() {
        return states[steps.length].length;
    }

    State finalState(int i) {
        return states[steps.length][i];
    }

    private static double plus(double a, double b) {
        if (a == Double.NEGATIVE_INFINITY) {
            return b;
        }
        if (b == Double.NEGATIVE_INFINITY) {
            return a;
        }
        double high = Math.max(a, b);
        return high + Math.log1p(Math.exp(Math.min(a, b) - high));
    }
}
