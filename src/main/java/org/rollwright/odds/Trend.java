package org.rollwright.odds;

import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.t;

import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;

/// Is the yield falling over the years? A log-linear rate in time for counts that clump (quasi-Poisson: the
/// variance is scaled by what the boxes themselves show).
///
/// @param perYear factor from one year to the next
/// @param ninety interval of that factor
/// @param years from first to last box
public record Trend(double perYear, Interval ninety, double years, String sentence) {
    private static final int FEWEST_BOXES = 8;
    private static final double Z90 = 1.6448536269514722;

    /// Empty with fewer than eight dated boxes, or when they lie within half a year.
    public static Optional<Trend> of(History history) {
        List<BoxHistory> boxes =
                history.byDay().stream().filter(box -> box.day() != null).toList();
        if (boxes.size() < FEWEST_BOXES) {
            return Optional.empty();
        }
        var first = boxes.getFirst().day();
        var last = boxes.getLast().day();
        if (first == null || last == null) {
            return Optional.empty();
        }
        double years = ChronoUnit.DAYS.between(first, last) / 365.25;
        if (years < 0.5) {
            return Optional.empty();
        }
        double a = Math.log(
                Math.max(0.5, boxes.stream().mapToInt(BoxHistory::found).sum())
                        / boxes.stream().mapToDouble(BoxHistory::fullBoxes).sum());
        double b = 0;
        double varianceB = 1;
        for (int step = 0; step < 50; step++) {
            double s0 = 0;
            double s1 = 0;
            double s2 = 0;
            double g0 = 0;
            double g1 = 0;
            for (BoxHistory box : boxes) {
                double t = time(box, first, years);
                double mean = box.fullBoxes() * Math.exp(a + b * t);
                s0 += mean;
                s1 += mean * t;
                s2 += mean * t * t;
                g0 += box.found() - mean;
                g1 += (box.found() - mean) * t;
            }
            double determinant = s0 * s2 - s1 * s1;
            if (!(determinant > 1e-12)) {
                return Optional.empty();
            }
            double da = (s2 * g0 - s1 * g1) / determinant;
            double db = (s0 * g1 - s1 * g0) / determinant;
            a += Math.max(-2, Math.min(2, da));
            b += Math.max(-2, Math.min(2, db));
            varianceB = s0 / determinant;
        }
        double pearson = 0;
        for (BoxHistory box : boxes) {
            double mean = box.fullBoxes() * Math.exp(a + b * time(box, first, years));
            pearson += (box.found() - mean) * (box.found() - mean) / mean;
        }
        double scale = Math.max(1, pearson / (boxes.size() - 2));
        double spread = Math.sqrt(varianceB * scale);
        double perYear = Math.exp(b);
        Interval ninety = new Interval(Math.exp(b - Z90 * spread), Math.exp(b + Z90 * spread), 0.9);
        String direction = ninety.high() < 1
                ? t("odds.your-yield-is-falling")
                : ninety.low() > 1 ? t("odds.your-yield-is-rising") : t("odds.no-trend");
        String sentence = f(
                "odds.trend",
                direction,
                100 * (perYear - 1),
                100 * (ninety.low() - 1),
                100 * (ninety.high() - 1),
                years,
                boxes.size());
        return Optional.of(new Trend(perYear, ninety, years, sentence));
    }

    private static double time(BoxHistory box, java.time.LocalDate first, double years) {
        var day = box.day();
        return day == null ? 0 : ChronoUnit.DAYS.between(first, day) / 365.25 - years / 2;
    }
}
