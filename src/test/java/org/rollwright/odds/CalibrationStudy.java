package org.rollwright.odds;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;
import org.hipparchus.special.Gamma;

/// Simulated hunters under the yield model: how often its intervals hold, and whether the true means fall
/// evenly into their posteriors (simulation-based calibration). Run it by bench/calibration; a smaller one runs
/// as a test.
final class CalibrationStudy {
    static final int BINS = 20;

    /// @param held share of next boxes inside the 50, 80 and 90 % intervals; a discrete interval holds at least
    ///     its level
    /// @param heldExactly the same with the ends counted in part, so that the level is met exactly when
    ///     calibrated
    /// @param ranks how often the true mean fell into each twentieth of its posterior
    record Result(
            int hunters, List<Double> held, List<Double> heldExactly, List<Double> meanHeld, List<Integer> ranks) {
        /// χ² of even ranks.
        double chiSquare() {
            double expected = hunters / (double) BINS;
            double sum = 0;
            for (int count : ranks) {
                sum += (count - expected) * (count - expected) / expected;
            }
            return sum;
        }

        double p() {
            return Gamma.regularizedGammaQ((BINS - 1) / 2.0, chiSquare() / 2);
        }
    }

    private static final double[] LEVELS = {0.5, 0.8, 0.9};

    private CalibrationStudy() {}

    static Result run(int hunters, long seed) {
        RandomGenerator random = RandomGeneratorFactory.of("L64X128MixRandom").create(seed);
        double[] held = new double[3];
        double[] exactly = new double[3];
        double[] means = new double[3];
        int[] ranks = new int[BINS];
        for (int hunter = 0; hunter < hunters; hunter++) {
            double mu = lognormal(random, YieldModel.MU_MEDIAN, YieldModel.MU_SPREAD);
            double shape = lognormal(random, YieldModel.SHAPE_MEDIAN, YieldModel.SHAPE_SPREAD);
            double size = lognormal(random, YieldModel.SIZE_MEDIAN, YieldModel.SIZE_SPREAD);
            int sources = 1 + random.nextInt(4);
            double[] rates = new double[sources];
            List<YieldModel.Seen> seen = new ArrayList<>();
            for (int s = 0; s < sources; s++) {
                rates[s] = gamma(random, shape) * mu / shape;
                int boxes = 1 + random.nextInt(12);
                for (int b = 0; b < boxes; b++) {
                    double part = random.nextInt(4) == 0 ? (1 + random.nextInt(49)) / 50.0 : 1;
                    seen.add(new YieldModel.Seen(
                            "source " + s, 1, part, negativeBinomial(random, rates[s] * part, size)));
                }
                if (random.nextInt(3) == 0) {
                    int before = 2 + random.nextInt(30);
                    long sum = 0;
                    for (int b = 0; b < before; b++) {
                        sum += negativeBinomial(random, rates[s], size);
                    }
                    seen.add(new YieldModel.Seen("source " + s, before, before, sum));
                }
            }
            YieldModel model = YieldModel.fit(seen);
            int asked = random.nextInt(sources);
            long next = negativeBinomial(random, rates[asked], size);
            Predictive predictive = model.next("source " + asked, 1);
            for (int i = 0; i < LEVELS.length; i++) {
                Interval interval = predictive.interval(LEVELS[i]);
                held[i] += next >= interval.low() && next <= interval.high() ? 1 : 0;
                Interval mean = model.meanInterval("source " + asked, LEVELS[i]);
                means[i] += rates[asked] >= mean.low() && rates[asked] <= mean.high() ? 1 : 0;
                // a randomised rank turns the count into an even one
                double rank = predictive.atMost(next - 1)
                        + random.nextDouble() * (predictive.atMost(next) - predictive.atMost(next - 1));
                exactly[i] += Math.abs(rank - 0.5) <= LEVELS[i] / 2 ? 1 : 0;
            }
            double below = model.belowMean("source " + asked, rates[asked]);
            ranks[Math.min(BINS - 1, (int) (below * BINS))]++;
        }
        for (int i = 0; i < LEVELS.length; i++) {
            held[i] /= hunters;
            exactly[i] /= hunters;
            means[i] /= hunters;
        }
        return new Result(
                hunters,
                java.util.Arrays.stream(held).boxed().toList(),
                java.util.Arrays.stream(exactly).boxed().toList(),
                java.util.Arrays.stream(means).boxed().toList(),
                java.util.Arrays.stream(ranks).boxed().toList());
    }

    private static double lognormal(RandomGenerator random, double median, double spread) {
        // the model's priors end where its grid ends
        double z;
        do {
            z = random.nextGaussian();
        } while (Math.abs(z) > 2.6);
        return median * Math.exp(spread * z);
    }

    /// Marsaglia and Tsang 2000.
    static double gamma(RandomGenerator random, double shape) {
        if (shape < 1) {
            return gamma(random, shape + 1) * Math.pow(random.nextDouble(), 1 / shape);
        }
        double d = shape - 1 / 3.0;
        double c = 1 / Math.sqrt(9 * d);
        while (true) {
            double z = random.nextGaussian();
            double v = Math.pow(1 + c * z, 3);
            if (v > 0 && Math.log(random.nextDouble()) < z * z / 2 + d - d * v + d * Math.log(v)) {
                return d * v;
            }
        }
    }

    static long negativeBinomial(RandomGenerator random, double mean, double size) {
        double rate = mean == 0 ? 0 : gamma(random, size) * mean / size;
        long count = 0;
        double left = rate;
        while (left > 0) {
            double step = Math.min(left, 500);
            double limit = Math.exp(-step);
            double product = random.nextDouble();
            while (product > limit) {
                count++;
                product *= random.nextDouble();
            }
            left -= step;
        }
        return count;
    }

    public static void main(String[] args) {
        int hunters = args.length > 0 ? Integer.parseInt(args[0]) : 2_000;
        Result result = run(hunters, 20260301);
        System.out.println("| " + hunters + " simulated hunters | 50 % | 80 % | 90 % |");
        System.out.println("|---|---|---|---|");
        row("next box inside its interval (whole counts: at least the level)", result.held);
        row("next box, ends counted in part", result.heldExactly);
        row("true mean of the source inside its interval", result.meanHeld);
        System.out.printf(
                Locale.ROOT,
                "%nranks of the true mean, by twentieths: %s; chi-square %.1f on 19, p = %.3f%n",
                result.ranks,
                result.chiSquare(),
                result.p());
    }

    private static void row(String name, List<Double> shares) {
        System.out.printf(
                Locale.ROOT,
                "| %s | %.1f %% | %.1f %% | %.1f %% |%n",
                name,
                100 * shares.get(0),
                100 * shares.get(1),
                100 * shares.get(2));
    }
}
