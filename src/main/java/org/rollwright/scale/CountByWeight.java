package org.rollwright.scale;

/// How many coins a weight is.
///
/// @param coins the weight divided by the mean weight of one coin; not rounded
/// @param standardError from the spread of single coins and the scale's rounding
public record CountByWeight(double coins, double standardError) {
    /// @param grams 0 or more
    /// @param coinMean grams of one coin, above 0
    /// @param coinSd spread of single coins, grams, 0 or more
    /// @param resolution smallest step of the scale, grams, 0 or more
    public static CountByWeight of(double grams, double coinMean, double coinSd, double resolution) {
        double coins = grams / coinMean;
        return new CountByWeight(coins, Math.sqrt(coins * coinSd * coinSd + rounding(resolution)) / coinMean);
    }

    /// Variance of rounding to a step: a value is spread evenly over it.
    static double rounding(double resolution) {
        return resolution * resolution / 12;
    }
}
