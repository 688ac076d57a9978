package org.rollwright.scope.picture;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/// Against a photograph of 24 ancient coins (see [Coins]), turned, scaled, shifted, lit and blurred by known
/// amounts.
class RegistrationTest {
    @Test
    void all_twenty_four_coins_are_outlined() {
        assertThat(CoinOutline.findAll(Coins.table())).hasSize(24);
    }

    @Test
    void known_turns_and_scales_are_found_again() {
        List<BufferedImage> coins = Coins.each();
        SplittableRandom random = new SplittableRandom(24);
        List<Double> angleErrors = new ArrayList<>();
        List<Double> scaleErrors = new ArrayList<>();
        int cases = 504;
        int lost = 0;
        int outlined = 0;
        for (int i = 0; i < cases; i++) {
            BufferedImage coin = coins.get(i % coins.size());
            Coins.Shot shot = Coins.Shot.random(random);
            Registration found = Registration.of(coin, Coins.shot(coin, shot, random));
            double off = Math.abs(Math.IEEEremainder(found.turnDegrees() - shot.turn(), 360));
            angleErrors.add(off);
            scaleErrors.add(Math.abs(found.scale() / shot.scale() - 1));
            lost += off > 2 ? 1 : 0;

            outlined += found.outlined() ? 1 : 0;
        }
        System.out.printf(
                "%d cases: median angle error %.3f degrees, 95 %% below %.3f; median scale error %.3f %%, 95 %% below %.3f %%; %d off by more than 2 degrees; outlined %d%n",
                cases,
                quantile(angleErrors, 0.5),
                quantile(angleErrors, 0.95),
                100 * quantile(scaleErrors, 0.5),
                100 * quantile(scaleErrors, 0.95),
                lost,
                outlined);
        assertThat(quantile(angleErrors, 0.5)).isLessThan(0.3);
        assertThat(quantile(scaleErrors, 0.5)).isLessThan(0.005);
        assertThat(lost).isLessThan(cases / 50);
    }

    @Test
    void different_coins_are_told_apart() {
        List<BufferedImage> coins = Coins.each();
        SplittableRandom random = new SplittableRandom(25);
        List<Double> same = new ArrayList<>();
        List<Double> other = new ArrayList<>();
        for (int i = 0; i < coins.size(); i++) {
            for (int j = 0; j < 4; j++) {
                same.add(Registration.of(coins.get(i), Coins.shot(coins.get(i), Coins.Shot.random(random), random))
                        .likeness());
                int k = (i + 1 + random.nextInt(coins.size() - 1)) % coins.size();
                other.add(Registration.of(coins.get(i), Coins.shot(coins.get(k), Coins.Shot.random(random), random))
                        .likeness());
            }
        }
        for (double threshold : new double[] {0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8}) {
            System.out.printf(
                    "likeness at least %.1f: %.0f %% of the same coin, %.0f %% of another coin%n",
                    threshold, 100 * above(same, threshold), 100 * above(other, threshold));
        }
        double wins = 0;
        for (double s : same) {
            for (double o : other) {
                wins += s > o ? 1 : s == o ? 0.5 : 0;
            }
        }
        double area = wins / same.size() / other.size();
        System.out.printf("area under the curve %.4f%n", area);
        assertThat(area).isGreaterThan(0.98);
    }

    private static double above(List<Double> values, double threshold) {
        return values.stream().filter(value -> value >= threshold).count() / (double) values.size();
    }

    private static double quantile(List<Double> values, double share) {
        List<Double> sorted = new ArrayList<>(values);
        Collections.sort(sorted);
        return sorted.get((int) Math.min(sorted.size() - 1.0, share * sorted.size()));
    }
}
