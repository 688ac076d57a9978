package org.rollwright.web.boxes;

import static org.rollwright.text.Texts.t;
import static org.rollwright.web.shell.Render.PAGES;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.rollwright.action.Action;
import org.rollwright.action.TillActions;
import org.rollwright.till.CalendarFile;
import org.rollwright.web.shell.Bench;
import org.rollwright.web.shell.Door;
import org.rollwright.web.shell.Usual;

/// Boxes on order: the one form that orders, what came, and the calendar file.
public final class OrderPages {
    private final Bench bench;
    private final Door door;

    public OrderPages(Bench bench) {
        this.bench = bench;
        this.door = new Door(bench);
    }

    public void register(RoutesConfig routes) {
        routes.get("/boxes/orders", context -> show(context, List.of()));
        routes.post("/boxes/orders", context -> perform(context, TillActions.ORDER));
        routes.post("/boxes/orders/end", context -> perform(context, TillActions.ARRIVED));
        routes.get("/boxes/orders.ics", this::calendar);
    }

    private void show(Context context, List<String> problems) {
        Map<String, String> typed = new LinkedHashMap<>();
        context.formParamMap().forEach((name, values) -> typed.put(name, String.join(",", values)));
        Usual usual = Usual.of(bench.settings().read());
        OrdersView view =
                bench.desk().read(book -> OrdersView.of(book, bench.catalog(), usual, typed, bench.today(), problems));
        context.html(
                PAGES.boxesOrders(bench.frame(t("page.orders"), "boxes"), view).render());
    }

    private void perform(Context context, Action action) {
        switch (door.perform(context, action)) {
            case Action.Answer.Done done -> context.redirect("/boxes/orders", HttpStatus.SEE_OTHER);
            case Action.Answer.Refused refused -> {
                context.status(HttpStatus.UNPROCESSABLE_CONTENT);
                show(context, Door.sentences(refused));
            }
        }
    }

    private void calendar(Context context) {
        String text = bench.desk()
                .read(book -> CalendarFile.of(
                        CalendarFile.orders(book.till().orders(), OrdersView::coins),
                        bench.clock().instant()));
        context.contentType("text/calendar; charset=utf-8");
        context.header("Content-Disposition", "attachment; filename=\"orders.ics\"");
        context.result(text);
    }
}
