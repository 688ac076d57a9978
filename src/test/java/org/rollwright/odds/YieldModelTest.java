package org.rollwright.odds;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class YieldModelTest {
    private static List<YieldModel.Seen> boxes(String source, int... found) {
        List<YieldModel.Seen> seen = new ArrayList<>();
        for (int count : found) {
            seen.add(new YieldModel.Seen(source, 1, 1, count));
        }
        return seen;
    }

    /// A smaller run of bench/calibration, with wider bounds: 300 hunters leave a standard error of 2.9 points
    /// at 50 %.
    @Test
    void what_it_calls_ninety_percent_happens_ninety_percent_of_the_time() {
        CalibrationStudy.Result result = CalibrationStudy.run(300, 5);
        assertThat(result.heldExactly().get(0)).isBetween(0.42, 0.58);
        assertThat(result.heldExactly().get(1)).isBetween(0.73, 0.87);
        assertThat(result.heldExactly().get(2)).isBetween(0.85, 0.95);
        assertThat(result.meanHeld().get(1)).isBetween(0.73, 0.87);
        assertThat(result.p()).isGreaterThan(0.001);
    }

    @Test
    void a_source_seen_once_borrows_from_the_others() {
        List<YieldModel.Seen> seen = new ArrayList<>(boxes("A", 10, 12, 9, 11, 10, 13, 8));
        seen.addAll(boxes("B", 11, 9, 12, 10));
        seen.addAll(boxes("C", 0));
        YieldModel model = YieldModel.fit(seen);
        assertThat(model.mean("A")).isBetween(9.0, 12.0);
        assertThat(model.mean("C"))
                .as("one empty box is not the end of a source")
                .isBetween(1.0, 9.0);
        assertThat(model.mean("never seen")).isBetween(5.0, 15.0);
        assertThat(model.better("A", "C")).isGreaterThan(0.7);
        assertThat(model.better("A", "B") + model.better("B", "A")).isCloseTo(1, within(1e-9));
        Interval known = model.meanInterval("A", 0.9);
        Interval unknown = model.meanInterval("C", 0.9);
        assertThat(Math.log(known.high() / known.low())).isLessThan(Math.log(unknown.high() / unknown.low()));
    }

    @Test
    void a_part_of_a_box_counts_as_a_part_and_a_sum_as_a_sum() {
        YieldModel half = YieldModel.fit(List.of(new YieldModel.Seen("A", 1, 0.5, 5)));
        YieldModel whole = YieldModel.fit(List.of(new YieldModel.Seen("A", 1, 1, 5)));
        assertThat(half.mean("A")).isGreaterThan(whole.mean("A"));
        YieldModel sum = YieldModel.fit(List.of(new YieldModel.Seen("A", 40, 40, 400)));
        assertThat(sum.mean("A")).isCloseTo(10, within(1.0));
        Interval interval = sum.meanInterval("A", 0.9);
        assertThat(interval.high() / interval.low()).isLessThan(2);
    }

    @Test
    void the_next_box_is_a_distribution() {
        Predictive next = YieldModel.fit(boxes("A", 3, 0, 7, 2, 5, 1)).next("A", 1);
        assertThat(next.probabilities().stream()
                        .mapToDouble(Double::doubleValue)
                        .sum())
                .isCloseTo(1, within(1e-5));
        assertThat(next.atLeast(0)).isEqualTo(1);
        assertThat(next.mean()).isBetween(2.0, 5.0);
        assertThat(next.quantile(0.05)).isLessThanOrEqualTo(next.quantile(0.95));
    }
}
