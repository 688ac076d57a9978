package org.rollwright.odds;

import org.hipparchus.special.Gamma;

/// A rate of finds per coin as a Gamma distribution.
///
/// @param shape above 0
/// @param rate in coins, above 0: the prior weighs as much as so many coins searched
public record GammaRate(double shape, double rate) {
    public GammaRate {
        if (!(shape > 0) || !(rate > 0) || Double.isInfinite(shape) || Double.isInfinite(rate)) {
            throw new IllegalArgumentException("shape and rate are above 0, were " + shape + " and " + rate);
        }
    }

    /// The posterior after more searching.
    public GammaRate after(double found, double coins) {
        return new GammaRate(shape + found, rate + coins);
    }

    /// Finds per coin.
    public double mean() {
        return shape / rate;
    }

    /// The rate below which the true one lies with a probability.
    ///
    /// @param p above 0 and below 1
    public double quantile(double p) {
        // on the logarithm: quantiles of small shapes are as small as 1e-300
        double low = -740 - Math.log(rate);
        double high = Math.log((shape + 20 * Math.sqrt(shape) + 60) / rate);
        return Math.exp(
                Root.of(log -> Gamma.regularizedGammaP(shape, rate * Math.exp(log), 1e-15, 100_000), p, low, high));
    }

    public Interval interval(double level) {
        return new Interval(quantile((1 - level) / 2), quantile((1 + level) / 2), level);
    }

    /// The probability of exactly so many in the next coins.
    public double exactly(int found, double coins) {
        double logP = Gamma.logGamma(shape + found)
                - Gamma.logGamma(shape)
                - Gamma.logGamma(found + 1.0)
                + shape * (Math.log(rate) - Math.log(rate + coins))
                + found * (Math.log(coins) - Math.log(rate + coins));
        return Math.exp(logP);
    }

    /// The probability of at least one in the next coins.
    public double atLeastOne(double coins) {
        return -Math.expm1(-shape * Math.log1p(coins / rate));
    }
}
