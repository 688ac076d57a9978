package org.rollwright.scope.picture;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.io.File;
import java.io.IOException;
import java.util.Arrays;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import javax.imageio.ImageIO;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/// Laying two photographs of 1600 by 1200 pixels over each other, outlines and all: aim at most 300 ms. Run as
/// a program it writes the pair into a folder and prints its own figures, for bench/registration.
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
@Fork(value = 1, jvmArgs = "-Xmx2g")
public class RegistrationBench {
    private static final double TURN = 71.3;
    private static final double SCALE = 0.83;

    private final BufferedImage first = photograph(0, 1);
    private final BufferedImage second = photograph(TURN, SCALE);

    @Benchmark
    public Registration laidOver() {
        return Registration.of(first, second);
    }

    /// An ancient coin, enlarged, turned and scaled, on a grey table with noise.
    private static BufferedImage photograph(double turn, double scale) {
        BufferedImage coin = Coins.each().get(4);
        BufferedImage out = new BufferedImage(1600, 1200, BufferedImage.TYPE_INT_RGB);
        Graphics2D graphics = out.createGraphics();
        graphics.setRenderingHint(RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BICUBIC);
        graphics.setColor(new Color(70, 70, 70));
        graphics.fillRect(0, 0, 1600, 1200);
        double size = 1150.0 / coin.getWidth() * scale;
        graphics.translate(800, 600);
        graphics.rotate(Math.toRadians(turn));
        graphics.scale(size, size);
        graphics.translate(-coin.getWidth() / 2.0, -coin.getHeight() / 2.0);
        graphics.drawImage(coin, 0, 0, null);
        graphics.dispose();
        SplittableRandom random = new SplittableRandom((long) (turn * 10));
        for (int y = 0; y < 1200; y++) {
            for (int x = 0; x < 1600; x++) {
                int level = (int) Math.max(0, Math.min(255, (out.getRGB(x, y) & 255) + 4 * random.nextGaussian()));
                out.setRGB(x, y, level << 16 | level << 8 | level);
            }
        }
        return out;
    }

    /// @param args the folder to write into
    public static void main(String[] args) throws IOException {
        RegistrationBench bench = new RegistrationBench();
        ImageIO.write(bench.first, "png", new File(args[0], "first.png"));
        ImageIO.write(bench.second, "png", new File(args[0], "second.png"));
        double[] millis = new double[30];
        Registration found = bench.laidOver();
        for (int i = 0; i < millis.length; i++) {
            long from = System.nanoTime();
            found = bench.laidOver();
            millis[i] = (System.nanoTime() - from) / 1e6;
        }
        Arrays.sort(millis);
        System.out.printf(
                Locale.ROOT,
                "[ours] %.0f ms; off by %.3f degrees and %.3f %%%n",
                millis[millis.length / 2],
                Math.abs(found.turnDegrees() - TURN),
                100 * Math.abs(found.scale() / SCALE - 1));
    }
}
