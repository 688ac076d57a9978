package org.rollwright.scale;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.Optional;
import org.rollwright.coin.Limits;
import org.rollwright.coin.Mass;
import org.rollwright.journal.Word;

/// A price of a metal, typed by the hunter; never fetched.
///
/// @param perKilogram in the hunter's own currency
/// @param asTyped amount and unit, for a person
public record MetalPrice(Word<Element> metal, BigDecimal perKilogram, String asTyped, LocalDate day) {
    /// Reads a price by the pound, the troy ounce or the kilogram.
    ///
    /// @param said the amount, up to seven digits and four decimals
    /// @param unit `lb`, `oz t` or `kg`
    public static Optional<MetalPrice> read(Word<Element> metal, String said, String unit, LocalDate day) {
        String amount = Limits.pointed(said);
        double gramsPerUnit =
                switch (unit) {
                    case "lb" -> Mass.GRAMS_PER_POUND;
                    case "oz t" -> MetalContent.TROY_OUNCE;
                    case "kg" -> 1000;
                    default -> 0;
                };
        if (!amount.matches("[0-9]{1,7}(\\.[0-9]{1,4})?") || gramsPerUnit == 0) {
            return Optional.empty();
        }
        BigDecimal perKilogram = new BigDecimal(amount)
                .multiply(BigDecimal.valueOf(1000 / gramsPerUnit))
                .setScale(6, RoundingMode.HALF_EVEN);
        return Optional.of(new MetalPrice(metal, perKilogram, amount + " per " + unit, day));
    }
}
