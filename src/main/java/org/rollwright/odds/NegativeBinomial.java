package org.rollwright.odds;

import org.hipparchus.special.Beta;
import org.hipparchus.special.Gamma;

/// Counts that clump: Poisson counts whose rate varies from box to box. The variance is `mean + mean²/size`.
///
/// @param mean 0 or more
/// @param size above 0; the smaller, the more the counts clump
public record NegativeBinomial(double mean, double size) {
    public NegativeBinomial {
        if (!(mean >= 0) || !(size > 0) || Double.isInfinite(mean)) {
            throw new IllegalArgumentException("mean is 0 or more and size above 0, were " + mean + " and " + size);
        }
    }

    public double logProbability(long count) {
        if (mean == 0) {
            return count == 0 ? 0 : Double.NEGATIVE_INFINITY;
        }
        return Gamma.logGamma(size + count)
                - Gamma.logGamma(size)
                - Gamma.logGamma(count + 1.0)
                + size * (Math.log(size) - Math.log(size + mean))
                + count * (Math.log(mean) - Math.log(size + mean));
    }

    public double probability(long count) {
        return Math.exp(logProbability(count));
    }

    /// The probability of at most so many.
    public double atMost(long count) {
        return count < 0 ? 0 : mean == 0 ? 1 : Beta.regularizedBeta(size / (size + mean), size, count + 1.0);
    }

    /// The probability of at least so many.
    public double atLeast(long count) {
        return count <= 0 ? 1 : mean == 0 ? 0 : Beta.regularizedBeta(mean / (size + mean), (double) count, size);
    }

    /// The smallest count that is not exceeded with at least this probability.
    public long quantile(double p) {
        long high = 1;
        while (atMost(high) < p && high < Long.MAX_VALUE / 4) {
            high *= 2;
        }
        long low = -1;
        while (high - low > 1) {
            long middle = (high + low) / 2;
            if (atMost(middle) >= p) {
                high = middle;
            } else {
                low = middle;
            }
        }
        return high;
    }

    public Interval interval(double level) {
        return new Interval(quantile((1 - level) / 2), quantile((1 + level) / 2), level);
    }
}
