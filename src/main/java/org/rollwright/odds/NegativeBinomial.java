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

    /// The size that makes counts with their own mean likeliest (maximum likelihood), by golden-section search
    /// on its logarithm between 0.001 and 1,000,000; the upper end means that nothing clumps.
    public static NegativeBinomial fit(long[] counts) {
        double sum = 0;
        for (long count : counts) {
            sum += count;
        }
        double mean = sum / counts.length;
        double low = Math.log(1e-3);
        double high = Math.log(1e6);
        double ratio = (Math.sqrt(5) - 1) / 2;
        double a = high - ratio * (high - low);
        double b = low + ratio * (high - low);
        double fa = logLikelihood(counts, mean, Math.exp(a));
        double fb = logLikelihood(counts, mean, Math.exp(b));
        for (int i = 0; i < 120; i++) {
            if (fa > fb) {
                high = b;
                b = a;
                fb = fa;
                a = high - ratio * (high - low);
                fa = logLikelihood(counts, mean, Math.exp(a));
            } else {
                low = a;
                a = b;
                fa = fb;
                b = low + ratio * (high - low);
                fb = logLikelihood(counts, mean, Math.exp(b));
            }
        }
        return new NegativeBinomial(mean, Math.exp(0.5 * (low + high)));
    }

    private static double logLikelihood(long[] counts, double mean, double size) {
        NegativeBinomial model = new NegativeBinomial(mean, size);
        double sum = 0;
        for (long count : counts) {
            sum += model.logProbability(count);
        }
        return sum;
    }
}
