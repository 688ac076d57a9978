package org.rollwright.entry.narration;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/// The decoder's parameters: data in catalog/narration/weights.csv.
///
/// A mention of a coin is a new find, the same coin as the last find, or neither; the logarithm of the odds of
/// the first two against the third is the sum of the weights of its features and of what is observed around it
/// ([Cues], [Voice]). The rest are logarithms of probabilities, and the clues of [Rolls].
public final class Weights {
    /// Rows of what is observed begin so; see [Cues].
    static final String CUE = "cue ";

    /// Rows of the first listening begin so.
    static final String FIRST = "first ";

    final double[] fresh = new double[Feature.COUNT];
    final double[] same = new double[Feature.COUNT];
    private final Map<String, Double> others = new TreeMap<>();
    private final Map<String, double[]> cues = new java.util.HashMap<>();
    private final Map<String, double[]> firstCues = new java.util.HashMap<>();

    Weights() {}

    /// Reads rows `name,new,same,source`; a name that is no feature has one value in the column `new`.
    ///
    /// @throws IllegalArgumentException when a row has another shape; the file is part of the program
    public static Weights parse(String csv) {
        Weights weights = new Weights();
        Map<String, Feature> features = features();
        Csv.rows(csv, "weights.csv", 4, cells -> {
            Feature feature = features.get(cells.getField(0));
            if (feature == null && !cells.getField(2).isEmpty()) {
                boolean early = cells.getField(0).startsWith(FIRST);
                (early ? weights.firstCues : weights.cues)
                        .put(cells.getField(0).substring((early ? FIRST : CUE).length()), new double[] {
                            Double.parseDouble(cells.getField(1)), Double.parseDouble(cells.getField(2))
                        });
            } else if (feature == null) {
                weights.others.put(cells.getField(0), Double.parseDouble(cells.getField(1)));
            } else {
                weights.fresh[feature.index()] = Double.parseDouble(cells.getField(1));
                weights.same[feature.index()] = Double.parseDouble(cells.getField(2));
            }
        });
        return weights;
    }

    /// Features by their names in the file.
    static Map<String, Feature> features() {
        Map<String, Feature> features = new TreeMap<>();
        for (Feature feature : Feature.values()) {
            features.put(feature.name().toLowerCase(Locale.ROOT), feature);
        }
        return features;
    }

    /// Weights by the name that examples of the two listenings carry ([Taught]); null for one that is not known.
    double @org.jspecify.annotations.Nullable [] known(String name) {
        Feature feature = features().get(name);
        return feature != null
                ? new double[] {fresh[feature.index()], same[feature.index()]}
                : name.startsWith(CUE)
                        ? cues.get(name.substring(CUE.length()))
                        : firstCues.get(name.substring(FIRST.length()));
    }

    /// The same weights but for some.
    ///
    /// @param names as examples carry them
    /// @param w rows of new values by place of the name
    Weights with(List<String> names, double[][] w) {
        Weights copy = new Weights();
        System.arraycopy(fresh, 0, copy.fresh, 0, fresh.length);
        System.arraycopy(same, 0, copy.same, 0, same.length);
        copy.others.putAll(others);
        copy.cues.putAll(cues);
        copy.firstCues.putAll(firstCues);
        Map<String, Feature> features = features();
        for (int o = 0; o < names.size(); o++) {
            String name = names.get(o);
            Feature feature = features.get(name);
            if (feature != null) {
                copy.fresh[feature.index()] = w[0][o];
                copy.same[feature.index()] = w[1][o];
            } else {
                boolean cue = name.startsWith(CUE);
                (cue ? copy.cues : copy.firstCues)
                        .put(name.substring((cue ? CUE : FIRST).length()), new double[] {w[0][o], w[1][o]});
            }
        }
        return copy;
    }

    /// What observations say together for a new find and for the same coin again.
    double[] together(List<String> observed) {
        double[] sum = new double[2];
        for (String one : observed) {
            add(sum, cues.get(one));
        }
        return sum;
    }

    /// The probability of a find after the first listening, which knows of no other mention.
    double first(List<String> observed, List<Feature> features) {
        double[] sum = new double[2];
        for (String one : observed) {
            add(sum, firstCues.get(one));
        }
        for (Feature feature : features) {
            add(sum, firstCues.get(feature.name()));
        }
        double high = Math.max(0, Math.max(sum[0], sum[1]));
        double all = Math.exp(-high) + Math.exp(sum[0] - high) + Math.exp(sum[1] - high);
        return Math.exp(sum[0] - high) / all;
    }

    private static void add(double[] sum, double @org.jspecify.annotations.Nullable [] weight) {
        if (weight != null) {
            sum[0] += weight[0];
            sum[1] += weight[1];
        }
    }

    /// A probability as it turned out on recordings left out of the learning (Platt 1999: a logistic curve over the
    /// logarithm of the odds).
    double calibrated(double probability) {
        double inside = Math.clamp(probability, 1e-6, 1 - 1e-6);
        double odds = Math.log(inside / (1 - inside));
        return Math.min(0.999, 1 / (1 + Math.exp(-(of("calibrate_slope") * odds + of("calibrate_shift")))));
    }

    Map<String, double[]> cues() {
        return cues;
    }

    Map<String, double[]> firstCues() {
        return firstCues;
    }

    double of(String name) {
        Double value = others.get(name);
        if (value == null) {
            throw new IllegalArgumentException("weights.csv has no " + name);
        }
        return value;
    }

    Map<String, Double> others() {
        return others;
    }
}
