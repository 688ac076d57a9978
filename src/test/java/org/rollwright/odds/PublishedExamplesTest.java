package org.rollwright.odds;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.hipparchus.optim.MaxEval;
import org.hipparchus.optim.nonlinear.scalar.GoalType;
import org.hipparchus.optim.univariate.BrentOptimizer;
import org.hipparchus.optim.univariate.SearchInterval;
import org.hipparchus.optim.univariate.UnivariateObjectiveFunction;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/// Worked examples as published; the numbers E01 … are the rows of reference/stats_examples.csv, which names
/// each source.
class PublishedExamplesTest {
    /// E01 (encyclopedia article on the coupon collector's problem), E02 (from memory), E03 (a mathematics data
    /// set's page on the problem), E04 (thoughtfulexaminations.com), E05 (math.techqa.club question 4153581).
    @ParameterizedTest
    @CsvSource({"50, 224.960267", "365, 2364.646023", "5, 11.416667", "10, 29.289683", "7, 18.15"})
    void waiting_for_all_of_equally_common_kinds(int kinds, double draws) {
        double[] shares = new double[kinds];
        Arrays.fill(shares, 1.0 / kinds);
        assertThat(Completion.expectedUntilAll(shares)).isCloseTo(draws, within(1e-4));
    }

    /// E08 (problem: math.techqa.club question 4153581; formula: imathworks.com), E09 (same formula).
    @Test
    void waiting_for_all_of_unequally_common_kinds() {
        double[] dwarfs = {1 / 13.0, 2 / 13.0, 2 / 13.0, 2 / 13.0, 2 / 13.0, 2 / 13.0, 2 / 13.0};
        assertThat(Completion.expectedUntilAll(dwarfs)).isCloseTo(20.357900, within(1e-4));
        assertThat(Completion.expectedUntilAll(new double[] {1 / 2.0, 1 / 3.0, 1 / 6.0}))
                .isCloseTo(7.3, within(1e-4));
    }

    /// E10 to E12 (a statistics calculator's FAQ), E13 (epitools documentation), E14 (calculatorhub.com).
    @ParameterizedTest
    @CsvSource({
        "25, 0.90, 17.3821, 34.9161",
        "25, 0.95, 16.1787, 36.9049",
        "25, 0.99, 13.9954, 41.0004",
        "0, 0.95, 0, 3.6889",
        "10, 0.95, 4.7954, 18.3904",
    })
    void exact_intervals_of_counts(int count, double level, double low, double high) {
        Interval interval = ExactIntervals.count(count, level);
        assertThat(interval.low()).isCloseTo(low, within(1e-4));
        assertThat(interval.high()).isCloseTo(high, within(1e-4));
    }

    /// E37: SciPy's documentation of the exact interval of a proportion.
    @Test
    void exact_interval_of_a_share() {
        Interval interval = ExactIntervals.share(7, 50, 0.95);
        assertThat(interval.low()).isCloseTo(0.05819170033997342, within(1e-9));
        assertThat(interval.high()).isCloseTo(0.26739600249700846, within(1e-9));
    }

    /// E47: SciPy's documentation of the exact binomial test.
    @Test
    void exact_binomial_test() {
        assertThat(ExactIntervals.atLeast(3, 15, 0.1)).isCloseTo(0.18406106910639114, within(1e-9));
    }

    /// E15: Bliss and Fisher, Biometrics 1953, red mites on 150 apple leaves (counts from memory): the
    /// published size is the likeliest.
    @Test
    void negative_binomial_fit() {
        int[] leaves = {70, 38, 17, 10, 9, 3, 2, 1};
        long[] mites = new long[150];
        int at = 0;
        for (int count = 0; count < leaves.length; count++) {
            Arrays.fill(mites, at, at + leaves[count], count);
            at += leaves[count];
        }
        double mean = Arrays.stream(mites).average().orElseThrow();
        assertThat(mean).isCloseTo(1.14667, within(5e-6));
        double likeliest = new BrentOptimizer(1e-8, 1e-10)
                .optimize(
                        GoalType.MAXIMIZE,
                        new SearchInterval(0.01, 100),
                        new UnivariateObjectiveFunction(size -> Arrays.stream(mites)
                                .mapToDouble(new NegativeBinomial(mean, size)::logProbability)
                                .sum()),
                        MaxEval.unlimited())
                .getPoint();
        assertThat(likeliest).isCloseTo(1.02459, within(5e-5));
    }

    /// E16 and E17: deaths by horse kick in the Prussian army, 10 and 14 corps over 20 years (rstudio-pubs
    /// 1006900).
    @ParameterizedTest
    @CsvSource({"'109,65,22,3,1', 199.3115, 0.4804", "'144,91,32,11,2', 304.0000, 0.1454"})
    void dispersion_of_horse_kicks(String counts, double d, double p) {
        int[] corps =
                Arrays.stream(counts.split(",")).mapToInt(Integer::parseInt).toArray();
        int[] years = new int[Arrays.stream(corps).sum()];
        int at = 0;
        for (int count = 0; count < corps.length; count++) {
            Arrays.fill(years, at, at + corps[count], count);
            at += corps[count];
        }
        Clustering clustering = Clustering.of(years, 1, 1);
        assertThat(clustering.d()).isCloseTo(d, within(1e-4));
        assertThat(clustering.p()).isCloseTo(p, within(1e-4));
    }

    /// E19: Poisson probabilities of horse kicks (rstudio-pubs 1006900): a negative binomial of huge size is
    /// Poisson.
    @Test
    void poisson_probabilities() {
        NegativeBinomial poisson = new NegativeBinomial(0.61, 1e9);
        double[] published = {0.5434, 0.3314, 0.1011, 0.0206, 0.0031};
        for (int count = 0; count < published.length; count++) {
            assertThat(poisson.probability(count)).isCloseTo(published[count], within(5e-5));
        }
    }

    /// E38 (howcodex.com), E39 (mathspin.ai), E40 (standarddeviationcalculator.net): draws from a pack of
    /// cards. A look at enders with certain knowledge of the pack is the same draw; the choices behind it are
    /// checked here.
    @ParameterizedTest
    @CsvSource({"52, 26, 5, 2, 0.325130", "52, 13, 5, 2, 0.274280", "52, 26, 7, 3, 0.290542"})
    void draws_without_replacement(int all, int marked, int drawn, int hits, double probability) {
        double log = EnderLook.logChoose(marked, hits)
                + EnderLook.logChoose(all - marked, drawn - hits)
                - EnderLook.logChoose(all, drawn);
        assertThat(Math.exp(log)).isCloseTo(probability, within(1e-6));
    }
}
