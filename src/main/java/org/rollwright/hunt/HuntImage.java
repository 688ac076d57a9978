package org.rollwright.hunt;

import java.util.List;
import java.util.Map;

/// A [HuntBook] as plain values, for a snapshot.
///
/// @param ordinals the last ordinal of a find, by number of its hunt
public record HuntImage(
        List<Hunt> hunts,
        List<Box> boxes,
        List<Find> finds,
        List<HuntBook.Balance> balances,
        long lastBox,
        long lastHunt,
        long lastFind,
        Map<Long, Integer> ordinals) {}
