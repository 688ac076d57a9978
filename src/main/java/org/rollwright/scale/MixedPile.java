package org.rollwright.scale;

import java.util.ArrayList;
import java.util.List;

/// How many heavy coins a counted pile of heavy and light ones holds, by its weight: 1982 cents, a bank roll.
///
/// @param moments heavy coins by the mean weights alone; may lie outside the pile
/// @param mean of the posterior with every count equally likely before
/// @param sd its standard deviation
/// @param probabilities of 0, 1 … all heavy coins
public record MixedPile(double moments, double mean, double sd, List<Double> probabilities) {
    public MixedPile {
        probabilities = List.copyOf(probabilities);
    }

    /// @param grams of the pile
    /// @param coins in it, 1 or more
    /// @param heavyMean above `lightMean`
    /// @throws IllegalArgumentException when the means are not in this order, or no spread and no resolution is
    ///     given
    public static MixedPile of(
            double grams,
            int coins,
            double heavyMean,
            double lightMean,
            double heavySd,
            double lightSd,
            double resolution) {
        if (!(heavyMean > lightMean) || coins < 1) {
            throw new IllegalArgumentException(
                    "the heavy coins are heavier than the light ones, and there is at least one");
        }
        double[] log = new double[coins + 1];
        double high = Double.NEGATIVE_INFINITY;
        for (int heavy = 0; heavy <= coins; heavy++) {
            double mean = heavy * heavyMean + (coins - heavy) * lightMean;
            double variance = heavy * heavySd * heavySd
                    + (coins - heavy) * lightSd * lightSd
                    + CountByWeight.rounding(resolution);
            if (!(variance > 0)) {
                throw new IllegalArgumentException("a spread of the coins or a resolution of the scale is needed");
            }
            log[heavy] = -0.5 * Math.log(variance) - (grams - mean) * (grams - mean) / (2 * variance);
            high = Math.max(high, log[heavy]);
        }
        double all = 0;
        for (double value : log) {
            all += Math.exp(value - high);
        }
        List<Double> probabilities = new ArrayList<>();
        double mean = 0;
        double square = 0;
        for (int heavy = 0; heavy <= coins; heavy++) {
            double p = Math.exp(log[heavy] - high) / all;
            probabilities.add(p);
            mean += p * heavy;
            square += p * heavy * heavy;
        }
        double moments = (grams - coins * lightMean) / (heavyMean - lightMean);
        return new MixedPile(moments, mean, Math.sqrt(Math.max(0, square - mean * mean)), probabilities);
    }
}
