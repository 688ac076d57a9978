package org.rollwright.cabinet;

import org.jspecify.annotations.Nullable;

/// Where coins lie: a cabinet, a drawer in it, tube 12 in that; a flip; away at grading.
///
/// @param parent the place it is in, null for one that stands by itself
/// @param capacity coins it holds, 0 when that does not matter
public record Place(PlaceId id, @Nullable PlaceId parent, String name, int capacity) {}
