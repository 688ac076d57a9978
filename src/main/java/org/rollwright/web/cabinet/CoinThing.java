package org.rollwright.web.cabinet;

import static org.rollwright.text.Texts.t;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.rollwright.cabinet.CabinetEvent;
import org.rollwright.cabinet.CabinetNote;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.cabinet.PricePoint;
import org.rollwright.coin.Identity;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.web.shell.Shown.Field;
import org.rollwright.web.shell.Shown.Thing;

/// What can be said of one coin, with the fields of the forms that say it. See [Shown].
public final class CoinThing {
    private CoinThing() {}

    /// What one coin is.
    public static Thing coin(String ref, String line, String upTo) {
        return new Thing(
                "coin " + ref,
                line,
                "/cabinet/coin/" + ref,
                event -> switch (event) {
                    case CabinetEvent.CoinDescribed one -> one.coin().toString().equals(ref);
                    case HuntEvent.FindCorrected fixed ->
                        CoinRef.parse(ref)
                                .flatMap(CoinRef::findId)
                                .filter(fixed.find()::equals)
                                .isPresent();
                    default -> false;
                },
                List.of(
                        Field.line("line", t("coin.as-on-the-entry-line"), line),
                        Field.line("upTo", t("coin.grade-up-to"), upTo)));
    }

    /// The prices of an issue, in the cells of the grid.
    static Thing prices(String ref, Identity issue, List<PricePoint> points) {
        List<Field> fields = points.stream()
                .map(point -> Field.line(
                        "p" + point.grade().points() + (point.colour() == null ? "" : "-" + point.colour()),
                        t("cabinet.price-at", point.grade(), point.colour() == null ? "" : " " + point.colour()),
                        point.amount().toPlainString()))
                .sorted(java.util.Comparator.comparing(Field::name))
                .toList();
        return new Thing(
                "prices " + issue,
                issue.toString(),
                "/cabinet/coin/" + ref + "#prices",
                event -> switch (event) {
                    case CabinetEvent.PriceNoted noted -> noted.price().issue().equals(issue);
                    case CabinetEvent.PriceForgotten gone ->
                        gone.price().issue().equals(issue);
                    default -> false;
                },
                fields);
    }

    /// A coin at grading.
    static Thing submission(CoinRef ref, CabinetNote.@Nullable Submission sent) {
        List<Field> fields = sent == null
                ? List.of()
                : List.of(
                        Field.line("estimate", t("coin.sent-as"), CoinView.number(sent.estimate())),
                        Field.line(
                                "outcome",
                                t("coin.came-back-as"),
                                sent.outcome() == 0 ? "" : CoinView.number(sent.outcome())),
                        Field.line("cost", t("coin.cost"), sent.cost().toPlainString()));
        return new Thing(
                "submission " + ref,
                ref.toString(),
                "/cabinet/coin/" + ref + "#grading",
                event -> event instanceof CabinetEvent.CoinSubmitted one
                        && one.coin().equals(ref),
                fields);
    }
}
