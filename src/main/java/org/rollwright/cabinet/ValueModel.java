package org.rollwright.cabinet;

import static org.rollwright.text.Texts.t;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.DecompositionSolver;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.MatrixUtils;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Colour;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;

/// What a coin may be worth between and around the prices the hunter typed.
///
/// The logarithm of a value is a level of the issue plus a shape of grade and colour common to all issues. The
/// shape rises with the grade, and with the colour from BN over RB to RD; it is fitted to every price typed, of
/// whatever series, by least squares with a weak prior slope. What the shape leaves over is carried from the
/// issue's own points to the cells near them (ordinary kriging), and its size is set by leaving out each point
/// in turn. A typed price is returned exactly; a cell far from any is blank.
public final class ValueModel {
    /// One answer.
    ///
    /// @param amount middle value; the typed amount when [#typed()]
    /// @param low and
    /// @param high ends of the 80 % interval
    /// @param logSd standard deviation of the logarithm, 0 when typed
    public record Value(double amount, double low, double high, double logSd, boolean typed) {}

    /// A sum of values.
    ///
    /// @param blank how many had no value
    public record Sum(double amount, double low, double high, int counted, int blank) {}

    private static final int STEPS = Grade.steps().size();
    private static final int COLOURS = 3;
    private static final double Z80 = 1.2815515655446004;

    /// Grade steps from the nearest price beyond which a cell stays blank.
    private static final double REACH = 10;

    /// Steps a different colour counts as.
    private static final double COLOUR_STEPS = 3;

    /// Grade steps over which what an issue leaves over fades to a third (1/e).
    private static final double LIKE_STEPS = 8;
    /// Likeness of two cells one colour apart, 0 to 1.
    private static final double COLOUR_LIKENESS = 0.8;
    /// Spread of the logarithm where too few prices tell it.
    private static final double USUAL_SIGMA = 0.3;
    /// Spread of one typed price around the shape, and of a rise around its prior; of the logarithm, our own
    /// guess.
    private static final double NOISE = 0.15;
    private static final double PRIOR_SD = 0.08;

    /// Errors of different issues are not independent: they share the shape. This part of each is common.
    private static final double COMMON = 0.3;

    private record Point(int step, int colour, double log) {}

    private final Map<Identity, List<Point>> points = new HashMap<>();
    private final Map<Identity, Map<Integer, BigDecimal>> typed = new HashMap<>();
    private final double[] rise = new double[STEPS];
    private final double[] premium = new double[COLOURS];
    private final double sigma;
    private final Map<Identity, Value[]> surfaces = new java.util.concurrent.ConcurrentHashMap<>();

    private ValueModel(Map<Identity, List<PricePoint>> prices) {
        prices.forEach((issue, list) -> {
            List<Point> own = new ArrayList<>();
            Map<Integer, BigDecimal> exact = new HashMap<>();
            for (PricePoint price : list) {
                int step = Grade.steps().indexOf(price.grade().points());
                int colour = colour(price.colour());
                own.add(new Point(step, colour, Math.log(price.amount().doubleValue())));
                exact.put(step * COLOURS + colour, price.amount());
            }
            points.put(issue, own);
            typed.put(issue, exact);
        });
        fitShape();
        sigma = fitSigma();
    }

    /// Learns from every price.
    public static ValueModel of(Map<Identity, List<PricePoint>> prices) {
        return new ValueModel(prices);
    }

    private static int colour(@Nullable Colour colour) {
        return colour == null || colour == Colour.BN ? 0 : colour == Colour.RB ? 1 : 2;
    }

    /// Prior rise of the logarithm from one grade step to the next: about an eighth below 60, a fifth above
    /// (from memory, weak).
    private static double priorRise(int step) {
        return Grade.steps().get(step) > 60 ? 0.2 : 0.12;
    }

    private double shape(int step, int colour) {
        double sum = premium[colour];
        for (int k = 1; k <= step; k++) {
            sum += rise[k];
        }
        return sum;
    }

    /// Coordinate by coordinate: each rise and premium to where the squares are least, none below zero.
    private void fitShape() {
        for (int k = 1; k < STEPS; k++) {
            rise[k] = priorRise(k);
        }
        premium[1] = 0.25;
        premium[2] = 0.6;
        List<List<Point>> issues =
                points.values().stream().filter(list -> list.size() > 1).toList();
        double weight = 1 / (NOISE * NOISE);
        double prior = 1 / (PRIOR_SD * PRIOR_SD);
        for (int sweep = 0; sweep < 60; sweep++) {
            double moved = 0;
            for (int k = 1; k < STEPS; k++) {
                double[] sums = sums(issues, k, -1);
                double best = (weight * sums[0] + prior * priorRise(k)) / (weight * sums[1] + prior);
                best = Math.max(0.01, best);
                moved = Math.max(moved, Math.abs(best - rise[k]));
                rise[k] = best;
            }
            for (int c = 1; c < COLOURS; c++) {
                double[] sums = sums(issues, -1, c);
                double best = (weight * sums[0] + prior * (c == 1 ? 0.25 : 0.6)) / (weight * sums[1] + prior);
                best = Math.max(premium[c - 1] + 0.01, best);
                moved = Math.max(moved, Math.abs(best - premium[c]));
                premium[c] = best;
            }
            if (moved < 1e-5) {
                break;
            }
        }
    }

    /// Normal equation of one parameter with levels taken out: what the others leave, times how much each point
    /// depends on it.
    private double[] sums(List<List<Point>> issues, int k, int c) {
        double[] cumulative = new double[STEPS];
        for (int s = 1; s < STEPS; s++) {
            cumulative[s] = cumulative[s - 1] + rise[s];
        }
        double now = k >= 0 ? rise[k] : premium[c];
        double cross = 0;
        double square = 0;
        for (List<Point> list : issues) {
            double meanX = 0;
            double meanR = 0;
            for (Point point : list) {
                double x = depends(point, k, c);
                meanX += x / list.size();
                meanR += (point.log - cumulative[point.step] - premium[point.colour] + now * x) / list.size();
            }
            for (Point point : list) {
                double x = depends(point, k, c) - meanX;
                double r =
                        point.log - cumulative[point.step] - premium[point.colour] + now * depends(point, k, c) - meanR;
                cross += x * r;
                square += x * x;
            }
        }
        return new double[] {cross, square};
    }

    private static double depends(Point point, int k, int c) {
        return k >= 0 ? (point.step >= k ? 1 : 0) : (point.colour == c ? 1 : 0);
    }

    private static double likeness(Point a, Point b) {
        return Math.exp(-Math.abs(a.step - b.step) / LIKE_STEPS)
                * Math.pow(COLOUR_LIKENESS, Math.abs(a.colour - b.colour));
    }

    /// The spread that makes four in five points, each left out, fall into their interval.
    private double fitSigma() {
        List<Double> misses = new ArrayList<>();
        for (List<Point> list : points.values()) {
            if (list.size() < 3) {
                continue;
            }
            for (Point left : list) {
                List<Point> others =
                        list.stream().filter(one -> !one.equals(left)).toList();
                double[] guess = new Kriging(others).at(left.step, left.colour);
                misses.add(Math.abs(left.log - guess[0]) / Math.max(1e-6, guess[1]));
            }
        }
        if (misses.size() < 12) {
            return USUAL_SIGMA;
        }
        misses.sort(Double::compare);
        return Math.max(0.02, misses.get((int) Math.min(misses.size() - 1.0, 0.8 * misses.size())) / Z80);
    }

    /// Ordinary kriging from an issue's points: the mean of the issue is not known beforehand.
    private final class Kriging {
        private final List<Point> known;
        private final DecompositionSolver solver;

        Kriging(List<Point> known) {
            this.known = known;
            int n = known.size();
            RealMatrix matrix = MatrixUtils.createRealMatrix(n + 1, n + 1);
            for (int i = 0; i < n; i++) {
                for (int j = 0; j < n; j++) {
                    matrix.setEntry(i, j, likeness(known.get(i), known.get(j)) + (i == j ? 1e-4 : 0));
                }
                matrix.setEntry(i, n, 1);
                matrix.setEntry(n, i, 1);
            }
            solver = new LUDecomposition(matrix).getSolver();
        }

        /// Mean of the logarithm and its standard deviation in units of sigma.
        double[] at(int step, int colour) {
            int n = known.size();
            Point wanted = new Point(step, colour, 0);
            RealVector right = new ArrayRealVector(n + 1);
            for (int i = 0; i < n; i++) {
                right.setEntry(i, likeness(known.get(i), wanted));
            }
            right.setEntry(n, 1);
            RealVector weights = solver.solve(right);
            double mean = shape(step, colour);
            for (int i = 0; i < n; i++) {
                Point point = known.get(i);
                mean += weights.getEntry(i) * (point.log - shape(point.step, point.colour));
            }
            return new double[] {mean, Math.sqrt(Math.max(1e-6, 1 - weights.dotProduct(right)))};
        }
    }

    /// What a coin may be worth in a grade and colour; empty when no price is near.
    ///
    /// @param colour null counts as brown, the least
    public Optional<Value> value(Identity issue, Grade grade, @Nullable Colour colour) {
        Value[] surface = surface(issue);
        if (surface.length == 0) {
            return Optional.empty();
        }
        return Optional.ofNullable(surface[Grade.steps().indexOf(grade.points()) * COLOURS + colour(colour)]);
    }

    /// Whether two prices typed for an issue contradict each other: a better coin for less.
    public Optional<String> contradiction(Identity issue) {
        List<Point> list = points.getOrDefault(issue, List.of());
        for (Point a : list) {
            for (Point b : list) {
                if (!a.equals(b) && a.step >= b.step && a.colour >= b.colour && a.log < b.log - 1e-12) {
                    return Optional.of(t(
                            "cabinet.price-falls",
                            Grade.steps().get(a.step),
                            Grade.steps().get(b.step)));
                }
            }
        }
        return Optional.empty();
    }

    private Value[] surface(Identity issue) {
        return surfaces.computeIfAbsent(issue, this::computed);
    }

    private Value[] computed(Identity issue) {
        List<Point> known = points.getOrDefault(issue, List.of());
        if (known.isEmpty()) {
            return new Value[0];
        }
        int cells = STEPS * COLOURS;
        double[] mean = new double[cells];
        double[] sd = new double[cells];
        double[] floor = new double[cells];
        double[] roof = new double[cells];
        boolean[] exact = new boolean[cells];
        Kriging kriging = new Kriging(known);
        Arrays.fill(floor, Double.NEGATIVE_INFINITY);
        Arrays.fill(roof, Double.POSITIVE_INFINITY);
        for (int step = 0; step < STEPS; step++) {
            for (int colour = 0; colour < COLOURS; colour++) {
                int cell = step * COLOURS + colour;
                double[] guess = kriging.at(step, colour);
                mean[cell] = guess[0];
                sd[cell] = guess[1] * sigma;
                for (Point point : known) {
                    if (point.step <= step && point.colour <= colour) {
                        floor[cell] = Math.max(floor[cell], point.log);
                    }
                    if (point.step >= step && point.colour >= colour) {
                        roof[cell] = Math.min(roof[cell], point.log);
                    }
                    if (point.step == step && point.colour == colour) {
                        exact[cell] = true;
                        mean[cell] = point.log;
                        sd[cell] = 0;
                    }
                }
                if (!exact[cell]) {
                    mean[cell] = clamped(mean[cell], floor[cell], roof[cell]);
                }
            }
        }
        double[] level = ordered(mean);
        Value[] values = new Value[cells];
        Map<Integer, BigDecimal> amounts = typed.getOrDefault(issue, Map.of());
        for (int cell = 0; cell < cells; cell++) {
            BigDecimal amount = amounts.get(cell);
            if (amount != null) {
                double value = amount.doubleValue();
                values[cell] = new Value(value, value, value, 0, true);
            } else if (near(known, cell / COLOURS, cell % COLOURS)) {
                double low = clamped(level[cell] - Z80 * sd[cell], floor[cell], roof[cell]);
                double high = clamped(level[cell] + Z80 * sd[cell], floor[cell], roof[cell]);
                values[cell] = new Value(Math.exp(level[cell]), Math.exp(low), Math.exp(high), sd[cell], false);
            }
        }
        return values;
    }

    private static double clamped(double value, double floor, double roof) {
        // two prices that contradict each other leave no room: the middle between them
        return floor > roof ? (floor + roof) / 2 : Math.max(floor, Math.min(roof, value));
    }

    /// The mean of the least surface above and the greatest below that both rise with grade and colour; a
    /// surface that rises already stays as it is.
    private static double[] ordered(double[] mean) {
        double[] up = mean.clone();
        double[] down = mean.clone();
        for (int cell = 0; cell < mean.length; cell++) {
            if (cell >= COLOURS) {
                up[cell] = Math.max(up[cell], up[cell - COLOURS]);
            }
            if (cell % COLOURS > 0) {
                up[cell] = Math.max(up[cell], up[cell - 1]);
            }
        }
        for (int cell = mean.length - 1; cell >= 0; cell--) {
            if (cell + COLOURS < mean.length) {
                down[cell] = Math.min(down[cell], down[cell + COLOURS]);
            }
            if (cell % COLOURS < COLOURS - 1) {
                down[cell] = Math.min(down[cell], down[cell + 1]);
            }
        }
        double[] out = new double[mean.length];
        for (int cell = 0; cell < mean.length; cell++) {
            out[cell] = (up[cell] + down[cell]) / 2;
        }
        return out;
    }

    private static boolean near(List<Point> known, int step, int colour) {
        return known.stream()
                .anyMatch(
                        point -> Math.abs(point.step - step) + COLOUR_STEPS * Math.abs(point.colour - colour) <= REACH);
    }

    /// The value of many coins together. Errors of one issue go together wholly, those of different issues by
    /// the part they share; they are not added as if independent.
    ///
    /// @param parts values by issue; an empty one is counted as blank
    public static Sum sum(Map<Identity, List<Optional<Value>>> parts) {
        double amount = 0;
        double common = 0;
        double own = 0;
        int counted = 0;
        int blank = 0;
        for (List<Optional<Value>> values : parts.values()) {
            double ofIssue = 0;
            for (Optional<Value> value : values) {
                if (value.isEmpty()) {
                    blank++;
                    continue;
                }
                counted++;
                double variance = value.get().logSd * value.get().logSd;
                double mean = value.get().amount * Math.exp(variance / 2);
                amount += mean;
                ofIssue += mean * Math.sqrt(Math.expm1(variance));
            }
            common += ofIssue;
            own += ofIssue * ofIssue;
        }
        double sd = Math.sqrt(COMMON * common * common + (1 - COMMON) * own);
        // a sum of positive values: the interval is that of a logarithmic normal distribution of the same spread
        double logSd = amount > 0 ? Math.sqrt(Math.log1p(sd * sd / (amount * amount))) : 0;
        double middle = amount * Math.exp(-logSd * logSd / 2);
        return new Sum(amount, middle * Math.exp(-Z80 * logSd), middle * Math.exp(Z80 * logSd), counted, blank);
    }
}
