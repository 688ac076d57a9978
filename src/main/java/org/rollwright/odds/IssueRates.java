package org.rollwright.odds;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.CholeskyDecomposition;
import org.rollwright.catalog.Issue;
import org.rollwright.coin.Identity;

/// How common each issue is where this hunter hunts: mintage, times a survival that declines smoothly with age
/// and differs by mint, both fitted to the finds, and drawn towards what was really found of each issue.
///
/// The rate of issue i is Gamma with mean m_i before its own finds, where log m_i is linear in log mintage, age
/// and mint (Poisson regression with a weak ridge), and the prior weighs as much as `weight` coins (chosen by
/// marginal likelihood).
public final class IssueRates {
    /// One issue and what was found of it.
    ///
    /// @param mintage coins struck, above 0
    /// @param coins searched while it was watched for
    public record Counted(Identity identity, int year, String mint, double mintage, long found, double coins) {}

    /// Age is counted from here, in decades.
    private static final int REFERENCE_YEAR = 1940;

    private static final double[] WEIGHTS = {1e3, 3e3, 1e4, 3e4, 1e5, 3e5, 1e6, 3e6, 1e7, 3e7, 1e8};

    private final Map<Identity, GammaRate> rates = new TreeMap<>(org.rollwright.hunt.Tally.IDENTITY_ORDER);
    private final double agePerDecade;
    private final Map<String, Double> mintEffect = new TreeMap<>();
    private final double weight;

    private IssueRates(double agePerDecade, double weight) {
        this.agePerDecade = agePerDecade;
        this.weight = weight;
    }

    /// Fits the model. Mintage enters with a power of its own, because great mintages were also melted and
    /// hoarded.
    ///
    /// @param counted at least one issue
    public static IssueRates fit(List<Counted> counted) {
        List<String> mints =
                counted.stream().map(Counted::mint).distinct().sorted().toList();
        int columns = 3 + Math.max(0, mints.size() - 1);
        double[][] x = new double[counted.size()][columns];
        double[] y = new double[counted.size()];
        double[] offset = new double[counted.size()];
        for (int i = 0; i < counted.size(); i++) {
            Counted one = counted.get(i);
            x[i][0] = 1;
            x[i][1] = (one.year - REFERENCE_YEAR) / 10.0;
            x[i][2] = Math.log(one.mintage) - Math.log(1e8);
            int mint = mints.indexOf(one.mint);
            if (mint > 0) {
                x[i][2 + mint] = 1;
            }
            y[i] = one.found;
            offset[i] = Math.log(Math.max(one.coins, 1e-9));
        }
        double[] beta = poisson(x, y, offset);
        double[] mean = new double[counted.size()];
        for (int i = 0; i < mean.length; i++) {
            mean[i] = Math.exp(dot(x[i], beta));
        }
        double best = Double.NEGATIVE_INFINITY;
        double weight = WEIGHTS[0];
        for (double candidate : WEIGHTS) {
            double log = 0;
            for (int i = 0; i < mean.length; i++) {
                if (counted.get(i).coins > 0) {
                    log += new NegativeBinomial(mean[i] * counted.get(i).coins, Math.max(1e-9, mean[i] * candidate))
                            .logProbability(counted.get(i).found);
                }
            }
            if (log > best) {
                best = log;
                weight = candidate;
            }
        }
        IssueRates fitted = new IssueRates(beta[1], weight);
        for (int m = 1; m < mints.size(); m++) {
            fitted.mintEffect.put(mints.get(m), beta[2 + m]);
        }
        for (int i = 0; i < mean.length; i++) {
            Counted one = counted.get(i);
            GammaRate prior = new GammaRate(Math.max(1e-12, mean[i] * weight), weight);
            fitted.rates.put(one.identity, prior.after((double) one.found, one.coins));
        }
        return fitted;
    }

    /// Newton's method for a Poisson regression with a ridge on all but the constant; the coefficient of log
    /// mintage is drawn towards 1.
    private static double[] poisson(double[][] x, double[] y, double[] offset) {
        int n = x[0].length;
        double[] beta = new double[n];
        double[] centre = new double[n];
        double[] ridge = new double[n];
        Arrays.fill(ridge, 1.0);
        ridge[0] = 1e-6;
        ridge[2] = 4;
        centre[2] = 1;
        beta[2] = 1;
        double expected = 1e-12;
        double all = 1e-12;
        for (int i = 0; i < y.length; i++) {
            expected += Math.exp(offset[i] + x[i][2]);
            all += y[i];
        }
        beta[0] = Math.log(all / expected);
        for (int step = 0; step < 60; step++) {
            double[] slope = new double[n];
            double[][] curvature = new double[n][n];
            for (int i = 0; i < y.length; i++) {
                double mean = Math.exp(Math.min(50, offset[i] + dot(x[i], beta)));
                for (int a = 0; a < n; a++) {
                    slope[a] += x[i][a] * (y[i] - mean);
                    for (int b = 0; b < n; b++) {
                        curvature[a][b] += x[i][a] * x[i][b] * mean;
                    }
                }
            }
            for (int a = 0; a < n; a++) {
                slope[a] -= ridge[a] * (beta[a] - centre[a]);
                curvature[a][a] += ridge[a];
            }
            double[] change = new CholeskyDecomposition(new Array2DRowRealMatrix(curvature, false))
                    .getSolver()
                    .solve(new ArrayRealVector(slope, false))
                    .toArray();
            double largest = 0;
            for (double one : change) {
                largest = Math.max(largest, Math.abs(one));
            }
            double damp = Math.min(1, 2 / Math.max(1e-9, largest));
            for (int a = 0; a < n; a++) {
                beta[a] += damp * change[a];
            }
            if (largest < 1e-10) {
                break;
            }
        }
        return beta;
    }

    private static double dot(double[] a, double[] b) {
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            sum += a[i] * b[i];
        }
        return sum;
    }

    /// Rate of an issue per coin; empty for one that was not fitted.
    public java.util.Optional<GammaRate> rate(Identity identity) {
        return java.util.Optional.ofNullable(rates.get(identity));
    }

    public Map<Identity, GammaRate> rates() {
        return java.util.Collections.unmodifiableMap(rates);
    }

    /// Factor by which a coin of the next decade is likelier to be found than its mintage says.
    public double perDecade() {
        return Math.exp(agePerDecade);
    }

    /// Factor of each mint against the first in the alphabet.
    public Map<String, Double> mintFactors() {
        Map<String, Double> factors = new TreeMap<>();
        mintEffect.forEach((mint, effect) -> factors.put(mint, Math.exp(effect)));
        return factors;
    }

    /// Coins that the fitted pattern weighs as much as, against what was found of an issue itself.
    public double weight() {
        return weight;
    }

    /// Counted issues of a list, those without a mintage left out.
    public static List<Counted> counted(
            List<Issue> issues, Map<Identity, Integer> found, java.util.function.ToDoubleFunction<Issue> exposure) {
        List<Counted> counted = new ArrayList<>();
        for (Issue issue : issues) {
            Long mintage = issue.mintage();
            double coins = exposure.applyAsDouble(issue);
            if (mintage != null && mintage > 0 && coins > 0 && !issue.collectorOnly()) {
                counted.add(new Counted(
                        issue.identity(),
                        issue.year(),
                        issue.mint().code(),
                        mintage,
                        found.getOrDefault(issue.identity(), 0),
                        coins));
            }
        }
        return counted;
    }
}
