package org.rollwright.scope.picture;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.AffineTransform;
import java.awt.geom.Arc2D;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import javax.imageio.ImageIO;

/// A coin of our own invention, painted in relief: letters and figures of straight strokes around a simple
/// head, so that a doubling of known motion can be put on it.
public final class PaintedCoin {
    /// Side of the picture and where the coin lies on it, pixels.
    public static final int SIDE = 1000;

    public static final double CENTRE = 500;
    public static final double RADIUS = 420;

    /// A second image, turned about the coin's centre and shifted.
    public record Second(double degrees, double right, double down) {
        AffineTransform transform() {
            AffineTransform transform = AffineTransform.getTranslateInstance(right, down);
            transform.rotate(Math.toRadians(degrees), CENTRE, CENTRE);
            return transform;
        }

        public double[] of(double[] point) {
            double[] to = new double[2];
            transform().transform(point, 0, to, 0, 1);
            return to;
        }
    }

    private PaintedCoin() {}

    private static final String[] WORDS = {"LIBERTY", "1955"};

    /// Corners of the letters, where a hunter would click.
    public static List<double[]> corners() {
        List<double[]> corners = new ArrayList<>();
        for (double degrees : new double[] {200, 230, 260, 300, 330, 20, 60, 100}) {
            double angle = Math.toRadians(degrees);
            corners.add(new double[] {CENTRE + 330 * Math.cos(angle), CENTRE + 330 * Math.sin(angle)});
        }
        return corners;
    }

    /// @param second null for a coin that is not doubled
    public static BufferedImage paint(@org.jspecify.annotations.Nullable Second second) {
        BufferedImage relief = new BufferedImage(SIDE, SIDE, BufferedImage.TYPE_BYTE_GRAY);
        Graphics2D graphics = relief.createGraphics();
        graphics.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        if (second != null) {
            graphics.setColor(new Color(120, 120, 120));
            graphics.setTransform(second.transform());
            design(graphics);
            graphics.setTransform(new AffineTransform());
        }
        graphics.setColor(new Color(170, 170, 170));
        design(graphics);
        graphics.setStroke(new BasicStroke(26));
        graphics.draw(new Ellipse2D.Double(CENTRE - 400, CENTRE - 400, 800, 800));
        graphics.dispose();
        return lit(relief);
    }

    private static void design(Graphics2D graphics) {
        graphics.setStroke(new BasicStroke(10, BasicStroke.CAP_SQUARE, BasicStroke.JOIN_MITER));
        word(graphics, WORDS[0], 180, 17);
        word(graphics, WORDS[1], 20, 17);
        Path2D head = new Path2D.Double();
        head.moveTo(420, 700);
        head.curveTo(350, 560, 380, 380, 520, 340);
        head.curveTo(620, 330, 650, 420, 630, 470);
        head.lineTo(665, 540);
        head.lineTo(630, 560);
        head.curveTo(640, 640, 600, 660, 560, 650);
        head.lineTo(590, 720);
        head.closePath();
        graphics.fill(head);
        graphics.draw(new Arc2D.Double(470, 470, 60, 90, 40, 250, Arc2D.OPEN));
        // small marks all around at the corners, which the tests click
        for (double[] corner : corners()) {
            graphics.fill(new java.awt.geom.Rectangle2D.Double(corner[0] - 7, corner[1] - 7, 14, 14));
        }
    }

    private static void word(Graphics2D graphics, String word, double from, double step) {
        for (int i = 0; i < word.length(); i++) {
            AffineTransform before = graphics.getTransform();
            graphics.rotate(Math.toRadians(from + step * i + 90 + 8), CENTRE, CENTRE);
            graphics.translate(CENTRE, CENTRE - 290);
            graphics.draw(letter(word.charAt(i)));
            graphics.setTransform(before);
        }
    }

    /// Letters of straight strokes, 44 wide and 60 high.
    private static Path2D letter(char letter) {
        int[][] strokes =
                switch (letter) {
                    case 'L' -> new int[][] {{0, 0, 0, 6}, {0, 6, 4, 6}};
                    case 'I', '1' -> new int[][] {{2, 0, 2, 6}};
                    case 'B' ->
                        new int[][] {{0, 0, 0, 6}, {0, 0, 3, 0}, {3, 0, 3, 3}, {0, 3, 4, 3}, {4, 3, 4, 6}, {0, 6, 4, 6}
                        };
                    case 'E' -> new int[][] {{0, 0, 0, 6}, {0, 0, 4, 0}, {0, 3, 3, 3}, {0, 6, 4, 6}};
                    case 'R' -> new int[][] {{0, 0, 0, 6}, {0, 0, 4, 0}, {4, 0, 4, 3}, {0, 3, 4, 3}, {1, 3, 4, 6}};
                    case 'T' -> new int[][] {{0, 0, 4, 0}, {2, 0, 2, 6}};
                    case 'Y' -> new int[][] {{0, 0, 2, 3}, {4, 0, 2, 3}, {2, 3, 2, 6}};
                    case '9' -> new int[][] {{0, 0, 4, 0}, {0, 0, 0, 3}, {0, 3, 4, 3}, {4, 0, 4, 6}, {0, 6, 4, 6}};
                    default -> new int[][] {{0, 0, 4, 0}, {0, 0, 0, 3}, {0, 3, 4, 3}, {4, 3, 4, 6}, {0, 6, 4, 6}};
                };
        Path2D path = new Path2D.Double();
        for (int[] stroke : strokes) {
            path.moveTo(stroke[0] * 11 - 22, stroke[1] * 10 - 30);
            path.lineTo(stroke[2] * 11 - 22, stroke[3] * 10 - 30);
        }
        return path;
    }

    /// Copper under a lamp from the upper left, on grey felt.
    private static BufferedImage lit(BufferedImage relief) {
        boofcv.struct.image.GrayF32 height = new boofcv.struct.image.GrayF32(SIDE, SIDE);
        for (int y = 0; y < SIDE; y++) {
            for (int x = 0; x < SIDE; x++) {
                height.data[y * SIDE + x] = relief.getRaster().getSample(x, y, 0);
            }
        }
        boofcv.struct.image.GrayF32 smooth = Pixels.blurred(height, 2.2);
        java.util.SplittableRandom random = new java.util.SplittableRandom(7);
        BufferedImage out = new BufferedImage(SIDE, SIDE, BufferedImage.TYPE_INT_RGB);
        for (int y = 0; y < SIDE; y++) {
            for (int x = 0; x < SIDE; x++) {
                double far = Math.hypot(x - CENTRE, y - CENTRE);
                double grain = 4 * random.nextGaussian();
                if (far > RADIUS) {
                    int felt = (int) Math.max(0, Math.min(255, 46 + grain + (far < RADIUS + 14 ? -14 : 0)));
                    out.setRGB(x, y, felt << 16 | (felt + 6) << 8 | (felt + 4));
                    continue;
                }
                double slope = Pixels.at(smooth, x + 1, y + 1) - Pixels.at(smooth, x - 1, y - 1);
                double light = 0.62 + slope * 0.012 + Pixels.at(smooth, x, y) * 0.0007 + grain / 255;
                int r = level(205 * light);
                int g = level(132 * light);
                int b = level(88 * light);
                out.setRGB(x, y, r << 16 | g << 8 | b);
            }
        }
        return out;
    }

    private static int level(double value) {
        return (int) Math.max(0, Math.min(255, Math.round(value)));
    }

    public static byte[] png(BufferedImage picture) {
        try {
            ByteArrayOutputStream bytes = new ByteArrayOutputStream();
            ImageIO.write(picture, "png", bytes);
            return bytes.toByteArray();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /// The same coin under a camera that was turned and stood further off.
    public static BufferedImage turned(BufferedImage coin, double degrees, double scale) {
        BufferedImage out = new BufferedImage(SIDE, SIDE, BufferedImage.TYPE_INT_RGB);
        Graphics2D graphics = out.createGraphics();
        graphics.setRenderingHint(RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BICUBIC);
        graphics.setColor(new Color(46, 52, 50));
        graphics.fillRect(0, 0, SIDE, SIDE);
        graphics.translate(CENTRE, CENTRE);
        graphics.rotate(Math.toRadians(degrees));
        graphics.scale(scale, scale);
        graphics.translate(-CENTRE, -CENTRE);
        graphics.drawImage(coin, 0, 0, null);
        graphics.dispose();
        return out;
    }
}
