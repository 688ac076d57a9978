package org.rollwright.odds;

import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.t;

import org.rollwright.text.Figures;
import org.rollwright.text.Texts;

/// How a box under way compares with the hunter's own history, and what the rest of it may still give.
///
/// @param percentile share of such stretches of rolls that give fewer, half of those that give as many; 0 to 1
/// @param more distribution of what the unopened rest gives
/// @param sentence in plain words
public record Pace(double percentile, Predictive more, String sentence) {
    /// @param before fitted to the other boxes
    /// @param name of what is watched for
    /// @param box as far as it was searched
    /// @param coinsLeft coins not searched yet
    public static Pace of(YieldModel before, String name, BoxHistory box, long coinsLeft) {
        Predictive soFar = before.next(box.source(), box.fullBoxes());
        double below = soFar.atMost(box.found() - 1L);
        double same = soFar.atMost(box.found()) - below;
        double percentile = below + same / 2;
        Predictive more = rest(before, box, coinsLeft / (double) box.fullCoins());
        Interval eighty = more.interval(0.8);

        String sentence = f(
                "odds.pace",
                box.found(),
                name,
                box.rolls().size(),
                ordinal((int) Math.round(100 * percentile)),
                (int) eighty.low(),
                (int) eighty.high(),
                percent(more.atLeast(1)));
        return new Pace(percentile, more, sentence);
    }

    /// The rest of the same box: its own finds so far tell how rich it is, because boxes clump.
    private static Predictive rest(YieldModel before, BoxHistory box, double fullBoxesLeft) {
        return before.rest(box.source(), box.fullBoxes(), box.found(), fullBoxesLeft);
    }

    /// Never 0 or 100: nothing here is certain.
    private static String percent(double p) {
        return p > 0.995 ? t("odds.above-99") : p < 0.005 ? t("odds.below-1") : Figures.percent(p, 0);
    }

    /// English has an ending for each of 1, 2 and 3; other languages say one text for all, or one for 1 beside it.
    static String ordinal(int n) {
        if (!Texts.locale().getLanguage().equals("en")) {
            return t("odds.nth", n);
        }
        int tens = n % 100;
        String ending = tens >= 11 && tens <= 13
                ? ""
                : switch (n % 10) {
                    case 1 -> "st";
                    case 2 -> "nd";
                    case 3 -> "rd";
                    default -> "";
                };
        return ending.isEmpty() ? t("odds.nth", n) : n + ending;
    }
}
