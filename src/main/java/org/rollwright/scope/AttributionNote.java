package org.rollwright.scope;

import java.time.Instant;
import java.util.List;
import org.rollwright.hunt.FindId;

/// What an attribution of a find came to.
///
/// @param variety key of the variety it is taken for; blank when it is none
public record AttributionNote(
        FindId find, String variety, String verdict, List<ScopeEvent.Look> path, String note, Instant at) {
    public AttributionNote {
        path = List.copyOf(path);
    }
}
