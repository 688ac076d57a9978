package org.rollwright.scope.picture;

import java.awt.image.BufferedImage;
import java.awt.image.DataBufferInt;
import org.jspecify.annotations.Nullable;

/// How much of a copper coin's side still has the red of the mint, on a photograph.
///
/// A pixel counts as red when its hue lies between orange-red and orange and it is lively and light enough (CIE
/// L*a*b*, chroma from 30, lightness from 40; from memory, settable). Glare and deep shadow count for nothing.
/// Light changes colour more than wear does: without a grey card in the picture the figure is a rough one.
///
/// @param red share of the measured surface, 0 to 1
/// @param measured share of the coin's surface that was neither glare nor shadow, 0 to 1
/// @param withCard whether a grey card set the colours right
public record ColourShare(double red, double measured, boolean withCard) {
    private static final double HUE_FROM = 30;
    private static final double HUE_TO = 75;

    /// From which chroma and lightness on copper is called red.
    public record Threshold(double chroma, double lightness) {
        public static final Threshold USUAL = new Threshold(30, 40);
    }

    /// Percentages of a colour standard: red from, brown to. Services differ (TRADE: 95 and 5 at one, 85 and 15
    /// at another), so they are settings.
    public record Standard(double redFrom, double brownTo) {
        public static final Standard USUAL = new Standard(95, 5);

        /// RD, RB or BN.
        public String of(double redShare) {
            return 100 * redShare >= redFrom ? "RD" : 100 * redShare <= brownTo ? "BN" : "RB";
        }
    }

    /// A point on a grey card in the picture.
    public record Grey(double x, double y) {}

    /// Measures inside an outline, the outermost tenth left out, where the rim glints.
    ///
    /// @param picture of type INT_RGB
    public static ColourShare of(BufferedImage picture, CoinOutline coin, @Nullable Grey card, Threshold threshold) {
        int width = picture.getWidth();
        int height = picture.getHeight();
        int[] rgb = ((DataBufferInt) picture.getRaster().getDataBuffer()).getData();
        double[] gain = card == null ? new double[] {1, 1, 1} : gains(rgb, width, height, card);
        double radius = 0.9 * coin.radius();
        long inside = 0;
        long good = 0;
        long red = 0;
        int step = Math.max(1, (int) (radius / 300));
        for (int y = (int) Math.max(0, coin.y() - radius); y < Math.min(height, coin.y() + radius); y += step) {
            for (int x = (int) Math.max(0, coin.x() - radius); x < Math.min(width, coin.x() + radius); x += step) {
                if (Math.hypot(x - coin.x(), y - coin.y()) > radius) {
                    continue;
                }
                inside++;
                int colour = rgb[y * width + x];
                int r = colour >> 16 & 255;
                int g = colour >> 8 & 255;
                int b = colour & 255;
                double[] lab = lab(gain[0] * linear(r), gain[1] * linear(g), gain[2] * linear(b));
                boolean clipped = r >= 254 && g >= 254;
                if (clipped || lab[0] > 93 || lab[0] < 8) {
                    continue;
                }
                good++;
                double chroma = Math.hypot(lab[1], lab[2]);
                double hue = Math.toDegrees(Math.atan2(lab[2], lab[1]));
                boolean isRed =
                        chroma >= threshold.chroma && lab[0] >= threshold.lightness && hue >= HUE_FROM && hue <= HUE_TO;
                red += isRed ? 1 : 0;
            }
        }
        return new ColourShare(
                good == 0 ? 0 : red / (double) good, inside == 0 ? 0 : good / (double) inside, card != null);
    }

    /// What brings a card of 18 % grey to its own lightness, for each colour.
    private static double[] gains(int[] rgb, int width, int height, Grey card) {
        double[] sum = new double[3];
        int n = 0;
        for (int dy = -7; dy <= 7; dy++) {
            for (int dx = -7; dx <= 7; dx++) {
                int x = (int) Math.round(card.x) + dx;
                int y = (int) Math.round(card.y) + dy;
                if (x >= 0 && y >= 0 && x < width && y < height) {
                    int colour = rgb[y * width + x];
                    sum[0] += linear(colour >> 16 & 255);
                    sum[1] += linear(colour >> 8 & 255);
                    sum[2] += linear(colour & 255);
                    n++;
                }
            }
        }
        double[] gain = new double[3];
        for (int c = 0; c < 3; c++) {
            gain[c] = n == 0 || sum[c] == 0 ? 1 : Math.max(0.2, Math.min(5, 0.18 / (sum[c] / n)));
        }
        return gain;
    }

    /// Light of an sRGB value (IEC 61966-2-1).
    static double linear(int value) {
        double v = value / 255.0;
        return v <= 0.04045 ? v / 12.92 : Math.pow((v + 0.055) / 1.055, 2.4);
    }

    /// CIE L*a*b* of linear sRGB light under D65.
    static double[] lab(double r, double g, double b) {
        double x = (0.4124564 * r + 0.3575761 * g + 0.1804375 * b) / 0.95047;
        double y = 0.2126729 * r + 0.7151522 * g + 0.0721750 * b;
        double z = (0.0193339 * r + 0.1191920 * g + 0.9503041 * b) / 1.08883;
        double fx = root(x);
        double fy = root(y);
        double fz = root(z);
        return new double[] {116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)};
    }

    private static double root(double t) {
        return t > 216.0 / 24389 ? Math.cbrt(t) : (24389.0 / 27 * t + 16) / 116;
    }
}
