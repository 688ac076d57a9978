package org.rollwright.scale;

import java.time.Instant;
import java.util.List;
import org.rollwright.coin.Mass;

/// One cup that fills from box to box: readings of the whole, whose differences are what each box added.
///
/// @param alloy name of the alloy collected in it
/// @param tare of the empty cup
/// @param resolution smallest step of the scale
public record Cup(String name, String alloy, Mass tare, Mass resolution, Instant since, List<Reading> readings) {
    /// The cup with all that is in it.
    ///
    /// @param what the box or hunt just searched
    public record Reading(String what, Mass mass, Instant at) {}

    public Cup {
        readings = List.copyOf(readings);
    }

    /// The reading before the next one: the last, or the empty cup.
    public Mass last() {
        return readings.isEmpty() ? tare : readings.getLast().mass();
    }
}
