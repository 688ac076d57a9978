package org.rollwright.scope.picture;

import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.SplittableRandom;
import javax.imageio.ImageIO;

/// A photograph of 24 ancient coins (Brooklyn Museum, no known copyright restrictions), as Debian's package
/// python3-skimage carries it, and what a camera may do to a coin.
public final class Coins {
    private Coins() {}

    public static BufferedImage table() {
        try (InputStream in = Coins.class.getResourceAsStream("/coins/brooklyn-greek-coins.png")) {
            return rgb(ImageIO.read(java.util.Objects.requireNonNull(in)));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static BufferedImage rgb(BufferedImage any) {
        BufferedImage out = new BufferedImage(any.getWidth(), any.getHeight(), BufferedImage.TYPE_INT_RGB);
        Graphics2D graphics = out.createGraphics();
        graphics.drawImage(any, 0, 0, null);
        graphics.dispose();
        return out;
    }

    /// Each coin alone, enlarged four times so that there is something to turn.
    static List<BufferedImage> each() {
        BufferedImage table = table();
        return CoinOutline.findAll(table).stream()
                .map(coin -> {
                    int half = (int) Math.round(coin.radius() * 1.25);
                    int side = 8 * half;
                    BufferedImage out = new BufferedImage(side, side, BufferedImage.TYPE_INT_RGB);
                    Graphics2D graphics = out.createGraphics();
                    graphics.setRenderingHint(
                            java.awt.RenderingHints.KEY_INTERPOLATION,
                            java.awt.RenderingHints.VALUE_INTERPOLATION_BICUBIC);
                    graphics.scale(4, 4);
                    graphics.translate(half - coin.x(), half - coin.y());
                    // beyond the photograph's edge its own border goes on
                    graphics.drawImage(bordered(table), -100, -100, null);
                    graphics.dispose();
                    return out;
                })
                .toList();
    }

    private static BufferedImage bordered(BufferedImage table) {
        int w = table.getWidth();
        int h = table.getHeight();
        BufferedImage out = new BufferedImage(w + 200, h + 200, BufferedImage.TYPE_INT_RGB);
        for (int y = 0; y < h + 200; y++) {
            for (int x = 0; x < w + 200; x++) {
                out.setRGB(
                        x,
                        y,
                        table.getRGB(Math.max(0, Math.min(w - 1, x - 100)), Math.max(0, Math.min(h - 1, y - 100))));
            }
        }
        return out;
    }

    /// What another photograph of the same coin differs in.
    ///
    /// @param turn degrees clockwise
    /// @param brightness factor; light grows by it from left to right as well
    /// @param noise standard deviation in grey levels
    /// @param blur passes of a 3 by 3 mean
    record Shot(double turn, double scale, double shiftX, double shiftY, double brightness, double noise, int blur) {
        static Shot random(SplittableRandom random) {
            return new Shot(
                    random.nextDouble(-180, 180),
                    random.nextDouble(0.6, 1.5),
                    random.nextDouble(-12, 12),
                    random.nextDouble(-12, 12),
                    random.nextDouble(0.7, 1.3),
                    random.nextDouble(0, 8),
                    random.nextInt(3));
        }
    }

    static BufferedImage shot(BufferedImage coin, Shot shot, SplittableRandom random) {
        int side = (int) Math.round(coin.getWidth() * shot.scale * 1.15);
        BufferedImage out = new BufferedImage(side, side, BufferedImage.TYPE_INT_RGB);
        double turn = Math.toRadians(shot.turn);
        double cos = Math.cos(turn) / shot.scale;
        double sin = Math.sin(turn) / shot.scale;
        double middleIn = (coin.getWidth() - 1) / 2.0;
        double middle = (side - 1) / 2.0;
        boofcv.struct.image.GrayF32 grey = Pixels.grey(coin, 10_000).grey();
        boofcv.struct.image.GrayF32 smooth = shot.scale < 0.9 ? Pixels.blurred(grey, 0.45 / shot.scale) : grey;
        boofcv.struct.image.GrayF32 drawn = new boofcv.struct.image.GrayF32(side, side);
        for (int y = 0; y < side; y++) {
            for (int x = 0; x < side; x++) {
                double dx = x - middle - shot.shiftX;
                double dy = y - middle - shot.shiftY;
                drawn.data[y * side + x] =
                        Pixels.at(smooth, middleIn + cos * dx + sin * dy, middleIn - sin * dx + cos * dy);
            }
        }
        for (int pass = 0; pass < shot.blur; pass++) {
            drawn = Pixels.blurred(drawn, 0.8);
        }
        for (int y = 0; y < side; y++) {
            for (int x = 0; x < side; x++) {
                double light = shot.brightness * (0.85 + 0.3 * x / side);
                double value = drawn.data[y * side + x] * light + shot.noise * random.nextGaussian();
                int level = (int) Math.max(0, Math.min(255, Math.round(value)));
                out.setRGB(x, y, level << 16 | level << 8 | level);
            }
        }
        return out;
    }
}
