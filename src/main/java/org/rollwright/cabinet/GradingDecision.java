package org.rollwright.cabinet;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.special.Erf;

/// Does grading pay? The grade it will get is uncertain: borders lie halfway between the grades, the hunter's
/// estimate has a normal error.
///
/// @param probabilities of each grade
/// @param expectedNet expected value less all fees
/// @param gain that against selling the coin as it is
/// @param ahead chance that the outcome beats selling it as it is
public record GradingDecision(List<Double> probabilities, double expectedNet, double gain, double ahead) {
    public GradingDecision {
        probabilities = List.copyOf(probabilities);
    }

    /// @param estimate own estimate on the 70-point scale
    /// @param sd its standard deviation, above 0
    /// @param grades rising, at least one
    /// @param values if so graded, one for each grade
    /// @param raw what the coin brings ungraded
    /// @param fees grading, post and insurance, share of fixed costs
    /// @throws IllegalArgumentException when grades are not rising or values do not match them
    public static GradingDecision of(
            double estimate, double sd, List<Double> grades, List<Double> values, double raw, double fees) {
        if (grades.isEmpty() || grades.size() != values.size() || !(sd > 0)) {
            throw new IllegalArgumentException("one value for each grade, and a spread above 0");
        }
        List<Double> probabilities = new ArrayList<>();
        double below = 0;
        double net = -fees;
        double ahead = 0;
        for (int i = 0; i < grades.size(); i++) {
            if (i > 0 && grades.get(i) <= grades.get(i - 1)) {
                throw new IllegalArgumentException("grades rise from one to the next");
            }
            double upTo = i + 1 < grades.size() ? normal(((grades.get(i) + grades.get(i + 1)) / 2 - estimate) / sd) : 1;
            double p = upTo - below;
            below = upTo;
            probabilities.add(p);
            net += p * values.get(i);
            ahead += values.get(i) - fees > raw ? p : 0;
        }
        return new GradingDecision(probabilities, net, net - raw, ahead);
    }

    private static double normal(double z) {
        return 0.5 * Erf.erfc(-z / Math.sqrt(2));
    }
}
