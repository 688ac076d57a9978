package org.rollwright.scale;

import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.List;
import org.rollwright.coin.Alloy;
import org.rollwright.coin.Mass;
import org.rollwright.coin.Metal;
import org.rollwright.text.Figures;

/// What one weight says of one coin: which alloys' tolerances it lies in, given what the scale can show.
///
/// @param fits alloys whose tolerance, widened by the scale's step, holds the weight
/// @param sentence for a person
public record SingleCoin(List<Alloy> fits, String sentence) {
    /// Wear may take that much more from a coin than the mint's tolerance allows, grams (TRADE: metal, about
    /// 0.1 g).
    private static final double WEAR = 0.1;

    private static final double USUAL_TOLERANCE = 0.13;

    public SingleCoin {
        fits = List.copyOf(fits);
    }

    /// @param alloys that the coin may be of by its date
    /// @param resolution smallest step of the scale, grams
    public static SingleCoin of(double grams, double resolution, List<Alloy> alloys) {
        List<Alloy> fits = new ArrayList<>();
        for (Alloy alloy : alloys) {
            Mass tolerance = alloy.tolerance();
            double allowed = tolerance == null ? USUAL_TOLERANCE : tolerance.grams();
            double low = alloy.weight().grams() - allowed - WEAR - resolution / 2;
            double high = alloy.weight().grams() + allowed + resolution / 2;
            if (grams >= low && grams <= high) {
                fits.add(alloy);
            }
        }
        double gap = gap(alloys);
        String sentence;
        if (alloys.size() > 1 && resolution >= gap) {
            sentence = f("scale.scale-too-coarse", plain(resolution), plain(gap));
            return new SingleCoin(fits, sentence);
        }
        if (fits.isEmpty()) {
            sentence = t("scale.neither", nearest(grams, alloys));
        } else if (fits.size() == 1) {
            sentence = t("scale.g-lies-within", name(fits.getFirst()), plain(grams), range(fits.getFirst()));
        } else {
            sentence = t(
                    "scale.undecided",
                    fits.stream()
                            .map(SingleCoin::name)
                            .reduce((a, b) -> t("scale.and", a, b))
                            .orElse(""));
        }
        return new SingleCoin(fits, sentence);
    }

    /// Smallest distance between the weights of two alloys that differ.
    private static double gap(List<Alloy> alloys) {
        double gap = Double.POSITIVE_INFINITY;
        for (Alloy one : alloys) {
            for (Alloy two : alloys) {
                double far = Math.abs(one.weight().grams() - two.weight().grams());
                if (far > 0.05) {
                    gap = Math.min(gap, far);
                }
            }
        }
        return gap;
    }

    private static String nearest(double grams, List<Alloy> alloys) {
        return alloys.stream()
                .min(java.util.Comparator.comparingDouble(
                        alloy -> Math.abs(alloy.weight().grams() - grams)))
                .map(alloy -> t("scale.nearest-is-with", name(alloy), range(alloy)))
                .orElse("");
    }

    private static String range(Alloy alloy) {
        Mass tolerance = alloy.tolerance();
        return t(
                "scale.g-worn-coins-g-less",
                plain(alloy.weight().grams()),
                plain(tolerance == null ? USUAL_TOLERANCE : tolerance.grams()),
                plain(WEAR));
    }

    /// Word a hunter uses: bronze, zinc, steel …
    static String name(Alloy alloy) {
        return alloy.metal() == Metal.COPPER
                ? (alloy.name().contains("brass") ? t("scale.brass") : t("scale.bronze"))
                : alloy.metal().said();
    }

    private static String plain(double value) {
        return Figures.plain(Math.round(value * 1000) / 1000.0);
    }
}
