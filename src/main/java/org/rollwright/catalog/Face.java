package org.rollwright.catalog;

import java.util.List;
import java.util.Optional;

/// One side of a design: what it shows, its zones, and where date and mint mark stand. Its drawing is
/// catalog/zones/NAME.svg.
///
/// @param description in words, for who does not see the drawing
public record Face(String name, String description, List<Zone> zones, List<Mark> marks) {
    public Face {
        zones = List.copyOf(zones);
        marks = List.copyOf(marks);
    }

    /// A zone by its id.
    public Optional<Zone> zone(String id) {
        return zones.stream().filter(zone -> zone.id().equals(id)).findFirst();
    }
}
