package org.rollwright.catalog;

/// A part of one side of a design, on a polar grid about the coin's centre: where to look.
///
/// @param id a word that is unique on its face, such as `mint-mark`; the drawing's group of that id, if it has one,
///     holds the lines of the zone
/// @param name for a person, such as `mint mark below the date`
/// @param inner where it begins, in per cent of the coin's radius, 0 to 99
/// @param outer where it ends, in per cent of the coin's radius, above `inner`, at most 100
/// @param from where it begins, degrees clockwise from the top, 0 to 360
/// @param to where it ends, degrees clockwise from the top, 0 to 360; below `from` when it passes the top. 0 and 360
///     together are the whole round
public record Zone(String id, String name, int inner, int outer, int from, int to) {
    /// How far round it reaches, degrees, above 0 and at most 360.
    public int sweep() {
        int sweep = Math.floorMod(to - from, 360);
        return sweep == 0 ? 360 : sweep;
    }

    /// Whether it goes all the way round.
    public boolean isRound() {
        return sweep() == 360;
    }

    /// Its middle, degrees clockwise from the top.
    double middleAngle() {
        return from + sweep() / 2.0;
    }

    /// Whether a point of the side lies in it.
    ///
    /// @param radius from the coin's centre, in per cent of the coin's radius
    /// @param angle degrees clockwise from the top
    public boolean holds(double radius, double angle) {
        double on = ((angle - from) % 360 + 360) % 360;
        return inner <= radius && radius <= outer && (isRound() || on <= sweep());
    }
}
