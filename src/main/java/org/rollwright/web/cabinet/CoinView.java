package org.rollwright.web.cabinet;

import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.labelled;
import static org.rollwright.text.Texts.t;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.rollwright.cabinet.Acquisition;
import org.rollwright.cabinet.CabinetIndex;
import org.rollwright.cabinet.CabinetNote;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.cabinet.GradingDecision;
import org.rollwright.cabinet.GradingRecord;
import org.rollwright.cabinet.PricePoint;
import org.rollwright.cabinet.ValueModel;
import org.rollwright.catalog.Catalog;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Colour;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Limits;
import org.rollwright.desk.State;
import org.rollwright.entry.Command;
import org.rollwright.entry.FindText;
import org.rollwright.hunt.Disposition;
import org.rollwright.scope.PhotoSubject;
import org.rollwright.text.Figures;
import org.rollwright.web.scope.VarietyViews;
import org.rollwright.web.shell.Manner;
import org.rollwright.web.shell.Shown;
import tools.jackson.databind.json.JsonMapper;

/// What the page of one coin shows: its state, its prices, and whether grading pays.
public final class CoinView {
    private CoinView() {}

    /// One coin.
    public record Coin(
            String ref,
            String name,
            String state,
            String line,
            String upTo,
            String place,
            long placeId,
            String album,
            String provenance,
            String value,
            List<String> history,
            List<VarietyViews.Thumb> photos,
            String findAddress,
            Grid grid,
            @Nullable Decision decision,
            String record,
            @Nullable Sent sent,
            List<CabinetView.PlaceRow> places,
            List<Shown.Thing> things,
            List<String> problems,
            Map<String, String> typed) {}

    /// The price grid of an issue.
    ///
    /// @param charted whether its values are of more than one grade, so that a line can be drawn
    public record Grid(
            String issue, List<String> colours, List<GridRow> rows, String warning, String chart, boolean charted) {}

    /// One grade of the grid.
    public record GridRow(int grade, String label, List<Cell> cells) {}

    /// One cell: what was typed, or what is estimated.
    public record Cell(String name, String typed, String estimate, String spoken) {}

    /// Whether grading pays.
    public record Decision(List<Outcome> outcomes, String sentence, String breakEven, boolean pays) {}

    /// One outcome.
    public record Outcome(String grade, String chance, String value) {}

    /// At grading.
    public record Sent(String day, String estimate, String outcome, String cost) {}

    static Coin coin(
            State book,
            Catalog catalog,
            CabinetShelf.Contents state,
            CabinetIndex.Entry entry,
            Map<String, String> typed,
            List<String> problems) {
        CoinRef ref = entry.ref();
        CabinetNote note = book.cabinet().note(ref).orElse(null);
        Grade upTo = entry.gradeUpTo();
        Identity identity = entry.description().identity();
        String find = ref.findId()
                .flatMap(book.hunt()::find)
                .map(one -> one.hunt().number() + "/" + one.ordinal())
                .orElse("");
        CabinetNote.Submission submission = note == null ? null : note.submission();
        return new Coin(
                ref.toString(),
                entry.name(),
                CabinetView.state(entry),
                line(entry.description(), catalog),
                upTo == null ? "" : upTo.toString(),
                entry.place(),
                entry.placeId() == null ? 0 : entry.placeId().number(),
                entry.album(),
                provenance(book, entry),
                CabinetIndex.value(entry, state.values())
                        .map(CabinetView::value)
                        .orElse(t("cabinet.no-estimate")),
                history(book, note),
                ref.findId()
                        .map(id -> VarietyViews.thumbs(book, catalog, PhotoSubject.find(id)))
                        .orElse(List.of()),
                find,
                grid(
                        book,
                        catalog,
                        state.values(),
                        identity,
                        entry.description().grade()),
                decision(state, entry, typed),
                state.record().sentence(),
                submission == null
                        ? null
                        : new Sent(
                                Manner.day(submission.day()),
                                number(submission.estimate()),
                                submission.outcome() == 0 ? "" : number(submission.outcome()),
                                Figures.plain(submission.cost())),
                CabinetView.places(book, state.index()),
                List.of(
                        CoinThing.prices(
                                ref.toString(),
                                identity,
                                book.cabinet().prices().getOrDefault(identity, List.of())),
                        CoinThing.submission(ref, submission)),
                problems,
                typed);
    }

    /// A coin as one would type it.
    static String line(CoinDescription what, Catalog catalog) {
        return FindText.print(
                new Command.FindDraft(what, 1, false, Disposition.OPEN),
                catalog,
                what.identity().denomination());
    }

    static String number(double value) {
        return BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
    }

    private static String provenance(State book, CabinetIndex.Entry entry) {
        CoinRef ref = entry.ref();
        Optional<Acquisition> acquisition = book.cabinet().acquisition(ref);
        if (acquisition.isPresent()) {
            BigDecimal price = acquisition.get().price();
            return acquisition.get().sentence() + (price == null ? "" : ", " + t("cabinet.bought-for", price));
        }
        return ref.findId()
                .flatMap(book.hunt()::find)
                .map(find -> find.count() > 1
                        ? t(
                                "cabinet.found-in",
                                entry.from(),
                                Manner.day(find.at()),
                                find.ordinal(),
                                ref.piece(),
                                find.count())
                        : t("cabinet.found-in-on-find-f", entry.from(), Manner.day(find.at()), find.ordinal()))
                .orElse(entry.from());
    }

    private static List<String> history(State book, @Nullable CabinetNote note) {
        if (note == null) {
            return List.of();
        }
        return note.stays().stream()
                .map(stay -> labelled(
                        Manner.day(stay.since()),
                        stay.place() == null
                                ? t("cabinet.nowhere-word")
                                : CabinetIndex.path(book.cabinet(), stay.place())))
                .toList();
    }

    static Grid grid(State book, Catalog catalog, ValueModel model, Identity identity, @Nullable Grade own) {
        boolean coloured = CabinetIndex.hasColour(catalog, identity);
        List<PricePoint> typed = book.cabinet().prices().getOrDefault(identity, List.of());
        List<@Nullable Colour> colours = new ArrayList<>();
        if (coloured) {
            colours.add(Colour.BN);
            colours.add(Colour.RB);
            colours.add(Colour.RD);
        } else {
            colours.add(null);
        }
        List<Integer> grades =
                CabinetIndex.gridGrades(own == null ? OptionalInt.empty() : OptionalInt.of(own.points()));
        List<GridRow> rows = new ArrayList<>();
        List<Object> chart = new ArrayList<>();
        Set<Integer> valued = new HashSet<>();
        for (int points : grades) {
            Grade grade = new Grade(points);
            List<Cell> cells = new ArrayList<>();
            for (Colour colour : colours) {
                if (coloured && points < 60 && colour != Colour.BN) {
                    cells.add(new Cell("", "", "", ""));
                    continue;
                }
                Colour said = points < 60 ? null : colour;
                String text = typed.stream()
                        .filter(price -> price.grade().equals(grade) && sameColour(price.colour(), said))
                        .map(price -> price.amount().toPlainString())
                        .findFirst()
                        .orElse("");
                Optional<ValueModel.Value> value = model.value(identity, grade, said);
                cells.add(new Cell(
                        "p" + points + (said == null ? "" : "-" + said),
                        text,
                        text.isEmpty() ? value.map(CabinetView::value).orElse("") : "",
                        t("cabinet.price-at", grade, said == null ? "" : " " + said)));
                if (value.isPresent()) {
                    valued.add(points);
                    chart.add(List.of(
                            points,
                            said == null ? "" : said.name(),
                            rounded(value.get().amount()),
                            rounded(value.get().low()),
                            rounded(value.get().high()),
                            value.get().typed()));
                }
            }
            rows.add(new GridRow(points, grade.toString(), cells));
        }
        return new Grid(
                identity.toString(),
                coloured ? List.of(t("cabinet.bn-or-any-below-60"), "RB", "RD") : List.of(t("cabinet.price")),
                rows,
                model.contradiction(identity).orElse(""),
                JsonMapper.shared().writeValueAsString(chart),
                valued.size() > 1);
    }

    /// What a chart can show, without the digits it cannot.
    private static double rounded(double amount) {
        return Math.round(10_000 * amount) / 10_000.0;
    }

    static boolean sameColour(@Nullable Colour a, @Nullable Colour b) {
        return (a == null ? Colour.BN : a) == (b == null ? Colour.BN : b);
    }

    private static @Nullable Decision decision(
            CabinetShelf.Contents state, CabinetIndex.Entry entry, Map<String, String> typed) {
        Grade own = entry.description().grade();
        if (own == null) {
            return null;
        }
        GradingRecord record = state.record();
        double estimate = amount(typed, "estimate", own.points()) + record.bias();
        double fees = amount(typed, "fee", 30) + amount(typed, "shared", 40) / Math.max(1, amount(typed, "batch", 1));
        Optional<ValueModel.Value> raw = CabinetIndex.value(entry, state.values());
        double rawValue = amount(typed, "raw", raw.map(ValueModel.Value::amount).orElse(0.0));
        List<Double> grades = new ArrayList<>();
        List<Double> values = new ArrayList<>();
        for (int points : Grade.steps()) {
            Optional<ValueModel.Value> value = state.values()
                    .value(
                            entry.description().identity(),
                            new Grade(points),
                            entry.description().colour());
            if (value.isPresent() && Math.abs(points - estimate) <= 5 * record.spread() + 6) {
                grades.add((double) points);
                values.add(value.get().amount());
            }
        }
        if (grades.size() < 2) {
            return null;
        }
        GradingDecision decision = GradingDecision.of(estimate, record.spread(), grades, values, rawValue, fees);
        List<Outcome> outcomes = new ArrayList<>();
        String breakEven = t("cabinet.fees-never-back");
        for (int i = grades.size() - 1; i >= 0; i--) {
            if (decision.probabilities().get(i) >= 0.005) {
                outcomes.addFirst(new Outcome(
                        new Grade(grades.get(i).intValue()).toString(),
                        Figures.percent(decision.probabilities().get(i), 0),
                        CabinetView.rough(values.get(i))));
            }
            if (values.get(i) - fees > rawValue) {
                breakEven = t(
                        "cabinet.it-breaks-even-from-on",
                        new Grade(grades.get(i).intValue()));
            }
        }
        return new Decision(
                outcomes,
                f(
                        "cabinet.grading-outcome",
                        CabinetView.rough(decision.expectedNet()),
                        CabinetView.rough(fees),
                        CabinetView.rough(rawValue),
                        decision.gain() >= 0 ? t("cabinet.a-gain-of") : t("cabinet.a-loss-of"),
                        CabinetView.rough(Math.abs(decision.gain())),
                        100 * decision.ahead()),
                breakEven,
                decision.gain() > 0);
    }

    private static double amount(Map<String, String> typed, String name, double otherwise) {
        String text = Limits.typed(typed.getOrDefault(name, "").strip());
        return text.matches("[0-9]{1,9}(\\.[0-9]{1,4})?") ? Double.parseDouble(text) : otherwise;
    }
}
