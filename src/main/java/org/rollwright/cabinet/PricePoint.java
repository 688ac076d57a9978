package org.rollwright.cabinet;

import java.math.BigDecimal;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Colour;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;

/// What a coin costs in a grade, as the hunter read or paid it.
///
/// @param colour null where the colour does not matter
/// @param amount above 0, in the hunter's own currency
public record PricePoint(
        Identity issue, Grade grade, @Nullable Colour colour, BigDecimal amount, LocalDate day, String note) {

    /// Whether it is about the same coin in the same state.
    public boolean sameCell(PricePoint other) {
        return issue.equals(other.issue) && grade.equals(other.grade) && java.util.Objects.equals(colour, other.colour);
    }
}
