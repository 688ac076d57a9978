package org.rollwright.scope.picture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.awt.image.BufferedImage;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class ColourShareTest {
    /// CIE L*a*b* (D65) of the sRGB primaries: published in many tables, here from the specification's own
    /// matrix; red 53.24, 80.09, 67.20; green 87.73, -86.18, 83.18; blue 32.30, 79.19, -107.86 (from memory,
    /// rounded to two places).
    @Test
    void lab_of_the_primaries() {
        assertThat(ColourShare.lab(1, 0, 0)).containsExactly(new double[] {53.24, 80.09, 67.20}, within(0.02));
        assertThat(ColourShare.lab(0, 1, 0)).containsExactly(new double[] {87.73, -86.18, 83.18}, within(0.02));
        assertThat(ColourShare.lab(0, 0, 1)).containsExactly(new double[] {32.30, 79.19, -107.86}, within(0.02));
        assertThat(ColourShare.lab(1, 1, 1)).containsExactly(new double[] {100, 0, 0}, within(0.02));
    }

    /// A coin of which a known share is red, the rest brown, beside a grey card, under coloured light.
    private static BufferedImage coin(double share, double[] light, SplittableRandom random) {
        BufferedImage picture = new BufferedImage(400, 400, BufferedImage.TYPE_INT_RGB);
        for (int y = 0; y < 400; y++) {
            for (int x = 0; x < 400; x++) {
                int[] colour = {118, 118, 118};
                if (Math.hypot(x - 220, y - 220) < 150) {
                    double angle = (Math.atan2(y - 220, x - 220) / (2 * Math.PI) + 1) % 1;
                    colour = angle < share ? new int[] {205, 125, 80} : new int[] {100, 68, 50};
                }
                int rgb = 0;
                for (int c = 0; c < 3; c++) {
                    double linear = ColourShare.linear(colour[c]) * light[c];
                    double s = linear <= 0.0031308 ? 12.92 * linear : 1.055 * Math.pow(linear, 1 / 2.4) - 0.055;
                    int value = (int) Math.max(0, Math.min(255, Math.round(255 * s + 3 * random.nextGaussian())));
                    rgb = rgb << 8 | value;
                }
                picture.setRGB(x, y, rgb);
            }
        }
        return picture;
    }

    private static final CoinOutline COIN = new CoinOutline(220, 220, 150, 150, 0, 1);

    @Test
    void a_known_share_of_red_is_measured_under_any_light_with_a_grey_card() {
        SplittableRandom random = new SplittableRandom(1);
        for (double share : new double[] {0, 0.04, 0.3, 0.5, 0.8, 0.97, 1}) {
            double[] light = {
                0.7 + 0.5 * random.nextDouble(), 0.7 + 0.4 * random.nextDouble(), 0.5 + random.nextDouble() * 0.6
            };
            ColourShare found = ColourShare.of(
                    coin(share, light, random), COIN, new ColourShare.Grey(30, 30), ColourShare.Threshold.USUAL);
            assertThat(found.red()).isCloseTo(share, within(0.02));
            assertThat(found.withCard()).isTrue();
        }
    }

    @Test
    void the_standard_is_a_setting() {
        assertThat(ColourShare.Standard.USUAL.of(0.96)).isEqualTo("RD");
        assertThat(ColourShare.Standard.USUAL.of(0.5)).isEqualTo("RB");
        assertThat(ColourShare.Standard.USUAL.of(0.05)).isEqualTo("BN");
        assertThat(new ColourShare.Standard(85, 15).of(0.9)).isEqualTo("RD");
    }
}
