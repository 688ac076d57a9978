package org.rollwright.calc;

import static org.rollwright.calc.Field.ABOVE_ZERO;
import static org.rollwright.calc.Field.FROM_ZERO;
import static org.rollwright.calc.Field.needed;
import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.t;

import java.util.List;
import org.rollwright.scale.CountByWeight;
import org.rollwright.scale.MixedPile;

/// What a weight says of coins.
final class ScaleCalculators {
    private static final int MOST_COINS = 100_000;

    private static final Calculator WEIGHT = new Calculator(
            "weight",
            () -> t("calc.weight"),
            () -> t("calc.weight-question"),
            List.of(
                    needed("grams", () -> t("calc.grams"), FROM_ZERO, "1899.4"),
                    needed("coinMean", () -> t("calc.grams-of-one"), ABOVE_ZERO, "3.11"),
                    needed("coinSd", () -> t("calc.spread-of-one"), FROM_ZERO, "0.04"),
                    needed("resolution", () -> t("calc.step-of-the-scale"), FROM_ZERO, "1")),
            ScaleCalculators::weight);

    private static final Calculator MIXTURE = new Calculator(
            "mixture",
            () -> t("calc.mixture"),
            () -> t("calc.mixture-question"),
            List.of(
                    needed("grams", () -> t("calc.grams"), FROM_ZERO, "132.9"),
                    needed("coins", () -> t("calc.coins-in-the-pile"), Field.whole(1, MOST_COINS), "50"),
                    needed("heavyMean", () -> t("calc.grams-of-a-heavy-one"), ABOVE_ZERO, "3.11"),
                    needed("lightMean", () -> t("calc.grams-of-a-light-one"), ABOVE_ZERO, "2.5"),
                    needed("heavySd", () -> t("calc.spread-of-heavy-ones"), FROM_ZERO, "0.04"),
                    needed("lightSd", () -> t("calc.spread-of-light-ones"), FROM_ZERO, "0.03"),
                    needed("resolution", () -> t("calc.step-of-the-scale"), FROM_ZERO, "0.1")),
            ScaleCalculators::mixture);

    static final List<Calculator> ALL = List.of(WEIGHT, MIXTURE);

    private ScaleCalculators() {}

    private static Answer weight(Input in) {
        CountByWeight found = CountByWeight.of(
                in.number("grams"), in.number("coinMean"), in.number("coinSd"), in.number("resolution"));
        return new Answer(
                Answer.values("coins", found.coins(), "se", found.standardError()),
                List.of(f("calc.weight-answer", found.coins(), found.standardError())));
    }

    private static Answer mixture(Input in) {
        double heavy = in.number("heavyMean");
        double light = in.number("lightMean");
        if (heavy <= light) {
            throw Input.refused(
                    t("calc.not-above", in.where("heavyMean"), in.where("lightMean")), t("calc.write-heavier"));
        }
        double heavySd = in.number("heavySd");
        double lightSd = in.number("lightSd");
        double resolution = in.number("resolution");
        if (resolution == 0 && (heavySd == 0 || lightSd == 0)) {
            throw Input.refused(
                    t("calc.no-spread", in.where("resolution"), in.where("heavySd"), in.where("lightSd")),
                    t("calc.write-a-step"));
        }
        int coins = in.whole("coins");
        MixedPile found = MixedPile.of(in.number("grams"), coins, heavy, light, heavySd, lightSd, resolution);
        return new Answer(
                Answer.values("moments", found.moments(), "mean", found.mean(), "sd", found.sd()),
                List.of(
                        f("calc.mixture-answer", found.mean(), coins, found.sd()),
                        f("calc.mixture-by-means", found.moments())));
    }
}
