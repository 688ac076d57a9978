package org.rollwright.till;

import static org.rollwright.text.Texts.t;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.format.TextStyle;
import java.util.Objects;
import java.util.Optional;
import org.rollwright.coin.Refusal;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.HuntBook;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.hunt.HuntId;
import org.rollwright.text.Texts;

/// Keeps contradictions about branches, orders, cash and time out of the journal.
final class TillChecks {
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
            return refusal(t("hunt.branch-bank-missing"), t("hunt.branch-name-bank"));
        }
        if (branch.leadDays() < 0 || branch.leadDays() > LONGEST_LEAD) {
            return refusal(t("hunt.order-days-wrong", branch.leadDays()), t("hunt.write-0-to", LONGEST_LEAD));
        }
        if (branch.boxFee().signum() < 0
                || branch.countPercent().signum() < 0
                || branch.countPercent().compareTo(BigDecimal.valueOf(30)) > 0) {
            return refusal(t("hunt.that-is-no-fee"), t("hunt.branch-fees-form"));
        }
        if (!(branch.kilometres() >= 0) || branch.kilometres() > FURTHEST) {
            return refusal(t("hunt.that-is-no-distance"), t("hunt.road-form", (int) FURTHEST));
        }
        return branch.bearing().equals(Bearing.NOT_SAID)
                        || branch.bearing().in(Bearing.class).isPresent()
                ? Optional.empty()
                : refusal(t("hunt.direction-wrong", branch.bearing()), t("hunt.direction-form"));
    }

    private static Optional<Refusal> branchRemoved(TillBook book, String name) {
        if (book.branch(name).isEmpty()) {
            return refusal(t("hunt.branch-unknown", name), t("hunt.branch-list"));
        }
        return book.orders().stream()
                        .anyMatch(order -> order.isOpen() && order.branch().equals(name))
                ? refusal(t("hunt.branch-order-open", name), t("hunt.close-the-order-first"))
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
            return refusal(t("hunt.branch-closed-for-good", name), t("hunt.branch-choose-open"));
        }
        return branch.get().openOn(day)
                ? Optional.empty()
                : refusal(t("hunt.branch-closed-weekday", name, weekday(day), day), t("hunt.branch-choose-day"));
    }

    /// Refuses a return to a branch that takes none, or on a day it does not open; what was returned before
    /// stays as it is.
    static Optional<Refusal> goesBack(TillBook book, HuntEvent.BoxChanged changed, HuntBook hunts) {
        BoxDetails before = hunts.known(changed.box()).details();
        BoxDetails now = changed.details();
        boolean asBefore = Objects.equals(now.returned(), before.returned())
                && now.returnedTo().equals(before.returnedTo());
        return asBefore ? Optional.empty() : goesBack(book, now);
    }

    static Optional<Refusal> goesBack(TillBook book, BoxDetails box) {
        LocalDate day = box.returned();
        if (day == null) {
            return Optional.empty();
        }
        Optional<Branch> branch = book.branch(box.returnedTo());
        return branch.isPresent() && !branch.get().takes() && !branch.get().closed()
                ? refusal(t("hunt.takes-no-coins-back", box.returnedTo()), t("hunt.branch-choose-serving"))
                : openOn(book, box.returnedTo(), day);
    }

    private static String weekday(LocalDate day) {
        return day.getDayOfWeek().getDisplayName(TextStyle.FULL, Texts.locale());
    }

    private static Optional<Refusal> cash(TillBook book, CashMove move) {
        return move.amount().signum() > 0
                ? openOn(book, move.where(), move.day())
                : refusal(t("hunt.cash-zero"), t("hunt.amount-form"));
    }

    private static Optional<Refusal> placed(TillBook book, Order order) {
        if (order.boxes() < 1 || order.boxes() > MOST_BOXES) {
            return refusal(t("hunt.boxes-cannot-be-ordered", order.boxes()), t("hunt.write-1-to", MOST_BOXES));
        }
        if (order.due().isBefore(order.placed())) {
            return refusal(t("hunt.order-due-early"), t("hunt.check-the-two-days"));
        }
        if (book.order(order.number()).isPresent()) {
            return refusal(t("hunt.order-taken", order.number()), t("hunt.take-the-next-number"));
        }
        Optional<Branch> branch = book.branch(order.branch());
        if (branch.isPresent() && !branch.get().gives()) {
            return refusal(t("hunt.gives-no-boxes", order.branch()), t("hunt.branch-choose-serving"));
        }
        return openOn(book, order.branch(), order.due());
    }

    private static Optional<Refusal> ended(TillBook book, TillEvent.OrderEnded ended) {
        Order order = book.order(ended.order()).orElse(null);
        if (order == null || !order.isOpen()) {
            return refusal(t("hunt.order-unknown", ended.order()), t("hunt.order-list"));
        }
        if (ended.arrived().size() > order.boxes()) {
            return refusal(
                    t("hunt.boxes-came-of-ordered", ended.arrived().size(), order.boxes()),
                    t("hunt.balance-add-boxes"));
        }
        return ended.day().isBefore(order.placed())
                ? refusal(t("hunt.order-ended-early"), t("hunt.check-the-day"))
                : Optional.empty();
    }

    private static Optional<Refusal> effort(HuntBook hunts, Effort effort) {
        HuntId hunt = effort.hunt();
        if (hunt != null && hunts.hunt(hunt).isEmpty()) {
            return refusal(t("hunt.hunt-unknown", hunt), t("hunt.choose-or-none"));
        }
        if (effort.minutes() < 0 || effort.minutes() > 24 * 60) {
            return refusal(t("hunt.minutes-too-many", effort.minutes()), t("hunt.minutes-range"));
        }
        if (!(effort.kilometres() >= 0) || effort.kilometres() > FURTHEST) {
            return refusal(t("hunt.that-is-no-distance"), t("hunt.write-up-to-km", (int) FURTHEST));
        }
        if (effort.fuel().signum() < 0) {
            return refusal(t("hunt.fuel-negative"), t("hunt.cost-form"));
        }
        return effort.minutes() == 0
                        && effort.kilometres() == 0
                        && effort.fuel().signum() == 0
                ? refusal(t("hunt.nothing-was-spent"), t("hunt.effort-form"))
                : Optional.empty();
    }
}
