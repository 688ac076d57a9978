package org.rollwright.hunt;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.format.TextStyle;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/// Keeps contradictions about branches, orders, cash and time out of the journal.
final class TillChecks {
    private static final List<String> BEARINGS = List.of("", "N", "NE", "E", "SE", "S", "SW", "W", "NW");
    private static final int MOST_BOXES = 1_000;
    private static final int LONGEST_LEAD = 60;
    private static final double FURTHEST = 2_000;

    private TillChecks() {}

    private static Optional<Refusal> refusal(String wrong, String right) {
        return Optional.of(new Refusal(wrong, right));
    }

    static Optional<Refusal> branch(Branch branch) {
        if (branch.bank().isBlank()) {
            return refusal("The branch has no bank.", "Name the bank, and the branch when there are several.");
        }
        if (branch.leadDays() < 0 || branch.leadDays() > LONGEST_LEAD) {
            return refusal("An order cannot take " + branch.leadDays() + " days.", "Write 0 to " + LONGEST_LEAD + ".");
        }
        if (branch.boxFee().signum() < 0
                || branch.countPercent().signum() < 0
                || branch.countPercent().compareTo(BigDecimal.valueOf(30)) > 0) {
            return refusal("That is no fee.", "Write money for a box, and 0 to 30 percent for counting.");
        }
        if (!(branch.kilometres() >= 0) || branch.kilometres() > FURTHEST) {
            return refusal("That is no distance.", "Write the road from home, up to " + (int) FURTHEST + " km.");
        }
        return BEARINGS.contains(branch.bearing())
                ? Optional.empty()
                : refusal("'" + branch.bearing() + "' is no direction.", "Write N, NE, E, SE, S, SW, W or NW.");
    }

    static Optional<Refusal> branchRemoved(Logbook book, String name) {
        if (book.branch(name).isEmpty()) {
            return refusal("There is no branch " + name + ".", "Look at the list of branches.");
        }
        return book.orders().stream()
                        .anyMatch(order -> order.isOpen() && order.branch().equals(name))
                ? refusal("An order at " + name + " is still open.", "Close the order first.")
                : Optional.empty();
    }

    /// Refuses business with a branch given up, or on a day it does not open. A branch not written down is not
    /// known to be closed.
    static Optional<Refusal> openOn(Logbook book, String name, LocalDate day) {
        Optional<Branch> branch = book.branch(name);
        if (branch.isEmpty()) {
            return Optional.empty();
        }
        if (branch.get().closed()) {
            return refusal(name + " is closed for good.", "Choose another branch, or open it again on its page.");
        }
        return branch.get().openOn(day)
                ? Optional.empty()
                : refusal(
                        name + " does not open on " + weekday(day) + "s; " + day + " is one.",
                        "Choose another day, or correct its days on its page.");
    }

    /// Refuses a return to a branch that takes none, or on a day it does not open; what was returned before
    /// stays as it is.
    static Optional<Refusal> goesBack(Logbook book, Event.BoxChanged changed) {
        LocalDate day = changed.details().returned();
        BoxDetails before = book.known(changed.box()).details();
        String where = changed.details().returnedTo();
        if (day == null || (day.equals(before.returned()) && where.equals(before.returnedTo()))) {
            return Optional.empty();
        }
        Optional<Branch> branch = book.branch(where);
        return branch.isPresent() && !branch.get().takes() && !branch.get().closed()
                ? refusal(where + " takes no coins back.", "Choose another, or say on its page that it does.")
                : openOn(book, where, day);
    }

    private static String weekday(LocalDate day) {
        return day.getDayOfWeek().getDisplayName(TextStyle.FULL, Locale.ENGLISH);
    }

    static Optional<Refusal> cash(Logbook book, CashMove move) {
        return move.amount().signum() > 0
                ? openOn(book, move.where(), move.day())
                : refusal("Nothing moves by zero or less.", "Write an amount such as 25.00.");
    }

    static Optional<Refusal> placed(Logbook book, Order order) {
        if (order.boxes() < 1 || order.boxes() > MOST_BOXES) {
            return refusal(order.boxes() + " boxes cannot be ordered.", "Write 1 to " + MOST_BOXES + ".");
        }
        if (order.due().isBefore(order.placed())) {
            return refusal("The order would arrive before it is placed.", "Check the two days.");
        }
        if (book.orders.containsKey(order.number())) {
            return refusal("There is already an order " + order.number() + ".", "Take the next number.");
        }
        Optional<Branch> branch = book.branch(order.branch());
        if (branch.isPresent() && !branch.get().gives()) {
            return refusal(order.branch() + " gives no boxes.", "Choose another, or say on its page that it does.");
        }
        return openOn(book, order.branch(), order.due());
    }

    static Optional<Refusal> ended(Logbook book, Event.OrderEnded ended) {
        Order order = book.orders.get(ended.order());
        if (order == null || !order.isOpen()) {
            return refusal("There is no open order " + ended.order() + ".", "Look at the list of orders.");
        }
        if (ended.arrived().size() > order.boxes()) {
            return refusal(
                    ended.arrived().size() + " boxes came of " + order.boxes() + " ordered.",
                    "Add what came besides as boxes of their own.");
        }
        return ended.day().isBefore(order.placed())
                ? refusal("The order would end before it was placed.", "Check the day.")
                : Optional.empty();
    }

    static Optional<Refusal> effort(Logbook book, Effort effort) {
        HuntId hunt = effort.hunt();
        if (hunt != null && book.hunt(hunt).isEmpty()) {
            return refusal("There is no hunt " + hunt + ".", "Choose one of the list, or none.");
        }
        if (effort.minutes() < 0 || effort.minutes() > 24 * 60) {
            return refusal("A day has no " + effort.minutes() + " minutes.", "Write 0 to 1440.");
        }
        if (!(effort.kilometres() >= 0) || effort.kilometres() > FURTHEST) {
            return refusal("That is no distance.", "Write up to " + (int) FURTHEST + " km.");
        }
        if (effort.fuel().signum() < 0) {
            return refusal("Fuel cannot be paid back.", "Write what it cost, or 0.");
        }
        return effort.minutes() == 0
                        && effort.kilometres() == 0
                        && effort.fuel().signum() == 0
                ? refusal("Nothing was spent.", "Write minutes, a distance or fuel.")
                : Optional.empty();
    }
}
