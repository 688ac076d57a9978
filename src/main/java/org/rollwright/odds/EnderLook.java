package org.rollwright.odds;

import org.hipparchus.special.Beta;
import org.hipparchus.special.Gamma;

/// What the coins seen at roll ends say about a box that is still closed: its matching coins are spread at
/// random, and the visible ones are a sample of them without replacement. Exact.
///
/// @param coins in the box
/// @param a prior weight of matching coins, above 0
/// @param b prior weight of the others, above 0
/// @param visible enders seen
/// @param matching how many of them match
public record EnderLook(int coins, double a, double b, int visible, int matching) {
    public EnderLook {
        if (coins < 1 || !(a > 0) || !(b > 0) || visible < 0 || visible > coins || matching < 0 || matching > visible) {
            throw new IllegalArgumentException("no such box: " + coins + ", " + visible + ", " + matching);
        }
    }

    /// Matching coins in the whole box, those seen included.
    public double mean() {
        return matching + (coins - visible) * (a + matching) / (a + b + visible);
    }

    /// Matching coins expected before looking.
    public double meanBefore() {
        return coins * a / (a + b);
    }

    /// The smallest number of matching coins not exceeded with this probability.
    public int quantile(double p) {
        int hidden = coins - visible;
        double x = a + matching;
        double y = b + visible - matching;
        double sum = 0;
        for (int k = 0; k <= hidden; k++) {
            sum += Math.exp(logChoose(hidden, k) + Beta.logBeta(k + x, hidden - k + y) - Beta.logBeta(x, y));
            if (sum >= p) {
                return matching + k;
            }
        }
        return coins;
    }

    public Interval interval(double level) {
        return new Interval(quantile((1 - level) / 2), quantile((1 + level) / 2), level);
    }

    static double logChoose(int n, int k) {
        return Gamma.logGamma(n + 1.0) - Gamma.logGamma(k + 1.0) - Gamma.logGamma(n - k + 1.0);
    }
}
