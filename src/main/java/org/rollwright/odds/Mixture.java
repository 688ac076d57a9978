package org.rollwright.odds;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import org.apache.commons.rng.sampling.distribution.ContinuousSampler;

/// Do the dates and mints of a box come in the hunter's usual mixture? A hoard or an old collection shows dates
/// that circulation does not.
///
/// @param p chance of a mixture at least as unlikely, by simulation under a Dirichlet-multinomial
/// @param stands what is there far above its share, most telling first: at most three dates
public record Mixture(double p, List<String> stands) {
    private static final int DRAWS = 1_000;
    private static final int FEWEST_HERE = 8;
    private static final int FEWEST_OTHERS = 30;
    private static final double UNSEEN = 0.5;

    public Mixture {
        stands = List.copyOf(stands);
    }

    /// Empty with fewer than eight finds in the box or thirty in the others.
    ///
    /// @param here coins by date and mint in the box
    /// @param others the same in all other boxes
    public static java.util.Optional<Mixture> of(Map<String, Integer> here, Map<String, Integer> others, long seed) {
        int found = here.values().stream().mapToInt(Integer::intValue).sum();
        int all = others.values().stream().mapToInt(Integer::intValue).sum();
        if (found < FEWEST_HERE || all < FEWEST_OTHERS) {
            return java.util.Optional.empty();
        }
        TreeMap<String, Double> weights = new TreeMap<>();
        others.forEach((date, count) -> weights.put(date, count + UNSEEN));
        here.keySet().forEach(date -> weights.putIfAbsent(date, UNSEEN));
        List<String> dates = new ArrayList<>(weights.keySet());
        double[] alpha = dates.stream()
                .mapToDouble(date -> weights.getOrDefault(date, UNSEEN))
                .toArray();
        int[] counts =
                dates.stream().mapToInt(date -> here.getOrDefault(date, 0)).toArray();
        double[][] terms = terms(alpha, found);
        double own = logProbability(counts, terms);
        SplittableRandom random = new SplittableRandom(seed);
        int asUnlikely = 0;
        ContinuousSampler[] weight = java.util.Arrays.stream(alpha)
                .mapToObj(one -> AlbumForecast.gamma(random, one))
                .toArray(ContinuousSampler[]::new);
        double[] share = new double[alpha.length];
        int[] drawn = new int[alpha.length];
        for (int draw = 0; draw < DRAWS; draw++) {
            double sum = 0;
            for (int i = 0; i < alpha.length; i++) {
                sum += weight[i].sample();
                share[i] = sum;
            }
            java.util.Arrays.fill(drawn, 0);
            for (int f = 0; f < found; f++) {
                int at = java.util.Arrays.binarySearch(share, random.nextDouble() * sum);
                drawn[Math.min(alpha.length - 1, at < 0 ? -at - 1 : at + 1)]++;
            }
            asUnlikely += logProbability(drawn, terms) <= own + 1e-9 ? 1 : 0;
        }
        double total = java.util.Arrays.stream(alpha).sum();
        Map<String, Double> excess = new HashMap<>();
        for (int i = 0; i < counts.length; i++) {
            double expected = found * alpha[i] / total;
            if (counts[i] >= 2 && counts[i] > 3 * expected) {
                excess.put(dates.get(i), (counts[i] - expected) / Math.sqrt(expected));
            }
        }
        List<String> stands = excess.entrySet().stream()
                .sorted(Map.Entry.<String, Double>comparingByValue().reversed())
                .limit(3)
                .map(Map.Entry::getKey)
                .toList();
        return java.util.Optional.of(new Mixture((asUnlikely + 1.0) / (DRAWS + 1.0), stands));
    }

    /// What each count of each date adds to the logarithm of the probability, without what depends on the
    /// totals only.
    private static double[][] terms(double[] alpha, int most) {
        double[][] terms = new double[alpha.length][most + 1];
        for (int i = 0; i < alpha.length; i++) {
            for (int count = 1; count <= most; count++) {
                terms[i][count] = terms[i][count - 1] + Math.log(alpha[i] + count - 1) - Math.log(count);
            }
        }
        return terms;
    }

    private static double logProbability(int[] counts, double[][] terms) {
        double log = 0;
        for (int i = 0; i < counts.length; i++) {
            log += terms[i][counts[i]];
        }
        return log;
    }
}
