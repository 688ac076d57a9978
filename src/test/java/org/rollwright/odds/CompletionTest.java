package org.rollwright.odds;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

/// Coins until one of several kinds is seen, against the closed form of a Poisson count with a gamma rate: none of it
/// in n coins has the chance (1 + n / rate)^-shape, the negative binomial distribution at zero (from memory).
class CompletionTest {
    @Test
    void one_kind_alone_is_the_closed_form_solved() {
        for (double p : new double[] {0.1, 0.5, 0.9}) {
            GammaRate kind = new GammaRate(2.5, 40_000);
            double coins = 40_000 * (Math.pow(1 - p, -1 / 2.5) - 1);
            assertThat(Completion.coinsForAny(List.of(kind), p)).isEqualTo(coins, within(coins * 1e-6));
            assertThat(Completion.coinsForAny(List.of(kind), p))
                    .isEqualTo(Completion.coinsFor(List.of(kind), p), within(coins * 1e-6));
        }
    }

    @Test
    void two_kinds_alike_are_one_of_twice_the_shape() {
        GammaRate kind = new GammaRate(1.5, 25_000);
        double coins = 25_000 * (Math.pow(0.5, -1 / 3.0) - 1);
        assertThat(Completion.coinsForAny(List.of(kind, kind), 0.5)).isEqualTo(coins, within(coins * 1e-6));
    }

    @Test
    void a_further_kind_never_makes_one_wait_longer_and_none_is_waited_for_for_ever() {
        GammaRate common = new GammaRate(8, 20_000);
        GammaRate rare = new GammaRate(0.5, 9_000_000);
        double alone = Completion.coinsForAny(List.of(common), 0.5);
        assertThat(Completion.coinsForAny(List.of(common, rare), 0.5))
                .isLessThan(alone)
                .isGreaterThan(alone * 0.99);
        assertThat(Completion.coinsForAny(List.of(), 0.5)).isInfinite();
    }
}
