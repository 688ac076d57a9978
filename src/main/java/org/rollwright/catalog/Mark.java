package org.rollwright.catalog;

import java.util.List;

/// The place of date or mint mark on a face, in units of the drawing: 1000 across, 0 at the upper left.
///
/// @param what whether it is the date or the mint mark
/// @param zone the group of the drawing it stands in
/// @param first year from which it stands there
/// @param last year until which it stands there
/// @param mints codes that stand there; empty for a date
/// @param kind only on coins of this kind; blank for any
/// @param x middle of the text; on a curve the degrees clockwise from the top
/// @param y base line; 0 on a curve
/// @param size height of the figures
/// @param bend 0 for a straight line; otherwise the radius of the base line about the coin's centre, below 0 when the
///     figures stand with their heads towards the centre
/// @param turn of a straight line, degrees clockwise
public record Mark(
        What what,
        String zone,
        int first,
        int last,
        List<String> mints,
        String kind,
        int x,
        int y,
        int size,
        int bend,
        int turn) {
    /// What stands there.
    public enum What {
        DATE,
        MINT
    }

    public Mark {
        mints = List.copyOf(mints);
    }

    /// Whether a coin of this year and kind has it.
    boolean standsOn(int year, String coinKind) {
        return first <= year && year <= last && (kind.isEmpty() || kind.equals(coinKind));
    }
}
