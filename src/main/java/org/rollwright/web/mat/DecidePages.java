package org.rollwright.web.mat;

import static org.rollwright.text.Texts.t;
import static org.rollwright.web.shell.Render.PAGES;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.javalin.http.NotFoundResponse;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.rollwright.action.Action;
import org.rollwright.action.Fields;
import org.rollwright.action.HuntActions;
import org.rollwright.desk.Desk;
import org.rollwright.hunt.HuntId;
import org.rollwright.web.albums.AlbumShelf;
import org.rollwright.web.shell.Bench;
import org.rollwright.web.shell.Door;
import org.rollwright.web.shell.Forms;

/// What becomes of the finds of a hunt, decided in groups.
public final class DecidePages {
    private final Bench bench;
    private final Door door;
    private final AlbumShelf shelf;

    public DecidePages(Bench bench, AlbumShelf shelf) {
        this.bench = bench;
        this.door = new Door(bench);
        this.shelf = shelf;
    }

    public void register(RoutesConfig routes) {
        routes.get("/mat/{hunt}/decide", context -> page(context, List.of()));
        routes.post("/mat/{hunt}/decide", this::decide);
        routes.post("/mat/{hunt}/decide/undo", this::undo);
    }

    private static HuntId hunt(Context context) {
        return new HuntId(Forms.number(context, "hunt"));
    }

    private void page(Context context, List<String> problems) {
        HuntId id = hunt(context);
        String done = Optional.ofNullable(context.queryParam("done")).orElse("");
        long step = done.matches("[0-9]{1,18}") ? Long.parseLong(done) : 0;
        DecideView view = bench.desk()
                .read(book -> DecideView.of(
                        book,
                        book.hunt().hunt(id).orElseThrow(NotFoundResponse::new),
                        bench.catalog(),
                        shelf,
                        step,
                        problems));
        context.html(PAGES.matDecide(bench.frame(t("page.decide", view.name()), "mat"), view)
                .render());
    }

    private void decide(Context context) {
        HuntId id = hunt(context);
        Map<String, List<String>> typed = new LinkedHashMap<>(context.formParamMap());
        typed.put("hunt", List.of(Long.toString(id.number())));
        switch (door.perform(new Fields(typed), HuntActions.DECIDE, (known, event) -> {})) {
            case Action.Answer.Done done ->
                context.redirect(address(id) + "?done=" + done.entry().seq(), HttpStatus.SEE_OTHER);
            case Action.Answer.Refused refused -> refused(context, Door.sentences(refused));
        }
    }

    private void undo(Context context) {
        HuntId id = hunt(context);
        switch (bench.desk().undo(id.number(), "", Forms.asOf(context))) {
            case Desk.Outcome.Kept kept -> context.redirect(address(id), HttpStatus.SEE_OTHER);
            case Desk.Outcome.Refused refused ->
                refused(context, List.of(refused.refusal().toString()));
        }
    }

    private static String address(HuntId id) {
        return "/mat/" + id.number() + "/decide";
    }

    private void refused(Context context, List<String> problems) {
        context.status(HttpStatus.UNPROCESSABLE_CONTENT);
        page(context, problems);
    }
}
