package org.rollwright.odds;

import static org.rollwright.text.Texts.f;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.hipparchus.special.Beta;

/// What this hunter's enders were worth so far: the prior of a box's matching coins, fitted to searched boxes,
/// and whether roll ends over- or under-predict.
///
/// @param a prior weight of matching coins
/// @param b prior weight of the others
/// @param boxes with enders noted and searched whole
/// @param ratio rate among the enders divided by the rate among all coins of the same boxes; NaN without such
///     boxes
/// @param ratioInterval of that ratio, 90 %
public record EnderHistory(double a, double b, int boxes, double ratio, Interval ratioInterval) {
    private static final int STEPS = 30;

    private record Content(int coins, int matching) {}

    /// Fits the prior by maximum likelihood over a grid of mean and weight.
    public static EnderHistory of(History history) {
        List<BoxHistory> searched =
                history.boxes().stream().filter(box -> box.exposedCoins() > 0).toList();
        Map<Content, Integer> contents = new LinkedHashMap<>();
        for (BoxHistory box : searched) {
            int n = (int) box.exposedCoins();
            contents.merge(new Content(n, Math.min(n, box.found())), 1, Integer::sum);
        }
        double best = Double.NEGATIVE_INFINITY;
        double a = 0.5;
        double b = 500;
        double found = Math.max(0.5, (double) history.found());
        double centre = found / Math.max(1000.0, (double) history.coins());
        for (int i = 0; i <= STEPS; i++) {
            double mean = Math.min(0.9, centre * Math.exp(2.0 * (2.0 * i / STEPS - 1)));
            for (int j = 0; j <= STEPS; j++) {
                double weight = Math.exp(Math.log(10) + (Math.log(100_000) - Math.log(10)) * j / STEPS);
                double log = 0;
                double before = Beta.logBeta(mean * weight, (1 - mean) * weight);
                for (Map.Entry<Content, Integer> entry : contents.entrySet()) {
                    int n = entry.getKey().coins;
                    int k = entry.getKey().matching;
                    log += entry.getValue() * (Beta.logBeta(k + mean * weight, n - k + (1 - mean) * weight) - before);
                }
                // a weak preference for the middle keeps the fit where there is nothing to learn from
                log -= 0.5 * Math.pow((Math.log(weight) - Math.log(400)) / 2, 2);
                if (log > best) {
                    best = log;
                    a = mean * weight;
                    b = (1 - mean) * weight;
                }
            }
        }
        long matching = 0;
        long visible = 0;
        long all = 0;
        long coins = 0;
        int boxes = 0;
        for (BoxHistory box : searched) {
            if (box.endersVisible() > 0 && box.whole()) {
                boxes++;
                matching += box.endersMatching();
                visible += box.endersVisible();
                all += box.found();
                coins += box.exposedCoins();
            }
        }
        if (boxes == 0 || all == 0) {
            return new EnderHistory(a, b, boxes, Double.NaN, new Interval(0, Double.POSITIVE_INFINITY, 0.9));
        }
        double expected = all * (double) visible / coins;
        Interval exact = ExactIntervals.count((int) matching, 0.9);
        return new EnderHistory(
                a, b, boxes, matching / expected, new Interval(exact.low() / expected, exact.high() / expected, 0.9));
    }

    /// What a look at a closed box says, in plain words.
    public String sentence(EnderLook look, String target) {
        Interval eighty = look.interval(0.8);
        List<String> words = new ArrayList<>();
        words.add(f(
                "odds.enders-answer",
                look.matching(),
                look.visible(),
                look.meanBefore(),
                target,
                look.mean(),
                (int) eighty.low(),
                (int) eighty.high()));
        if (boxes >= 5 && (ratioInterval.low() > 1 || ratioInterval.high() < 1)) {
            words.add(f("odds.ends-trust-less", boxes, ratio));
        }
        return String.join(" ", words);
    }
}
