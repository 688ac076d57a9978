package org.rollwright.scale;

import static org.rollwright.text.Texts.t;

import java.util.Map;
import org.rollwright.coin.Alloy;
import org.rollwright.coin.Mass;

/// What one coin of an alloy weighs: by the mint's standard, or by the hunter's own counted pile, worn as it
/// is.
///
/// @param mean grams
/// @param sd spread of single coins, grams
/// @param meanSd how far the mean itself may be off, grams
/// @param source for a person
public record AlloyWeight(double mean, double sd, double meanSd, String source) {
    /// Wear of circulated coins where the hunter has counted no pile: 0.02 g on average (TRADE: metal, an
    /// estimate), and as much uncertainty about it.
    private static final double USUAL_WEAR = 0.02;

    /// The mint's tolerance is taken for three standard deviations (common practice).
    private static final double TOLERANCE_SDS = 3;

    /// Where no tolerance is known: that of the cent, 0.13 g of 3.11 g, taken in the same way.
    private static final double USUAL_SD_SHARE = 0.013;

    /// @param piles counted piles by alloy
    public static AlloyWeight of(Alloy alloy, Map<String, CountedPile> piles) {
        Mass tolerance = alloy.tolerance();
        double weight = alloy.weight().grams();
        double sd = tolerance == null ? USUAL_SD_SHARE * weight : tolerance.grams() / TOLERANCE_SDS;
        CountedPile pile = piles.get(alloy.name());
        if (pile == null) {
            return new AlloyWeight(weight - USUAL_WEAR, sd, USUAL_WEAR, t("scale.worn-standard"));
        }
        double meanSd = Math.sqrt(sd * sd / pile.coins()
                + CountByWeight.rounding(pile.resolution().grams()) / pile.coins() / pile.coins());
        return new AlloyWeight(pile.gramsPerCoin(), sd, meanSd, t("scale.your-counted-pile-of-coins", pile.coins()));
    }

    /// Coins in a weight, with everything that is unsure about it.
    ///
    /// @param resolution of the scale, grams; applied twice for a difference of two readings
    public CountByWeight count(double grams, double resolution, int readings) {
        double coins = grams / mean;
        double variance = (coins * sd * sd + readings * CountByWeight.rounding(resolution)) / (mean * mean)
                + coins * coins * meanSd * meanSd / (mean * mean);
        return new CountByWeight(coins, Math.sqrt(Math.max(0, variance)));
    }
}
