package org.rollwright.web.scale;

import static org.rollwright.text.Texts.t;
import static org.rollwright.web.shell.Render.PAGES;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.rollwright.action.Action;
import org.rollwright.action.ScaleActions;
import org.rollwright.desk.Desk;
import org.rollwright.web.shell.Bench;
import org.rollwright.web.shell.Door;
import org.rollwright.web.shell.Forms;

/// The Scale: cups that fill from box to box, counted piles, and what a weight says.
public final class ScalePages {
    private final Bench bench;
    private final Door door;

    public ScalePages(Bench bench) {
        this.bench = bench;
        this.door = new Door(bench);
    }

    public void register(RoutesConfig routes) {
        routes.get("/scale", context -> show(context, List.of()));
        routes.post("/scale/cup", context -> perform(context, ScaleActions.CUP, "cups"));
        routes.post("/scale/reading", context -> perform(context, ScaleActions.READING, "cups"));
        routes.post("/scale/pile", context -> perform(context, ScaleActions.PILE, "piles"));
        routes.post("/scale/price", context -> perform(context, ScaleActions.METAL, "metal"));
        routes.post("/scale/undo", this::undo);
    }

    private void show(Context context, List<String> problems) {
        Map<String, String> typed = new LinkedHashMap<>();
        context.queryParamMap().forEach((name, values) -> typed.put(name, values.getLast()));
        context.formParamMap().forEach((name, values) -> typed.put(name, values.getLast()));
        ScaleView view = bench.desk().read(book -> ScaleView.of(book, bench.catalog(), typed, problems));
        context.html(
                PAGES.scaleScale(bench.frame(t("page.scale"), "scale"), view).render());
    }

    private void refuse(Context context, String sentence) {
        context.status(HttpStatus.UNPROCESSABLE_CONTENT);
        show(context, List.of(sentence));
    }

    private void perform(Context context, Action action, String anchor) {
        switch (door.perform(context, action)) {
            case Action.Answer.Refused refused -> {
                context.status(HttpStatus.UNPROCESSABLE_CONTENT);
                show(context, Door.sentences(refused));
            }
            case Action.Answer.Done done -> context.redirect("/scale#" + anchor, HttpStatus.SEE_OTHER);
        }
    }

    private void undo(Context context) {
        if (bench.desk().undo(0, "<", Forms.asOf(context)) instanceof Desk.Outcome.Refused refused) {
            refuse(context, refused.refusal().toString());
        } else {
            context.redirect("/scale", HttpStatus.SEE_OTHER);
        }
    }
}
