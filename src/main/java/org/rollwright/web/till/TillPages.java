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
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.joda.money.CurrencyUnit;
import org.rollwright.action.Action;
import org.rollwright.action.TillActions;
import org.rollwright.coin.Limits;
import org.rollwright.desk.Desk;
import org.rollwright.desk.State;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.Watch;
import org.rollwright.odds.History;
import org.rollwright.odds.YieldModel;
import org.rollwright.text.Figures;
import org.rollwright.till.Account;
import org.rollwright.till.Bookings;
import org.rollwright.till.Branch;
import org.rollwright.till.CashKind;
import org.rollwright.till.Ledger;
import org.rollwright.till.OwnRejects;
import org.rollwright.till.Shortage;
import org.rollwright.web.paper.Paper;
import org.rollwright.web.shell.Bench;
import org.rollwright.web.shell.Choice;
import org.rollwright.web.shell.Door;
import org.rollwright.web.shell.Forms;
import org.rollwright.web.shell.Manner;

/// The Till's books: where every coin's face value is, what goes back, and what deserves a warning.
public final class TillPages {
    private static final BigDecimal REPORTED = new BigDecimal("10000");
    private static final int LISTED = 200;
    private static final int MOST_OWN = 12;

    private final Bench bench;
    private final Door door;

    public TillPages(Bench bench) {
        this.bench = bench;
        this.door = new Door(bench);
    }

    public void register(RoutesConfig routes) {
        routes.get("/till", context -> show(context, List.of()));
        routes.post("/till", context -> perform(context, TillActions.CASH));
        routes.post("/till/return", context -> perform(context, TillActions.BACK));
        routes.post("/till/undo", this::undo);
        routes.get("/till/statement.pdf", this::statement);
    }

    private static ZoneId zone() {
        return ZoneId.systemDefault();
    }

    /// The currencies of the boxes, US dollars when there are none.
    private List<CurrencyUnit> currencies(State book) {
        List<CurrencyUnit> units = new ArrayList<>(book.hunt().boxes().stream()
                .map(Box::denomination)
                .distinct()
                .map(bench.catalog()::facts)
                .flatMap(Optional::stream)
                .map(facts -> facts.face().getCurrencyUnit())
                .distinct()
                .sorted()
                .toList());
        if (units.isEmpty() || book.till().cashMoves().stream().anyMatch(move -> move.currency() == null)) {
            units.remove(CurrencyUnit.USD);
            units.addFirst(CurrencyUnit.USD);
        }
        return units;
    }

    private CurrencyUnit currency(Context context, State book) {
        String wanted = Optional.ofNullable(context.formParam("currency"))
                .or(() -> Optional.ofNullable(context.queryParam("currency")))
                .orElse("");
        List<CurrencyUnit> units = currencies(book);
        return units.stream()
                .filter(unit -> unit.getCode().equals(wanted))
                .findFirst()
                .orElse(units.getFirst());
    }

    private void show(Context context, List<String> problems) {
        TillView.Books view = bench.desk().read(book -> view(context, book, problems));
        context.html(PAGES.tillTill(bench.frame(t("page.till"), "till"), view).render());
    }

    private TillView.Books view(Context context, State book, List<String> problems) {
        CurrencyUnit currency = currency(context, book);
        Ledger ledger = Ledger.of(book.till(), book.holdings(), bench.catalog(), currency, zone());
        List<TillView.Line> lines = new ArrayList<>();
        for (Ledger.Movement move : ledger.movements().reversed()) {
            if (lines.size() < LISTED) {
                lines.add(new TillView.Line(
                        Manner.day(move.day()),
                        move.what().isBlank() ? words(move) : labelled(words(move), move.what()),
                        Manner.amount(move.amount(), currency),
                        move.where()));
            }
        }
        List<Shortage> uneven = Shortage.of(book.hunt(), bench.catalog(), currency);
        List<TillView.Uneven> shorts = uneven.stream()
                .map(one -> new TillView.Uneven(
                        one.box(),
                        one.label(),
                        one.source(),
                        String.join(", ", one.rolls()),
                        Figures.of("%+d", one.coins()),
                        signed(one.amount(), currency)))
                .toList()
                .reversed();
        double prior = prior(context);
        return new TillView.Books(
                balances(ledger, currency),
                lines,
                ledger.movements().size(),
                Arrays.stream(CashKind.values())
                        .map(kind -> new Choice(kind.name(), kind.words()))
                        .toList(),
                warnings(ledger, currency),
                problems,
                TillForm.typed(context),
                currencies(book).stream().map(CurrencyUnit::getCode).toList(),
                currency.getCode(),
                returnable(book, currency),
                branches(book),
                shorts,
                shortSum(uneven, currency),
                own(book, ledger, currency, prior),
                Figures.of("%.0f", 100 * prior),
                bench.today().toString(),
                book.undoAsOf(0));
    }

    private static String signed(BigDecimal amount, CurrencyUnit currency) {
        return (amount.signum() > 0 ? "+" : "") + Manner.amount(amount, currency);
    }

    static List<TillView.Balance> balances(Ledger ledger, CurrencyUnit currency) {
        List<TillView.Balance> balances = new ArrayList<>();
        for (Account account : Account.values()) {
            BigDecimal balance = ledger.balance(account);
            balances.add(new TillView.Balance(
                    account.words(), Manner.amount(account == Account.OUTSIDE ? balance.negate() : balance, currency)));
        }
        return balances;
    }

    /// Branches written down, then places boxes name.
    static List<String> branches(State book) {
        List<String> names = new ArrayList<>(
                book.till().branches().stream().map(Branch::name).toList());
        book.hunt().boxes().stream()
                .map(box -> Branch.nameOf(box.details().bank(), box.details().branch()))
                .filter(name -> !name.isBlank() && !names.contains(name))
                .distinct()
                .sorted()
                .forEach(names::add);
        return names;
    }

    private static String shortSum(List<Shortage> all, CurrencyUnit currency) {
        BigDecimal sum = all.stream().map(Shortage::amount).reduce(BigDecimal.ZERO, BigDecimal::add);
        Map<String, Long> bySource = new LinkedHashMap<>();
        all.forEach(one -> bySource.merge(
                one.source().isBlank() ? t("till.source-not-noted") : one.source(), one.coins(), Long::sum));
        return t(
                "till.together-by-source",
                signed(sum, currency),
                String.join(
                        ", ",
                        bySource.entrySet().stream()
                                .map(entry -> t(
                                        "till.source-and-coins",
                                        Math.abs(entry.getValue()),
                                        entry.getKey(),
                                        entry.getValue() < 0 ? "-" : "+"))
                                .toList()));
    }

    private List<TillView.Returnable> returnable(State book, CurrencyUnit currency) {
        Bookings bookings = new Bookings(book.till(), book.holdings(), bench.catalog(), ZoneId.systemDefault());
        List<TillView.Returnable> boxes = new ArrayList<>();
        for (Box box : book.hunt().boxes()) {
            boolean over = box.hunt()
                    .flatMap(book.hunt()::hunt)
                    .map(hunt -> hunt.finished().isPresent())
                    .orElse(false);
            if (over && bookings.isHere(box)) {
                bench.catalog()
                        .face(box.denomination(), currency)
                        .ifPresent(face -> boxes.add(new TillView.Returnable(
                                box.id().number(),
                                box.details().label(),
                                Branch.nameOf(
                                        box.details().bank(), box.details().branch()),
                                Manner.amount(
                                        face.multiply(BigDecimal.valueOf(Ledger.goesBack(book.hunt(), box))),
                                        currency))));
            }
        }
        return boxes;
    }

    private static List<String> warnings(Ledger ledger, CurrencyUnit currency) {
        List<String> warnings = new ArrayList<>();
        ledger.loops().forEach(place -> warnings.add(t("till.round-trip", place)));
        ledger.leftOut()
                .forEach(one -> warnings.add(t(
                        "till.left-out",
                        Manner.amount(one.movement().amount(), currency),
                        Manner.day(one.movement().day()),
                        one.movement().what(),
                        one.why().wrong(),
                        one.why().right())));
        if (currency.equals(CurrencyUnit.USD)) {
            ledger.cashByDay().forEach((day, cash) -> {
                if (cash.compareTo(REPORTED) > 0) {
                    warnings.add(t("till.cash-reports", Manner.day(day), Manner.amount(cash, currency)));
                }
            });
        }
        return warnings;
    }

    private static double prior(Context context) {
        String text = Limits.pointed(
                Optional.ofNullable(context.queryParam("prior")).orElse("").strip());
        return text.matches("[0-9]{1,2}(\\.[0-9]{1,2})?") ? Double.parseDouble(text) / 100 : 0.1;
    }

    /// Boxes that showed nothing although coins had been returned where they came from.
    private List<TillView.OwnLine> own(State book, Ledger ledger, CurrencyUnit currency, double prior) {
        List<TillView.OwnLine> lines = new ArrayList<>();
        Map<String, YieldModel> models = new LinkedHashMap<>();
        List<Box> boxes = new ArrayList<>(book.hunt().boxes()).reversed();
        for (Box box : boxes) {
            String place = Branch.nameOf(box.details().bank(), box.details().branch());
            LocalDate day = box.details().pickedUp();
            boolean whole = box.details().rolls() > 0
                    && box.searchedRolls() == box.details().rolls()
                    && box.foundCoins() == 0;
            Optional<Watch> watch = box.hunt().flatMap(book.hunt()::hunt).map(Hunt::watches).stream()
                    .flatMap(List::stream)
                    .findFirst();
            if (!whole || day == null || place.isBlank() || watch.isEmpty() || lines.size() >= MOST_OWN) {
                continue;
            }
            BigDecimal went = ledger.returnedTo(place, day, OwnRejects.DAYS);
            if (went.signum() > 0) {
                long perBox = Math.max(1, box.details().nominalCoins());
                YieldModel model = models.computeIfAbsent(
                        box.denomination() + "|" + watch.get().name(),
                        key -> YieldModel.fit(
                                History.of(book.hunt(), bench.catalog(), box.denomination(), watch.get(), perBox)
                                        .seen(null)));
                OwnRejects odds = OwnRejects.of(
                        prior,
                        model.next(History.source(box.details()), 1)
                                .probabilities()
                                .getFirst());
                lines.add(new TillView.OwnLine(
                        box.id().number(),
                        f(
                                "till.rejects-answer",
                                box.details().label(),
                                place,
                                Manner.amount(went, currency),
                                OwnRejects.DAYS,
                                watch.get().name(),
                                100 * odds.none(),
                                odds.chance() > 0.5 ? t("till.more-likely-than-not") : t("till.not-likely"),
                                100 * odds.chance())));
            }
        }
        return lines;
    }

    static String words(Ledger.Movement move) {
        return Optional.of(move)
                .filter(Ledger.Movement::booked)
                .flatMap(one -> CashKind.between(one.from(), one.to()))
                .map(CashKind::words)
                .orElseGet(() -> move.from().words() + " → " + move.to().words());
    }

    private void perform(Context context, Action action) {
        switch (door.perform(context, action)) {
            case Action.Answer.Refused refused -> {
                context.status(HttpStatus.UNPROCESSABLE_CONTENT);
                show(context, Door.sentences(refused));
            }
            case Action.Answer.Done done -> {
                String currency = Objects.requireNonNullElse(context.formParam("currency"), "");
                context.redirect(
                        "/till" + (currency.matches("[A-Z]{3}") ? "?currency=" + currency : ""), HttpStatus.SEE_OTHER);
            }
        }
    }

    private void undo(Context context) {
        String next = Objects.requireNonNullElse(context.formParam("next"), "/till");
        if (bench.desk().undo(0, "<", Forms.asOf(context)) instanceof Desk.Outcome.Refused refused) {
            context.status(HttpStatus.UNPROCESSABLE_CONTENT);
            show(context, List.of(refused.refusal().toString()));
        } else {
            context.redirect(next.matches("/till(/[a-z]+)?") ? next : "/till", HttpStatus.SEE_OTHER);
        }
    }

    private void statement(Context context) {
        Paper.Sheet sheet = bench.desk().read(book -> {
            CurrencyUnit currency = currency(context, book);
            return statement(
                    Ledger.of(book.till(), book.holdings(), bench.catalog(), currency, zone()),
                    currency,
                    bench.today(),
                    Paper.paper(context));
        });
        Paper.send(context, "statement.pdf", Paper.pdf(PAGES.paperList(sheet)));
    }

    private static Paper.Sheet statement(Ledger ledger, CurrencyUnit currency, LocalDate today, String paper) {
        List<String> notes = new ArrayList<>(List.of(t("till.in-as-of", currency.getCode(), Manner.day(today))));
        balances(ledger, currency).forEach(balance -> notes.add(labelled(balance.words(), balance.amount())));
        notes.add(t("till.outside-balance", Manner.amount(ledger.sum().negate(), currency)));
        List<List<String>> rows = ledger.movements().stream()
                .map(move -> List.of(
                        Manner.day(move.day()),
                        Paper.plain(move.what()),
                        move.from().words(),
                        move.to().words(),
                        Manner.amount(move.amount(), currency),
                        Paper.plain(move.where())))
                .toList();
        return new Paper.Sheet(
                t("till.statement-of-face-value"),
                paper,
                notes,
                List.of(
                        t("till.column-day"),
                        t("till.column-what"),
                        t("till.column-from"),
                        t("till.column-to"),
                        t("till.column-amount"),
                        t("till.column-where")),
                rows,
                List.of());
    }
}
