package org.rollwright.web.till;

import static org.rollwright.text.Texts.t;
import static org.rollwright.web.shell.Render.PAGES;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.DayOfWeek;
import java.time.format.TextStyle;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiConsumer;
import java.util.stream.Collectors;
import org.rollwright.action.Action;
import org.rollwright.action.TillActions;
import org.rollwright.desk.State;
import org.rollwright.journal.Event;
import org.rollwright.text.Texts;
import org.rollwright.till.Branch;
import org.rollwright.till.TillEvent;
import org.rollwright.web.shell.Bench;
import org.rollwright.web.shell.Door;
import org.rollwright.web.shell.Forms;
import org.rollwright.web.shell.Manner;
import org.rollwright.web.shell.Shown;

/// Branches, and what may be had and returned there.
public final class BranchPages {
    private final Bench bench;
    private final Door door;

    public BranchPages(Bench bench) {
        this.bench = bench;
        this.door = new Door(bench);
    }

    public void register(RoutesConfig routes) {
        routes.get("/till/branches", context -> show(context, List.of()));
        routes.post("/till/branches", this::write);
        routes.post("/till/branches/remove", this::remove);
    }

    private void show(Context context, List<String> problems) {
        Map<String, String> typed = TillForm.typed(context);
        TillView.Branches view = bench.desk().read(book -> view(book, typed, problems));
        context.html(PAGES.tillBranches(bench.frame(t("page.branches"), "till"), view)
                .render());
    }

    private TillView.Branches view(State book, Map<String, String> typed, List<String> problems) {
        Map<String, String> filled = new java.util.LinkedHashMap<>(typed);
        Optional.ofNullable(typed.get("edit")).flatMap(book.till()::branch).ifPresent(branch -> fill(filled, branch));
        return new TillView.Branches(
                book.till().branches().stream().map(BranchPages::row).toList(), filled, problems, book.undoAsOf(0));
    }

    private static void fill(Map<String, String> filled, Branch branch) {
        filled.putIfAbsent(
                Shown.FIELD,
                BranchThing.branch(branch.name(), Optional.of(branch)).mark());
        filled.putIfAbsent("bank", branch.bank());
        filled.putIfAbsent("branch", branch.branch());
        filled.putIfAbsent("gives", branch.gives() ? "yes" : "no");
        filled.putIfAbsent("takes", branch.takes() ? "yes" : "no");
        filled.putIfAbsent("open", branch.open().stream().map(DayOfWeek::name).collect(Collectors.joining(",")));
        filled.putIfAbsent("lead", Integer.toString(branch.leadDays()));
        filled.putIfAbsent("boxfee", branch.boxFee().toPlainString());
        filled.putIfAbsent("percent", branch.countPercent().toPlainString());
        filled.putIfAbsent("road", Manner.roadField(branch.kilometres()));
        filled.putIfAbsent("bearing", branch.bearing().word());
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
            fees.add(t("branch.fee-a-box", branch.boxFee()));
        }
        if (branch.countPercent().signum() > 0) {
            fees.add(t("branch.for-counting", branch.countPercent()));
        }
        return new TillView.BranchRow(
                branch.name(),
                branch.closed() ? t("branch.closed-for-good") : days(branch.open()),
                does.isEmpty() ? t("branch.does-nothing") : String.join(", ", does),
                String.join(", ", fees),
                branch.kilometres() == 0 ? "" : Manner.road(branch.kilometres()) + " " + branch.bearing(),
                branch.note(),
                branch.closed(),
                BranchThing.branch(branch.name(), Optional.of(branch)).mark());
    }

    private void perform(Context context, Action action, BiConsumer<State, Event> look) {
        switch (door.perform(context, action, look)) {
            case Action.Answer.Refused refused -> {
                context.status(HttpStatus.UNPROCESSABLE_CONTENT);
                show(context, Door.sentences(refused));
            }
            case Action.Answer.Done done -> context.redirect("/till/branches", HttpStatus.SEE_OTHER);
        }
    }

    private void write(Context context) {
        perform(context, TillActions.BRANCH, (known, event) -> {
            Branch branch = ((TillEvent.BranchWritten) event).branch();
            Shown.check(
                    context,
                    BranchThing.branch(branch.name(), known.till().branch(branch.name())),
                    BranchThing.branch(branch.name(), Optional.of(branch)));
        });
    }

    private void remove(Context context) {
        String name = Forms.text(context, "name");
        perform(
                context,
                TillActions.BRANCH_OFF,
                (known, event) -> Shown.check(
                        context, BranchThing.branch(name, known.till().branch(name))));
    }
}
