package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/// Multinomial logistic regression with a Gaussian prior around known weights: what speaks for a new find and for the
/// same coin again, against neither. Learns the shipped weights, and from there those of one hunter's voice.
final class Regression {
    /// The same coin again cannot be, before the first find.
    private static final double NEVER = -40;

    /// Step lengths of resilient propagation (Riedmiller and Braun 1993).
    private static final double FIRST_STEP = 0.05;

    private static final double LONGEST_STEP = 0.5;
    private static final double LONGER = 1.2;
    private static final double SHORTER = 0.5;

    private Regression() {}

    /// A mention and what it turned out to be.
    ///
    /// @param observed numbers of features and observations
    /// @param label 0 a new find, 1 the same coin, 2 neither
    /// @param first whether no find was before it
    /// @param weight how much it counts, 1 for one seen in a stranger's recording
    @SuppressWarnings("ArrayRecordComponent") // many of them, never compared
    record Example(int[] observed, int label, boolean first, double weight) {}

    /// Names of features and observations, numbered as they come. Safe for several threads.
    static final class Names {
        private final Map<String, Integer> numbers = new HashMap<>();
        private final List<String> names = new ArrayList<>();

        synchronized int of(String name) {
            return numbers.computeIfAbsent(name, key -> {
                names.add(key);
                return names.size() - 1;
            });
        }

        synchronized List<String> list() {
            return List.copyOf(names);
        }
    }

    /// Weights for a new find and for the same coin by number of the name, where the penalised likelihood of the
    /// examples is highest: resilient propagation over all examples at once.
    ///
    /// @param used names to learn; the others count nothing
    /// @param ridge how strongly each is held at its prior, above 0
    /// @param prior two rows as the answer's: where to start and what to be held at
    static double[][] fit(List<Example> examples, boolean[] used, double[] ridge, double[][] prior, int steps) {
        int n = used.length;
        double[][] w = {prior[0].clone(), prior[1].clone()};
        double[][] step = new double[2][n];
        double[][] before = new double[2][n];
        for (double[] one : step) {
            Arrays.fill(one, FIRST_STEP);
        }
        for (int round = 0; round < steps; round++) {
            double[][] slope = slope(examples, used, w);
            for (int k = 0; k < 2; k++) {
                for (int o = 0; o < n; o++) {
                    if (!used[o]) {
                        continue;
                    }
                    double g = slope[k][o] - ridge[o] * (w[k][o] - prior[k][o]);
                    double turn = g * before[k][o];
                    if (turn > 0) {
                        step[k][o] = Math.min(step[k][o] * LONGER, LONGEST_STEP);
                    } else if (turn < 0) {
                        step[k][o] *= SHORTER;
                        g = 0;
                    }
                    w[k][o] += Math.signum(g) * step[k][o];
                    before[k][o] = g;
                }
            }
        }
        return w;
    }

    private static double[][] slope(List<Example> examples, boolean[] used, double[][] w) {
        double[][] slope = new double[2][used.length];
        for (Example example : examples) {
            double a = 0;
            double b = 0;
            for (int o : example.observed) {
                if (used[o]) {
                    a += w[0][o];
                    b += w[1][o];
                }
            }
            if (example.first) {
                b = NEVER;
            }
            double high = Math.max(0, Math.max(a, b));
            double sum = Math.exp(-high) + Math.exp(a - high) + Math.exp(b - high);
            double ga = example.weight * ((example.label == 0 ? 1 : 0) - Math.exp(a - high) / sum);
            double gb = example.weight * ((example.label == 1 ? 1 : 0) - Math.exp(b - high) / sum);
            for (int o : example.observed) {
                if (used[o]) {
                    slope[0][o] += ga;
                    slope[1][o] += gb;
                }
            }
        }
        return slope;
    }
}
