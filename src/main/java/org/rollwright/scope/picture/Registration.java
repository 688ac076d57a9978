package org.rollwright.scope.picture;

import boofcv.alg.transform.fft.GeneralPurposeFFT_F32_1D;
import boofcv.struct.image.GrayF32;
import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.hipparchus.exception.MathIllegalStateException;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.LUDecomposer;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.hipparchus.optim.nonlinear.vector.leastsquares.GaussNewtonOptimizer;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresBuilder;
import org.hipparchus.optim.nonlinear.vector.leastsquares.MultivariateJacobianFunction;
import org.hipparchus.util.Pair;

/// How a second picture lies over a first: a point (x, y) of the first is found in the second at `scale · R ·
/// (x, y) + (shiftX, shiftY)`, R a turn by [#turnDegrees()].
///
/// The outlines give centre and size; the turn comes from correlating both coins unrolled about their centres
/// (by Fourier transform, all angles at once); then turn, scale and shift are fitted together by least squares
/// on the relief, coarse to fine.
///
/// Long because its steps, from outline to refinement, share one scale of the same two pictures.
///
/// @param turnDegrees clockwise as seen on the screen, -180 to 180
/// @param scale pixels of the second picture for one of the first, above 0
/// @param shiftX and
/// @param shiftY pixels of the second picture
/// @param correlation of the two reliefs inside the coin without its rim, -1 to 1
/// @param edges correlation of the strength of relief, which a lamp from another side leaves alone, -1 to 1
/// @param first outline used in the first picture
/// @param second outline used in the second picture
/// @param outlined whether a coin's edge was found in both; otherwise the picture's middle stood in for it
public record Registration(
        double turnDegrees,
        double scale,
        double shiftX,
        double shiftY,
        double correlation,
        double edges,
        CoinOutline first,
        CoinOutline second,
        boolean outlined) {

    private static final int ANGLES = 512;
    private static final int RINGS = 40;
    private static final double INNER = 0.12;
    /// The rim is round on every coin and says nothing about the turn.
    private static final double OUTER = 0.9;

    /// Correlation from which on no other outline is tried.
    private static final double SURE = 0.55;

    private static final int COARSE = 96;
    private static final int FINE = 224;

    private static final int MOST_ROUNDS = 14;
    /// A step that moves nothing by so much, in radians, shares and radii, was the last.
    private static final double SETTLED = 1e-5;
    private static final double SINGULAR = 1e-11;

    /// Aligns two pictures whose coins are looked for first.
    ///
    /// @param first of type INT_RGB
    /// @param second of type INT_RGB
    public static Registration of(BufferedImage first, BufferedImage second) {
        List<CoinOutline> ones = CoinOutline.candidates(first);
        List<CoinOutline> twos = CoinOutline.candidates(second);
        if (ones.isEmpty() || twos.isEmpty()) {
            return of(first, middle(first), second, middle(second), false);
        }
        Registration best = of(first, ones.getFirst(), second, twos.getFirst(), true);
        if (best.correlation >= SURE) {
            return best;
        }
        // one of the edges may be a wrong one: try the others
        for (CoinOutline one : ones) {
            for (CoinOutline two : twos) {
                if (!one.equals(ones.getFirst()) || !two.equals(twos.getFirst())) {
                    Registration other = of(first, one, second, two, true);
                    best = other.correlation > best.correlation ? other : best;
                }
            }
        }
        return best;
    }

    /// Aligns two pictures with known outlines.
    public static Registration of(
            BufferedImage first, CoinOutline one, BufferedImage second, CoinOutline two, boolean outlined) {
        double size = Math.min(2 * Math.max(one.radius(), two.radius()), FINE);
        Disc a = new Disc(first, one, (int) Math.max(COARSE, size));
        Disc b = new Disc(second, two, (int) Math.max(COARSE, size));
        List<Fit> fits = new ArrayList<>();
        Level coarseA = a.level(COARSE, 2.0);
        Level coarseB = b.level(COARSE, 2.0);
        for (double turn : turns(a, b)) {
            fits.add(refined(coarseA, coarseB, new Fit(turn, 0, 0, 0, 0), 7));
        }
        fits.sort(Comparator.comparingDouble(Fit::correlation).reversed());
        Fit best = fits.stream()
                .limit(3)
                .map(fit -> refined(coarseA, coarseB, fit, 10))
                .max(Comparator.comparingDouble(Fit::correlation))
                .orElseThrow();
        best = refined(a.level(COARSE, 1.0), b.level(COARSE, 1.0), best, 10);
        Level fineA = a.level(a.side, 0.8);
        Level fineB = b.level(b.side, 0.8);
        best = refined(fineA, fineB, best, MOST_ROUNDS);
        double edges = correlation(a.strength(), b.strength(), best);
        double scale = Math.exp(best.logScale) * two.radius() / one.radius();
        double cos = scale * Math.cos(best.turn);
        double sin = scale * Math.sin(best.turn);
        double shiftX = two.x() + two.radius() * best.x - cos * one.x() + sin * one.y();
        double shiftY = two.y() + two.radius() * best.y - sin * one.x() - cos * one.y();
        return new Registration(
                Math.toDegrees(Math.atan2(Math.sin(best.turn), Math.cos(best.turn))),
                scale,
                shiftX,
                shiftY,
                best.correlation,
                edges,
                one,
                two,
                outlined);
    }

    private static CoinOutline middle(BufferedImage picture) {
        double radius = Math.min(picture.getWidth(), picture.getHeight()) / 2.0;
        return new CoinOutline((picture.getWidth() - 1) / 2.0, (picture.getHeight() - 1) / 2.0, radius, radius, 0, 0);
    }

    /// Evidence that both pictures show the same side of the same design: the better of both correlations.
    public double likeness() {
        return Math.max(correlation, edges);
    }

    /// The second picture drawn in the frame of the first.
    public BufferedImage secondOverFirst(BufferedImage first, BufferedImage second) {
        BufferedImage out = new BufferedImage(first.getWidth(), first.getHeight(), BufferedImage.TYPE_INT_RGB);
        double turn = Math.toRadians(turnDegrees);
        java.awt.geom.AffineTransform toSecond = new java.awt.geom.AffineTransform(
                scale * Math.cos(turn),
                scale * Math.sin(turn),
                -scale * Math.sin(turn),
                scale * Math.cos(turn),
                shiftX + 0.5 - 0.5 * scale * (Math.cos(turn) - Math.sin(turn)),
                shiftY + 0.5 - 0.5 * scale * (Math.sin(turn) + Math.cos(turn)));
        try {
            java.awt.Graphics2D graphics = out.createGraphics();
            graphics.setRenderingHint(
                    java.awt.RenderingHints.KEY_INTERPOLATION, java.awt.RenderingHints.VALUE_INTERPOLATION_BICUBIC);
            graphics.drawRenderedImage(second, toSecond.createInverse());
            graphics.dispose();
        } catch (java.awt.geom.NoninvertibleTransformException e) {
            throw new IllegalStateException("a scale above 0 can be inverted", e);
        }
        return out;
    }

    /// A turn, scale and shift within the unit disc.
    private record Fit(double turn, double logScale, double x, double y, double correlation) {}

    /// A coin cut out and brought to a square about its outline.
    private static final class Disc {
        private final int side;
        private final GrayF32 relief;

        Disc(BufferedImage picture, CoinOutline outline, int side) {
            this.side = side;
            int wanted =
                    (int) Math.ceil(Math.max(picture.getWidth(), picture.getHeight()) * side / (2 * outline.radius()));
            Pixels.Shrunk shrunk = Pixels.grey(picture, Math.max(wanted, 16) * 2);
            GrayF32 square = new GrayF32(side, side);
            double pixel = 2 * outline.radius() / side;
            // one pixel of the square covers several of the picture: smooth first, so that none is passed over
            double perStep = pixel / shrunk.step();
            GrayF32 smooth = perStep > 1.3 ? Pixels.blurred(shrunk.grey(), 0.45 * perStep) : shrunk.grey();
            for (int y = 0; y < side; y++) {
                for (int x = 0; x < side; x++) {
                    double px = outline.x() + (x + 0.5 - side / 2.0) * pixel;
                    double py = outline.y() + (y + 0.5 - side / 2.0) * pixel;
                    square.data[y * side + x] = Pixels.at(smooth, shrunk.fromOriginal(px), shrunk.fromOriginal(py));
                }
            }
            relief = Pixels.relief(square, side / 14.0);
        }

        Level level(int wanted, double blur) {
            GrayF32 source = Pixels.blurred(relief, blur * side / wanted);
            GrayF32 level = new GrayF32(wanted, wanted);
            double step = side / (double) wanted;
            for (int y = 0; y < wanted; y++) {
                for (int x = 0; x < wanted; x++) {
                    level.data[y * wanted + x] = Pixels.at(source, (x + 0.5) * step - 0.5, (y + 0.5) * step - 0.5);
                }
            }
            return new Level(level);
        }

        Level strength() {
            GrayF32 source = level(COARSE, 1.0).grey;
            GrayF32 strength = new GrayF32(COARSE, COARSE);
            for (int y = 1; y < COARSE - 1; y++) {
                for (int x = 1; x < COARSE - 1; x++) {
                    int i = y * COARSE + x;
                    double gx = source.data[i + 1] - source.data[i - 1];
                    double gy = source.data[i + COARSE] - source.data[i - COARSE];
                    strength.data[i] = (float) Math.sqrt(gx * gx + gy * gy);
                }
            }
            return new Level(Pixels.blurred(strength, 1.5));
        }
    }

    /// A square picture of the unit disc with its slopes.
    private static final class Level {
        private final GrayF32 grey;

        Level(GrayF32 grey) {
            this.grey = grey;
        }

        float at(double x, double y) {
            double half = grey.width / 2.0;
            return Pixels.at(grey, x * half + half - 0.5, y * half + half - 0.5);
        }
    }

    /// The turns under which both coins, unrolled about their centres, agree best.
    private static List<Double> turns(Disc a, Disc b) {
        float[] relief = turnCorrelation(a.level(COARSE, 1.2), b.level(COARSE, 1.2));
        float[] strength = turnCorrelation(a.strength(), b.strength());
        float[] sum = new float[ANGLES];
        for (int i = 0; i < ANGLES; i++) {
            sum[i] = relief[i] + strength[i];
        }
        List<Double> turns = new ArrayList<>();
        for (float[] one : List.of(sum, relief, strength)) {
            float[] left = one.clone();
            for (int peak = 0; peak < 3; peak++) {
                int top = 0;
                for (int i = 1; i < ANGLES; i++) {
                    if (left[i] > left[top]) {
                        top = i;
                    }
                }
                double turn = 2 * Math.PI * top / ANGLES;
                if (turns.stream().noneMatch(known -> Math.cos(known - turn) > Math.cos(Math.toRadians(2)))) {
                    turns.add(turn);
                }
                for (int i = -8; i <= 8; i++) {
                    left[Math.floorMod(top + i, ANGLES)] = Float.NEGATIVE_INFINITY;
                }
            }
        }
        return turns;
    }

    /// Correlation for every turn, scaled to a largest possible 1.
    private static float[] turnCorrelation(Level a, Level b) {
        GeneralPurposeFFT_F32_1D fft = new GeneralPurposeFFT_F32_1D(ANGLES);
        float[] product = new float[2 * ANGLES];
        double powerA = 0;
        double powerB = 0;
        for (int ring = 0; ring < RINGS; ring++) {
            double radius = INNER + (OUTER - INNER) * ring / (RINGS - 1);
            float[] one = unrolled(a, radius);
            float[] two = unrolled(b, radius);
            powerA += power(one) * radius;
            powerB += power(two) * radius;
            fft.complexForward(one, 0);
            fft.complexForward(two, 0);
            for (int k = 0; k < ANGLES; k++) {
                float ar = one[2 * k];
                float ai = one[2 * k + 1];
                float br = two[2 * k];
                float bi = two[2 * k + 1];
                product[2 * k] += (float) radius * (ar * br + ai * bi);
                product[2 * k + 1] += (float) radius * (ar * bi - ai * br);
            }
        }
        fft.complexInverse(product, true);
        float[] correlation = new float[ANGLES];
        double norm = Math.sqrt(powerA * powerB) + 1e-9;
        for (int i = 0; i < ANGLES; i++) {
            correlation[i] = (float) (product[2 * i] / norm);
        }
        return correlation;
    }

    private static double power(float[] complex) {
        double sum = 0;
        for (int i = 0; i < complex.length; i += 2) {
            sum += complex[i] * complex[i];
        }
        return sum;
    }

    private static float[] unrolled(Level level, double radius) {
        float[] ring = new float[2 * ANGLES];
        float mean = 0;
        for (int i = 0; i < ANGLES; i++) {
            double angle = 2 * Math.PI * i / ANGLES;
            ring[2 * i] = level.at(radius * Math.cos(angle), radius * Math.sin(angle));
            mean += ring[2 * i] / ANGLES;
        }
        for (int i = 0; i < ANGLES; i++) {
            ring[2 * i] -= mean;
        }
        return ring;
    }

    /// Turn, scale and shift together by least squares, from a first guess.
    ///
    /// @param rounds steps at most
    private static Fit refined(Level a, Level b, Fit start, int rounds) {
        Overlay overlay = new Overlay(a, b);
        try {
            new GaussNewtonOptimizer(new LUDecomposer(SINGULAR), true)
                    .optimize(new LeastSquaresBuilder()
                            .model(overlay)
                            .start(new double[] {start.turn, start.logScale, start.x, start.y})
                            .target(new double[overlay.inside.length])
                            .parameterValidator(Registration::within)
                            .checker((round, before, after) ->
                                    round > rounds || before.getPoint().getLInfDistance(after.getPoint()) < SETTLED)
                            .maxEvaluations(2 * MOST_ROUNDS)
                            .maxIterations(2 * MOST_ROUNDS)
                            .build());
        } catch (MathIllegalStateException e) {
            // a picture without any relief gives no step
        }
        return overlay.best();
    }

    /// No outline is off by more than a third of the coin's size or half of its radius.
    private static RealVector within(RealVector point) {
        return new ArrayRealVector(
                new double[] {
                    point.getEntry(0),
                    Math.clamp(point.getEntry(1), -0.4, 0.4),
                    Math.clamp(point.getEntry(2), -0.5, 0.5),
                    Math.clamp(point.getEntry(3), -0.5, 0.5)
                },
                false);
    }

    private static double correlation(Level a, Level b, Fit fit) {
        return new Overlay(a, b).correlation(fit);
    }

    /// The second picture laid over the first inside the disc: where they differ, and how a turn, scale and shift
    /// would change that. The first picture's slopes stand for those of the second, which are the same where the
    /// pictures lie right, and need not be looked up.
    private static final class Overlay implements MultivariateJacobianFunction {
        private final Level a;
        private final Level b;
        private final double half;
        private final int[] inside;
        private final double[] laid;
        private double meanA;
        private double spreadA;
        private double meanB;
        private double spreadB;
        private Fit best = new Fit(0, 0, 0, 0, Double.NEGATIVE_INFINITY);

        Overlay(Level a, Level b) {
            this.a = a;
            this.b = b;
            int side = a.grey.width;
            half = side / 2.0;
            inside = IntStream.range(0, side * side)
                    .filter(i -> i % side > 0 && i % side < side - 1 && i / side > 0 && i / side < side - 1)
                    .filter(i -> u(i) * u(i) + v(i) * v(i) <= OUTER * OUTER)
                    .toArray();
            laid = new double[inside.length];
        }

        private double u(int i) {
            return (i % a.grey.width + 0.5) / half - 1;
        }

        private double v(int i) {
            return (Math.floorDiv(i, a.grey.width) + 0.5) / half - 1;
        }

        Fit best() {
            return best;
        }

        /// Lays the second picture over the first; mean and spread of both are known afterwards.
        double correlation(Fit fit) {
            double cos = Math.exp(fit.logScale) * Math.cos(fit.turn);
            double sin = Math.exp(fit.logScale) * Math.sin(fit.turn);
            double sa = 0;
            double sb = 0;
            double saa = 0;
            double sbb = 0;
            double sab = 0;
            for (int k = 0; k < inside.length; k++) {
                double u = u(inside[k]);
                double v = v(inside[k]);
                double va = a.grey.data[inside[k]];
                double vb = b.at(cos * u - sin * v + fit.x, sin * u + cos * v + fit.y);
                laid[k] = vb;
                sa += va;
                sb += vb;
                saa += va * va;
                sbb += vb * vb;
                sab += va * vb;
            }
            int n = inside.length;
            meanA = sa / n;
            meanB = sb / n;
            spreadA = Math.sqrt(Math.max(1e-9, saa / n - meanA * meanA));
            spreadB = Math.sqrt(Math.max(1e-9, sbb / n - meanB * meanB));
            return (sab / n - meanA * meanB) / (spreadA * spreadB);
        }

        @Override
        public Pair<RealVector, RealMatrix> value(RealVector point) {
            Fit fit = new Fit(point.getEntry(0), point.getEntry(1), point.getEntry(2), point.getEntry(3), 0);
            double correlation = correlation(fit);
            if (correlation > best.correlation) {
                best = new Fit(fit.turn, fit.logScale, fit.x, fit.y, correlation);
            }
            double cos = Math.cos(fit.turn) / Math.exp(fit.logScale);
            double sin = Math.sin(fit.turn) / Math.exp(fit.logScale);
            int side = a.grey.width;
            float[] grey = a.grey.data;
            double steep = half / 2 / spreadA;
            double[] errors = new double[inside.length];
            double[][] slopes = new double[inside.length][];
            for (int k = 0; k < inside.length; k++) {
                int i = inside[k];
                double u = u(i);
                double v = v(i);
                double gu = (grey[i + 1] - grey[i - 1]) * steep;
                double gv = (grey[i + side] - grey[i - side]) * steep;
                double error = (laid[k] - meanB) / spreadB - (grey[i] - meanA) / spreadA;
                // a glint or a scratch on one coin only must not pull
                double weight = 1 / Math.sqrt(1 + error * error / 4);
                errors[k] = weight * error;
                slopes[k] = new double[] {
                    weight * (gv * u - gu * v),
                    weight * (gu * u + gv * v),
                    weight * (cos * gu - sin * gv),
                    weight * (sin * gu + cos * gv)
                };
            }
            return new Pair<>(new ArrayRealVector(errors, false), new Array2DRowRealMatrix(slopes, false));
        }
    }
}
