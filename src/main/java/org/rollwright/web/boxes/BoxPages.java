package org.rollwright.web.boxes;

import static org.rollwright.text.Texts.t;
import static org.rollwright.web.shell.Render.PAGES;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.javalin.http.NotFoundResponse;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.rollwright.action.Action;
import org.rollwright.action.Fields;
import org.rollwright.action.HuntActions;
import org.rollwright.desk.Desk;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.web.shell.Bench;
import org.rollwright.web.shell.Door;
import org.rollwright.web.shell.Forms;
import org.rollwright.web.shell.Shown;
import org.rollwright.web.shell.Usual;

/// Boxes: the list, one box's report, and what is known of it.
public final class BoxPages {
    private final Bench bench;
    private final Door door;

    public BoxPages(Bench bench) {
        this.bench = bench;
        this.door = new Door(bench);
    }

    public void register(RoutesConfig routes) {
        routes.get("/boxes", context -> boxes(context, List.of()));
        routes.post("/boxes", context -> perform(context, HuntActions.BOX));
        routes.post("/boxes/opening", context -> perform(context, HuntActions.OPENING));
        routes.post("/boxes/undo", this::undo);
        routes.get("/boxes/{box}", context -> box(context, List.of()));
        routes.post("/boxes/{box}", this::change);
    }

    private void boxes(Context context, List<String> problems) {
        String chosen = Optional.ofNullable(context.queryParam("denomination")).orElse("");
        String order = Optional.ofNullable(context.queryParam("order")).orElse("newest");
        Usual usual = Usual.of(bench.settings().read());
        LocalDate today = bench.today();
        context.html(PAGES.boxesBoxes(
                        bench.frame(t("page.boxes"), "boxes"),
                        bench.desk()
                                .read(book ->
                                        BoxesView.of(book, bench.catalog(), usual, today, chosen, order, problems)))
                .render());
    }

    private void refused(Context context, List<String> problems) {
        context.status(HttpStatus.UNPROCESSABLE_CONTENT);
        boxes(context, problems);
    }

    private void undo(Context context) {
        done(context, bench.desk().undo(0, "", Forms.asOf(context)), "/boxes");
    }

    private void done(Context context, Desk.Outcome outcome, String next) {
        switch (outcome) {
            case Desk.Outcome.Kept kept -> context.redirect(next, HttpStatus.SEE_OTHER);
            case Desk.Outcome.Refused refused ->
                refused(context, List.of(refused.refusal().toString()));
        }
    }

    private static BoxId id(Context context) {
        return new BoxId(Forms.number(context, "box"));
    }

    private void box(Context context, List<String> problems) {
        BoxId id = id(context);
        BoxView view = bench.desk()
                .read(book -> book.hunt().box(id).map(box -> BoxView.of(book, box, bench.catalog(), problems)))
                .orElseThrow(NotFoundResponse::new);
        context.html(PAGES.boxesBox(bench.frame(view.label(), "boxes"), view).render());
    }

    private void change(Context context) {
        BoxId id = id(context);
        Map<String, List<String>> typed = new LinkedHashMap<>(context.formParamMap());
        typed.put("box", List.of(Long.toString(id.number())));
        Action.Answer answer = door.perform(new Fields(typed), HuntActions.BOX_CHANGE, (known, event) -> {
            BoxDetails now = known.hunt().box(id).map(Box::details).orElseThrow(NotFoundResponse::new);
            Shown.check(context, BoxThing.box(id, now), BoxThing.box(id, ((HuntEvent.BoxChanged) event).details()));
        });
        switch (answer) {
            case Action.Answer.Done done -> context.redirect("/boxes/" + id.number(), HttpStatus.SEE_OTHER);
            case Action.Answer.Refused refused -> {
                context.status(HttpStatus.UNPROCESSABLE_CONTENT);
                box(context, Door.sentences(refused));
            }
        }
    }

    private void perform(Context context, Action action) {
        switch (door.perform(context, action)) {
            case Action.Answer.Done done -> context.redirect("/boxes", HttpStatus.SEE_OTHER);
            case Action.Answer.Refused refused -> refused(context, Door.sentences(refused));
        }
    }
}
