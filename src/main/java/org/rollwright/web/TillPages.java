package org.rollwright.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.rollwright.hunt.CashMove;
import org.rollwright.hunt.Desk;
import org.rollwright.hunt.Event;
import org.rollwright.hunt.Logbook;
import org.rollwright.till.Ledger;

/// The Till: where every coin's face value is.
final class TillPages {
    /// What is booked with one word.
    enum Kind {
        DRAW("drew cash", Ledger.Account.OUTSIDE, Ledger.Account.CASH),
        ORDER("paid an order", Ledger.Account.CASH, Ledger.Account.IN_TRANSIT),
        ARRIVED("order arrived", Ledger.Account.IN_TRANSIT, Ledger.Account.BOXES),
        BOUGHT("bought boxes or rolls", Ledger.Account.CASH, Ledger.Account.BOXES),
        KEPT("kept coins", Ledger.Account.BOXES, Ledger.Account.KEPT),
        SHORT("found short", Ledger.Account.BOXES, Ledger.Account.SHORT),
        OVER("found more than said", Ledger.Account.SHORT, Ledger.Account.BOXES),
        ASIDE("searched, set aside", Ledger.Account.BOXES, Ledger.Account.TO_RETURN),
        RETURNED("returned to an account", Ledger.Account.TO_RETURN, Ledger.Account.OUTSIDE),
        CASHED("returned for cash", Ledger.Account.TO_RETURN, Ledger.Account.CASH),
        COUNT_SHORT("count came short", Ledger.Account.TO_RETURN, Ledger.Account.SHORT),
        FEE("paid a fee", Ledger.Account.CASH, Ledger.Account.FEES),
        DEPOSIT("deposited cash", Ledger.Account.CASH, Ledger.Account.OUTSIDE),
        SPENT("spent kept coins", Ledger.Account.KEPT, Ledger.Account.OUTSIDE);

        private final String words;
        private final Ledger.Account from;
        private final Ledger.Account to;

        Kind(String words, Ledger.Account from, Ledger.Account to) {
            this.words = words;
            this.from = from;
            this.to = to;
        }

        public String words() {
            return words;
        }
    }

    private static final BigDecimal REPORTED = new BigDecimal("10000");
    private static final int LISTED = 200;

    private final Bench bench;
    private final Render render;

    TillPages(Bench bench, Render render) {
        this.bench = bench;
        this.render = render;
    }

    void register(RoutesConfig routes) {
        routes.get("/till", context -> show(context, List.of()));
        routes.post("/till", this::book);
        routes.post("/till/undo", this::undo);
    }

    private void show(Context context, List<String> problems) {
        Map<String, String> typed = new LinkedHashMap<>();
        context.formParamMap().forEach((name, values) -> typed.put(name, values.getLast()));
        TillView view = bench.desk().read(book -> view(book, problems, typed));
        render.page(context, "till", Map.of("frame", new Frame("Till", "till", bench.demo()), "view", view));
    }

    private static TillView view(Logbook book, List<String> problems, Map<String, String> typed) {
        Ledger ledger = Ledger.of(book);
        List<TillView.Balance> balances = new ArrayList<>();
        for (Ledger.Account account : Ledger.Account.values()) {
            BigDecimal balance = ledger.balance(account);
            if (account == Ledger.Account.OUTSIDE) {
                balances.add(
                        new TillView.Balance(account.words(), balance.negate().toPlainString()));
            } else {
                balances.add(new TillView.Balance(account.words(), balance.toPlainString()));
            }
        }
        List<TillView.Line> lines = new ArrayList<>();
        for (Ledger.Movement move : ledger.movements().reversed()) {
            if (lines.size() < LISTED) {
                lines.add(new TillView.Line(
                        move.day().toString(),
                        words(move) + (move.what().isBlank() ? "" : ": " + move.what()),
                        move.amount().toPlainString(),
                        move.where()));
            }
        }
        List<String> warnings = new ArrayList<>();
        ledger.loops()
                .forEach(
                        place -> warnings.add(
                                "Boxes come from " + place
                                        + ", and coins go back there: what you return may come back to you. Return elsewhere if you can."));
        ledger.leftOut()
                .forEach(move ->
                        warnings.add("Left out of the books: " + move.amount().toPlainString() + " on " + move.day()
                                + ", because what it was taken from was undone. Undo it, or book it anew."));
        ledger.movements().stream()
                .map(Ledger.Movement::day)
                .distinct()
                .filter(day -> ledger.cashOn(day).compareTo(REPORTED) > 0)
                .forEach(day -> warnings.add(
                        "Cash on " + day + " came to " + ledger.cashOn(day).toPlainString()
                                + ", coins counted both ways. Banks report cash over 10,000 dollars a day; that is routine and no fault."
                                + " Arranging amounts to avoid a report is a crime (31 USC 5324)."));
        List<VarietyViews.Choice> kinds = new ArrayList<>();
        for (Kind kind : Kind.values()) {
            kinds.add(new VarietyViews.Choice(kind.name(), kind.words));
        }
        return new TillView(
                balances,
                lines,
                kinds,
                warnings,
                problems,
                typed,
                book.undoable(0).isPresent());
    }

    private static String words(Ledger.Movement move) {
        for (Kind kind : Kind.values()) {
            if (kind.from == move.from() && kind.to == move.to()) {
                return kind.words;
            }
        }
        return move.from().words() + " to " + move.to().words();
    }

    private static String field(Context context, String name) {
        return Optional.ofNullable(context.formParam(name)).orElse("").strip();
    }

    private void refuse(Context context, String sentence) {
        context.status(HttpStatus.UNPROCESSABLE_CONTENT);
        show(context, List.of(sentence));
    }

    private void book(Context context) {
        Kind kind = null;
        for (Kind one : Kind.values()) {
            kind = one.name().equals(field(context, "kind")) ? one : kind;
        }
        String amount = field(context, "amount").replace(",", "").replace("$", "");
        if (kind == null || !amount.matches("[0-9]{1,9}(\\.[0-9]{1,2})?")) {
            refuse(context, kind == null ? "Choose what happened." : "Write an amount such as 25.00.");
            return;
        }
        LocalDate day = LocalDate.ofInstant(bench.clock().instant(), ZoneId.systemDefault());
        try {
            day = field(context, "day").isEmpty() ? day : LocalDate.parse(field(context, "day"));
        } catch (DateTimeParseException e) {
            refuse(context, "Day: write it as 2026-03-01.");
            return;
        }
        CashMove move = new CashMove(
                day,
                kind.from.name(),
                kind.to.name(),
                new BigDecimal(amount).setScale(2, java.math.RoundingMode.UNNECESSARY),
                field(context, "where"),
                field(context, "what"));
        Optional<Ledger.Refusal> refusal = bench.desk()
                .read(book -> Ledger.of(book)
                        .book(new Ledger.Movement(
                                move.day(),
                                Ledger.Account.valueOf(move.from()),
                                Ledger.Account.valueOf(move.to()),
                                move.amount(),
                                move.what(),
                                move.where())));
        if (refusal.isPresent()) {
            refuse(context, refusal.get().wrong() + " " + refusal.get().right());
            return;
        }
        if (bench.desk().record(0, "", book -> new Event.CashMoved(move)) instanceof Desk.Outcome.Refused refused) {
            refuse(context, refused.refusal().toString());
        } else {
            context.redirect("/till", HttpStatus.SEE_OTHER);
        }
    }

    private void undo(Context context) {
        if (bench.desk().undo(0, "<") instanceof Desk.Outcome.Refused refused) {
            refuse(context, refused.refusal().toString());
        } else {
            context.redirect("/till", HttpStatus.SEE_OTHER);
        }
    }
}
