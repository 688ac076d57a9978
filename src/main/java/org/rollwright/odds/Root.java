package org.rollwright.odds;

import java.util.function.DoubleUnaryOperator;
import org.hipparchus.analysis.solvers.AllowedSolution;
import org.hipparchus.analysis.solvers.BracketingNthOrderBrentSolver;

/// Where a rising function reaches a value.
final class Root {
    private static final double RELATIVE = 1e-14;
    /// Shares and rates may be as small as one in a million million.
    private static final double ABSOLUTE = 1e-30;
    /// Only the place decides, never how near the function is: a tail of one in a million is near 0 everywhere.
    private static final double VALUE = Double.MIN_NORMAL;

    private static final int ORDER = 5;
    private static final int MOST_LOOKS = 2_000;

    private Root() {}

    /// The place where the function reaches the value; the nearer end when it does so nowhere between.
    ///
    /// @param rising never falls between the ends
    static double of(DoubleUnaryOperator rising, double value, double from, double to) {
        if (rising.applyAsDouble(from) >= value) {
            return from;
        }
        if (rising.applyAsDouble(to) <= value) {
            return to;
        }
        return new BracketingNthOrderBrentSolver(RELATIVE, ABSOLUTE, VALUE, ORDER)
                .solve(MOST_LOOKS, x -> rising.applyAsDouble(x) - value, from, to, AllowedSolution.ANY_SIDE);
    }
}
