package org.rollwright.scale;

import static org.rollwright.text.Texts.t;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.rollwright.coin.Alloy;
import org.rollwright.journal.Word;

/// The metals of a coin and what they would fetch at prices the hunter typed. Melting and exporting US cents
/// and nickels is forbidden (31 CFR part 82); silver is not under it.
///
/// @param grams of each metal in one coin; a metal without a name here goes by its symbol
/// @param value of those with a price
/// @param complete whether every metal of more than 1 % had a price
public record MetalContent(Map<Word<Element>, Double> grams, BigDecimal value, boolean complete) {
    /// One troy ounce in grams, exact by definition.
    public static final double TROY_OUNCE = 31.1034768;

    /// What is said beside every metal value of cents and nickels.
    public static String caution() {
        return t("scale.melting");
    }

    public MetalContent {
        grams = Map.copyOf(grams);
    }

    /// Grams of one metal, 0 when there is none of it.
    public double grams(Element metal) {
        return grams.getOrDefault(Word.of(metal), 0.0);
    }

    public static MetalContent of(Alloy alloy, Map<Word<Element>, MetalPrice> prices) {
        Map<Word<Element>, Double> grams = new LinkedHashMap<>();
        Matcher matcher =
                Pattern.compile("([A-Z][a-z])(?:\\+[A-Z][a-z])?\\s+([0-9.]+)").matcher(alloy.composition());
        while (matcher.find()) {
            String symbol = matcher.group(1);
            Word<Element> metal = Element.ofSymbol(symbol).map(Word::of).orElseGet(() -> new Word<>(symbol));
            grams.merge(metal, alloy.weight().grams() * Double.parseDouble(matcher.group(2)) / 100, Double::sum);
        }
        BigDecimal value = BigDecimal.ZERO;
        boolean complete = !grams.isEmpty();
        for (Map.Entry<Word<Element>, Double> entry : grams.entrySet()) {
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
