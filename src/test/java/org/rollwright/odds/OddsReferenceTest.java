package org.rollwright.odds;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.apache.commons.rng.sampling.distribution.ContinuousSampler;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;
import org.rollwright.hunt.Watch;

/// Every model against a second implementation in NumPy and SciPy (odds/reference.py, run with SciPy 1.17.1;
/// the values stand in odds/reference.csv). Simulated values there come from 200,000 draws or more.
class OddsReferenceTest {
    private static final Watch WHEAT = new Watch("wheat", "series wheat");

    private final Map<String, Double> reference = new HashMap<>();

    @BeforeEach
    void values() throws IOException {
        try (var in = new BufferedReader(new InputStreamReader(
                Objects.requireNonNull(OddsReferenceTest.class.getResourceAsStream("/odds/reference.csv")),
                StandardCharsets.UTF_8))) {
            in.lines().skip(1).forEach(row -> {
                int comma = row.lastIndexOf(',');
                reference.put(row.substring(0, comma), Double.parseDouble(row.substring(comma + 1)));
            });
        }
    }

    private double value(String key) {
        return Objects.requireNonNull(reference.get(key), key);
    }

    /// Equal to nine digits, or to one in a thousand million.
    private void same(String key, double computed) {
        assertThat(computed).as(key).isCloseTo(value(key), within(1e-9 + 1e-9 * Math.abs(value(key))));
    }

    private void near(String key, double computed, double by) {
        assertThat(computed).as(key).isCloseTo(value(key), within(by));
    }

    @Test
    void rates_as_gamma_distributions() {
        for (GammaRate rate : List.of(
                new GammaRate(0.02, 3000),
                new GammaRate(0.5, 500),
                new GammaRate(3.2, 80_000),
                new GammaRate(250, 1000))) {
            String name = "gamma " + rate.shape() + " " + rate.rate();
            for (double p : new double[] {0.05, 0.5, 0.95}) {
                double quantile = value(name + " quantile " + p);
                assertThat(rate.quantile(p) / quantile).as(name).isCloseTo(1, within(1e-8));
            }
            same(name + " exactly 2", rate.exactly(2, 2500));
            same(name + " at least one", rate.atLeastOne(2500));
            assertThat(rate.interval(0.9))
                    .isEqualTo(new Interval(rate.quantile((1 - 0.9) / 2), rate.quantile((1 + 0.9) / 2), 0.9));
            assertThat(rate.after(3, 500)).isEqualTo(new GammaRate(rate.shape() + 3, rate.rate() + 500));
            assertThat(rate.mean()).isEqualTo(rate.shape() / rate.rate());
        }
    }

    @Test
    void exact_intervals_and_tests() {
        for (int count : new int[] {0, 1, 5, 40, 700}) {
            Interval interval = ExactIntervals.count(count, 0.9);
            same("count " + count + " low", interval.low());
            same("count " + count + " high", interval.high());
        }
        for (int[] share : new int[][] {{0, 59}, {4, 40}, {40, 40}, {1, 3000}}) {
            Interval interval = ExactIntervals.share(share[0], share[1], 0.9);
            same("share " + share[0] + "/" + share[1] + " low", interval.low());
            same("share " + share[0] + "/" + share[1] + " high", interval.high());
        }
        same("poisson at least 0 of 2.0", ExactIntervals.atLeast(0, 2.0));
        same("poisson at least 1 of 2.0", ExactIntervals.atLeast(1, 2.0));
        same("poisson at least 9 of 3.5", ExactIntervals.atLeast(9, 3.5));
        same("poisson at least 200 of 170.0", ExactIntervals.atLeast(200, 170.0));
        same("binomial at least 0 of 10 at 0.1", ExactIntervals.atLeast(0, 10, 0.1));
        same("binomial at least 3 of 10 at 0.1", ExactIntervals.atLeast(3, 10, 0.1));
        same("binomial at least 14 of 2500 at 0.004", ExactIntervals.atLeast(14, 2500, 0.004));
    }

    @Test
    void counts_that_clump() {
        for (NegativeBinomial counts :
                List.of(new NegativeBinomial(5, 2), new NegativeBinomial(0.3, 0.4), new NegativeBinomial(120, 7.5))) {
            String name = "nb " + counts.mean() + " " + counts.size();
            for (int k : new int[] {0, 1, 7, 130}) {
                same(name + " exactly " + k, counts.probability(k));
                same(name + " at most " + k, counts.atMost(k));
                same(name + " at least " + k, counts.atLeast(k));
            }
            for (double p : new double[] {0.01, 0.05, 0.5, 0.95, 0.999}) {
                same(name + " quantile " + p, (double) counts.quantile(p));
            }
            Predictive as = Predictive.of(List.of(new Predictive.Part(3, counts)));
            for (double p : new double[] {0.01, 0.05, 0.5, 0.95, 0.999}) {
                same(name + " quantile " + p, as.quantile(p));
            }
            near(name + " at most 7", as.atMost(7), 1e-9);
            near(name + " at least 7", as.atLeast(7), 1e-9);
            assertThat(as.atLeast(0)).isEqualTo(1);
            assertThat(as.atMost(-1)).isZero();
            assertThat(as.mean()).isCloseTo(counts.mean(), within(0.001 * counts.mean() + 1e-4));
            assertThat(as.interval(0.9))
                    .isEqualTo(new Interval(as.quantile((1 - 0.9) / 2), as.quantile((1 + 0.9) / 2), 0.9));
            assertThat(as.quantile(1)).isEqualTo(as.probabilities().size() - 1);
        }
        assertThat(new NegativeBinomial(0, 2).atMost(0)).isEqualTo(1);
        assertThat(new NegativeBinomial(0, 2).atLeast(1)).isZero();
        assertThat(new NegativeBinomial(0, 2).probability(0)).isEqualTo(1);
        assertThat(new NegativeBinomial(0, 2).probability(1)).isZero();
    }

    @Test
    void a_look_at_the_ends_of_a_closed_box() {
        for (EnderLook look : List.of(
                new EnderLook(2500, 1.7, 400, 48, 3),
                new EnderLook(2500, 1.7, 400, 48, 0),
                new EnderLook(60, 0.5, 2, 20, 20),
                new EnderLook(100, 3, 0.5, 10, 2))) {
            String name = "enders " + look.coins() + " " + look.a() + " " + look.b() + " " + look.visible() + " "
                    + look.matching();
            same(name + " mean", look.mean());
            same(name + " before", look.meanBefore());
            for (double p : new double[] {0.05, 0.1, 0.5, 0.9, 0.95}) {
                same(name + " quantile " + p, look.quantile(p));
            }
            assertThat(look.interval(0.8)).isEqualTo(new Interval(look.quantile(0.1), look.quantile(0.9), 0.8));
        }
        assertThat(new EnderLook(60, 0.5, 2, 20, 20).quantile(1.1)).isEqualTo(60);
    }

    private static SomeBox box(int number, int found) {
        return new SomeBox(number, found);
    }

    private static History history(List<BoxHistory> boxes) {
        return new History(Denomination.US_CENT, WHEAT, boxes, List.of());
    }

    @Test
    void what_boxes_teach_of_their_enders() {
        List<BoxHistory> boxes = new ArrayList<>();
        int[] found = {12, 11, 3, 4, 20, 18, 7, 8, 15, 14, 2, 3, 0, 0};
        for (int i = 0; i < found.length; i++) {
            boxes.add(
                    box(i + 1, found[i]).enders(i == 0 ? 2 : i == 4 ? 1 : 0, 20).made());
        }
        boxes.add(box(15, 9).coins(1250).enders(3, 20).inPart().made());
        boxes.add(box(16, 1).coins(1000).inPart().made());
        EnderHistory enders = EnderHistory.of(history(boxes));
        same("ender prior a", enders.a());
        same("ender prior b", enders.b());
        assertThat(enders.boxes()).as("searched whole, with enders noted").isEqualTo(14);
        double expected = 117 * 280 / 35_000.0;
        assertThat(enders.ratio()).isCloseTo(3 / expected, within(1e-12));
        // the exact interval of a count of 3, 90 %: 0.8177 to 7.7537 (Garwood's table, from memory)
        assertThat(enders.ratioInterval().low()).isCloseTo(0.8177 / expected, within(1e-4));
        assertThat(enders.ratioInterval().high()).isCloseTo(7.7537 / expected, within(1e-4));
        assertThat(enders.sentence(new EnderLook(2500, enders.a(), enders.b(), 20, 1), "wheat"))
                .as("an interval that holds 1 says nothing of trust")
                .doesNotContain("trust");
        EnderHistory none = EnderHistory.of(history(List.of(box(1, 5).made())));
        assertThat(none.boxes()).isZero();
        assertThat(none.ratio()).isNaN();
        assertThat(none.ratioInterval()).isEqualTo(new Interval(0, Double.POSITIVE_INFINITY, 0.9));
        EnderHistory more = new EnderHistory(2, 400, 5, 1.8, new Interval(1.1, 2.9, 0.9));
        EnderHistory less = new EnderHistory(2, 400, 5, 0.4, new Interval(0.1, 0.9, 0.9));
        EnderHistory few = new EnderHistory(2, 400, 4, 1.8, new Interval(1.1, 2.9, 0.9));
        EnderLook look = new EnderLook(2500, 2, 400, 48, 1);
        assertThat(more.sentence(look, "wheat"))
                .isEqualTo("Enders: 1 of 48 match. Before the look 12 wheat were to be expected in the box, now 17"
                        + " (6 to 31, 4 in 5). In your 5 boxes roll ends held 1.8 times the share of the whole box,"
                        + " so trust this less.");
        assertThat(less.sentence(look, "wheat")).contains("0.4 times");
        assertThat(few.sentence(look, "wheat")).doesNotContain("times");
    }

    @Test
    void varieties_looked_for() {
        for (int[] seen : new int[][] {{0, 59}, {4, 40}, {7, 7}}) {
            VarietyOdds odds = VarietyOdds.of("1936-D rpm", seen[1], seen[0], 25);
            same("variety " + seen[0] + "/" + seen[1] + " next 25", odds.inNext());
            assertThat(odds.share()).isEqualTo(ExactIntervals.share(seen[0], seen[1], 0.9));
        }
        // 1/0.2143 and 1/0.0348: the exact interval of 4 in 40
        assertThat(VarietyOdds.of("1936-D rpm", 40, 4, 25).sentence())
                .isEqualTo("1936-D rpm: 4 found in 40 checked; anything from one in 29 to one in 5 is still credible"
                        + " (9 in 10). In the next 25 checked: 90 % for at least one.");
        assertThat(VarietyOdds.of("1955 ddo", 59, 0, 25).sentence())
                .isEqualTo("1955 ddo: 0 found in 59 checked; anything from never to one in 20 is still credible"
                        + " (9 in 10). In the next 25 checked: 16 % for at least one.");
    }

    private static List<BoxHistory> dated(int[] days, int[] found, double[] full) {
        return IntStream.range(0, days.length)
                .mapToObj(i -> box(i + 1, found[i])
                        .on(LocalDate.of(2024, 3, 1).plusDays(days[i]))
                        .coins(Math.round(2500 * full[i]))
                        .made())
                .toList();
    }

    private static double[] ones(int length) {
        double[] ones = new double[length];
        Arrays.fill(ones, 1);
        return ones;
    }

    private Trend trend(String name, List<BoxHistory> boxes) {
        Trend trend = Trend.of(history(boxes)).orElseThrow();
        near("trend " + name + " per year", trend.perYear(), 1e-6);
        near("trend " + name + " low", trend.ninety().low(), 1e-5);
        near("trend " + name + " high", trend.ninety().high(), 1e-5);
        return trend;
    }

    @Test
    void a_trend_over_the_years() {
        int[] days = {0, 45, 90, 150, 200, 260, 330, 400, 470, 560, 640, 730};
        List<BoxHistory> falling = dated(days, new int[] {22, 30, 9, 14, 25, 8, 12, 3, 9, 2, 7, 1}, ones(12));
        assertThat(trend("falling", falling).sentence())
                .isEqualTo("Your yield is falling: -66 % a year (-79 to -46 %, 9 in 10) over 2.0 years and 12 boxes.");
        assertThat(trend("falling", falling.reversed()).perYear())
                .as("the order of the journal does not matter")
                .isLessThan(1);
        List<BoxHistory> rising = dated(
                new int[] {0, 30, 70, 110, 170, 240, 300, 365, 420},
                new int[] {3, 4, 3, 6, 7, 6, 9, 11, 12},
                new double[] {1, 1, 0.5, 1, 1, 0.8, 1, 1, 1});
        assertThat(trend("rising", rising).sentence())
                .startsWith("Your yield is rising: +171 % a year (+57 to +368 %, 9 in 10) over 1.1 years and 9 boxes.");
        List<BoxHistory> level = dated(
                new int[] {0, 10, 20, 30, 100, 150, 200, 250, 300, 360},
                new int[] {8, 0, 22, 3, 14, 1, 9, 17, 2, 10},
                ones(10));
        assertThat(trend("level", level).sentence()).startsWith("No trend can be told apart from chance: +3 % a year");
        assertThat(Trend.of(history(rising.subList(0, 8))))
                .as("eight boxes are enough")
                .isPresent();
        assertThat(Trend.of(history(rising.subList(0, 7)))).isEmpty();
        List<BoxHistory> undated = new ArrayList<>(rising.subList(0, 7));
        undated.add(box(50, 3).made());
        assertThat(Trend.of(history(undated)))
                .as("a box without a day is none of them")
                .isEmpty();
        undated.add(box(51, 3).on(LocalDate.of(2024, 11, 1)).made());
        assertThat(Trend.of(history(undated)).orElseThrow().sentence()).endsWith("8 boxes.");
        int[] short182 = {0, 20, 40, 60, 80, 100, 120, 182};
        int[] short183 = {0, 20, 40, 60, 80, 100, 120, 183};
        int[] found = {3, 4, 3, 4, 3, 4, 3, 4};
        assertThat(Trend.of(history(dated(short182, found, ones(8)))))
                .as("not half a year")
                .isEmpty();
        assertThat(Trend.of(history(dated(short183, found, ones(8))))).isPresent();
    }

    @Test
    void finds_that_lie_together() {
        for (Map.Entry<String, int[]> entry : Map.of(
                        "spread", new int[] {0, 1, 0, 2, 1, 0, 0, 1, 0, 1, 1, 0},
                        "close", new int[] {0, 0, 5, 4, 0, 0, 1, 0, 0, 0, 0, 0})
                .entrySet()) {
            String name = "cluster " + entry.getKey();
            int[] rolls = entry.getValue();
            for (int w = 1; w <= 6; w++) {
                Clustering one = Clustering.of(rolls, w, 8);
                same(name + " d", one.d());
                same(name + " p", one.p());
                same(name + " window " + w, one.largest());
                near(name + " window " + w + " chance", one.pLargest(), 0.011);
                assertThat(one.window()).isEqualTo(w);
                int held =
                        Arrays.stream(rolls, one.from() - 1, one.from() - 1 + w).sum();
                assertThat(held).as("the window said").isEqualTo(one.largest());
            }
            Clustering widest = Clustering.widest(rolls, 6, 8);
            same(name + " d", widest.d());
            same(name + " p", widest.p());
            near(name + " widest chance", widest.pLargest(), 0.03);
        }
        Clustering close = Clustering.widest(new int[] {0, 0, 5, 4, 0, 0, 1, 0, 0, 0, 0, 0}, 6, 8);
        assertThat(close.window()).isEqualTo(2);
        assertThat(close.from()).isEqualTo(3);
        assertThat(close.largest()).isEqualTo(9);
        assertThat(Clustering.widest(new int[] {9, 0, 0, 0, 0}, 10, 8).window()).isEqualTo(1);
        assertThat(Clustering.widest(new int[] {0, 0, 0, 0, 9}, 10, 8).from()).isEqualTo(5);
        Clustering nothing = new Clustering(Double.NaN, 1, 1, 0, 1, 1);
        assertThat(Clustering.widest(new int[5], 3, 8)).isEqualTo(nothing);
        assertThat(Clustering.of(new int[5], 1, 8)).isEqualTo(nothing);
    }

    @Test
    void mixtures_of_dates() {
        Map<String, Integer> usual =
                Map.of("1944", 60, "1945", 50, "1946", 40, "1957-D", 80, "1958-D", 70, "1919-S", 1);
        Mixture ordinary = Mixture.of(Map.of("1944", 3, "1957-D", 5, "1958-D", 3, "1945", 2), usual, 1)
                .orElseThrow();
        near("mixture usual p", ordinary.p(), 0.05);
        assertThat(ordinary.stands()).isEmpty();
        Mixture odd =
                Mixture.of(Map.of("1944", 6, "1946", 5, "1957-D", 1), usual, 1).orElseThrow();
        near("mixture odd p", odd.p(), 0.008);
        assertThat(Mixture.of(Map.of("1944", 8), usual, 1)).isPresent();
        assertThat(Mixture.of(Map.of("1944", 7), usual, 1)).isEmpty();
        assertThat(Mixture.of(Map.of("1944", 8), Map.of("1944", 30), 1)).isPresent();
        assertThat(Mixture.of(Map.of("1944", 8), Map.of("1944", 29), 1)).isEmpty();
        // expected of twelve: 0.06 of 1919-S, 0.02 of the two never seen, 2.4 of 1944
        assertThat(Mixture.of(
                                Map.of("1944", 3, "1919-S", 3, "1909-S", 2, "1914-D", 3, "1931-S", 1, "1921-S", 5),
                                usual,
                                1)
                        .orElseThrow()
                        .stands())
                .as("the most telling three, none that came once")
                .containsExactly("1921-S", "1914-D", "1909-S");
    }

    @Test
    void draws_of_a_gamma_variable_follow_its_distribution() {
        int draws = 40_000;
        for (double shape : new double[] {0.05, 0.4, 1.0, 3.7, 60.0}) {
            SplittableRandom random = new SplittableRandom(17);
            double[] drawn = new double[draws];
            ContinuousSampler gamma = AlbumForecast.gamma(random, shape);
            Arrays.setAll(drawn, i -> gamma.sample());
            for (double p : new double[] {0.1, 0.25, 0.5, 0.75, 0.9}) {
                double bound = value("draw " + shape + " below " + p);
                double below = Arrays.stream(drawn).filter(x -> x <= bound).count() / (double) draws;
                assertThat(below).as(shape + " " + p).isCloseTo(p, within(0.007));
            }
        }
        ContinuousSampler tiny = AlbumForecast.gamma(new SplittableRandom(17), 1e-9);
        assertThat(IntStream.range(0, 100).mapToDouble(i -> tiny.sample()))
                .as("smaller than any number")
                .allMatch(x -> x == 0);
    }

    @Test
    void how_common_each_issue_is() {
        Object[][] rows = {
            {1910, "P", 146801218L, 3, 400000},
            {1910, "S", 6045000L, 0, 400000},
            {1919, "P", 392021000L, 14, 400000},
            {1926, "D", 28020000L, 1, 400000},
            {1936, "P", 309632000L, 31, 400000},
            {1939, "S", 52070000L, 4, 400000},
            {1944, "D", 430578000L, 60, 250000},
            {1946, "S", 198100000L, 25, 250000},
            {1955, "D", 563257500L, 71, 250000},
            {1957, "D", 1051342000L, 190, 250000},
            {1958, "P", 252525000L, 44, 250000},
            {1931, "S", 866000L, 0, 400000},
        };
        List<IssueRates.Counted> counted = new ArrayList<>();
        for (Object[] row : rows) {
            int year = (int) row[0];
            String mint = (String) row[1];
            counted.add(new IssueRates.Counted(
                    Identity.of(Denomination.US_CENT, year, new Mint(mint)),
                    year,
                    mint,
                    (long) row[2],
                    (int) row[3],
                    (int) row[4]));
        }
        IssueRates rates = IssueRates.fit(counted);
        near("issues per decade", rates.perDecade(), 1e-6);
        assertThat(rates.mintFactors()).containsOnlyKeys("P", "S");
        near("issues mint P", rates.mintFactors().getOrDefault("P", 0.0), 1e-6);
        near("issues mint S", rates.mintFactors().getOrDefault("S", 0.0), 1e-6);
        same("issues weight", rates.weight());
        assertThat(rates.rates()).hasSize(rows.length);
        for (IssueRates.Counted one : counted) {
            GammaRate rate = rates.rate(one.identity()).orElseThrow();
            String name = "issues " + one.year() + "-" + one.mint();
            near(name + " shape", rate.shape(), 1e-5 * (1 + value(name + " shape")));
            same(name + " rate", rate.rate());
        }
        assertThat(rates.rate(Identity.of(Denomination.US_CENT, 1980, Mint.P))).isEmpty();
    }

    private static YieldModel.Seen seen(String source, double boxes, double full, long found) {
        return new YieldModel.Seen(source, boxes, full, found);
    }

    @Test
    void yields_source_by_source() {
        YieldModel model = YieldModel.fit(List.of(
                seen("A", 1, 1, 10),
                seen("A", 1, 1, 12),
                seen("A", 1, 0.5, 3),
                seen("A", 1, 1, 0),
                seen("B", 1, 1, 2),
                seen("B", 1, 1, 5),
                seen("B", 4, 4, 21),
                seen("C", 1, 0.2, 4)));
        for (String source : List.of("A", "B", "C", "new")) {
            near("yield " + source + " mean", model.mean(source), 5e-4);
            Interval half = model.meanInterval(source, 0.5);
            Interval ninety = model.meanInterval(source, 0.9);
            near("yield " + source + " quantile 0.25", half.low(), 5e-4);
            near("yield " + source + " quantile 0.75", half.high(), 5e-4);
            near("yield " + source + " quantile 0.05", ninety.low(), 5e-4);
            near("yield " + source + " quantile 0.95", ninety.high(), 5e-4);
            assertThat(model.belowMean(source, ninety.low())).isCloseTo(0.05, within(1e-6));
        }
        near("yield size", model.size(), 5e-4);
        near("yield A better than B", model.better("A", "B"), 5e-4);
        near("yield new better than C", model.better("new", "C"), 5e-4);
        for (Map.Entry<String, Double> next :
                Map.of("A", 1.0, "C", 0.6, "new", 2.0).entrySet()) {
            String name = "next " + next.getKey() + " " + next.getValue();
            Predictive predictive = model.next(next.getKey(), next.getValue());
            near(name + " mean", predictive.mean(), 0.003);
            near(name + " none", predictive.probabilities().getFirst(), 1e-6);
            for (double p : new double[] {0.05, 0.25, 0.75, 0.95}) {
                same(name + " quantile " + p, predictive.quantile(p));
            }
            Predictive rest = model.rest(next.getKey(), 0.4, 9, 0.6);
            near("rest " + next.getKey() + " mean", rest.mean(), 0.003);
            near("rest " + next.getKey() + " none", rest.probabilities().getFirst(), 1e-6);
        }
        assertThat(model.rest("A", 1, 9, 0).probabilities())
                .as("nothing is left")
                .containsExactly(1.0);
    }

    @Test
    void completion_of_an_album() {
        List<GammaRate> holes = new ArrayList<>(java.util.Collections.nCopies(4, new GammaRate(3.2, 80_000)));
        holes.add(new GammaRate(0.3, 60_000));
        holes.add(new GammaRate(12, 2500));
        for (double p : new double[] {0.1, 0.5, 0.9}) {
            same("complete " + p, Completion.coinsFor(holes, p));
        }
        same("complete within 250000", Completion.complete(holes, 250_000));
        same("filled within 250000", Completion.expectedFilled(holes, 250_000));
        assertThat(Completion.complete(List.of(), 10)).isEqualTo(1);
        assertThat(Completion.coinsFor(List.of(), 0.5)).isZero();
        assertThat(Completion.coinsFor(List.of(new GammaRate(1e-6, 60_000)), 0.5))
                .isInfinite();

        List<GammaRate> clumped = new ArrayList<>(java.util.Collections.nCopies(5, new GammaRate(4, 40_000)));
        clumped.add(new GammaRate(2, 2500));
        int[] boxes = {5, 20, 40};
        AlbumForecast forecast = AlbumForecast.simulate(clumped, 2500, 1.5, boxes, 20_000, 4);
        for (int q = 0; q < boxes.length; q++) {
            near("clumped complete " + boxes[q], forecast.completeWithin().get(q), 0.012);
            near("clumped filled " + boxes[q], forecast.filledWithin().get(q), 0.03);
        }
        near("clumped half", forecast.boxesForHalf(), 0.5);
        assertThat(AlbumForecast.simulate(clumped, 2500, 1.5, new int[] {5}, 2_000, 4)
                        .boxesForHalf())
                .as("beyond the horizon")
                .isEqualTo(-1);
    }
}
