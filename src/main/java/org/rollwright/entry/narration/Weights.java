package org.rollwright.entry.narration;

import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/// The decoder's parameters: data in catalog/narration/weights.csv.
///
/// A mention of a coin is a new find, the same coin as the last find, or neither; the logarithm of the odds of
/// the first two against the third is the sum of the weights of its features. The rest are logarithms of
/// probabilities.
public final class Weights {
    final double[] fresh = new double[Feature.COUNT];
    final double[] same = new double[Feature.COUNT];
    private final Map<String, Double> others = new TreeMap<>();

    Weights() {}

    /// Reads rows `name,new,same,source`; a name that is no feature has one value in the column `new`.
    ///
    /// @throws IllegalArgumentException when a row has another shape; the file is part of the program
    public static Weights parse(String csv) {
        Weights weights = new Weights();
        Map<String, Feature> features = new TreeMap<>();
        for (Feature feature : Feature.values()) {
            features.put(feature.name().toLowerCase(Locale.ROOT), feature);
        }
        csv.lines().skip(1).filter(line -> !line.isBlank()).forEach(line -> {
            String[] cells = line.split(",", -1);
            if (cells.length != 4) {
                throw new IllegalArgumentException("weights.csv: '" + line + "' does not have four cells");
            }
            Feature feature = features.get(cells[0]);
            if (feature == null) {
                weights.others.put(cells[0], Double.parseDouble(cells[1]));
            } else {
                weights.fresh[feature.index()] = Double.parseDouble(cells[1]);
                weights.same[feature.index()] = Double.parseDouble(cells[2]);
            }
        });
        return weights;
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
