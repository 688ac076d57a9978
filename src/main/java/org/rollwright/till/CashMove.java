package org.rollwright.till;

import java.math.BigDecimal;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;
import org.rollwright.journal.Word;

/// A movement of face value from one place to another, booked by hand.
///
/// @param from and
/// @param to accounts of the till
/// @param amount above 0
/// @param where bank or branch, blank when none
/// @param currency three letters (ISO 4217); null in records made before currencies were told apart, and then
///     US dollars
public record CashMove(
        LocalDate day,
        Word<Account> from,
        Word<Account> to,
        BigDecimal amount,
        String where,
        String what,
        @Nullable String currency) {}
