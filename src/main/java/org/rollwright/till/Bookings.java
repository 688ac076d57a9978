package org.rollwright.till;

import static org.rollwright.text.Texts.t;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import org.joda.money.CurrencyUnit;
import org.jspecify.annotations.Nullable;
import org.rollwright.cabinet.Holdings;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.coin.Refusal;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.journal.Declined;
import org.rollwright.journal.Event;
import org.rollwright.journal.Word;

/// What is booked at the till, with what follows from it.
///
/// @param held finds and coins, whose face value lies somewhere
/// @param zone where the hunter's days begin
public record Bookings(TillBook till, Holdings held, Catalog catalog, ZoneId zone) {
    /// Money as it moved by hand.
    ///
    /// @throws Declined when it cannot have been there to move
    public Event cash(CashMove move, CurrencyUnit currency) {
        possible(currency, List.of(move));
        return new TillEvent.CashMoved(move);
    }

    /// How a bank pays for coins.
    public enum Paid {
        ACCOUNT,
        CASH
    }

    /// What goes back and what came of it.
    ///
    /// @param counted by the bank; null when it counted what was expected
    /// @param fee kept back for counting
    /// @param paid how the bank paid
    public record Return(
            List<BoxId> boxes,
            LocalDate day,
            String where,
            @Nullable BigDecimal counted,
            BigDecimal fee,
            Paid paid,
            CurrencyUnit currency) {}

    /// Boxes go back: each is marked, and what the bank counted beside what was expected is booked.
    ///
    /// @throws Declined when a box is not here, or the amounts cannot be
    public Event back(Return what) {
        if (what.boxes.isEmpty()) {
            throw new Declined(t("till.no-box-to-go-back"), t("till.name-the-boxes-that-went"));
        }
        if (what.where.isBlank()) {
            throw new Declined(t("till.not-said-where-they-went"), t("till.name-the-bank-or-branch"));
        }
        List<Event> events = new ArrayList<>();
        BigDecimal expected = BigDecimal.ZERO.setScale(2);
        // a box may have been said by its number and by its label
        for (BoxId id : new LinkedHashSet<>(what.boxes)) {
            Box box = held.hunts()
                    .box(id)
                    .filter(this::isHere)
                    .orElseThrow(() -> new Declined(t("till.box-is-not-here", id), t("till.look-at-the-list-again")));
            BigDecimal face = catalog.face(box.denomination(), what.currency)
                    .orElseThrow(() -> new Declined(
                            t("till.box-in-another-currency", box.details().label(), what.currency.getCode()),
                            t("till.book-each-currency-by-itself")));
            expected = expected.add(face.multiply(BigDecimal.valueOf(Ledger.goesBack(held.hunts(), box))));
            events.add(new HuntEvent.BoxChanged(box.id(), box.details().returnedOn(what.day, what.where)));
        }
        BigDecimal counted = what.counted == null ? expected : what.counted;
        if (what.fee.compareTo(counted) > 0) {
            throw new Declined(t("till.more-kept-back-than-counted"), t("till.check-the-two-amounts"));
        }
        moves(what, expected, counted).forEach(one -> events.add(new TillEvent.CashMoved(one)));
        return new Event.Batch(events);
    }

    private static List<CashMove> moves(Return what, BigDecimal expected, BigDecimal counted) {
        BigDecimal missing = expected.subtract(counted);
        List<CashMove> moves = new ArrayList<>();
        // the record's own words, whatever language the pages speak
        String words = "return of " + what.day;
        if (missing.signum() > 0) {
            moves.add(move(what, Account.OUTSIDE, Account.SHORT, missing, words + " short"));
        } else if (missing.signum() < 0) {
            moves.add(move(what, Account.SHORT, Account.OUTSIDE, missing.negate(), words + " over"));
        }
        if (what.fee.signum() > 0) {
            moves.add(move(what, Account.OUTSIDE, Account.FEES, what.fee, "counting"));
        }
        if (what.paid == Paid.CASH && counted.compareTo(what.fee) > 0) {
            moves.add(move(what, Account.OUTSIDE, Account.CASH, counted.subtract(what.fee), words + " in cash"));
        }
        return moves;
    }

    private static CashMove move(Return what, Account from, Account to, BigDecimal amount, String words) {
        return new CashMove(what.day, Word.of(from), Word.of(to), amount, what.where, words, what.currency.getCode());
    }

    private void possible(CurrencyUnit currency, List<CashMove> moves) {
        List<Ledger.Movement> movements =
                moves.stream().map(Ledger::movement).flatMap(Optional::stream).toList();
        Ledger.refusal(till, held, catalog, currency, zone, movements).ifPresent(why -> {
            throw new Declined(new Refusal(why.wrong(), why.right()));
        });
    }

    /// Whether the books hold a box: one that came on a known day or was begun, and has not gone back. What was
    /// searched before the journal began has no coins in them.
    public boolean isHere(Box box) {
        return box.details().returned() == null
                && box.earlier().isEmpty()
                && (box.details().pickedUp() != null || box.hunt().isPresent());
    }

    /// Boxes are ordered.
    ///
    /// @param due null for the first day the branch opens after its usual time
    public Event order(
            String where,
            DenominationFacts facts,
            int boxes,
            LocalDate placed,
            @Nullable LocalDate due,
            boolean prepaid,
            String note) {
        if (where.isBlank()) {
            throw new Declined(t("till.not-said-where-ordered"), t("till.name-the-bank-or-branch"));
        }
        int lead = till.branch(where).map(Branch::leadDays).orElse(0);
        return new TillEvent.OrderPlaced(new Order(
                till.nextOrder(),
                where,
                facts.denomination(),
                boxes,
                placed,
                due == null ? firstOpen(where, placed.plusDays(lead)) : due,
                prepaid,
                note,
                null,
                List.of()));
    }

    /// The first day from a day on which a branch opens; the day itself when that is not known.
    private LocalDate firstOpen(String where, LocalDate from) {
        for (int i = 0; i < 7; i++) {
            LocalDate day = from.plusDays(i);
            if (till.branch(where).map(branch -> branch.openOn(day)).orElse(true)) {
                return day;
            }
        }
        return from;
    }

    /// An order comes to its end: boxes that came enter the record as boxes waiting to be searched.
    ///
    /// @param came how many; null for all
    public Event arrived(OrderId number, LocalDate day, @Nullable Integer came) {
        Order order = till.order(number)
                .orElseThrow(() -> new Declined(t("till.no-such-order", number), t("till.look-at-the-list-again")));
        int boxes = came == null ? order.boxes() : came;
        if (boxes > order.boxes()) {
            throw new Declined(
                    t("till.more-came-than-ordered", boxes, order.boxes()), t("till.add-the-others-as-boxes"));
        }
        DenominationFacts facts = catalog.facts(order.denomination()).orElseThrow();
        Optional<Branch> branch = till.branch(order.branch());
        List<Event> events = new ArrayList<>();
        List<BoxId> arrived = new ArrayList<>();
        for (int i = 0; i < boxes; i++) {
            BoxId id = new BoxId(held.hunts().nextBox().number() + i);
            arrived.add(id);
            events.add(new HuntEvent.BoxAdded(
                    id,
                    order.denomination(),
                    new BoxDetails(
                            held.hunts().boxName(order.denomination(), i),
                            BoxDetails.Form.BOX,
                            Math.toIntExact(facts.coinsPerBox() / facts.coinsPerRoll()),
                            facts.coinsPerRoll(),
                            0,
                            branch.map(Branch::bank).orElse(order.branch()),
                            branch.map(Branch::branch).orElse(""),
                            "machine",
                            "",
                            boxes > 1 ? "order " + order.number() : "",
                            order.placed(),
                            day,
                            null,
                            "",
                            "")));
        }
        events.add(new TillEvent.OrderEnded(number, day, arrived));
        return new Event.Batch(events);
    }
}
