package org.rollwright.cabinet;

import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.t;

import java.util.List;

/// What the hunter's own submissions say of the hunter's eye: how far the grade that came back lay from the own
/// estimate. Few submissions are pooled with a usual one.
///
/// @param bias grades that came back, less estimates; positive when the hunter is too strict
/// @param spread standard deviation of a single outcome around the corrected estimate
/// @param returned submissions that came back with a grade
public record GradingRecord(double bias, double spread, int returned) {
    private static final double USUAL_SPREAD = 1.2;
    private static final double PRIOR_FOR_SPREAD = 4;
    private static final double PRIOR_FOR_BIAS = 3;

    public static GradingRecord of(List<CabinetNote.Submission> submissions) {
        List<Double> off = submissions.stream()
                .filter(one -> one.outcome() > 0)
                .map(one -> one.outcome() - one.estimate())
                .toList();
        double sum = off.stream().mapToDouble(Double::doubleValue).sum();
        double bias = sum / (off.size() + PRIOR_FOR_BIAS);
        double square =
                off.stream().mapToDouble(one -> (one - bias) * (one - bias)).sum();
        double spread =
                Math.sqrt((PRIOR_FOR_SPREAD * USUAL_SPREAD * USUAL_SPREAD + square) / (PRIOR_FOR_SPREAD + off.size()));
        return new GradingRecord(bias, spread, off.size());
    }

    /// One sentence about it.
    public String sentence() {
        return returned == 0
                ? t("cabinet.no-graded-coin", Math.round(10 * spread) / 10.0)
                : f("cabinet.estimates-corrected", returned, bias, spread);
    }
}
