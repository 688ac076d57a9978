package org.rollwright.web;

import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.t;

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
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.joda.money.CurrencyUnit;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.Branch;
import org.rollwright.hunt.CashMove;
import org.rollwright.hunt.Desk;
import org.rollwright.hunt.Event;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.Logbook;
import org.rollwright.hunt.Watch;
import org.rollwright.odds.History;
import org.rollwright.odds.YieldModel;
import org.rollwright.till.Ledger;
import org.rollwright.till.OwnRejects;
import org.rollwright.till.Shortage;

/// The Till's books: where every coin's face value is, what goes back, and what deserves a warning.
final class TillPages {
    /// What is booked by hand with one word.
    enum Kind {
        DRAW(Ledger.Account.OUTSIDE, Ledger.Account.CASH),
        DEPOSIT(Ledger.Account.CASH, Ledger.Account.OUTSIDE),
        FEE(Ledger.Account.CASH, Ledger.Account.FEES),
        RETURNED(Ledger.Account.TO_RETURN, Ledger.Account.OUTSIDE),
        CASHED(Ledger.Account.TO_RETURN, Ledger.Account.CASH),
        COUNT_SHORT(Ledger.Account.TO_RETURN, Ledger.Account.SHORT),
        COUNT_OVER(Ledger.Account.SHORT, Ledger.Account.TO_RETURN),
        BOUGHT(Ledger.Account.CASH, Ledger.Account.BOXES),
        KEPT(Ledger.Account.BOXES, Ledger.Account.KEPT),
        ASIDE(Ledger.Account.BOXES, Ledger.Account.TO_RETURN);
        private final Ledger.Account from;
        private final Ledger.Account to;

        Kind(Ledger.Account from, Ledger.Account to) {
            this.from = from;
            this.to = to;
        }

        public String words() {
            return switch (this) {
                case DRAW -> t("till.drew-cash");
                case DEPOSIT -> t("till.deposited-cash");
                case FEE -> t("till.paid-a-fee");
                case RETURNED -> t("till.returned-coins-to-an-account");
                case CASHED -> t("till.returned-coins-for-cash");
                case COUNT_SHORT -> t("till.a-return-counted-short");
                case COUNT_OVER -> t("till.a-return-counted-over");
                case BOUGHT -> t("till.bought-rolls-that-have-no");
                case KEPT -> t("till.kept-coins-of-such-rolls");
                case ASIDE -> t("till.set-such-rolls-aside");
            };
        }
    }

    private static final BigDecimal REPORTED = new BigDecimal("10000");
    private static final int LISTED = 200;
    private static final int MOST_OWN = 12;

    private final Bench bench;
    private final Render render;

    TillPages(Bench bench, Render render) {
        this.bench = bench;
        this.render = render;
    }

    void register(RoutesConfig routes) {
        routes.get("/till", context -> show(context, List.of()));
        routes.post("/till", context -> answered(context, () -> book(context)));
        routes.post("/till/return", context -> answered(context, () -> goBack(context)));
        routes.post("/till/undo", this::undo);
        routes.get("/till/statement.pdf", this::statement);
    }

    private void answered(Context context, Runnable booking) {
        try {
            booking.run();
        } catch (TillForm.Unread e) {
            context.status(HttpStatus.UNPROCESSABLE_CONTENT);
            show(context, List.of(e.sentence()));
        }
    }

    private static ZoneId zone() {
        return ZoneId.systemDefault();
    }

    /// The currencies of the boxes, US dollars when there are none.
    private List<CurrencyUnit> currencies(Logbook book) {
        List<CurrencyUnit> units = new ArrayList<>(book.boxes().stream()
                .map(Box::denomination)
                .distinct()
                .map(bench.catalog()::facts)
                .flatMap(Optional::stream)
                .map(facts -> facts.face().getCurrencyUnit())
                .distinct()
                .sorted()
                .toList());
        if (units.isEmpty() || book.cashMoves().stream().anyMatch(move -> move.currency() == null)) {
            units.remove(CurrencyUnit.USD);
            units.addFirst(CurrencyUnit.USD);
        }
        return units;
    }

    private CurrencyUnit currency(Context context, Logbook book) {
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
        render.page(context, "till", Map.of("frame", bench.frame(t("page.till"), "till"), "view", view));
    }

    private TillView.Books view(Context context, Logbook book, List<String> problems) {
        CurrencyUnit currency = currency(context, book);
        Ledger ledger = Ledger.of(book, bench.catalog(), currency, zone());
        List<TillView.Line> lines = new ArrayList<>();
        for (Ledger.Movement move : ledger.movements().reversed()) {
            if (lines.size() < LISTED) {
                lines.add(new TillView.Line(
                        Manner.day(move.day()),
                        words(move) + (move.what().isBlank() ? "" : ": " + move.what()),
                        Manner.amount(move.amount(), currency),
                        move.where()));
            }
        }
        List<Shortage> uneven = Shortage.of(book, bench.catalog(), currency);
        List<TillView.Uneven> shorts = uneven.stream()
                .map(one -> new TillView.Uneven(
                        one.box(),
                        one.label(),
                        one.source(),
                        String.join(", ", one.rolls()),
                        String.format(Locale.ROOT, "%+d", one.coins()),
                        signed(one.amount(), currency)))
                .toList()
                .reversed();
        double prior = prior(context);
        return new TillView.Books(
                balances(ledger, currency),
                lines,
                ledger.movements().size(),
                Arrays.stream(Kind.values())
                        .map(kind -> new VarietyViews.Choice(kind.name(), kind.words()))
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
                String.format(Locale.ROOT, "%.0f", 100 * prior),
                TillForm.today(bench).toString(),
                book.undoAsOf(0));
    }

    private static String signed(BigDecimal amount, CurrencyUnit currency) {
        return (amount.signum() > 0 ? "+" : "") + Manner.amount(amount, currency);
    }

    static List<TillView.Balance> balances(Ledger ledger, CurrencyUnit currency) {
        List<TillView.Balance> balances = new ArrayList<>();
        for (Ledger.Account account : Ledger.Account.values()) {
            BigDecimal balance = ledger.balance(account);
            balances.add(new TillView.Balance(
                    account.words(),
                    Manner.amount(account == Ledger.Account.OUTSIDE ? balance.negate() : balance, currency)));
        }
        return balances;
    }

    /// Branches written down, then places boxes name.
    static List<String> branches(Logbook book) {
        List<String> names =
                new ArrayList<>(book.branches().stream().map(Branch::name).toList());
        book.boxes().stream()
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

    private List<TillView.Returnable> returnable(Logbook book, CurrencyUnit currency) {
        List<TillView.Returnable> boxes = new ArrayList<>();
        for (Box box : book.boxes()) {
            boolean over = box.hunt()
                    .flatMap(book::hunt)
                    .map(hunt -> hunt.finished().isPresent())
                    .orElse(false);
            if (over && box.details().returned() == null) {
                face(box, currency)
                        .ifPresent(face -> boxes.add(new TillView.Returnable(
                                box.id().number(),
                                box.details().label(),
                                Branch.nameOf(
                                        box.details().bank(), box.details().branch()),
                                Manner.amount(
                                        face.multiply(BigDecimal.valueOf(Ledger.goesBack(book, box))), currency))));
            }
        }
        return boxes;
    }

    private Optional<BigDecimal> face(Box box, CurrencyUnit currency) {
        return bench.catalog()
                .facts(box.denomination())
                .map(DenominationFacts::face)
                .filter(face -> face.getCurrencyUnit().equals(currency))
                .map(face -> face.getAmount());
    }

    private static List<String> warnings(Ledger ledger, CurrencyUnit currency) {
        List<String> warnings = new ArrayList<>();
        ledger.loops().forEach(place -> warnings.add(t("till.boxes-come-from-and-coins", place)));
        ledger.leftOut()
                .forEach(one -> warnings.add(t(
                        "till.left-out-of-the-books",
                        Manner.amount(one.movement().amount(), currency),
                        Manner.day(one.movement().day()),
                        one.movement().what(),
                        one.why().wrong(),
                        one.why().right())));
        if (currency.equals(CurrencyUnit.USD)) {
            ledger.cashByDay().forEach((day, cash) -> {
                if (cash.compareTo(REPORTED) > 0) {
                    warnings.add(t("till.cash-on-came-to-coins", Manner.day(day), Manner.amount(cash, currency)));
                }
            });
        }
        return warnings;
    }

    private static double prior(Context context) {
        String text =
                Optional.ofNullable(context.queryParam("prior")).orElse("").strip();
        return text.matches("[0-9]{1,2}(\\.[0-9]{1,2})?") ? Double.parseDouble(text) / 100 : 0.1;
    }

    /// Boxes that showed nothing although coins had been returned where they came from.
    private List<TillView.OwnLine> own(Logbook book, Ledger ledger, CurrencyUnit currency, double prior) {
        List<TillView.OwnLine> lines = new ArrayList<>();
        Map<String, YieldModel> models = new LinkedHashMap<>();
        List<Box> boxes = new ArrayList<>(book.boxes()).reversed();
        for (Box box : boxes) {
            String place = Branch.nameOf(box.details().bank(), box.details().branch());
            LocalDate day = box.details().pickedUp();
            boolean whole = box.details().rolls() > 0
                    && box.searchedRolls() == box.details().rolls()
                    && box.foundCoins() == 0;
            Optional<Watch> watch = box.hunt().flatMap(book::hunt).map(Hunt::watches).stream()
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
                        key -> YieldModel.fit(History.of(book, bench.catalog(), box.denomination(), watch.get(), perBox)
                                .seen(null)));
                OwnRejects odds = OwnRejects.of(
                        prior,
                        model.next(History.source(box.details()), 1)
                                .probabilities()
                                .getFirst());
                lines.add(new TillView.OwnLine(
                        box.id().number(),
                        f(
                                "till.s-from-s-showed-nothing",
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
        for (Kind kind : Kind.values()) {
            if (move.booked() && kind.from == move.from() && kind.to == move.to()) {
                return kind.words();
            }
        }
        return move.from().words() + " → " + move.to().words();
    }

    private void book(Context context) {
        TillForm form = new TillForm(context, bench);
        Kind kind = Arrays.stream(Kind.values())
                .filter(one -> one.name().equals(form.text("kind")))
                .findFirst()
                .orElseThrow(() -> new TillForm.Unread(t("till.choose-what-happened")));
        BigDecimal amount = form.amount("amount");
        LocalDate day = form.day("day", t("field.day"));
        record(context, book -> {
            CurrencyUnit currency = currency(context, book);
            CashMove move = move(day, kind.from, kind.to, amount, form.text("where"), form.text("what"), currency);
            refuseWhatCannotBe(book, currency, List.of(move));
            return new Event.CashMoved(move);
        });
    }

    private static CashMove move(
            LocalDate day,
            Ledger.Account from,
            Ledger.Account to,
            BigDecimal amount,
            String where,
            String what,
            CurrencyUnit currency) {
        return new CashMove(day, from.name(), to.name(), amount, where, what, currency.getCode());
    }

    /// Looked at under the desk's lock, so that two windows cannot book past one balance.
    private void refuseWhatCannotBe(Logbook book, CurrencyUnit currency, List<CashMove> moves) {
        List<Ledger.Movement> movements = moves.stream()
                .map(move -> new Ledger.Movement(
                        move.day(),
                        Ledger.Account.valueOf(move.from()),
                        Ledger.Account.valueOf(move.to()),
                        move.amount(),
                        move.what(),
                        move.where(),
                        true))
                .toList();
        Ledger.refusal(book, bench.catalog(), currency, zone(), movements).ifPresent(why -> {
            throw new TillForm.Unread(why.toString());
        });
    }

    /// Boxes go back: each is marked, and what the bank counted beside what was expected is booked.
    private void goBack(Context context) {
        TillForm form = new TillForm(context, bench);
        LocalDate day = form.day("day", t("field.day"));
        String where = form.text("where");
        BigDecimal fee = form.moneyOrZero("fee", t("till.kept-back-2"));
        List<Long> numbers = context.formParams("box").stream()
                .filter(text -> text.matches("[1-9][0-9]{0,11}"))
                .map(Long::valueOf)
                .distinct()
                .toList();
        if (numbers.isEmpty()) {
            throw new TillForm.Unread(t("till.no-box-was-ticked-tick"));
        }
        if (where.isBlank()) {
            throw new TillForm.Unread(t("till.where-did-they-go-name"));
        }
        record(context, book -> {
            CurrencyUnit currency = currency(context, book);
            List<Event> events = new ArrayList<>();
            BigDecimal expected = BigDecimal.ZERO.setScale(2);
            for (long number : numbers) {
                Box box = book.box(new BoxId(number))
                        .filter(one -> one.details().returned() == null)
                        .orElseThrow(() -> new TillForm.Unread(t("till.one-of-the-boxes-is")));
                expected = expected.add(face(box, currency)
                        .orElseThrow(() -> new TillForm.Unread(
                                t("till.is-not-in", box.details().label(), currency.getCode())))
                        .multiply(BigDecimal.valueOf(Ledger.goesBack(book, box))));
                events.add(new Event.BoxChanged(box.id(), box.details().returnedOn(day, where)));
            }
            BigDecimal counted =
                    form.text("counted").isEmpty() ? expected : form.moneyOrZero("counted", t("field.counted"));
            BigDecimal missing = expected.subtract(counted);
            List<CashMove> moves = new ArrayList<>();
            // the record's own words, whatever language the pages speak
            String what = "return of " + day;
            if (missing.signum() > 0) {
                moves.add(move(
                        day, Ledger.Account.OUTSIDE, Ledger.Account.SHORT, missing, where, what + " short", currency));
            } else if (missing.signum() < 0) {
                moves.add(move(
                        day,
                        Ledger.Account.SHORT,
                        Ledger.Account.OUTSIDE,
                        missing.negate(),
                        where,
                        what + " over",
                        currency));
            }
            if (fee.compareTo(counted) > 0) {
                throw new TillForm.Unread(t("till.more-was-kept-back-than"));
            }
            if (fee.signum() > 0) {
                moves.add(move(day, Ledger.Account.OUTSIDE, Ledger.Account.FEES, fee, where, "counting", currency));
            }
            if (form.text("paid").equals("cash") && counted.compareTo(fee) > 0) {
                moves.add(move(
                        day,
                        Ledger.Account.OUTSIDE,
                        Ledger.Account.CASH,
                        counted.subtract(fee),
                        where,
                        what + " in cash",
                        currency));
            }
            moves.forEach(one -> events.add(new Event.CashMoved(one)));
            return new Event.Batch(events);
        });
    }

    private void record(Context context, java.util.function.Function<Logbook, Event> maker) {
        if (bench.desk().record(0, "", maker) instanceof Desk.Outcome.Refused refused) {
            throw new TillForm.Unread(refused.refusal().toString());
        }
        String currency = Objects.requireNonNullElse(context.formParam("currency"), "");
        context.redirect("/till" + (currency.matches("[A-Z]{3}") ? "?currency=" + currency : ""), HttpStatus.SEE_OTHER);
    }

    private void undo(Context context) {
        String next = Objects.requireNonNullElse(context.formParam("next"), "/till");
        if (bench.desk().undo(0, "<", HuntForm.asOf(context)) instanceof Desk.Outcome.Refused refused) {
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
                    Ledger.of(book, bench.catalog(), currency, zone()),
                    currency,
                    TillForm.today(bench),
                    PaperPages.paper(context));
        });
        PaperPages.send(context, "statement.pdf", Paper.pdf(render, "paper/list", Map.of("sheet", sheet)));
    }

    private static Paper.Sheet statement(Ledger ledger, CurrencyUnit currency, LocalDate today, String paper) {
        List<String> notes = new ArrayList<>(List.of(t("till.in-as-of", currency.getCode(), Manner.day(today))));
        balances(ledger, currency).forEach(balance -> notes.add(balance.words() + ": " + balance.amount()));
        notes.add(
                t("till.what-was-drawn-from-outside", Manner.amount(ledger.sum().negate(), currency)));
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
