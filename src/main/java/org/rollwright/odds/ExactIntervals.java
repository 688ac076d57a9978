package org.rollwright.odds;

import org.hipparchus.special.Beta;
import org.hipparchus.special.Gamma;

/// Intervals for counts that hold at least their level whatever the true rate is.
public final class ExactIntervals {
    private ExactIntervals() {}

    /// For a Poisson count (Garwood 1936).
    public static Interval count(int count, double level) {
        double tail = (1 - level) / 2;
        double low = count == 0 ? 0 : Root.of(x -> Gamma.regularizedGammaP(count, x), tail, 0, count);
        double high =
                Root.of(x -> Gamma.regularizedGammaP(count + 1.0, x), 1 - tail, 0, count + 60 + 12 * Math.sqrt(count));
        return new Interval(low, high, level);
    }

    /// For a share (Clopper and Pearson 1934).
    public static Interval share(int successes, int trials, double level) {
        double tail = (1 - level) / 2;
        double low = successes == 0
                ? 0
                : Root.of(x -> Beta.regularizedBeta(x, successes, trials - successes + 1.0), tail, 0, 1);
        double high = successes == trials
                ? 1
                : Root.of(x -> Beta.regularizedBeta(x, successes + 1.0, trials - successes), 1 - tail, 0, 1);
        return new Interval(low, high, level);
    }

    /// The chance of at least so many successes at a given share (the one-sided exact binomial test).
    public static double atLeast(int successes, int trials, double share) {
        return successes == 0 ? 1 : Beta.regularizedBeta(share, successes, trials - successes + 1.0);
    }

    /// The chance of a Poisson count of at least so many.
    public static double atLeast(int count, double mean) {
        return count == 0 ? 1 : Gamma.regularizedGammaP(count, mean);
    }
}
