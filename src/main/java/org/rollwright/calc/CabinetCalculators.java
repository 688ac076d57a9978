package org.rollwright.calc;

import static org.rollwright.calc.Field.ABOVE_ZERO;
import static org.rollwright.calc.Field.FROM_ZERO;
import static org.rollwright.calc.Field.needed;
import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.t;

import java.util.List;
import org.rollwright.cabinet.GradingDecision;

/// What a coin may bring.
final class CabinetCalculators {
    private static final int MOST_GRADES = 100;
    private static final Field.Numbers ONE_FOR_EACH_GRADE = new Field.Numbers(FROM_ZERO, 1, MOST_GRADES);

    private static final Calculator GRADING = new Calculator(
            "grading",
            () -> t("calc.grading"),
            () -> t("calc.grading-question"),
            List.of(
                    needed("estimate", () -> t("calc.own-estimate"), FROM_ZERO, "64.2"),
                    needed("sd", () -> t("calc.error-of-it"), ABOVE_ZERO, "1"),
                    needed("grades", () -> t("calc.grades"), ONE_FOR_EACH_GRADE, "63 64 65"),
                    needed("values", () -> t("calc.values-if-so-graded"), ONE_FOR_EACH_GRADE, "24 40 95"),
                    needed("raw", () -> t("calc.value-as-it-is"), FROM_ZERO, "32"),
                    needed("fees", () -> t("calc.all-fees"), FROM_ZERO, "27")),
            CabinetCalculators::grading);

    static final List<Calculator> ALL = List.of(GRADING);

    private CabinetCalculators() {}

    private static Answer grading(Input in) {
        List<Double> grades = in.numbers("grades");
        List<Double> values = in.numbers("values");
        if (values.size() != grades.size()) {
            throw Input.refused(
                    t("calc.holds-numbers", values.size(), in.where("values")),
                    t("calc.one-for-each-grade", grades.size()));
        }
        for (int i = 1; i < grades.size(); i++) {
            if (grades.get(i) <= grades.get(i - 1)) {
                throw Input.refused(t("calc.do-not-rise", in.where("grades")), t("calc.write-them-rising"));
            }
        }
        GradingDecision found = GradingDecision.of(
                in.number("estimate"), in.number("sd"), grades, values, in.number("raw"), in.number("fees"));
        return new Answer(
                Answer.values("expectedNet", found.expectedNet(), "gain", found.gain(), "pAhead", found.ahead()),
                List.of(
                        found.gain() >= 0
                                ? f("calc.grading-pays", found.expectedNet(), found.gain())
                                : f("calc.grading-costs", found.expectedNet(), -found.gain()),
                        f("calc.grading-ahead", 100 * found.ahead())));
    }
}
