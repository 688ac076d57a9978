package org.rollwright.odds;

import java.util.ArrayList;
import java.util.List;

/// The distribution of a count yet to come.
///
/// @param probabilities of 0, 1, 2 …, cut off where less than one in a million is left
public record Predictive(List<Double> probabilities) {
    /// One way it may come about.
    record Part(double weight, NegativeBinomial counts) {}

    private static final int MOST = 20_000;

    public Predictive {
        probabilities = List.copyOf(probabilities);
    }

    static Predictive of(List<Part> parts) {
        double all = 0;
        for (Part part : parts) {
            all += part.weight;
        }
        int n = parts.size();
        double[] current = new double[n];
        double[] ratio = new double[n];
        double[] size = new double[n];
        for (int i = 0; i < n; i++) {
            NegativeBinomial counts = parts.get(i).counts;
            current[i] = parts.get(i).weight / all * counts.probability(0);
            ratio[i] = counts.mean() / (counts.size() + counts.mean());
            size[i] = counts.size();
        }
        List<Double> probabilities = new ArrayList<>();
        double sum = 0;
        for (int count = 0; count < MOST && sum < 1 - 1e-6; count++) {
            double here = 0;
            for (int i = 0; i < n; i++) {
                here += current[i];
                current[i] *= (size[i] + count) / (count + 1.0) * ratio[i];
            }
            probabilities.add(here);
            sum += here;
        }
        return new Predictive(probabilities);
    }

    public double mean() {
        double sum = 0;
        for (int count = 0; count < probabilities.size(); count++) {
            sum += count * probabilities.get(count);
        }
        return sum;
    }

    /// The probability of at most so many.
    public double atMost(long count) {
        double sum = 0;
        for (int i = 0; i <= Math.min(count, probabilities.size() - 1L); i++) {
            sum += probabilities.get(i);
        }
        return Math.min(1, sum);
    }

    /// The probability of at least so many.
    public double atLeast(long count) {
        return count <= 0 ? 1 : Math.max(0, 1 - atMost(count - 1));
    }

    /// The smallest count not exceeded with this probability.
    public int quantile(double p) {
        double sum = 0;
        for (int i = 0; i < probabilities.size(); i++) {
            sum += probabilities.get(i);
            if (sum >= p) {
                return i;
            }
        }
        return probabilities.size() - 1;
    }

    public Interval interval(double level) {
        return new Interval(quantile((1 - level) / 2), quantile((1 + level) / 2), level);
    }
}
