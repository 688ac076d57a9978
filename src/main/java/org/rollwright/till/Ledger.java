package org.rollwright.till;

import static org.rollwright.text.Texts.t;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import org.joda.money.CurrencyUnit;
import org.rollwright.cabinet.Holdings;
import org.rollwright.catalog.Catalog;
import org.rollwright.coin.Refusal;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.HuntBook;
import org.rollwright.text.Figures;

/// Where every coin's face value is: each movement takes from one place what it gives to another, so the books
/// always add up to the cent.
///
/// Most of it is worked out from the record of boxes and finds (see [BoxMovements]); only what the record
/// cannot know (cash drawn, fees, returns by the bag) is booked by hand. Amounts are in one currency; there is
/// a ledger for each.
public final class Ledger {
    /// One movement.
    ///
    /// @param amount above 0
    /// @param where bank or branch, blank when none
    /// @param booked whether it was booked by hand; otherwise it follows from the record
    public record Movement(
            LocalDate day, Account from, Account to, BigDecimal amount, String what, String where, boolean booked) {}

    /// A movement that contradicts what stands before it, and why.
    public record LeftOut(Movement movement, Refusal why) {}

    private final List<Movement> movements = new ArrayList<>();
    private final List<LeftOut> leftOut = new ArrayList<>();
    private final Map<Account, BigDecimal> balances = new EnumMap<>(Account.class);

    /// The books day by day.
    ///
    /// @param zone where the hunter's days begin
    public static Ledger of(TillBook book, Holdings held, Catalog catalog, CurrencyUnit currency, ZoneId zone) {
        return with(book, held, catalog, currency, zone, List.of());
    }

    /// The books as they would be with one movement more, or why it cannot be: because there is not enough, or
    /// because a later movement would lose what it rests on.
    public static Optional<Refusal> refusal(
            TillBook book, Holdings held, Catalog catalog, CurrencyUnit currency, ZoneId zone, List<Movement> more) {
        List<LeftOut> before = of(book, held, catalog, currency, zone).leftOut();
        List<LeftOut> after = with(book, held, catalog, currency, zone, more).leftOut();
        return after.stream()
                .filter(one -> more.contains(one.movement))
                .map(LeftOut::why)
                .findFirst()
                .or(() -> after.size() <= before.size()
                        ? Optional.empty()
                        : after.stream()
                                .filter(one -> !before.contains(one))
                                .findFirst()
                                .map(one -> new Refusal(
                                        t(
                                                "till.later-impossible",
                                                Figures.plain(one.movement.amount),
                                                one.movement.day,
                                                one.movement.what),
                                        t("till.check-day-and-amount"))));
    }

    /// Coins of a box that would go back with it: what was searched and not kept, and rolls not opened. Never
    /// less than 0.
    public static long goesBack(HuntBook hunts, Box box) {
        BoxMovements.Contents contents = BoxMovements.Contents.of(hunts, box);
        return contents.rest() + contents.unsearched();
    }

    private static Ledger with(
            TillBook book, Holdings held, Catalog catalog, CurrencyUnit currency, ZoneId zone, List<Movement> more) {
        List<Movement> all = new ArrayList<>();
        for (CashMove move : book.cashMoves()) {
            String own = move.currency();
            if (currency.getCode().equals(own == null ? "USD" : own)) {
                movement(move).ifPresent(all::add);
            }
        }
        all.addAll(more);
        BoxMovements derived = new BoxMovements(book, held, catalog, currency, zone);
        all.addAll(derived.movements());
        // stable: what happened on one day keeps the order of its stages, and within a stage that of the record
        all.sort(Comparator.comparing(Movement::day).thenComparingInt(Ledger::stage));
        Ledger ledger = new Ledger();
        for (Movement one : all) {
            Movement paid = ledger.paidFrom(one);
            ledger.book(paid).ifPresent(why -> ledger.leftOut.add(new LeftOut(one, why)));
        }
        return ledger;
    }

    /// What moved by hand; empty when it was to or from a place this version does not know, which the journal keeps.
    static Optional<Movement> movement(CashMove move) {
        return move.from()
                .in(Account.class)
                .flatMap(from -> move.to()
                        .in(Account.class)
                        .map(to -> new Movement(move.day(), from, to, move.amount(), move.what(), move.where(), true)));
    }

    /// Boxes are paid from the cash in hand while it lasts that far, otherwise from the account.
    private Movement paidFrom(Movement one) {
        boolean paying = !one.booked && one.from == Account.CASH;
        return paying && balance(Account.CASH).compareTo(one.amount) < 0
                ? new Movement(one.day, Account.OUTSIDE, one.to, one.amount, one.what, one.where, false)
                : one;
    }

    /// Money comes before it is spent, coins are searched before they go back.
    private static int stage(Movement one) {
        return switch (one.from) {
            case OUTSIDE -> one.to == Account.CASH ? 0 : 2;
            case CASH -> one.to == Account.OUTSIDE ? 8 : one.to == Account.FEES ? 7 : 2;
            case IN_TRANSIT -> 3;
            case SHORT -> 4;
            case BOXES -> one.to == Account.OUTSIDE ? 6 : 5;
            case TO_RETURN, KEPT -> 6;
            case FEES, LEFT -> 7;
        };
    }

    /// Movements that contradict what stands before them, after an undo or a change of days.
    public List<LeftOut> leftOut() {
        return List.copyOf(leftOut);
    }

    public Ledger() {
        for (Account account : Account.values()) {
            balances.put(account, BigDecimal.ZERO.setScale(2));
        }
    }

    /// Books a movement, or says why not; then nothing changed.
    public Optional<Refusal> book(Movement movement) {
        BigDecimal amount = movement.amount;
        if (amount.signum() <= 0 || amount.scale() > 2) {
            return Optional.of(new Refusal(t("till.amount-impossible", Figures.plain(amount)), t("till.cents-form")));
        }
        if (movement.from == movement.to) {
            return Optional.of(new Refusal(t("till.same-place"), t("till.choose-where-it-went")));
        }
        boolean bounded = movement.from != Account.OUTSIDE && movement.from != Account.SHORT;
        BigDecimal there = balance(movement.from);
        if (bounded && there.compareTo(amount) < 0) {
            return Optional.of(new Refusal(
                    t(
                            "till.not-enough",
                            Figures.plain(there),
                            movement.from.words(),
                            movement.day,
                            Figures.plain(amount)),
                    t("till.check-or-enter-first")));
        }
        movements.add(movement);
        balances.merge(movement.from, amount.negate(), BigDecimal::add);
        balances.merge(movement.to, amount, BigDecimal::add);
        return Optional.empty();
    }

    public BigDecimal balance(Account account) {
        return balances.getOrDefault(account, BigDecimal.ZERO);
    }

    /// In order of days.
    public List<Movement> movements() {
        return List.copyOf(movements);
    }

    /// All places together: zero, or the books are wrong.
    public BigDecimal sum() {
        return balances.values().stream().reduce(BigDecimal.ZERO, BigDecimal::add);
    }

    /// Places where coins were returned and boxes had as well: what goes back there may come back.
    public List<String> loops() {
        List<String> returned = movements.stream()
                .filter(Ledger::goesBack)
                .map(Movement::where)
                .distinct()
                .toList();
        return movements.stream()
                .filter(one -> one.to == Account.BOXES || one.to == Account.IN_TRANSIT)
                .map(Movement::where)
                .filter(returned::contains)
                .distinct()
                .toList();
    }

    private static boolean goesBack(Movement one) {
        return one.from == Account.TO_RETURN && one.to != Account.SHORT && !one.where.isBlank();
    }

    /// Face value returned to a place in the days before a day, that day left out.
    public BigDecimal returnedTo(String place, LocalDate before, int days) {
        return movements.stream()
                .filter(one -> goesBack(one)
                        && one.where.equals(place)
                        && one.day.isBefore(before)
                        && !one.day.isBefore(before.minusDays(days)))
                .map(Movement::amount)
                .reduce(BigDecimal.ZERO, BigDecimal::add);
    }

    /// Cash deposited or exchanged, day by day, coins counting both ways. Over 10,000 dollars a day a bank
    /// reports it (31 CFR 1010.311); arranging amounts to stay under that is itself a crime (31 USC 5324), so
    /// the sum is only shown.
    public SortedMap<LocalDate, BigDecimal> cashByDay() {
        SortedMap<LocalDate, BigDecimal> days = new TreeMap<>();
        for (Movement one : movements) {
            if (one.from == Account.OUTSIDE || one.to == Account.OUTSIDE) {
                days.merge(one.day, one.amount, BigDecimal::add);
            }
        }
        return days;
    }
}
