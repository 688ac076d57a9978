package org.rollwright.scope;

import java.util.ArrayList;
import java.util.List;

/// Which variety a coin is, from what was seen and what was not: Bayes' rule over candidates, an ordinary coin
/// among them.
///
/// @param posterior probability of each candidate, together 1
public record Attribution(List<Double> posterior) {
    public Attribution {
        posterior = List.copyOf(posterior);
    }

    /// @param priors above 0 or 0, not all 0; they need not add up to 1
    /// @param likelihoods one row for each answer: its probability under each candidate. "Cannot tell" has no
    ///     row.
    public static Attribution of(List<Double> priors, List<List<Double>> likelihoods) {
        double[] log = new double[priors.size()];
        for (int c = 0; c < log.length; c++) {
            log[c] = Math.log(priors.get(c));
            for (List<Double> answer : likelihoods) {
                log[c] += Math.log(answer.get(c));
            }
        }
        double high = Double.NEGATIVE_INFINITY;
        for (double value : log) {
            high = Math.max(high, value);
        }
        if (high == Double.NEGATIVE_INFINITY) {
            throw new IllegalArgumentException("the answers contradict every candidate");
        }
        double all = 0;
        for (double value : log) {
            all += Math.exp(value - high);
        }
        List<Double> posterior = new ArrayList<>();
        for (double value : log) {
            posterior.add(Math.exp(value - high) / all);
        }
        return new Attribution(posterior);
    }

    /// Bits by which the answer to a yes-or-no question is expected to lower the uncertainty.
    ///
    /// @param yes probability of yes under each candidate
    public double gainBits(List<Double> yes) {
        double p = 0;
        for (int c = 0; c < posterior.size(); c++) {
            p += posterior.get(c) * yes.get(c);
        }
        // the answer's own uncertainty less what is left of it once the candidate is known
        double gain = entropy(p);
        for (int c = 0; c < posterior.size(); c++) {
            gain -= posterior.get(c) * entropy(yes.get(c));
        }
        return Math.max(0, gain);
    }

    private static double entropy(double p) {
        return p <= 0 || p >= 1 ? 0 : -(p * Math.log(p) + (1 - p) * Math.log(1 - p)) / Math.log(2);
    }
}
