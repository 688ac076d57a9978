package org.rollwright.till;

import static org.rollwright.text.Texts.t;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.format.TextStyle;
import java.util.List;
import java.util.Optional;
import org.rollwright.coin.Refusal;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.HuntBook;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.hunt.HuntId;
import org.rollwright.text.Texts;

/// Keeps contradictions about branches, orders, cash and time out of the journal.
final class TillChecks {
    private static final List<String> BEARINGS = List.of("", "N", "NE", "E", "SE", "S", "SW", "W", "NW");
    private static final int MOST_BOXES = 1_000;
    private static final int LONGEST_LEAD = 60;
    private static final double FURTHEST = 2_000;

    private TillChecks() {}

    static Optional<Refusal> refuse(TillBook book, TillEvent event, HuntBook hunts) {
        return switch (event) {
            case TillEvent.CashMoved moved -> cash(book, moved.move());
            case TillEvent.BranchWritten written -> branch(written.branch());
            case TillEvent.BranchRemoved removed -> branchRemoved(book, removed.branch());
            case TillEvent.OrderPlaced placed -> placed(book, placed.order());
            case TillEvent.OrderEnded ended -> ended(book, ended);
            case TillEvent.EffortNoted noted -> effort(hunts, noted.effort());
        };
    }

    private static Optional<Refusal> refusal(String wrong, String right) {
        return Refusal.of(wrong, right);
    }

    private static Optional<Refusal> branch(Branch branch) {
        if (branch.bank().isBlank()) {
            return refusal(t("hunt.the-branch-has-no-bank"), t("hunt.name-the-bank-and-the"));
        }
        if (branch.leadDays() < 0 || branch.leadDays() > LONGEST_LEAD) {
            return refusal(t("hunt.an-order-cannot-take-days", branch.leadDays()), t("hunt.write-0-to", LONGEST_LEAD));
        }
        if (branch.boxFee().signum() < 0
                || branch.countPercent().signum() < 0
                || branch.countPercent().compareTo(BigDecimal.valueOf(30)) > 0) {
            return refusal(t("hunt.that-is-no-fee"), t("hunt.write-money-for-a-box"));
        }
        if (!(branch.kilometres() >= 0) || branch.kilometres() > FURTHEST) {
            return refusal(t("hunt.that-is-no-distance"), t("hunt.write-the-road-from-home", (int) FURTHEST));
        }
        return BEARINGS.contains(branch.bearing())
                ? Optional.empty()
                : refusal(t("hunt.is-no-direction", branch.bearing()), t("hunt.write-n-ne-e-se"));
    }

    private static Optional<Refusal> branchRemoved(TillBook book, String name) {
        if (book.branch(name).isEmpty()) {
            return refusal(t("hunt.there-is-no-branch", name), t("hunt.look-at-the-list-of-5"));
        }
        return book.orders().stream()
                        .anyMatch(order -> order.isOpen() && order.branch().equals(name))
                ? refusal(t("hunt.an-order-at-is-still", name), t("hunt.close-the-order-first"))
                : Optional.empty();
    }

    /// Refuses business with a branch given up, or on a day it does not open. A branch not written down is not
    /// known to be closed.
    private static Optional<Refusal> openOn(TillBook book, String name, LocalDate day) {
        Optional<Branch> branch = book.branch(name);
        if (branch.isEmpty()) {
            return Optional.empty();
        }
        if (branch.get().closed()) {
            return refusal(t("hunt.is-closed-for-good", name), t("hunt.choose-another-branch-or-open"));
        }
        return branch.get().openOn(day)
                ? Optional.empty()
                : refusal(
                        t("hunt.does-not-open-on-s", name, weekday(day), day), t("hunt.choose-another-day-or-correct"));
    }

    /// Refuses a return to a branch that takes none, or on a day it does not open; what was returned before
    /// stays as it is.
    static Optional<Refusal> goesBack(TillBook book, HuntEvent.BoxChanged changed, HuntBook hunts) {
        LocalDate day = changed.details().returned();
        BoxDetails before = hunts.known(changed.box()).details();
        String where = changed.details().returnedTo();
        if (day == null || (day.equals(before.returned()) && where.equals(before.returnedTo()))) {
            return Optional.empty();
        }
        Optional<Branch> branch = book.branch(where);
        return branch.isPresent() && !branch.get().takes() && !branch.get().closed()
                ? refusal(t("hunt.takes-no-coins-back", where), t("hunt.choose-another-or-say-on"))
                : openOn(book, where, day);
    }

    private static String weekday(LocalDate day) {
        return day.getDayOfWeek().getDisplayName(TextStyle.FULL, Texts.locale());
    }

    private static Optional<Refusal> cash(TillBook book, CashMove move) {
        return move.amount().signum() > 0
                ? openOn(book, move.where(), move.day())
                : refusal(t("hunt.nothing-moves-by-zero-or"), t("hunt.write-an-amount-such-as"));
    }

    private static Optional<Refusal> placed(TillBook book, Order order) {
        if (order.boxes() < 1 || order.boxes() > MOST_BOXES) {
            return refusal(t("hunt.boxes-cannot-be-ordered", order.boxes()), t("hunt.write-1-to", MOST_BOXES));
        }
        if (order.due().isBefore(order.placed())) {
            return refusal(t("hunt.the-order-would-arrive-before"), t("hunt.check-the-two-days"));
        }
        if (book.order(order.number()).isPresent()) {
            return refusal(t("hunt.there-is-already-an-order", order.number()), t("hunt.take-the-next-number"));
        }
        Optional<Branch> branch = book.branch(order.branch());
        if (branch.isPresent() && !branch.get().gives()) {
            return refusal(t("hunt.gives-no-boxes", order.branch()), t("hunt.choose-another-or-say-on"));
        }
        return openOn(book, order.branch(), order.due());
    }

    private static Optional<Refusal> ended(TillBook book, TillEvent.OrderEnded ended) {
        Order order = book.order(ended.order()).orElse(null);
        if (order == null || !order.isOpen()) {
            return refusal(t("hunt.there-is-no-open-order", ended.order()), t("hunt.look-at-the-list-of-6"));
        }
        if (ended.arrived().size() > order.boxes()) {
            return refusal(
                    t("hunt.boxes-came-of-ordered", ended.arrived().size(), order.boxes()),
                    t("hunt.add-what-came-besides-as"));
        }
        return ended.day().isBefore(order.placed())
                ? refusal(t("hunt.the-order-would-end-before"), t("hunt.check-the-day"))
                : Optional.empty();
    }

    private static Optional<Refusal> effort(HuntBook hunts, Effort effort) {
        HuntId hunt = effort.hunt();
        if (hunt != null && hunts.hunt(hunt).isEmpty()) {
            return refusal(t("hunt.there-is-no-hunt", hunt), t("hunt.choose-one-of-the-list-3"));
        }
        if (effort.minutes() < 0 || effort.minutes() > 24 * 60) {
            return refusal(t("hunt.a-day-has-no-minutes", effort.minutes()), t("hunt.write-0-to-1440"));
        }
        if (!(effort.kilometres() >= 0) || effort.kilometres() > FURTHEST) {
            return refusal(t("hunt.that-is-no-distance"), t("hunt.write-up-to-km", (int) FURTHEST));
        }
        if (effort.fuel().signum() < 0) {
            return refusal(t("hunt.fuel-cannot-be-paid-back"), t("hunt.write-what-it-cost-or"));
        }
        return effort.minutes() == 0
                        && effort.kilometres() == 0
                        && effort.fuel().signum() == 0
                ? refusal(t("hunt.nothing-was-spent"), t("hunt.write-minutes-a-distance-or"))
                : Optional.empty();
    }
}
