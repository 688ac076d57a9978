package org.rollwright.odds;

import java.util.List;

/// When the empty holes of an album will be filled, hole by hole at its own uncertain rate.
public final class Completion {
    private static final double NEVER = 1e15;

    private Completion() {}

    /// The probability that every hole is filled within so many coins.
    public static double complete(List<GammaRate> holes, double coins) {
        double log = 0;
        for (GammaRate hole : holes) {
            log += Math.log(hole.atLeastOne(coins));
        }
        return holes.isEmpty() ? 1 : Math.exp(log);
    }

    /// Holes expected to be filled within so many coins.
    public static double expectedFilled(List<GammaRate> holes, double coins) {
        double sum = 0;
        for (GammaRate hole : holes) {
            sum += hole.atLeastOne(coins);
        }
        return sum;
    }

    /// Coins for a probability of completion. The mean wait is often infinite, so there is none here.
    ///
    /// @param p above 0 and below 1
    /// @return infinity when more than a thousand million million coins would not do
    public static double coinsFor(List<GammaRate> holes, double p) {
        if (holes.isEmpty()) {
            return 0;
        }
        if (complete(holes, NEVER) < p) {
            return Double.POSITIVE_INFINITY;
        }
        // on the logarithm: a common hole takes a few coins, a rare one a million million
        return Math.expm1(Root.of(log -> complete(holes, Math.expm1(log)), p, 0, Math.log1p(NEVER)));
    }

    /// Coins for a probability of at least one of several kinds, each with a rate of its own.
    ///
    /// @param p above 0 and below 1
    /// @return infinity when more than a thousand million million coins would not do, or there is no kind
    public static double coinsForAny(List<GammaRate> kinds, double p) {
        if (any(kinds, NEVER) < p) {
            return Double.POSITIVE_INFINITY;
        }
        return Math.expm1(Root.of(log -> any(kinds, Math.expm1(log)), p, 0, Math.log1p(NEVER)));
    }

    /// The probability of at least one of several kinds within so many coins, each kind with a rate of its own.
    ///
    /// @param coins 0 or more
    public static double any(List<GammaRate> kinds, double coins) {
        double none = 1;
        for (GammaRate kind : kinds) {
            none *= 1 - kind.atLeastOne(coins);
        }
        return 1 - none;
    }

    /// Coins expected until every kind was seen when the share of every kind is known (the coupon collector's
    /// problem): the integral of the chance that some kind is still missing, by Simpson's rule.
    ///
    /// @param shares above 0, together at most 1
    public static double expectedUntilAll(double[] shares) {
        double least = 1;
        for (double share : shares) {
            least = Math.min(least, share);
        }
        double end = (40 + Math.log(shares.length)) / least;
        int steps = 200_000;
        double sum = 0;
        for (int i = 0; i <= steps; i++) {
            double t = end * i / steps;
            double all = 1;
            for (double share : shares) {
                all *= -Math.expm1(-share * t);
            }
            sum += (1 - all) * (i == 0 || i == steps ? 1 : i % 2 == 1 ? 4 : 2);
        }
        return sum * end / steps / 3;
    }
}
