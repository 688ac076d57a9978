package org.rollwright.odds;

import java.util.List;
import java.util.SplittableRandom;
import java.util.random.RandomGenerator;
import org.apache.commons.rng.sampling.distribution.AhrensDieterMarsagliaTsangGammaSampler;
import org.apache.commons.rng.sampling.distribution.ContinuousSampler;

/// When an album will be full if boxes clump: every box is richer or poorer as a whole, so that several of its
/// finds come together. By simulation with a seed; [Completion] is the same without clumping.
///
/// @param completeWithin share of draws in which all holes are filled, for each number of boxes asked
/// @param filledWithin mean number of holes filled, for each number of boxes asked
/// @param boxesForHalf boxes after which half the draws are complete; -1 when fewer are within the horizon
public record AlbumForecast(List<Double> completeWithin, List<Double> filledWithin, int boxesForHalf) {
    /// @param holes rate of each empty hole per coin
    /// @param coinsPerBox above 0
    /// @param size of the clumping: the box's own factor is Gamma with this shape and mean 1
    /// @param boxes horizons asked, rising
    /// @param draws simulated futures, 1 or more
    public static AlbumForecast simulate(
            List<GammaRate> holes, int coinsPerBox, double size, int[] boxes, int draws, long seed) {
        int horizon = boxes[boxes.length - 1];
        SplittableRandom random = new SplittableRandom(seed);
        int h = holes.size();
        ContinuousSampler box = gamma(random, size);
        ContinuousSampler[] hole = new ContinuousSampler[h];
        double[] scale = new double[h];
        for (int i = 0; i < h; i++) {
            hole[i] = gamma(random, holes.get(i).shape());
            scale[i] = coinsPerBox / holes.get(i).rate();
        }
        double[] wait = new double[horizon + 1];
        int[] firstAt = new int[draws];
        long[] filled = new long[boxes.length];
        int[] complete = new int[boxes.length];
        for (int draw = 0; draw < draws; draw++) {
            // boxes as lengths of time: a rich box is a long one
            wait[0] = 0;
            for (int b = 1; b <= horizon; b++) {
                wait[b] = wait[b - 1] + box.sample() / size;
            }
            double longest = 0;
            for (int i = 0; i < h; i++) {
                double rate = hole[i].sample() * scale[i];
                double when = rate <= 0 ? Double.POSITIVE_INFINITY : -Math.log1p(-random.nextDouble()) / rate;
                longest = Math.max(longest, when);
                for (int q = 0; q < boxes.length; q++) {
                    filled[q] += when <= wait[boxes[q]] ? 1 : 0;
                }
            }
            for (int q = 0; q < boxes.length; q++) {
                complete[q] += longest <= wait[boxes[q]] ? 1 : 0;
            }
            firstAt[draw] = first(wait, longest);
        }
        java.util.Arrays.sort(firstAt);
        int half = firstAt[draws / 2];
        return new AlbumForecast(
                java.util.Arrays.stream(complete)
                        .mapToObj(count -> count / (double) draws)
                        .toList(),
                java.util.Arrays.stream(filled)
                        .mapToObj(count -> count / (double) draws)
                        .toList(),
                half > horizon ? -1 : half);
    }

    /// The first box by whose end a time has passed; beyond the horizon when it has not.
    private static int first(double[] wait, double time) {
        int at = java.util.Arrays.binarySearch(wait, time);
        return at >= 0 ? at : -at - 1;
    }

    /// Draws of a Gamma variable of scale 1; those too small for a number are 0.
    ///
    /// @param shape above 0
    static ContinuousSampler gamma(RandomGenerator random, double shape) {
        return AhrensDieterMarsagliaTsangGammaSampler.of(random::nextLong, shape, 1);
    }
}
