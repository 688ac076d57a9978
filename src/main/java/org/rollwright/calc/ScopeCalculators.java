package org.rollwright.calc;

import static org.rollwright.calc.Field.ABOVE_ZERO;
import static org.rollwright.calc.Field.FROM_ZERO;
import static org.rollwright.calc.Field.maybe;
import static org.rollwright.calc.Field.needed;
import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.rollwright.scope.Attribution;
import org.rollwright.scope.Doubling;

/// What is seen under the microscope.
final class ScopeCalculators {
    private static final int MOST_PAIRS = 1_000;
    private static final int MOST_CANDIDATES = 100;
    private static final int MOST_ANSWERS = 1_000;
    /// Millimetres from the centre; no coin is larger.
    private static final Field.Figure ON_THE_COIN = Field.number(-100, 100);

    private static final Field.Figure PROBABILITY = Field.number(0, 1);

    /// Millimetres; a careful click at twenty times magnification (common practice).
    private static final double USUAL_CLICK_SD = 0.02;

    private static final Calculator DOUBLING = new Calculator(
            "doubling",
            () -> t("calc.doubling"),
            () -> t("calc.doubling-question"),
            List.of(
                    needed(
                            "pairs",
                            () -> t("calc.pairs"),
                            new Field.Rows(ON_THE_COIN, 3, MOST_PAIRS, List.of("x", "y", "u", "v")),
                            "0 7.2 -0.18 7.2\n5.1 4.8 4.98 4.92\n-6.8 1.2 -6.83 1.03"),
                    maybe("clickSd", () -> t("calc.click-error"), ABOVE_ZERO, "0.02")),
            ScopeCalculators::doubling);

    private static final Calculator ATTRIBUTION = new Calculator(
            "attribution",
            () -> t("calc.attribution"),
            () -> t("calc.attribution-question"),
            List.of(
                    needed(
                            "candidates",
                            () -> t("calc.candidates"),
                            new Field.Words(2, MOST_CANDIDATES),
                            "ordinary, A"),
                    needed(
                            "priors",
                            () -> t("calc.priors"),
                            new Field.Numbers(FROM_ZERO, 2, MOST_CANDIDATES),
                            "0.9 0.1"),
                    maybe(
                            "likelihoods",
                            () -> t("calc.likelihoods"),
                            new Field.Rows(PROBABILITY, 1, MOST_ANSWERS, List.of()),
                            "0.02 0.6"),
                    maybe(
                            "ask",
                            () -> t("calc.ask"),
                            new Field.Rows(PROBABILITY, 1, MOST_ANSWERS, List.of()),
                            "0.1 0.8")),
            ScopeCalculators::attribution);

    static final List<Calculator> ALL = List.of(DOUBLING, ATTRIBUTION);

    private ScopeCalculators() {}

    private static Answer doubling(Input in) {
        List<Doubling.Pair> pairs = in.rows("pairs").stream()
                .map(row -> new Doubling.Pair(row.get(0), row.get(1), row.get(2), row.get(3)))
                .toList();
        Doubling found = Doubling.fit(pairs, in.number("clickSd", USUAL_CLICK_SD));
        boolean turns = !Double.isNaN(found.pivotX());
        return new Answer(
                Answer.values(
                        "motion", found.motion().word(),
                        "angleDeg", found.angleDegrees(),
                        "pivot", turns ? List.of(found.pivotX(), found.pivotY()) : null,
                        "shift", List.of(found.shiftX(), found.shiftY()),
                        "rms", found.rms()),
                List.of(
                        switch (found.motion()) {
                            case SHIFT -> f("calc.doubling-shift", found.shiftX(), found.shiftY());
                            case ROTATION -> f("calc.doubling-rotation", found.angleDegrees());
                            case PIVOT ->
                                f("calc.doubling-pivot", found.angleDegrees(), found.pivotX(), found.pivotY());
                            case SPREAD -> f("calc.doubling-spread", 100 * found.spread());
                        },
                        f("calc.doubling-misfit", 1000 * found.rms())));
    }

    private static Answer attribution(Input in) {
        List<String> candidates = in.words("candidates");
        List<Double> priors = in.numbers("priors");
        if (priors.size() != candidates.size()) {
            throw Input.refused(t("calc.holds-numbers", priors.size(), in.where("priors")), right(candidates.size()));
        }
        if (priors.stream().allMatch(p -> p == 0)) {
            throw Input.refused(t("calc.all-zero", in.where("priors")), t("calc.write-one-above"));
        }
        for (String key : List.of("likelihoods", "ask")) {
            List<List<Double>> rows = in.rows(key);
            for (int i = 0; i < rows.size(); i++) {
                if (rows.get(i).size() != candidates.size()) {
                    String row = t("calc.at-row", in.where(key), i + 1);
                    throw Input.refused(t("calc.holds-numbers", rows.get(i).size(), row), right(candidates.size()));
                }
            }
        }
        List<List<Double>> likelihoods = in.rows("likelihoods");
        if (contradicted(priors, likelihoods)) {
            throw Input.refused(t("calc.contradicts-all", in.where("likelihoods")), t("calc.leave-one-possible"));
        }
        Attribution found = Attribution.of(priors, likelihoods);
        List<Double> gains = in.rows("ask").stream().map(found::gainBits).toList();
        List<String> sentences = new ArrayList<>();
        for (int i = 0; i < candidates.size(); i++) {
            sentences.add(f(
                    "calc.attribution-answer",
                    candidates.get(i),
                    100 * found.posterior().get(i)));
        }
        for (int i = 0; i < gains.size(); i++) {
            sentences.add(f("calc.attribution-gain", i + 1, gains.get(i)));
        }
        return new Answer(Answer.values("posterior", found.posterior(), "gainBits", gains), sentences);
    }

    private static String right(int candidates) {
        return t("calc.one-for-each-candidate", candidates);
    }

    /// Whether every candidate is ruled out, by its prior or by an answer.
    private static boolean contradicted(List<Double> priors, List<List<Double>> likelihoods) {
        return IntStream.range(0, priors.size())
                .noneMatch(c -> priors.get(c) > 0 && likelihoods.stream().noneMatch(answer -> answer.get(c) == 0));
    }
}
