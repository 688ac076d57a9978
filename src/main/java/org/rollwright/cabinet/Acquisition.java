package org.rollwright.cabinet;

import java.math.BigDecimal;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/// How a coin came that was not found in a hunt.
///
/// @param how `bought`, `given`, `traded` or `owned`, or a word of the hunter's own
/// @param price null when nothing was paid or it is not known
public record Acquisition(
        String how, String from, LocalDate day, @Nullable BigDecimal price) {
    /// For a person: `bought from the club on 2026-03-01`.
    public String sentence() {
        return how + (from.isBlank() ? "" : " from " + from) + " on " + day;
    }
}
