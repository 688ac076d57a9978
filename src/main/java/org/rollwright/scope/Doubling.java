package org.rollwright.scope;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/// How the second image of a doubled die lies against the first: pairs of points, in millimetres from the
/// coin's centre, x to the right and y up, fitted by least squares to each motion that can be told from motion
/// alone.
///
/// The motions are told in words: rotation about the centre, shift to one side, pivot about another point, spread
/// towards rim or centre. A doubling of two designs, a thickening, an altered hub and a tilt leave no motion of their
/// own and cannot be told here.
///
/// @param motion the likeliest by corrected Akaike's criterion
/// @param angleDegrees counter-clockwise; 0 for shift and spread
/// @param angleSd its standard error in degrees
/// @param pivotX and
/// @param pivotY millimetres; the centre for rotation, NaN without rotation
/// @param shiftX and
/// @param shiftY mean displacement, millimetres
/// @param spread part by which a spread moves every point outwards; 0 for the others
/// @param rms root of the mean squared residual of a point, millimetres
/// @param fits every motion with its criterion, best first
public record Doubling(
        Motion motion,
        double angleDegrees,
        double angleSd,
        double pivotX,
        double pivotY,
        double shiftX,
        double shiftY,
        double spread,
        double rms,
        List<Fit> fits) {
    /// A pair of points: where the first image has a mark, and where the second has it.
    public record Pair(double x, double y, double u, double v) {}

    /// What can be told from motion.
    public enum Motion {
        SHIFT("shift", 2),
        ROTATION("rotation", 1),
        PIVOT("pivot", 3),
        SPREAD("spread", 1);

        private final String word;
        private final int parameters;

        Motion(String word, int parameters) {
            this.word = word;
            this.parameters = parameters;
        }

        public String word() {
            return word;
        }
    }

    /// One motion fitted.
    ///
    /// @param aicc corrected Akaike's criterion, lower is better
    public record Fit(Motion motion, double rms, double aicc) {}

    public Doubling {
        fits = List.copyOf(fits);
    }

    /// Fits all motions.
    ///
    /// @param pairs at least three
    /// @param clickSd standard deviation of a clicked coordinate in millimetres, above 0
    public static Doubling fit(List<Pair> pairs, double clickSd) {
        int n = pairs.size();
        if (n < 3 || !(clickSd > 0)) {
            throw new IllegalArgumentException("three pairs and a click error above 0 are needed");
        }
        double px = 0;
        double py = 0;
        double qx = 0;
        double qy = 0;
        for (Pair pair : pairs) {
            px += pair.x / n;
            py += pair.y / n;
            qx += pair.u / n;
            qy += pair.v / n;
        }
        double dot = 0;
        double cross = 0;
        double dotCentred = 0;
        double crossCentred = 0;
        double square = 0;
        double squareCentred = 0;
        double along = 0;
        for (Pair pair : pairs) {
            dot += pair.x * pair.u + pair.y * pair.v;
            cross += pair.x * pair.v - pair.y * pair.u;
            dotCentred += (pair.x - px) * (pair.u - qx) + (pair.y - py) * (pair.v - qy);
            crossCentred += (pair.x - px) * (pair.v - qy) - (pair.y - py) * (pair.u - qx);
            square += pair.x * pair.x + pair.y * pair.y;
            squareCentred += (pair.x - px) * (pair.x - px) + (pair.y - py) * (pair.y - py);
            along += pair.x * (pair.u - pair.x) + pair.y * (pair.v - pair.y);
        }
        double rotation = Math.atan2(cross, dot);
        double rigid = Math.atan2(crossCentred, dotCentred);
        double tx = qx - Math.cos(rigid) * px + Math.sin(rigid) * py;
        double ty = qy - Math.sin(rigid) * px - Math.cos(rigid) * py;
        double spread = square == 0 ? 0 : along / square;
        List<Fit> fits = new ArrayList<>();
        for (Motion motion : Motion.values()) {
            double residual = 0;
            for (Pair pair : pairs) {
                double[] to =
                        switch (motion) {
                            case SHIFT -> new double[] {pair.x + qx - px, pair.y + qy - py};
                            case ROTATION -> turned(pair, rotation, 0, 0);
                            case PIVOT -> turned(pair, rigid, tx, ty);
                            case SPREAD -> new double[] {pair.x * (1 + spread), pair.y * (1 + spread)};
                        };
                residual += (pair.u - to[0]) * (pair.u - to[0]) + (pair.v - to[1]) * (pair.v - to[1]);
            }
            int k = motion.parameters;
            // both ends of a pair are clicked, so a difference has twice the variance of a click
            double fit = residual / (2 * clickSd * clickSd);
            double correction = 2 * n - k - 1 > 0 ? 2.0 * k * (k + 1) / (2 * n - k - 1) : Double.POSITIVE_INFINITY;
            fits.add(new Fit(motion, Math.sqrt(residual / n), fit + 2 * k + correction));
        }
        fits.sort(Comparator.comparingDouble(Fit::aicc));
        Motion best = fits.getFirst().motion;
        boolean turns = best == Motion.ROTATION || best == Motion.PIVOT;
        double angle = best == Motion.ROTATION ? rotation : best == Motion.PIVOT ? rigid : 0;
        double moment = best == Motion.ROTATION ? square : squareCentred;
        double sd = turns && moment > 0 ? Math.toDegrees(Math.sqrt(2) * clickSd / Math.sqrt(moment)) : 0;
        double[] pivot = best == Motion.ROTATION
                ? new double[] {0, 0}
                : best == Motion.PIVOT ? pivot(rigid, tx, ty) : new double[] {Double.NaN, Double.NaN};
        return new Doubling(
                best,
                Math.toDegrees(angle),
                sd,
                pivot[0],
                pivot[1],
                qx - px,
                qy - py,
                best == Motion.SPREAD ? spread : 0,
                fits.getFirst().rms,
                fits);
    }

    private static double[] turned(Pair pair, double angle, double tx, double ty) {
        return new double[] {
            Math.cos(angle) * pair.x - Math.sin(angle) * pair.y + tx,
            Math.sin(angle) * pair.x + Math.cos(angle) * pair.y + ty
        };
    }

    /// The point that a rotation with a shift leaves where it is.
    private static double[] pivot(double angle, double tx, double ty) {
        double half = angle / 2;
        double cotangent = 1 / Math.tan(half);
        return new double[] {(tx - ty * cotangent) / 2, (ty + tx * cotangent) / 2};
    }
}
