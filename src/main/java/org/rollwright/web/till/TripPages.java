package org.rollwright.web.till;

import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.labelled;
import static org.rollwright.text.Texts.t;
import static org.rollwright.web.shell.Render.PAGES;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.TextStyle;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.joda.money.CurrencyUnit;
import org.jspecify.annotations.Nullable;
import org.rollwright.action.Action;
import org.rollwright.action.TillActions;
import org.rollwright.cabinet.CabinetIndex;
import org.rollwright.cabinet.ValueModel;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Limits;
import org.rollwright.coin.Refusal;
import org.rollwright.desk.State;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.HuntId;
import org.rollwright.hunt.Watch;
import org.rollwright.odds.History;
import org.rollwright.odds.Interval;
import org.rollwright.odds.YieldModel;
import org.rollwright.text.Figures;
import org.rollwright.text.Texts;
import org.rollwright.till.Account;
import org.rollwright.till.CalendarFile;
import org.rollwright.till.Effort;
import org.rollwright.till.Ledger;
import org.rollwright.till.Round;
import org.rollwright.till.TimeSpent;
import org.rollwright.till.Trip;
import org.rollwright.web.cabinet.CabinetShelf;
import org.rollwright.web.shell.Bench;
import org.rollwright.web.shell.Choice;
import org.rollwright.web.shell.Door;
import org.rollwright.web.shell.Manner;

/// Where the time went and what an hour yields; and the next round of pick-ups and returns.
public final class TripPages {
    private static final int LISTED = 100;

    private static final Trip.Manner MANNER = new Trip.Manner() {
        @Override
        public String amount(BigDecimal amount) {
            return Manner.amount(amount, CurrencyUnit.USD);
        }

        @Override
        public String day(LocalDate day) {
            return Manner.day(day);
        }
    };

    private final Bench bench;
    private final Door door;
    private final CabinetShelf cabinet;

    public TripPages(Bench bench, CabinetShelf cabinet) {
        this.bench = bench;
        this.door = new Door(bench);
        this.cabinet = cabinet;
    }

    public void register(RoutesConfig routes) {
        routes.get("/till/time", context -> time(context, List.of()));
        routes.post("/till/time", this::note);
        routes.get("/till/round", this::round);
        routes.get("/till/round.ics", this::calendar);
    }

    private void note(Context context) {
        switch (door.perform(context, TillActions.SPENT)) {
            case Action.Answer.Refused refused -> {
                context.status(HttpStatus.UNPROCESSABLE_CONTENT);
                time(context, Door.sentences(refused));
            }
            case Action.Answer.Done done -> context.redirect("/till/time", HttpStatus.SEE_OTHER);
        }
    }

    private void time(Context context, List<String> problems) {
        Map<String, String> typed = TillForm.typed(context);
        TillView.Time view = bench.desk().read(book -> timeView(book, typed, problems));
        context.html(PAGES.tillTime(bench.frame(t("trip.time-and-yield"), "till"), view)
                .render());
    }

    private long perBox(Denomination coins) {
        return bench.catalog().facts(coins).map(DenominationFacts::coinsPerBox).orElse(2_500L);
    }

    private TillView.Time timeView(State book, Map<String, String> typed, List<String> problems) {
        TimeSpent spent = TimeSpent.of(book.till(), book.hunt(), this::perBox, box -> History.source(box.details()));
        List<TillView.Balance> phases = new ArrayList<>();
        double all = 0;
        for (Effort.Phase phase : Effort.Phase.values()) {
            double minutes = spent.minutes().getOrDefault(phase, 0.0);
            all += minutes;
            phases.add(new TillView.Balance(phase.words(), hours(minutes)));
        }
        List<Choice> hunts = new ArrayList<>(List.of(new Choice("0", t("trip.no-single-hunt"))));
        List<Hunt> newest = new ArrayList<>(book.hunt().hunts()).reversed();
        newest.stream()
                .limit(LISTED)
                .forEach(hunt -> hunts.add(new Choice(Long.toString(hunt.id().number()), hunt.name())));
        List<TillView.Line> noted = new ArrayList<>(book.till().efforts())
                .reversed().stream()
                        .limit(LISTED)
                        .map(effort -> line(book, effort))
                        .toList();
        return new TillView.Time(
                phases,
                Manner.road(spent.kilometres()),
                Manner.amount(spent.fuel(), CurrencyUnit.USD),
                hours(spent.measured()),
                yields(book, spent),
                cost(book, spent, all),
                hunts,
                Arrays.stream(Effort.Phase.values())
                        .map(phase -> new Choice(phase.name(), phase.words()))
                        .toList(),
                TillPages.branches(book),
                noted,
                typed,
                problems,
                bench.today().toString(),
                book.undoAsOf(0));
    }

    private static String hours(double minutes) {
        long whole = Math.round(minutes);
        return whole / 60 + ":" + String.format(Locale.ROOT, "%02d", whole % 60);
    }

    private static TillView.Line line(State book, Effort effort) {
        List<String> parts = new ArrayList<>();
        if (effort.minutes() > 0) {
            parts.add(hours(effort.minutes()));
        }
        if (effort.kilometres() > 0) {
            parts.add(Manner.road(effort.kilometres()));
        }
        if (effort.fuel().signum() > 0) {
            parts.add(t("trip.fuel-for", Manner.amount(effort.fuel(), CurrencyUnit.USD)));
        }
        @Nullable HuntId hunt = effort.hunt();
        String name = hunt == null ? "" : book.hunt().hunt(hunt).map(Hunt::name).orElse("");
        String kind = effort.phase().words() + (name.isEmpty() ? "" : ", " + name);
        String what = effort.note().isBlank() ? kind : labelled(kind, effort.note());
        return new TillView.Line(Manner.day(effort.day()), what, String.join(", ", parts), effort.branch());
    }

    /// For every source the yield of a box and of an hour, of what was watched for first in the last hunt of
    /// its denomination. The hours are taken as they are; the interval is that of the yield.
    private List<TillView.YieldRow> yields(State book, TimeSpent spent) {
        Map<Denomination, Watch> watches = new HashMap<>();
        for (Hunt hunt : book.hunt().hunts()) {
            hunt.boxes().stream()
                    .findFirst()
                    .flatMap(book.hunt()::box)
                    .ifPresent(box -> hunt.watches().stream()
                            .findFirst()
                            .ifPresent(watch -> watches.put(box.denomination(), watch)));
        }
        Map<Denomination, YieldModel> models = new HashMap<>();
        List<TillView.YieldRow> rows = new ArrayList<>();
        spent.sources().stream()
                .sorted(Comparator.comparing(
                                (TimeSpent.Source one) -> one.denomination().toString())
                        .thenComparing(TimeSpent.Source::source))
                .forEach(one -> {
                    Watch watch = watches.get(one.denomination());
                    if (watch == null || one.minutes() <= 0) {
                        return;
                    }
                    YieldModel model = models.computeIfAbsent(
                            one.denomination(),
                            coins ->
                                    YieldModel.fit(History.of(book.hunt(), bench.catalog(), coins, watch, perBox(coins))
                                            .seen(null)));
                    Interval ninety = model.meanInterval(one.source(), 0.9);
                    double mean = model.mean(one.source());
                    double hours = one.hoursPerBox();
                    rows.add(new TillView.YieldRow(
                            one.denomination().toString(),
                            watch.name(),
                            one.source(),
                            Figures.of("%.1f", one.fullBoxes()),
                            Figures.of("%.1f", hours),
                            f("tillround.range", mean, ninety.low(), ninety.high()),
                            f("tillround.range", mean / hours, ninety.low() / hours, ninety.high() / hours)));
                });
        return rows;
    }

    /// What an hour was worth: finds less fees, fuel and shorts, over all minutes.
    private String cost(State book, TimeSpent spent, double minutes) {
        if (minutes <= 0) {
            return t("trip.no-time");
        }
        Ledger ledger =
                Ledger.of(book.till(), book.holdings(), bench.catalog(), CurrencyUnit.USD, ZoneId.systemDefault());
        BigDecimal out =
                ledger.balance(Account.FEES).add(ledger.balance(Account.SHORT)).add(spent.fuel());
        CabinetShelf.Contents state = cabinet.contents(book);
        List<CabinetIndex.Entry> found = state.index().entries().stream()
                .filter(entry -> entry.ref().find() != 0)
                .toList();
        ValueModel.Sum sum = CabinetIndex.sum(found, state.values());
        double hours = minutes / 60;
        String costs = f("trip.fees-answer", Manner.amount(out, CurrencyUnit.USD), hours, out.doubleValue() / hours);
        if (sum.counted() == 0) {
            return t("trip.hour-unknown", costs);
        }
        return costs + " "
                + f(
                        "trip.hour-answer",
                        sum.amount(),
                        (sum.amount() - out.doubleValue()) / hours,
                        (sum.low() - out.doubleValue()) / hours,
                        (sum.high() - out.doubleValue()) / hours,
                        sum.blank());
    }

    private Trip plan(State book, Map<String, String> typed, double allowed) {
        Ledger ledger =
                Ledger.of(book.till(), book.holdings(), bench.catalog(), CurrencyUnit.USD, ZoneId.systemDefault());
        Map<Integer, Double> own = new HashMap<>();
        typed.forEach((name, said) -> {
            String value = Limits.pointed(said);
            if (name.matches("worth[0-9]{1,4}") && value.matches("[0-9]{1,4}(\\.[0-9]{1,2})?")) {
                own.put(Integer.valueOf(name.substring(5)), Double.valueOf(value));
            }
        });
        return Trip.plan(book.till(), ledger, bench.today(), own, allowed, MANNER);
    }

    private void round(Context context) {
        Map<String, String> typed = TillForm.typed(context);
        List<String> problems = new ArrayList<>();
        double allowed = allowed(typed, problems);
        TillView.Trip view = bench.desk().read(book -> {
            Trip planned = plan(book, typed, allowed);
            Round best = planned.best();
            List<TillView.WishRow> rows = new ArrayList<>();
            for (Round.Wish wish : planned.wishes()) {
                rows.add(new TillView.WishRow(
                        rows.size() + 1,
                        wish.branch().name(),
                        BranchPages.days(wish.branch().open()),
                        wish.why().isEmpty() ? t("trip.nothing-at-present") : String.join("; ", wish.why()),
                        points(wish.worth())));
            }
            return new TillView.Trip(
                    rows,
                    planned.rounds().stream()
                            .map(round -> day(round, round.equals(best)))
                            .toList(),
                    best == null ? "" : best.day().toString(),
                    typed,
                    problems,
                    planned.first().toString());
        });
        if (!problems.isEmpty()) {
            context.status(HttpStatus.UNPROCESSABLE_CONTENT);
        }
        context.html(
                PAGES.tillRound(bench.frame(t("trip.bank-round"), "till"), view).render());
    }

    /// Points as their field holds them.
    private static String points(double worth) {
        return worth == Math.rint(worth) ? Long.toString((long) worth) : String.format(Locale.ROOT, "%.2f", worth);
    }

    /// Longest round in kilometres; without a usable figure one that no round reaches.
    private static double allowed(Map<String, String> typed, List<String> problems) {
        String typedRoad = typed.getOrDefault("allowed", "");
        if (typedRoad.isBlank()) {
            return Trip.ANY_ROAD;
        }
        Optional<Double> road = Manner.kilometres(typedRoad);
        if (road.isEmpty()) {
            problems.add(t("till.distance-wrong", t("trip.longest-round"), Refusal.quote(typedRoad)));
        }
        return road.orElse(Trip.ANY_ROAD);
    }

    private static TillView.Day day(Round round, boolean best) {
        List<String> calls = round.calls().stream()
                .map(call -> {
                    String where = call.branch().name() + ", " + Manner.road(call.kilometres());
                    return call.why().isEmpty() ? where : labelled(where, String.join("; ", call.why()));
                })
                .toList();
        return new TillView.Day(
                round.day().toString(),
                Manner.day(round.day()),
                round.day().getDayOfWeek().getDisplayName(TextStyle.FULL, Texts.locale()),
                calls,
                Manner.road(round.kilometres()),
                Figures.plain(Math.round(100 * round.worth()) / 100.0),
                best);
    }

    private void calendar(Context context) {
        Map<String, String> typed = new LinkedHashMap<>(TillForm.typed(context));
        double allowed = allowed(typed, new ArrayList<>());
        String wanted = typed.getOrDefault("day", "");
        String text = bench.desk().read(book -> {
            List<CalendarFile.DayEntry> entries = plan(book, typed, allowed).rounds().stream()
                    .filter(round -> round.day().toString().equals(wanted)
                            && !round.calls().isEmpty())
                    .map(CalendarFile::round)
                    .toList();
            return entries.isEmpty()
                    ? ""
                    : CalendarFile.of(entries, bench.clock().instant());
        });
        if (text.isEmpty()) {
            throw new io.javalin.http.NotFoundResponse();
        }
        context.contentType("text/calendar; charset=utf-8");
        context.header("Content-Disposition", "attachment; filename=\"round.ics\"");
        context.result(text);
    }
}
