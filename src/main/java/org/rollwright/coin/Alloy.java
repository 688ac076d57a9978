package org.rollwright.coin;

import org.jspecify.annotations.Nullable;

/// What a planchet is made of and what it weighs when new.
///
/// @param name key of the row in catalog/alloys.csv
/// @param weight of a new coin
/// @param tolerance the mint's plus-or-minus on [#weight()], null where unknown
/// @param composition in per cent, as text: `Cu 95; Zn 5`
/// @param magnetic whether a magnet lifts it
/// @param source where the figures stand, or "from memory"
public record Alloy(
        String name,
        Metal metal,
        Mass weight,
        @Nullable Mass tolerance,
        Length diameter,
        String composition,
        boolean magnetic,
        String source) {}
