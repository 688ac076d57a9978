package org.rollwright.till;

import java.math.BigDecimal;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/// A movement of face value from one place to another, booked by hand.
///
/// @param from and
/// @param to names of the till's accounts
/// @param amount above 0
/// @param where bank or branch, blank when none
/// @param currency three letters (ISO 4217); null in records made before currencies were told apart, and then
///     US dollars
public record CashMove(
        LocalDate day,
        String from,
        String to,
        BigDecimal amount,
        String where,
        String what,
        @Nullable String currency) {}
