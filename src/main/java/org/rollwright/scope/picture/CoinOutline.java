package org.rollwright.scope.picture;

import boofcv.alg.filter.derivative.GImageDerivativeOps;
import boofcv.struct.border.BorderType;
import boofcv.struct.image.GrayF32;
import georegression.fitting.curves.FitEllipseAlgebraic_F64;
import georegression.geometry.UtilEllipse_F64;
import georegression.struct.curve.EllipseRotated_F64;
import georegression.struct.point.Point2D_F64;
import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/// The edge of a coin in a photograph: an ellipse, because no camera stands quite upright over a coin.
///
/// @param x and
/// @param y its centre in pixels, x to the right and y down
/// @param a longer half axis in pixels
/// @param b shorter half axis in pixels
/// @param turn of the longer axis against the x axis, radians, in the picture's coordinates
/// @param support share of the edge, 0 to 1, where the picture has a step of brightness across it
public record CoinOutline(double x, double y, double a, double b, double turn, double support) {
    private static final int LONGEST = 480;

    /// Size at which the edge is fitted last, for measuring.
    private static final int FINE = 1_600;
    private static final int RAYS = 180;
    private static final double LEAST_SUPPORT = 0.5;

    /// Radius of the circle of the same area, pixels.
    public double radius() {
        return Math.sqrt(a * b);
    }

    /// How far the camera stood from upright over the coin, degrees.
    public double tiltDegrees() {
        return Math.toDegrees(Math.acos(Math.min(1, b / a)));
    }

    /// The coin of a picture of one coin, empty when no round edge stands out.
    ///
    /// @param picture of type INT_RGB
    public static Optional<CoinOutline> find(BufferedImage picture) {
        return candidates(picture).stream().findFirst().map(rough -> {
            Pixels.Shrunk fine = Pixels.grey(picture, FINE);
            CoinOutline start = rough.scaledTo(fine);
            CoinOutline now = start;
            Edges edges = new Edges(fine.grey());
            for (double reach : new double[] {0.03, 0.015}) {
                now = edges.fitted(now, reach).orElse(now);
            }
            boolean sane = Math.abs(now.radius() / start.radius() - 1) < 0.04 && now.b > 0.8 * now.a;
            return sane ? new CoinOutline(now.x, now.y, now.a, now.b, now.turn, rough.support).scaled(fine) : rough;
        });
    }

    /// What may be the coin's edge, the likeliest first, four at most: a rim's inner side or a neighbour can be
    /// as round.
    static List<CoinOutline> candidates(BufferedImage picture) {
        Pixels.Shrunk shrunk = Pixels.grey(picture, LONGEST);
        int shorter = Math.min(shrunk.grey().width, shrunk.grey().height);
        if (shorter < 24) {
            return List.of();
        }
        List<CoinOutline> found = new Edges(shrunk.grey()).coins(shorter * 0.15, shorter * 0.55, 12, true);
        // of concentric edges, the coin's own is the outermost that is nearly as complete as the best
        double best = found.stream().mapToDouble(CoinOutline::support).max().orElse(0);
        return found.stream()
                .sorted(Comparator.<CoinOutline>comparingInt(one -> one.support >= 0.85 * best ? 0 : 1)
                        .thenComparing(
                                Comparator.comparingDouble(CoinOutline::radius).reversed()))
                .limit(4)
                .map(one -> one.scaled(shrunk))
                .toList();
    }

    /// Every coin of a picture of several.
    ///
    /// @param picture of type INT_RGB
    public static List<CoinOutline> findAll(BufferedImage picture) {
        Pixels.Shrunk shrunk = Pixels.grey(picture, LONGEST);
        int shorter = Math.min(shrunk.grey().width, shrunk.grey().height);
        if (shorter < 24) {
            return List.of();
        }
        return new Edges(shrunk.grey())
                .coins(Math.max(6, shorter * 0.04), shorter * 0.5, 400, false).stream()
                        .map(one -> one.scaled(shrunk))
                        .toList();
    }

    /// The circle through three points of a coin's edge, for a coin that was not found.
    ///
    /// @return empty when the points lie on a line
    public static Optional<CoinOutline> through(double[] xs, double[] ys) {
        double ax = xs[1] - xs[0];
        double ay = ys[1] - ys[0];
        double bx = xs[2] - xs[0];
        double by = ys[2] - ys[0];
        double d = 2 * (ax * by - ay * bx);
        double size = Math.hypot(ax, ay) * Math.hypot(bx, by);
        if (Math.abs(d) < 1e-3 * size || size == 0) {
            return Optional.empty();
        }
        double a2 = ax * ax + ay * ay;
        double b2 = bx * bx + by * by;
        double x = (by * a2 - ay * b2) / d;
        double y = (ax * b2 - bx * a2) / d;
        double radius = Math.hypot(x, y);
        return Optional.of(new CoinOutline(xs[0] + x, ys[0] + y, radius, radius, 0, 1));
    }

    private CoinOutline scaledTo(Pixels.Shrunk shrunk) {
        double step = shrunk.step();
        return new CoinOutline(shrunk.fromOriginal(x), shrunk.fromOriginal(y), a / step, b / step, turn, support);
    }

    private CoinOutline scaled(Pixels.Shrunk shrunk) {
        int step = shrunk.step();
        return new CoinOutline(shrunk.toOriginal(x), shrunk.toOriginal(y), a * step, b * step, turn, support);
    }

    /// Steps of brightness of a picture and the circles they lie on.
    private static final class Edges {
        private final int width;
        private final int height;
        private final GrayF32 dx;
        private final GrayF32 dy;
        private final float[] strength;
        private final float weak;

        Edges(GrayF32 grey) {
            width = grey.width;
            height = grey.height;
            GrayF32 smooth = Pixels.blurred(grey, 1.2);
            dx = new GrayF32(width, height);
            dy = new GrayF32(width, height);
            GImageDerivativeOps.gradient(
                    boofcv.alg.filter.derivative.DerivativeType.SOBEL, smooth, dx, dy, BorderType.EXTENDED);
            strength = new float[width * height];
            for (int i = 0; i < strength.length; i++) {
                strength[i] = (float) Math.hypot(dx.data[i], dy.data[i]);
            }
            float[] sorted = strength.clone();
            java.util.Arrays.sort(sorted);
            weak = Math.max(0.5f, sorted[(int) (sorted.length * 0.75)]);
        }

        /// Circles by their centres' votes, the best first, none over another.
        ///
        /// @param even whether large circles may gather more votes than small ones; right for one coin that
        ///     fills the picture
        List<CoinOutline> coins(double least, double most, int tries, boolean even) {
            float[] votes = votes(least, most, even);
            List<CoinOutline> found = new ArrayList<>();
            for (int attempt = 0; attempt < tries; attempt++) {
                int top = 0;
                for (int i = 1; i < votes.length; i++) {
                    if (votes[i] > votes[top]) {
                        top = i;
                    }
                }
                if (votes[top] <= 0) {
                    break;
                }
                int px = top % width;
                int py = top / width;
                Optional<CoinOutline> coin = around(px, py, least, most);
                coin.filter(one -> found.stream().noneMatch(other -> overlap(one, other)))
                        .ifPresent(found::add);
                double clear = coin.map(one -> 0.6 * one.radius()).orElse(least * 0.7);
                silence(votes, px, py, clear);
            }
            found.sort(Comparator.comparingDouble(CoinOutline::support).reversed());
            return found;
        }

        private static boolean overlap(CoinOutline one, CoinOutline other) {
            return Math.hypot(one.x - other.x, one.y - other.y) < 0.8 * Math.max(one.radius(), other.radius());
        }

        private void silence(float[] votes, int px, int py, double radius) {
            int reach = (int) Math.ceil(radius);
            for (int y = Math.max(0, py - reach); y <= Math.min(height - 1, py + reach); y++) {
                for (int x = Math.max(0, px - reach); x <= Math.min(width - 1, px + reach); x++) {
                    if (Math.hypot(x - px, y - py) <= radius) {
                        votes[y * width + x] = 0;
                    }
                }
            }
        }

        /// Every step of brightness votes for the centres that lie across it.
        private float[] votes(double least, double most, boolean even) {
            GrayF32 sum = new GrayF32(width, height);
            float[] votes = sum.data;
            for (int y = 1; y < height - 1; y++) {
                for (int x = 1; x < width - 1; x++) {
                    int i = y * width + x;
                    if (strength[i] < weak) {
                        continue;
                    }
                    double ux = dx.data[i] / strength[i];
                    double uy = dy.data[i] / strength[i];
                    float weight = (float) Math.sqrt(strength[i]);
                    for (int sign = -1; sign <= 1; sign += 2) {
                        for (double r = least; r <= most; r += 1) {
                            int vx = (int) Math.round(x + sign * ux * r);
                            int vy = (int) Math.round(y + sign * uy * r);
                            if (vx < 0 || vy < 0 || vx >= width || vy >= height) {
                                break;
                            }
                            votes[vy * width + vx] += even ? weight : weight / (float) r;
                        }
                    }
                }
            }
            return Pixels.blurred(sum, 2).data;
        }

        /// The most complete circle about a point, made an ellipse by its own edge points.
        private Optional<CoinOutline> around(int px, int py, double least, double most) {
            double bestScore = 0;
            double bestRadius = 0;
            for (double r = least; r <= most; r += 1.5) {
                double score = support(px, py, r, r, 0, 1, RAYS / 3) * Math.min(1, 0.5 + r / most);
                if (score > bestScore) {
                    bestScore = score;
                    bestRadius = r;
                }
            }
            if (bestRadius == 0) {
                return Optional.empty();
            }
            CoinOutline circle = new CoinOutline(px, py, bestRadius, bestRadius, 0, 0);
            for (double reach : new double[] {0.2, 0.12, 0.08}) {
                circle = fitted(circle, reach).orElse(circle);
            }
            double support = support(circle.x, circle.y, circle.a, circle.b, circle.turn, 2, RAYS);
            boolean good = support >= LEAST_SUPPORT
                    && circle.radius() >= least * 0.9
                    && circle.radius() <= most * 1.1
                    && circle.b >= 0.82 * circle.a;
            return good
                    ? Optional.of(new CoinOutline(circle.x, circle.y, circle.a, circle.b, circle.turn, support))
                    : Optional.empty();
        }

        /// An ellipse through the strongest steps near a first guess; points far off it are left out.
        private Optional<CoinOutline> fitted(CoinOutline guess, double reach) {
            List<Point2D_F64> points = new ArrayList<>();
            for (int ray = 0; ray < RAYS; ray++) {
                double angle = 2 * Math.PI * ray / RAYS;
                double ux = Math.cos(angle);
                double uy = Math.sin(angle);
                double radius = guess.radiusAt(angle);
                double strongest = weak;
                for (double r = radius * (1 - reach); r <= radius * (1 + reach); r += 0.5) {
                    strongest = Math.max(strongest, across(guess.x + ux * r, guess.y + uy * r, ux, uy));
                }
                // a coin's rim has several steps; its edge is the outermost of the strong ones
                double bestR = 0;
                double best = strongest > weak ? 0.3 * strongest : Double.POSITIVE_INFINITY;
                for (double r = radius * (1 + reach); r >= radius * (1 - reach); r -= 0.5) {
                    double value = across(guess.x + ux * r, guess.y + uy * r, ux, uy);
                    if (value > best) {
                        best = value;
                        bestR = r;
                    } else if (bestR > 0) {
                        break;
                    }
                }
                if (bestR > 0) {
                    double before = across(guess.x + ux * (bestR - 0.5), guess.y + uy * (bestR - 0.5), ux, uy);
                    double after = across(guess.x + ux * (bestR + 0.5), guess.y + uy * (bestR + 0.5), ux, uy);
                    double bend = before - 2 * best + after;
                    double fine = bend < -1e-9 ? 0.25 * (before - after) / bend : 0;
                    double r = bestR + Math.max(-0.5, Math.min(0.5, fine));
                    points.add(new Point2D_F64(guess.x + ux * r, guess.y + uy * r));
                }
            }
            for (int round = 0; round < 4; round++) {
                if (points.size() < RAYS / 3) {
                    return Optional.empty();
                }
                FitEllipseAlgebraic_F64 fit = new FitEllipseAlgebraic_F64();
                if (!fit.process(points)) {
                    return Optional.empty();
                }
                EllipseRotated_F64 ellipse = new EllipseRotated_F64();
                UtilEllipse_F64.convert(fit.getEllipse(), ellipse);
                CoinOutline now =
                        new CoinOutline(ellipse.center.x, ellipse.center.y, ellipse.a, ellipse.b, ellipse.phi, 0);
                if (Double.isNaN(now.a) || Double.isNaN(now.b) || round == 3) {
                    return Double.isNaN(now.a) || Double.isNaN(now.b) ? Optional.empty() : Optional.of(now);
                }
                double limit = Math.max(1.0, 0.06 * now.radius() / (round + 1));
                List<Point2D_F64> kept = new ArrayList<>();
                for (Point2D_F64 point : points) {
                    double angle = Math.atan2(point.y - now.y, point.x - now.x);
                    double off = Math.hypot(point.x - now.x, point.y - now.y) - now.radiusAt(angle);
                    if (Math.abs(off) <= limit) {
                        kept.add(point);
                    }
                }
                points = kept;
            }
            return Optional.empty();
        }

        /// Step of brightness across a direction at a point.
        private double across(double x, double y, double ux, double uy) {
            if (x < 0 || y < 0 || x > width - 1 || y > height - 1) {
                return 0;
            }
            return Math.abs(Pixels.at(dx, x, y) * ux + Pixels.at(dy, x, y) * uy);
        }

        private double support(double cx, double cy, double a, double b, double turn, double slack, int rays) {
            CoinOutline shape = new CoinOutline(cx, cy, a, b, turn, 0);
            int hits = 0;
            for (int ray = 0; ray < rays; ray++) {
                double angle = 2 * Math.PI * ray / rays;
                double ux = Math.cos(angle);
                double uy = Math.sin(angle);
                double radius = shape.radiusAt(angle);
                double best = 0;
                double all = 0;
                for (double r = radius - slack; r <= radius + slack; r += 1) {
                    double x = cx + ux * r;
                    double y = cy + uy * r;
                    double value = across(x, y, ux, uy);
                    if (value > best) {
                        best = value;
                        all = Math.hypot(Pixels.at(dx, x, y), Pixels.at(dy, x, y));
                    }
                }
                hits += best > weak && best > 0.8 * all ? 1 : 0;
            }
            return hits / (double) rays;
        }
    }

    /// Distance of the edge from the centre in a direction.
    private double radiusAt(double angle) {
        double across = Math.cos(angle - turn) / a;
        double along = Math.sin(angle - turn) / b;
        return 1 / Math.sqrt(across * across + along * along);
    }
}
