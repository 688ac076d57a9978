package org.rollwright.scope;

/// How a second mint mark lies against the first, from two clicks on the same feature of both.
///
/// @param offset millimetres
/// @param direction from the first image to the second in sixteenths of the compass, the coin upright: N at the
///     top
public record Repunch(double offset, String direction) {
    private static final String[] COMPASS = {
        "N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE", "S", "SSW", "SW", "WSW", "W", "WNW", "NW", "NNW"
    };

    /// @param dx millimetres to the right from first to second
    /// @param dy millimetres upwards from first to second
    public static Repunch of(double dx, double dy) {
        double offset = Math.hypot(dx, dy);
        double bearing = Math.toDegrees(Math.atan2(dx, dy));
        int sector = Math.floorMod(Math.round(bearing / 22.5), 16);
        return new Repunch(offset, COMPASS[sector]);
    }
}
