package org.rollwright.odds;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.hipparchus.special.Gamma;

/// Finds per full box, source by source, each source borrowing from the others.
///
/// The count of a box with `n` of `N` coins exposed is negative binomial with mean λ·n/N and size k, where λ is
/// the source's own mean and k is shared. λ is Gamma across sources with mean μ and shape α. Several boxes
/// known only as a sum are negative binomial with size k times their number. μ, α and k have lognormal priors
/// and are summed over a grid, λ over a grid of its own, so that everything is deterministic. Immutable and
/// thread-safe.
public final class YieldModel {
    /// What one box, or several summed up, gave.
    ///
    /// @param source where it came from, the same word for the same source
    /// @param boxes how many boxes stand behind the sum; the searched part of one box counts as 1
    /// @param fullBoxes coins exposed, in full boxes
    /// @param found 0 or more
    public record Seen(String source, double boxes, double fullBoxes, long found) {
        public Seen {
            if (!(boxes > 0) || !(fullBoxes > 0) || found < 0) {
                throw new IllegalArgumentException("no such box: " + boxes + ", " + fullBoxes + ", " + found);
            }
        }
    }

    /// The prior: medians and spreads (standard deviations of logarithms), the same for every denomination and
    /// target.
    static final double MU_MEDIAN = 5;
    static final double MU_SPREAD = 1.5;
    static final double SHAPE_MEDIAN = 4;
    static final double SHAPE_SPREAD = 1;
    static final double SIZE_MEDIAN = 2;
    static final double SIZE_SPREAD = 0.9;

    private static final int MU_STEPS = 21;
    private static final int SHAPE_STEPS = 7;
    private static final int SIZE_STEPS = 11;
    private static final int RATE_STEPS = 90;
    private static final double REACH = 2.6;

    private final double[] rates;
    private final double[] sizes;
    private final List<String> sources;
    /// For every hyper-parameter that still counts: its probability, its size's index, its density over rates.
    private final double[] weight;
    private final int[] sizeIndex;
    private final double[][] across;
    /// For every source and size: the likelihood over rates, scaled.
    private final double[][][] likelihood;

    private YieldModel(
            double[] rates,
            double[] sizes,
            List<String> sources,
            double[] weight,
            int[] sizeIndex,
            double[][] across,
            double[][][] likelihood) {
        this.rates = rates;
        this.sizes = sizes;
        this.sources = sources;
        this.weight = weight;
        this.sizeIndex = sizeIndex;
        this.across = across;
        this.likelihood = likelihood;
    }

    /// Fits the model; without anything seen it is the prior.
    public static YieldModel fit(List<Seen> seen) {
        double[] rates = grid(Math.log(0.002), Math.log(2_000), RATE_STEPS);
        double[] mus = around(MU_MEDIAN, MU_SPREAD, MU_STEPS);
        double[] shapes = around(SHAPE_MEDIAN, SHAPE_SPREAD, SHAPE_STEPS);
        double[] sizes = around(SIZE_MEDIAN, SIZE_SPREAD, SIZE_STEPS);
        Map<String, Map<Seen, Integer>> bySource = new LinkedHashMap<>();
        for (Seen one : seen) {
            bySource.computeIfAbsent(one.source, key -> new LinkedHashMap<>()).merge(one, 1, Integer::sum);
        }
        List<String> sources = new ArrayList<>(bySource.keySet());
        double[][][] logs = new double[sources.size()][sizes.length][];
        for (int s = 0; s < sources.size(); s++) {
            for (int k = 0; k < sizes.length; k++) {
                logs[s][k] = logLikelihood(bySource.getOrDefault(sources.get(s), Map.of()), sizes[k], rates);
            }
        }
        double[][][] likelihood = new double[sources.size()][sizes.length][];
        double[][] scale = new double[sources.size()][sizes.length];
        for (int s = 0; s < sources.size(); s++) {
            for (int k = 0; k < sizes.length; k++) {
                double high = Arrays.stream(logs[s][k]).max().orElse(0);
                scale[s][k] = high;
                likelihood[s][k] = Arrays.stream(logs[s][k])
                        .map(value -> Math.exp(value - high))
                        .toArray();
            }
        }
        List<double[]> across = new ArrayList<>();
        List<Double> logWeights = new ArrayList<>();
        List<Integer> sizeIndex = new ArrayList<>();
        for (int m = 0; m < mus.length; m++) {
            for (int a = 0; a < shapes.length; a++) {
                double[] prior = acrossSources(rates, mus[m], shapes[a]);
                for (int k = 0; k < sizes.length; k++) {
                    double log = normal(m, MU_STEPS) + normal(a, SHAPE_STEPS) + normal(k, SIZE_STEPS);
                    for (int s = 0; s < sources.size(); s++) {
                        double sum = 0;
                        for (int r = 0; r < rates.length; r++) {
                            sum += prior[r] * likelihood[s][k][r];
                        }
                        log += Math.log(sum) + scale[s][k];
                    }
                    logWeights.add(log);
                    across.add(prior);
                    sizeIndex.add(k);
                }
            }
        }
        double high = logWeights.stream().mapToDouble(Double::doubleValue).max().orElse(0);
        List<Integer> kept = new ArrayList<>();
        double all = 0;
        for (int i = 0; i < logWeights.size(); i++) {
            if (logWeights.get(i) > high - 14) {
                kept.add(i);
                all += Math.exp(logWeights.get(i) - high);
            }
        }
        double[] weight = new double[kept.size()];
        int[] index = new int[kept.size()];
        double[][] priors = new double[kept.size()][];
        for (int i = 0; i < weight.length; i++) {
            weight[i] = Math.exp(logWeights.get(kept.get(i)) - high) / all;
            index[i] = sizeIndex.get(kept.get(i));
            priors[i] = across.get(kept.get(i));
        }
        return new YieldModel(rates, sizes, sources, weight, index, priors, likelihood);
    }

    private static double[] grid(double from, double to, int steps) {
        double[] values = new double[steps];
        for (int i = 0; i < steps; i++) {
            values[i] = Math.exp(from + (to - from) * i / (steps - 1));
        }
        return values;
    }

    private static double[] around(double median, double spread, int steps) {
        return grid(Math.log(median) - REACH * spread, Math.log(median) + REACH * spread, steps);
    }

    /// Logarithm of the normal density at a step of a grid that reaches `REACH` deviations, without its
    /// constant.
    private static double normal(int step, int steps) {
        double z = REACH * (2.0 * step / (steps - 1) - 1);
        return -z * z / 2;
    }

    private static double[] acrossSources(double[] rates, double mean, double shape) {
        double[] prior = new double[rates.length];
        double sum = 0;
        double highest = Double.NEGATIVE_INFINITY;
        for (int r = 0; r < rates.length; r++) {
            // density of the logarithm of a Gamma variable, on a grid even in the logarithm
            prior[r] = shape * Math.log(rates[r]) - shape * rates[r] / mean;
            highest = Math.max(highest, prior[r]);
        }
        for (int r = 0; r < rates.length; r++) {
            prior[r] = Math.exp(prior[r] - highest);
            sum += prior[r];
        }
        for (int r = 0; r < rates.length; r++) {
            prior[r] /= sum;
        }
        return prior;
    }

    private record Exposure(double boxes, double fullBoxes) {}

    /// The logarithm of the likelihood over the rates. Boxes of equal exposure share all that depends on the
    /// rate, so that a thousand whole boxes cost little more than one.
    private static double[] logLikelihood(Map<Seen, Integer> seen, double size, double[] rates) {
        double fixed = 0;
        Map<Exposure, double[]> groups = new LinkedHashMap<>();
        for (Map.Entry<Seen, Integer> entry : seen.entrySet()) {
            Seen one = entry.getKey();
            int times = entry.getValue();
            double k = size * one.boxes;
            fixed += times * (Gamma.logGamma(k + one.found) - Gamma.logGamma(k) - Gamma.logGamma(one.found + 1.0));
            double[] sums = groups.computeIfAbsent(new Exposure(one.boxes, one.fullBoxes), key -> new double[2]);
            sums[0] += times;
            sums[1] += (double) times * one.found;
        }
        double[] log = new double[rates.length];
        Arrays.fill(log, fixed);
        groups.forEach((exposure, sums) -> {
            double k = size * exposure.boxes;
            double logK = Math.log(k);
            for (int r = 0; r < rates.length; r++) {
                double mean = rates[r] * exposure.fullBoxes;
                double logAll = Math.log(k + mean);
                log[r] += sums[0] * k * (logK - logAll) + sums[1] * (Math.log(mean) - logAll);
            }
        });
        return log;
    }

    /// The distribution of a source's mean per full box; of a source never seen when the name is not known.
    private double[] posterior(String source) {
        double[] sum = new double[rates.length];
        for (int i = 0; i < weight.length; i++) {
            double[] conditional = conditional(source, i);
            for (int r = 0; r < rates.length; r++) {
                sum[r] += weight[i] * conditional[r];
            }
        }
        return sum;
    }

    private double[] conditional(String source, int hyper) {
        int s = sources.indexOf(source);
        if (s < 0) {
            return across[hyper];
        }
        double[] own = new double[rates.length];
        double[] seen = likelihood[s][sizeIndex[hyper]];
        double sum = 0;
        for (int r = 0; r < rates.length; r++) {
            own[r] = across[hyper][r] * seen[r];
            sum += own[r];
        }
        for (int r = 0; r < rates.length; r++) {
            own[r] /= sum;
        }
        return own;
    }

    /// Posterior mean of a source's finds per full box.
    public double mean(String source) {
        double[] posterior = posterior(source);
        double sum = 0;
        for (int r = 0; r < rates.length; r++) {
            sum += posterior[r] * rates[r];
        }
        return sum;
    }

    /// Interval of a source's mean finds per full box.
    public Interval meanInterval(String source, double level) {
        double[] posterior = posterior(source);
        return new Interval(quantile(posterior, (1 - level) / 2), quantile(posterior, (1 + level) / 2), level);
    }

    /// The posterior probability that a source's mean lies below a value; for checks of calibration.
    double belowMean(String source, double value) {
        double[] posterior = posterior(source);
        double step = Math.log(rates[1] / rates[0]);
        double sum = 0;
        for (int r = 0; r < rates.length; r++) {
            double within = (Math.log(value) - Math.log(rates[r])) / step + 0.5;
            sum += posterior[r] * Math.max(0, Math.min(1, within));
        }
        return sum;
    }

    /// A quantile between the points of the grid, which stand for even stretches of the logarithm.
    private double quantile(double[] distribution, double p) {
        double step = Math.log(rates[1] / rates[0]);
        double sum = 0;
        for (int r = 0; r < rates.length; r++) {
            if (sum + distribution[r] >= p) {
                double within = distribution[r] == 0 ? 0.5 : (p - sum) / distribution[r];
                return Math.exp(Math.log(rates[r]) + (within - 0.5) * step);
            }
            sum += distribution[r];
        }
        return rates[rates.length - 1];
    }

    /// The probability that one source's mean is above another's.
    public double better(String one, String other) {
        double sum = 0;
        for (int i = 0; i < weight.length; i++) {
            double[] a = conditional(one, i);
            double[] b = conditional(other, i);
            double below = 0;
            double wins = 0;
            for (int r = 0; r < rates.length; r++) {
                wins += a[r] * (below + 0.5 * b[r]);
                below += b[r];
            }
            sum += weight[i] * wins;
        }
        return sum;
    }

    /// The next box of a source.
    ///
    /// @param fullBoxes coins to be exposed, in full boxes
    public Predictive next(String source, double fullBoxes) {
        double[][] bySize = bySize(source);
        List<Predictive.Part> parts = new ArrayList<>();
        for (int k = 0; k < sizes.length; k++) {
            for (int r = 0; r < rates.length; r++) {
                if (bySize[k][r] > 1e-7) {
                    parts.add(new Predictive.Part(bySize[k][r], new NegativeBinomial(rates[r] * fullBoxes, sizes[k])));
                }
            }
        }
        return Predictive.of(parts);
    }

    /// The rest of a box of which a part is searched. The negative binomial is Poisson with a Gamma rate of the
    /// box's own; what the part gave updates that rate, so that a rich start promises a rich rest.
    ///
    /// @param searched part of the box searched, in full boxes
    /// @param left part still closed, in full boxes
    public Predictive rest(String source, double searched, long found, double left) {
        if (!(left > 0)) {
            return new Predictive(List.of(1.0));
        }
        List<Predictive.Part> parts = new ArrayList<>();
        double[][] bySize = bySize(source);
        for (int k = 0; k < sizes.length; k++) {
            for (int r = 0; r < rates.length; r++) {
                if (bySize[k][r] > 1e-7) {
                    double size = sizes[k];
                    double mean = rates[r] * searched;
                    double likelihood = new NegativeBinomial(mean, size).probability(found);
                    double expected = rates[r] * left * (size + found) / (size + mean);
                    parts.add(new Predictive.Part(
                            bySize[k][r] * likelihood, new NegativeBinomial(expected, size + found)));
                }
            }
        }
        return Predictive.of(parts);
    }

    private double[][] bySize(String source) {
        double[][] bySize = new double[sizes.length][rates.length];
        for (int i = 0; i < weight.length; i++) {
            double[] conditional = conditional(source, i);
            for (int r = 0; r < rates.length; r++) {
                bySize[sizeIndex[i]][r] += weight[i] * conditional[r];
            }
        }
        return bySize;
    }

    /// Posterior mean of the size: how much boxes of one source clump.
    public double size() {
        double sum = 0;
        for (int i = 0; i < weight.length; i++) {
            sum += weight[i] * sizes[sizeIndex[i]];
        }
        return sum;
    }
}
