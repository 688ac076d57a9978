package org.rollwright.web;

import static org.rollwright.text.Texts.t;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.format.TextStyle;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.rollwright.catalog.Caution;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.coin.Denomination;
import org.rollwright.desk.Desk;
import org.rollwright.desk.State;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.journal.Event;
import org.rollwright.text.Texts;
import org.rollwright.till.Branch;
import org.rollwright.till.CalendarFile;
import org.rollwright.till.Order;
import org.rollwright.till.TillEvent;

/// Branches, what may be had and returned there, and orders with their calendar file.
final class BranchPages {
    private final Bench bench;
    private final Render render;

    BranchPages(Bench bench, Render render) {
        this.bench = bench;
        this.render = render;
    }

    void register(RoutesConfig routes) {
        routes.get("/till/branches", context -> show(context, List.of()));
        routes.post("/till/branches", context -> answered(context, () -> write(context)));
        routes.post("/till/branches/remove", context -> answered(context, () -> remove(context)));
        routes.post("/till/orders", context -> answered(context, () -> order(context)));
        routes.post("/till/orders/end", context -> answered(context, () -> end(context)));
        routes.get("/till/orders.ics", this::calendar);
    }

    private void answered(Context context, Runnable work) {
        try {
            work.run();
        } catch (TillForm.Unread e) {
            context.status(HttpStatus.UNPROCESSABLE_CONTENT);
            show(context, List.of(e.sentence()));
        }
    }

    private void record(Context context, java.util.function.Function<State, Event> maker) {
        if (bench.desk().record(0, "", maker) instanceof Desk.Outcome.Refused refused) {
            throw new TillForm.Unread(refused.refusal().toString());
        }
        context.redirect("/till/branches", HttpStatus.SEE_OTHER);
    }

    private void show(Context context, List<String> problems) {
        Map<String, String> typed = TillForm.typed(context);
        TillView.Branches view = bench.desk().read(book -> view(book, typed, problems));
        render.page(
                context,
                "tillbranches",
                Map.of("frame", bench.frame(t("branch.branches-and-orders"), "till"), "view", view));
    }

    private TillView.Branches view(State book, Map<String, String> typed, List<String> problems) {
        Map<String, String> filled = new java.util.LinkedHashMap<>(typed);
        Optional.ofNullable(typed.get("edit")).flatMap(book.till()::branch).ifPresent(branch -> fill(filled, branch));
        List<Denomination> hunted = new ArrayList<>(book.hunt().boxes().stream()
                .map(org.rollwright.hunt.Box::denomination)
                .distinct()
                .toList());
        book.till().orders().stream().map(Order::denomination).forEach(hunted::add);
        if (hunted.isEmpty()) {
            hunted.add(Denomination.US_CENT);
        }
        return new TillView.Branches(
                book.till().branches().stream().map(BranchPages::row).toList(),
                new ArrayList<>(book.till().orders())
                        .reversed().stream().map(this::row).toList(),
                bench.catalog().denominations().stream()
                        .map(facts -> facts.denomination().toString())
                        .toList(),
                hunted.stream()
                        .distinct()
                        .flatMap(coins -> bench.catalog().cautions("supply", coins).stream())
                        .map(Caution::text)
                        .toList(),
                filled,
                problems,
                TillForm.today(bench).toString(),
                book.undoAsOf(0));
    }

    private static void fill(Map<String, String> filled, Branch branch) {
        filled.putIfAbsent(
                Shown.FIELD, Things.branch(branch.name(), Optional.of(branch)).mark());
        filled.putIfAbsent("bank", branch.bank());
        filled.putIfAbsent("branch", branch.branch());
        filled.putIfAbsent("gives", branch.gives() ? "yes" : "no");
        filled.putIfAbsent("takes", branch.takes() ? "yes" : "no");
        filled.putIfAbsent("open", branch.open().stream().map(DayOfWeek::name).collect(Collectors.joining(",")));
        filled.putIfAbsent("lead", Integer.toString(branch.leadDays()));
        filled.putIfAbsent("boxfee", branch.boxFee().toPlainString());
        filled.putIfAbsent("percent", branch.countPercent().toPlainString());
        filled.putIfAbsent("road", Manner.roadField(branch.kilometres()));
        filled.putIfAbsent("bearing", branch.bearing());
        filled.putIfAbsent("closed", branch.closed() ? "yes" : "");
        filled.putIfAbsent("note", branch.note());
    }

    static String days(Set<DayOfWeek> open) {
        if (open.isEmpty()) {
            return t("branch.never");
        }
        return open.stream()
                .map(day -> day.getDisplayName(TextStyle.SHORT, Texts.locale()))
                .collect(Collectors.joining(" "));
    }

    private static TillView.BranchRow row(Branch branch) {
        List<String> does = new ArrayList<>();
        if (branch.gives()) {
            does.add(branch.leadDays() == 0 ? t("branch.boxes-at-once") : t("branch.boxes-in-days", branch.leadDays()));
        }
        if (branch.takes()) {
            does.add(t("branch.takes-returns"));
        }
        List<String> fees = new ArrayList<>();
        if (branch.boxFee().signum() > 0) {
            fees.add(t("branch.fee-a-box", branch.boxFee().toPlainString()));
        }
        if (branch.countPercent().signum() > 0) {
            fees.add(t("branch.for-counting", branch.countPercent().toPlainString()));
        }
        return new TillView.BranchRow(
                branch.name(),
                branch.closed() ? t("branch.closed-for-good") : days(branch.open()),
                does.isEmpty() ? t("branch.does-nothing") : String.join(", ", does),
                String.join(", ", fees),
                branch.kilometres() == 0 ? "" : Manner.road(branch.kilometres()) + " " + branch.bearing(),
                branch.note(),
                branch.closed(),
                Things.branch(branch.name(), Optional.of(branch)).mark());
    }

    private String coins(Order order) {
        return order.denomination().toString() + "s";
    }

    private TillView.OrderRow row(Order order) {
        LocalDate ended = order.ended();
        String state = ended == null
                ? TillForm.today(bench).isAfter(order.due()) ? t("branch.overdue") : t("branch.open-order")
                : order.arrived().isEmpty()
                        ? t("branch.given-up", Manner.day(ended))
                        : t("branch.so-many-came", order.arrived().size(), order.boxes(), Manner.day(ended));
        return new TillView.OrderRow(
                order.number(),
                order.prepaid()
                        ? t("branch.boxes-of-paid", order.boxes(), coins(order))
                        : t("branch.boxes-of", order.boxes(), coins(order)),
                order.branch(),
                Manner.day(order.placed()),
                Manner.day(order.due()),
                state,
                order.isOpen());
    }

    private void write(Context context) {
        TillForm form = new TillForm(context, bench);
        Set<DayOfWeek> open = EnumSet.noneOf(DayOfWeek.class);
        context.formParams("open").forEach(name -> {
            for (DayOfWeek day : DayOfWeek.values()) {
                if (day.name().equals(name)) {
                    open.add(day);
                }
            }
        });
        Branch branch = new Branch(
                form.text("bank"),
                form.text("branch"),
                form.text("gives").equals("yes"),
                form.text("takes").equals("yes"),
                open,
                form.whole("lead", t("branch.days-from-order-to-pick"), 0, 60, 0),
                form.moneyOrZero("boxfee", t("branch.fee-for-a-box")),
                form.percent("percent", t("branch.kept-back-for-counting")),
                form.kilometres("road", t("branch.road-from-home")),
                form.text("bearing"),
                form.text("closed").equals("yes"),
                form.text("note"));
        if (open.isEmpty() && !branch.closed()) {
            throw new TillForm.Unread(t("branch.the-branch-opens-on-no"));
        }
        record(context, book -> {
            Optional<Branch> known = book.till().branch(branch.name());
            Shown.check(
                    context, Things.branch(branch.name(), known), Things.branch(branch.name(), Optional.of(branch)));
            return new TillEvent.BranchWritten(branch);
        });
    }

    private void remove(Context context) {
        String name = HuntForm.text(context, "name");
        record(context, book -> {
            Shown.check(context, Things.branch(name, book.till().branch(name)));
            return new TillEvent.BranchRemoved(name);
        });
    }

    private void order(Context context) {
        TillForm form = new TillForm(context, bench);
        DenominationFacts facts = bench.catalog().denominations().stream()
                .filter(one -> one.denomination().toString().equals(form.text("denomination")))
                .findFirst()
                .orElseThrow(() -> new TillForm.Unread(t("branch.choose-what-was-ordered")));
        String where = form.text("where");
        if (where.isBlank()) {
            throw new TillForm.Unread(t("branch.where-was-it-ordered-name"));
        }
        int boxes = form.whole("boxes", t("field.boxes"), 1, 1_000, 1);
        LocalDate placed = form.day("placed", t("field.ordered"));
        record(context, book -> {
            int lead = book.till().branch(where).map(Branch::leadDays).orElse(0);
            LocalDate due =
                    form.text("due").isEmpty() ? firstOpen(book, where, placed.plusDays(lead)) : form.day("due", "Due");
            return new TillEvent.OrderPlaced(new Order(
                    book.till().nextOrder(),
                    where,
                    facts.denomination(),
                    boxes,
                    placed,
                    due,
                    form.text("prepaid").equals("yes"),
                    form.text("ordernote"),
                    null,
                    List.of()));
        });
    }

    /// The first day from a day on which a branch opens; the day itself when that is not known.
    private static LocalDate firstOpen(State book, String where, LocalDate from) {
        for (int i = 0; i < 7; i++) {
            LocalDate day = from.plusDays(i);
            if (book.till().branch(where).map(branch -> branch.openOn(day)).orElse(true)) {
                return day;
            }
        }
        return from;
    }

    /// Boxes that came enter the record as boxes waiting to be searched.
    private void end(Context context) {
        TillForm form = new TillForm(context, bench);
        long number = form.whole("order", t("field.order"), 1, 999_999, 0);
        LocalDate day = form.day("day", t("field.day"));
        record(context, book -> {
            Order order = book.till()
                    .order(number)
                    .orElseThrow(() -> new TillForm.Unread(t("branch.there-is-no-such-order")));
            int came = form.whole("came", t("branch.boxes-that-came"), 0, order.boxes(), order.boxes());
            DenominationFacts facts =
                    bench.catalog().facts(order.denomination()).orElseThrow();
            List<Event> events = new ArrayList<>();
            List<BoxId> arrived = new ArrayList<>();
            Optional<Branch> branch = book.till().branch(order.branch());
            for (int i = 0; i < came; i++) {
                BoxId id = new BoxId(book.hunt().nextBox().number() + i);
                arrived.add(id);
                events.add(new HuntEvent.BoxAdded(
                        id,
                        order.denomination(),
                        new BoxDetails(
                                "Box " + id.number(),
                                BoxDetails.Form.BOX,
                                Math.toIntExact(facts.coinsPerBox() / facts.coinsPerRoll()),
                                facts.coinsPerRoll(),
                                0,
                                branch.map(Branch::bank).orElse(order.branch()),
                                branch.map(Branch::branch).orElse(""),
                                "machine",
                                "",
                                came > 1 ? "order " + order.number() : "",
                                order.placed(),
                                day,
                                null,
                                "",
                                "")));
            }
            events.add(new TillEvent.OrderEnded(number, day, arrived));
            return new Event.Batch(events);
        });
    }

    private void calendar(Context context) {
        String text = bench.desk()
                .read(book -> CalendarFile.of(
                        CalendarFile.orders(book.till().orders(), this::coins),
                        bench.clock().instant()));
        context.contentType("text/calendar; charset=utf-8");
        context.header("Content-Disposition", "attachment; filename=\"orders.ics\"");
        context.result(text);
    }
}
