package org.rollwright.hunt;

import java.time.Instant;
import java.util.List;

/// What an attribution of a find came to.
///
/// @param variety key of the variety it is taken for; blank when it is none
public record AttributionNote(
        FindId find, String variety, String verdict, List<Event.Look> path, String note, Instant at) {
    public AttributionNote {
        path = List.copyOf(path);
    }
}
