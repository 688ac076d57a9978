package org.rollwright.odds;

import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.t;

/// What a record of checking says about a variety: looked so often, found so often.
///
/// @param share exact 90 % interval of the share of coins of that date that are the variety
/// @param inNext chance of at least one in the next coins checked, for a share as found so far (Jeffreys prior)
public record VarietyOdds(String name, int checked, int found, Interval share, double inNext, String sentence) {
    /// @param found at most `checked`
    /// @param next coins of the date to be checked
    public static VarietyOdds of(String name, int checked, int found, int next) {
        Interval share = ExactIntervals.share(found, checked, 0.9);
        double a = found + 0.5;
        double b = checked - found + 0.5;
        // chance of none in the next: B(a, b + next) / B(a, b)
        double none =
                Math.exp(org.hipparchus.special.Beta.logBeta(a, b + next) - org.hipparchus.special.Beta.logBeta(a, b));
        String sentence = f(
                "odds.variety-answer",
                name,
                found,
                checked,
                found == 0
                        ? t("odds.never-to-one-in", Math.round(1 / share.high()))
                        : t("odds.one-in-to-one-in", Math.round(1 / share.low()), Math.round(1 / share.high())),
                next,
                100 * (1 - none));
        return new VarietyOdds(name, checked, found, share, 1 - none, sentence);
    }
}
