package org.rollwright.cabinet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.math.MathContext;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.rollwright.coin.Colour;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;

/// Invented price grids of realistic shape: levels over four orders of magnitude, values that rise with the
/// grade, faster for some issues than for others, and premiums for colour. No real price is in them.
class ValueModelTest {
    /// Ways such grids may be made.
    private enum Maker {
        EVEN(0, 0.05),
        STEEP_WHERE_SCARCE(0.35, 0.08),
        BENT(0.2, 0.1),
        ROUGH(0.25, 0.2);

        final double differs;
        final double noise;

        Maker(double differs, double noise) {
            this.differs = differs;
            this.noise = noise;
        }

        double rise(int step, double scarcity, double own) {
            boolean high = Grade.steps().get(step) > 60;
            double base = this == BENT ? 0.06 + 0.012 * step : high ? 0.22 : 0.11;
            return base * Math.exp(differs * (own + (this == STEEP_WHERE_SCARCE ? scarcity : 0)));
        }
    }

    private static Identity issue(int i) {
        return Identity.of(Denomination.US_CENT, 1909 + i, Mint.D);
    }

    private static List<PricePoint> grid(Maker maker, int count, SplittableRandom random) {
        List<PricePoint> points = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            double scarcity = random.nextGaussian();
            double level = -1.5 + 1.6 * scarcity;
            double own = random.nextGaussian();
            double log = level;
            double wander = 0;
            for (int step = 0; step < Grade.steps().size(); step++) {
                double rise = step == 0 ? 0 : maker.rise(step, scarcity, own);
                wander = 0.8 * wander + maker.noise * 0.4 * random.nextGaussian();
                log += Math.max(0.005, rise);
                int grade = Grade.steps().get(step);
                if (grade < 4 || grade > 66) {
                    continue;
                }
                double here = log + wander;
                if (grade >= 60) {
                    double red = 0.3 + 0.2 * Math.max(0, 1 + 0.3 * own);
                    points.add(point(i, grade, Colour.BN, here));
                    points.add(point(i, grade, Colour.RB, here + red / 2));
                    points.add(point(i, grade, Colour.RD, here + red));
                } else if (random.nextInt(3) > 0) {
                    points.add(point(i, grade, null, here));
                }
            }
        }
        return points;
    }

    private static PricePoint point(int issue, int grade, @Nullable Colour colour, double log) {
        BigDecimal amount = new BigDecimal(Math.exp(log)).round(new MathContext(4));
        return new PricePoint(issue(issue), new Grade(grade), colour, amount, LocalDate.of(2026, 1, 1), "");
    }

    private static Map<Identity, List<PricePoint>> byIssue(List<PricePoint> points) {
        Map<Identity, List<PricePoint>> map = new HashMap<>();
        points.forEach(one ->
                map.computeIfAbsent(one.issue(), key -> new ArrayList<>()).add(one));
        return map;
    }

    @Test
    void four_in_five_held_out_prices_fall_into_their_interval() {
        int all = 0;
        int in = 0;
        for (Maker maker : Maker.values()) {
            int inside = 0;
            int asked = 0;
            double miss = 0;
            for (int seed = 0; seed < 6; seed++) {
                SplittableRandom random =
                        new SplittableRandom(seed * 31L + maker.name().hashCode());
                List<PricePoint> kept = new ArrayList<>();
                List<PricePoint> held = new ArrayList<>();
                for (PricePoint point : grid(maker, 40, random)) {
                    (random.nextInt(5) == 0 ? held : kept).add(point);
                }
                ValueModel model = ValueModel.of(byIssue(kept));
                for (PricePoint point : held) {
                    Optional<ValueModel.Value> value = model.value(point.issue(), point.grade(), point.colour());
                    if (value.isPresent()) {
                        double amount = point.amount().doubleValue();
                        asked++;
                        miss += Math.abs(Math.log(value.get().amount() / amount));
                        inside += amount >= value.get().low() * 0.9999
                                        && amount <= value.get().high() * 1.0001
                                ? 1
                                : 0;
                    }
                }
            }
            System.out.printf(
                    "%s: %d held-out prices, %.1f %% in the 80 %% interval, off by %.1f %% on average%n",
                    maker, asked, 100.0 * inside / asked, 100 * miss / asked);
            all += asked;
            in += inside;
        }
        System.out.printf("together %.1f %%%n", 100.0 * in / all);
        assertThat(in / (double) all).isBetween(0.75, 0.85);
    }

    @Property(tries = 60)
    void values_rise_with_grade_and_colour_and_typed_ones_are_exact(@ForAll long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        List<PricePoint> kept = new ArrayList<>();
        for (PricePoint point : grid(Maker.EVEN, 6, random)) {
            if (random.nextInt(6) == 0) {
                kept.add(point);
            }
        }
        Map<Identity, List<PricePoint>> prices = byIssue(kept);
        ValueModel model = ValueModel.of(prices);
        prices.forEach((issue, points) -> {
            points.forEach(point -> assertThat(model.value(issue, point.grade(), point.colour())
                            .orElseThrow()
                            .amount())
                    .isEqualTo(point.amount().doubleValue()));
            if (model.contradiction(issue).isEmpty()) {
                assertOrdered(model, issue);
            }
        });
    }

    private static void assertOrdered(ValueModel model, Identity issue) {
        for (Colour colour : Colour.values()) {
            double before = 0;
            for (int grade : Grade.steps()) {
                Optional<ValueModel.Value> value = model.value(issue, new Grade(grade), colour);
                if (value.isPresent()) {
                    assertThat(value.get().amount()).isGreaterThanOrEqualTo(before * (1 - 1e-9));
                    assertThat(value.get().low())
                            .isLessThanOrEqualTo(value.get().amount() * (1 + 1e-9));
                    assertThat(value.get().high())
                            .isGreaterThanOrEqualTo(value.get().amount() * (1 - 1e-9));
                    before = value.get().amount();
                }
            }
        }
        for (int grade : Grade.steps()) {
            double before = 0;
            for (Colour colour : Colour.values()) {
                Optional<ValueModel.Value> value = model.value(issue, new Grade(grade), colour);
                if (value.isPresent()) {
                    assertThat(value.get().amount()).isGreaterThanOrEqualTo(before * (1 - 1e-9));
                    before = value.get().amount();
                }
            }
        }
    }

    @Test
    void what_no_price_is_near_is_blank() {
        ValueModel model = ValueModel.of(Map.of(issue(1), List.of(point(1, 4, null, 0))));
        assertThat(model.value(issue(1), new Grade(6), null)).isPresent();
        assertThat(model.value(issue(1), new Grade(65), Colour.RD)).isEmpty();
        assertThat(model.value(issue(2), new Grade(6), null)).isEmpty();
    }

    @Test
    void a_better_coin_for_less_is_pointed_out() {
        ValueModel model = ValueModel.of(Map.of(issue(1), List.of(point(1, 20, null, 3), point(1, 30, null, 2))));
        assertThat(model.contradiction(issue(1)))
                .hasValueSatisfying(text -> assertThat(text).contains("grade 30"));
    }

    /// Sums against simulation with the correlation that is stated.
    @Test
    void the_interval_of_a_sum_holds_and_is_wider_than_if_errors_were_independent() {
        SplittableRandom random = new SplittableRandom(5);
        Map<Identity, List<Optional<ValueModel.Value>>> parts = new HashMap<>();
        double independent = 0;
        for (int i = 0; i < 30; i++) {
            List<Optional<ValueModel.Value>> list = new ArrayList<>();
            for (int k = 0; k < 3; k++) {
                ValueModel.Value value = new ValueModel.Value(10, 7, 14, 0.3, false);
                list.add(Optional.of(value));
                independent += Math.pow(10 * 0.3, 2);
            }
            list.add(Optional.empty());
            parts.put(issue(i), list);
        }
        ValueModel.Sum sum = ValueModel.sum(parts);
        assertThat(sum.counted()).isEqualTo(90);
        assertThat(sum.blank()).isEqualTo(30);
        assertThat(sum.high() - sum.low()).isGreaterThan(2 * 1.28 * Math.sqrt(independent));
        int inside = 0;
        for (int run = 0; run < 4_000; run++) {
            double common = random.nextGaussian();
            double total = 0;
            for (int i = 0; i < 30; i++) {
                double z = Math.sqrt(0.3) * common + Math.sqrt(0.7) * random.nextGaussian();
                total += 3 * 10 * Math.exp(0.3 * z);
            }
            inside += total >= sum.low() && total <= sum.high() ? 1 : 0;
        }
        assertThat(inside / 4_000.0).isBetween(0.77, 0.83);
    }

    @Test
    void the_record_of_submissions_learns_bias_and_spread() {
        SplittableRandom random = new SplittableRandom(8);
        List<org.rollwright.cabinet.CabinetNote.Submission> back = new ArrayList<>();
        for (int i = 0; i < 200; i++) {
            double estimate = 62 + random.nextInt(4);
            back.add(new org.rollwright.cabinet.CabinetNote.Submission(
                    estimate,
                    Math.max(1, Math.min(70, estimate - 0.8 + 0.7 * random.nextGaussian())),
                    BigDecimal.TEN,
                    LocalDate.of(2026, 1, 1)));
        }
        GradingRecord record = GradingRecord.of(back);
        assertThat(record.bias()).isCloseTo(-0.8, within(0.15));
        assertThat(record.spread()).isCloseTo(0.7, within(0.15));
        assertThat(GradingRecord.of(List.of()).spread()).isCloseTo(1.2, within(1e-9));
    }
}
