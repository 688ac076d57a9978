package org.rollwright.hunt;

import java.math.BigDecimal;
import java.time.LocalDate;

/// A movement of face value from one place to another, in the hunter's own currency.
///
/// @param from and
/// @param to names of the till's accounts
/// @param amount above 0
/// @param where bank or branch, blank when none
public record CashMove(LocalDate day, String from, String to, BigDecimal amount, String where, String what) {}
