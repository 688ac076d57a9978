package org.rollwright.scale;

import static org.rollwright.text.Texts.t;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.rollwright.coin.Alloy;

/// The metals of a coin and what they would fetch at prices the hunter typed. Melting and exporting US cents
/// and nickels is forbidden (31 CFR part 82); silver is not under it.
///
/// @param grams of each metal in one coin
/// @param value of those with a price
/// @param complete whether every metal of more than 1 % had a price
public record MetalContent(Map<String, Double> grams, BigDecimal value, boolean complete) {
    /// One troy ounce in grams, exact by definition.
    public static final double TROY_OUNCE = 31.1034768;

    private static final Map<String, String> SYMBOLS = Map.of(
            "Cu", "copper", "Zn", "zinc", "Ni", "nickel", "Ag", "silver", "Mn", "manganese", "Sn", "tin", "Fe", "iron");

    /// What is said beside every metal value of cents and nickels.
    public static String caution() {
        return t("scale.melting");
    }

    public MetalContent {
        grams = Map.copyOf(grams);
    }

    public static MetalContent of(Alloy alloy, Map<String, MetalPrice> prices) {
        Map<String, Double> grams = new LinkedHashMap<>();
        Matcher matcher =
                Pattern.compile("([A-Z][a-z])(?:\\+[A-Z][a-z])?\\s+([0-9.]+)").matcher(alloy.composition());
        while (matcher.find()) {
            String metal = SYMBOLS.getOrDefault(matcher.group(1), matcher.group(1));
            grams.merge(metal, alloy.weight().grams() * Double.parseDouble(matcher.group(2)) / 100, Double::sum);
        }
        BigDecimal value = BigDecimal.ZERO;
        boolean complete = !grams.isEmpty();
        for (Map.Entry<String, Double> entry : grams.entrySet()) {
            MetalPrice price = prices.get(entry.getKey());
            if (price == null) {
                complete &= entry.getValue() < 0.01 * alloy.weight().grams();
            } else {
                value = value.add(price.perKilogram().multiply(BigDecimal.valueOf(entry.getValue() / 1000)));
            }
        }
        return new MetalContent(grams, value.setScale(4, RoundingMode.HALF_EVEN), complete);
    }
}
