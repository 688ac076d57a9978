package org.rollwright.entry.narration;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;

/// Sums over the likeliest paths through signs, forward and backward. Like [Lattice], but for weights that
/// are plain factors, and thousands of signs in a few milliseconds.
final class RollBeam {
    private final int width;
    private final Map<RollState, Integer> place = new HashMap<>();
    private final boolean keeps;

    private RollState[] states;
    private double[] mass;
    private int size = 1;
    private RollState[] next = new RollState[1024];
    private double[] nextMass = new double[1024];
    private int nextSize;
    private double log;

    // steps of all signs, one behind the other
    private int[] from = new int[4096];
    private int[] to = new int[4096];
    private float[] weight = new float[4096];
    private boolean[] meant = new boolean[4096];
    private int steps;
    private final int[] firstStep;
    private final RollState[][] kept;
    private int at;

    /// @param keeps whether steps are kept for the way back
    RollBeam(int signs, int width, RollState start, boolean keeps) {
        this.width = width;
        this.keeps = keeps;
        this.states = new RollState[1024];
        this.mass = new double[1024];
        this.firstStep = new int[signs + 1];
        this.kept = new RollState[keeps ? signs + 1 : 0][];
        states[0] = start;
        mass[0] = 1;
        keep();
    }

    private void keep() {
        if (keeps) {
            kept[at] = Arrays.copyOf(states, size);
        }
    }

    int size() {
        return size;
    }

    RollState state(int i) {
        return states[i];
    }

    void step(int i, RollState target, double factor, boolean isMeant) {
        if (factor < 1e-30) {
            return;
        }
        int t = place.computeIfAbsent(target, this::grow);
        nextMass[t] += mass[i] * factor;
        if (keeps) {
            if (steps == from.length) {
                from = Arrays.copyOf(from, steps * 2);
                to = Arrays.copyOf(to, steps * 2);
                weight = Arrays.copyOf(weight, steps * 2);
                meant = Arrays.copyOf(meant, steps * 2);
            }
            from[steps] = i;
            to[steps] = t;
            weight[steps] = (float) factor;
            meant[steps++] = isMeant;
        }
    }

    private int grow(RollState target) {
        if (nextSize == next.length) {
            next = Arrays.copyOf(next, nextSize * 2);
            nextMass = Arrays.copyOf(nextMass, nextSize * 2);
        }
        next[nextSize] = target;
        nextMass[nextSize] = 0;
        return nextSize++;
    }

    /// Closes the sign in hand, keeping the likeliest states.
    void end() {
        double least = 0;
        if (nextSize > width) {
            double[] sorted = Arrays.copyOf(nextMass, nextSize);
            Arrays.sort(sorted);
            least = sorted[nextSize - width];
        }
        int[] moved = new int[nextSize];
        double sum = 0;
        if (states.length < nextSize) {
            states = new RollState[next.length];
            mass = new double[next.length];
        }
        size = 0;
        for (int i = 0; i < nextSize; i++) {
            boolean stays = nextMass[i] >= least && nextMass[i] > 0 && size < width;
            moved[i] = stays ? size : -1;
            if (stays) {
                states[size] = next[i];
                mass[size++] = nextMass[i];
                sum += nextMass[i];
            }
        }
        for (int i = 0; i < size; i++) {
            mass[i] /= sum;
        }
        log += Math.log(sum);
        if (keeps) {
            int left = firstStep[at];
            for (int e = firstStep[at]; e < steps; e++) {
                int target = moved[to[e]];
                if (target >= 0) {
                    from[left] = from[e];
                    to[left] = target;
                    weight[left] = weight[e];
                    meant[left++] = meant[e];
                }
            }
            steps = left;
            firstStep[at + 1] = steps;
        }
        at++;
        keep();
        place.clear();
        nextSize = 0;
    }

    /// Logarithm of the sum over all paths.
    double evidence() {
        return log;
    }

    /// What is likely behind each sign.
    interface Behind {
        /// @param states the states kept behind the sign
        /// @param share their probabilities
        /// @param meant probability that the sign was meant
        void tell(int sign, RollState[] states, double[] share, double meant);
    }

    /// Goes back over the signs, last first.
    void back(Behind behind) {
        double[][] forward = new double[at + 1][];
        forward[0] = new double[] {1};
        for (int e = 0; e < at; e++) {
            double[] sums = new double[kept[e + 1].length];
            for (int s = firstStep[e]; s < firstStep[e + 1]; s++) {
                sums[to[s]] += forward[e][from[s]] * weight[s];
            }
            normalise(sums);
            forward[e + 1] = sums;
        }
        double[] after = new double[size];
        Arrays.fill(after, 1);
        for (int e = at - 1; e >= 0; e--) {
            double[] share = forward[e + 1].clone();
            for (int i = 0; i < share.length; i++) {
                share[i] *= after[i];
            }
            normalise(share);
            double[] before = new double[kept[e].length];
            double all = 0;
            double said = 0;
            for (int s = firstStep[e]; s < firstStep[e + 1]; s++) {
                double onward = weight[s] * after[to[s]];
                before[from[s]] += onward;
                all += forward[e][from[s]] * onward;
                said += meant[s] ? forward[e][from[s]] * onward : 0;
            }
            behind.tell(e, kept[e + 1], share, all > 0 ? said / all : 0);
            normalise(before);
            after = before;
        }
    }

    private static void normalise(double[] shares) {
        double sum = 0;
        for (double one : shares) {
            sum += one;
        }
        for (int i = 0; i < shares.length; i++) {
            shares[i] /= sum;
        }
    }
}
