package org.rollwright.scale;

import java.math.BigDecimal;
import java.time.LocalDate;

/// A price of a metal, typed by the hunter; never fetched.
///
/// @param metal `copper`, `zinc`, `nickel` or `silver`
/// @param perKilogram in the hunter's own currency
/// @param asTyped amount and unit, for a person
public record MetalPrice(String metal, BigDecimal perKilogram, String asTyped, LocalDate day) {}
