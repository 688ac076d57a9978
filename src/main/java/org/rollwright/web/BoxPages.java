package org.rollwright.web;

import static org.rollwright.text.Texts.t;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.javalin.http.NotFoundResponse;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.coin.Limits;
import org.rollwright.desk.Desk;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.HuntEvent;

/// Boxes: the list, one box's report, ordering one, and what is known of it.
final class BoxPages {
    private final Bench bench;
    private final Render render;

    BoxPages(Bench bench, Render render) {
        this.bench = bench;
        this.render = render;
    }

    void register(RoutesConfig routes) {
        routes.get("/boxes", context -> boxes(context, List.of()));
        routes.post("/boxes", this::add);
        routes.post("/boxes/opening", this::opening);
        routes.post("/boxes/undo", this::undo);
        routes.get("/boxes/{box}", context -> box(context, List.of()));
        routes.post("/boxes/{box}", this::change);
    }

    private void boxes(Context context, List<String> problems) {
        String chosen = Optional.ofNullable(context.queryParam("denomination")).orElse("");
        String order = Optional.ofNullable(context.queryParam("order")).orElse("newest");
        render.page(
                context,
                "boxes",
                Map.of(
                        "frame",
                        bench.frame(t("page.boxes"), "boxes"),
                        "view",
                        bench.desk().read(book -> BoxesView.of(book, bench.catalog(), chosen, order, problems))));
    }

    private void refused(Context context, List<String> problems) {
        context.status(HttpStatus.UNPROCESSABLE_CONTENT);
        boxes(context, problems);
    }

    private Optional<DenominationFacts> denomination(Context context) {
        String wanted = HuntForm.text(context, "denomination");
        return bench.catalog().denominations().stream()
                .filter(facts -> facts.denomination().toString().equals(wanted))
                .findFirst();
    }

    /// A box that is ordered or waiting; a hunt is started on it later.
    private void add(Context context) {
        List<String> wrong = new ArrayList<>();
        Optional<DenominationFacts> facts = denomination(context);
        if (facts.isEmpty()) {
            refused(context, List.of(t("box.choose-a-denomination-from-the")));
            return;
        }
        Integer full = facts.get().rollsPerBox();
        String rolls = HuntForm.text(context, "rolls");
        OptionalInt count = rolls.isEmpty() && full != null
                ? OptionalInt.of(full)
                : HuntForm.number(rolls, t("box.the-number-of-rolls"), 1, 10_000, wrong);
        @Nullable LocalDate ordered = day(context, "ordered", wrong);
        @Nullable LocalDate pickedUp = day(context, "pickedUp", wrong);
        if (!wrong.isEmpty() || count.isEmpty()) {
            refused(context, wrong);
            return;
        }
        Desk.Outcome outcome = bench.desk().record(0, "", book -> {
            BoxId id = book.hunt().nextBox();
            String label = HuntForm.text(context, "label");
            return new HuntEvent.BoxAdded(
                    id,
                    facts.get().denomination(),
                    new BoxDetails(
                            label.isEmpty() ? "Box " + id.number() : label,
                            BoxDetails.Form.BOX,
                            count.getAsInt(),
                            facts.get().coinsPerRoll(),
                            0,
                            HuntForm.text(context, "bank"),
                            HuntForm.text(context, "branch"),
                            HuntForm.text(context, "wrap"),
                            HuntForm.text(context, "stamp"),
                            HuntForm.text(context, "sisters"),
                            ordered,
                            pickedUp,
                            null,
                            "",
                            HuntForm.text(context, "note")));
        });
        done(context, outcome, "/boxes");
    }

    private void opening(Context context) {
        List<String> wrong = new ArrayList<>();
        Optional<DenominationFacts> facts = denomination(context);
        OptionalInt boxes =
                HuntForm.number(HuntForm.text(context, "boxes"), t("box.the-number-of-boxes"), 0, 100_000, wrong);
        OptionalInt coins =
                HuntForm.number(HuntForm.text(context, "coins"), t("box.coins-searched"), 0, Integer.MAX_VALUE, wrong);
        OptionalInt found =
                HuntForm.number(HuntForm.text(context, "found"), t("box.coins-found"), 0, Integer.MAX_VALUE, wrong);
        String watch = HuntForm.text(context, "watch");
        if (bench.catalog().watchByWord(watch).isEmpty()) {
            wrong.add(t("box.is-nothing-the-catalogue-can", watch));
        }
        if (!wrong.isEmpty() || facts.isEmpty() || boxes.isEmpty() || coins.isEmpty() || found.isEmpty()) {
            refused(context, wrong);
            return;
        }
        String name = bench.catalog().watchByWord(watch).orElseThrow().name();
        done(
                context,
                bench.desk()
                        .record(
                                0,
                                "",
                                book -> new HuntEvent.OpeningBalance(
                                        facts.get().denomination(),
                                        name,
                                        boxes.getAsInt(),
                                        coins.getAsInt(),
                                        found.getAsInt())),
                "/boxes");
    }

    private void undo(Context context) {
        done(context, bench.desk().undo(0, "", HuntForm.asOf(context)), "/boxes");
    }

    private void done(Context context, Desk.Outcome outcome, String next) {
        switch (outcome) {
            case Desk.Outcome.Kept kept -> context.redirect(next, HttpStatus.SEE_OTHER);
            case Desk.Outcome.Refused refused ->
                refused(context, List.of(refused.refusal().toString()));
        }
    }

    static @Nullable LocalDate day(Context context, String field, List<String> wrong) {
        String text = HuntForm.text(context, field);
        if (text.isEmpty()) {
            return null;
        }
        LocalDate day = Limits.day(text).orElse(null);
        if (day == null) {
            wrong.add(t("box.is-no-date-write-it", text));
        }
        return day;
    }

    private static BoxId id(Context context) {
        try {
            long number = Long.parseLong(context.pathParam("box"));
            if (number >= 1) {
                return new BoxId(number);
            }
        } catch (NumberFormatException e) {
            // no box has such a number; answered below
        }
        throw new NotFoundResponse();
    }

    private void box(Context context, List<String> problems) {
        BoxId id = id(context);
        BoxView view = bench.desk()
                .read(book -> book.hunt().box(id).map(box -> BoxView.of(book, box, bench.catalog(), problems)))
                .orElseThrow(NotFoundResponse::new);
        render.page(context, "box", Map.of("frame", bench.frame(view.label(), "boxes"), "view", view));
    }

    private void change(Context context) {
        BoxId id = id(context);
        List<String> wrong = new ArrayList<>();
        BoxDetails before = bench.desk()
                .read(book -> book.hunt().box(id).map(box -> box.details()))
                .orElseThrow(NotFoundResponse::new);
        int rolls = HuntForm.number(HuntForm.text(context, "rolls"), t("box.the-number-of-rolls"), 0, 10_000, wrong)
                .orElse(before.rolls());
        BoxDetails after = new BoxDetails(
                HuntForm.text(context, "label").isEmpty() ? before.label() : HuntForm.text(context, "label"),
                before.form(),
                rolls,
                before.coinsPerRoll(),
                before.looseCoins(),
                HuntForm.text(context, "bank"),
                HuntForm.text(context, "branch"),
                HuntForm.text(context, "wrap"),
                HuntForm.text(context, "stamp"),
                HuntForm.text(context, "sisters"),
                day(context, "ordered", wrong),
                day(context, "pickedUp", wrong),
                day(context, "returned", wrong),
                HuntForm.text(context, "returnedTo"),
                HuntForm.text(context, "note"));
        if (wrong.isEmpty()) {
            Desk.Outcome outcome = bench.desk().record(0, "", book -> {
                BoxDetails now = book.hunt().box(id).map(Box::details).orElseThrow(NotFoundResponse::new);
                Shown.check(context, Things.box(id, now), Things.box(id, after));
                return new HuntEvent.BoxChanged(id, after);
            });
            if (outcome instanceof Desk.Outcome.Refused refused) {
                wrong.add(refused.refusal().toString());
            }
        }
        if (wrong.isEmpty()) {
            context.redirect("/boxes/" + id.number(), HttpStatus.SEE_OTHER);
        } else {
            context.status(HttpStatus.UNPROCESSABLE_CONTENT);
            box(context, wrong);
        }
    }
}
