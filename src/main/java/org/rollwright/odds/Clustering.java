package org.rollwright.odds;

import java.util.SplittableRandom;
import org.hipparchus.special.Gamma;

/// Whether finds lie together in neighbouring rolls.
///
/// @param d Fisher's index of dispersion: Σ(x−x̄)²/x̄; NaN without finds
/// @param p chance of at least this much under an even spread (χ² with n−1 degrees of freedom); 1 without finds
/// @param window rolls in the window
/// @param largest most finds in so many neighbouring rolls
/// @param from first roll of that window, from 1
/// @param pLargest chance that the best window holds at least so many when the same finds are spread evenly, by
///     simulation
public record Clustering(double d, double p, int window, int largest, int from, double pLargest) {
    /// Spreads drawn; the smallest chance that can be told is one in so many.
    static final int DRAWS = 20_000;

    /// @param perRoll finds in each roll, in order; at least two rolls
    /// @param window neighbouring rolls, from 1 to their number
    public static Clustering of(int[] perRoll, int window, long seed) {
        int total = 0;
        for (int count : perRoll) {
            total += count;
        }
        int[] best = best(perRoll, window);
        if (total == 0) {
            return new Clustering(Double.NaN, 1, window, 0, 1, 1);
        }
        double d = dispersion(perRoll, total);
        double p = chance(d, perRoll.length);
        SplittableRandom random = new SplittableRandom(seed);
        int[] spread = new int[perRoll.length];
        int asMany = 0;
        for (int draw = 0; draw < DRAWS; draw++) {
            scatter(total, spread, random);
            asMany += best(spread, window)[0] >= best[0] ? 1 : 0;
        }
        return new Clustering(d, p, window, best[0], best[1], (asMany + 1.0) / (DRAWS + 1.0));
    }

    /// The most telling window of 1 to `widest` rolls, its chance corrected for having looked at all of them:
    /// the share of even spreads whose own most telling window is at least as telling.
    public static Clustering widest(int[] perRoll, int widest, long seed) {
        int windows = Math.min(widest, perRoll.length);
        int total = 0;
        for (int count : perRoll) {
            total += count;
        }
        if (total == 0) {
            return of(perRoll, 1, seed);
        }
        SplittableRandom random = new SplittableRandom(seed);
        int draws = 2_000;
        int[][] largest = new int[windows][draws];
        int[] spread = new int[perRoll.length];
        for (int draw = 0; draw < draws; draw++) {
            scatter(total, spread, random);
            for (int w = 0; w < windows; w++) {
                largest[w][draw] = best(spread, w + 1)[0];
            }
        }
        double[] own = new double[draws];
        java.util.Arrays.fill(own, 1);
        double least = 1;
        int chosen = 0;
        double most = Double.NEGATIVE_INFINITY;
        for (int w = 0; w < windows; w++) {
            double[] tail = tails(largest[w], total);
            int held = best(perRoll, w + 1)[0];
            double here = tail[held];
            // several windows may be beyond anything drawn: then the one that holds most above its share
            double share = (w + 1) * total / (double) perRoll.length;
            double excess = (held - share) / Math.sqrt(share);
            if (here < least || (here == least && excess > most)) {
                least = here;
                chosen = w;
                most = excess;
            }
            for (int draw = 0; draw < draws; draw++) {
                own[draw] = Math.min(own[draw], tail[largest[w][draw]]);
            }
        }
        int asTelling = 0;
        for (double value : own) {
            asTelling += value <= least ? 1 : 0;
        }
        int[] found = best(perRoll, chosen + 1);
        double d = dispersion(perRoll, total);
        return new Clustering(
                d, chance(d, perRoll.length), chosen + 1, found[0], found[1], (asTelling + 1.0) / (draws + 1.0));
    }

    private static double dispersion(int[] perRoll, int total) {
        double mean = total / (double) perRoll.length;
        double d = 0;
        for (int count : perRoll) {
            d += (count - mean) * (count - mean) / mean;
        }
        return d;
    }

    private static double chance(double d, int rolls) {
        return Gamma.regularizedGammaQ((rolls - 1) / 2.0, d / 2);
    }

    /// For every value the share of draws that reach it.
    private static double[] tails(int[] drawn, int most) {
        double[] tail = new double[most + 2];
        for (int value : drawn) {
            tail[value]++;
        }
        for (int v = most; v >= 0; v--) {
            tail[v] += tail[v + 1];
        }
        for (int v = 0; v <= most; v++) {
            tail[v] = (tail[v] + 1) / (drawn.length + 1.0);
        }
        return tail;
    }

    private static void scatter(int total, int[] into, SplittableRandom random) {
        java.util.Arrays.fill(into, 0);
        for (int i = 0; i < total; i++) {
            into[random.nextInt(into.length)]++;
        }
    }

    private static int[] best(int[] perRoll, int window) {
        int sum = 0;
        for (int i = 0; i < window; i++) {
            sum += perRoll[i];
        }
        int best = sum;
        int from = 1;
        for (int i = window; i < perRoll.length; i++) {
            sum += perRoll[i] - perRoll[i - window];
            if (sum > best) {
                best = sum;
                from = i - window + 2;
            }
        }
        return new int[] {best, from};
    }
}
