package org.rollwright.till;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.rollwright.hunt.CashMove;
import org.rollwright.hunt.Logbook;

/// Where every coin's face value is: each movement takes from one place what it gives to another, so the books
/// always add up to the cent.
///
/// Amounts are in one currency; the hunter keeps a ledger for each.
public final class Ledger {
    /// Where face value can be.
    public enum Account {
        /// Bank accounts and everything else the hunter draws on; negative by what is out.
        OUTSIDE("drawn from outside"),
        /// Notes in hand.
        CASH("cash in hand"),
        /// Ordered and paid, not yet here.
        IN_TRANSIT("in transit"),
        /// In boxes, searched or not.
        BOXES("in boxes"),
        /// Coins that stay.
        KEPT("kept"),
        /// Searched and waiting to go back.
        TO_RETURN("to be returned"),
        /// Missing from rolls and boxes; negative when there was more than said.
        SHORT("short"),
        /// Paid for counting, ordering and the like.
        FEES("fees");

        private final String words;

        Account(String words) {
            this.words = words;
        }

        public String words() {
            return words;
        }
    }

    /// One movement.
    ///
    /// @param amount above 0
    public record Movement(LocalDate day, Account from, Account to, BigDecimal amount, String what, String where) {}

    /// Why a movement cannot be.
    public record Refusal(String wrong, String right) {}

    private final List<Movement> movements = new ArrayList<>();
    private final List<CashMove> leftOut = new ArrayList<>();
    private final Map<Account, BigDecimal> balances = new EnumMap<>(Account.class);

    /// The books of a logbook. Movements are checked before they are recorded; one that could not be booked any
    /// more, after an undo before it, is left out and named by [#leftOut()].
    public static Ledger of(Logbook book) {
        Ledger ledger = new Ledger();
        for (CashMove move : book.cashMoves()) {
            try {
                Movement movement = new Movement(
                        move.day(),
                        Account.valueOf(move.from()),
                        Account.valueOf(move.to()),
                        move.amount(),
                        move.what(),
                        move.where());
                if (ledger.book(movement).isPresent()) {
                    ledger.leftOut.add(move);
                }
            } catch (IllegalArgumentException e) {
                ledger.leftOut.add(move);
            }
        }
        return ledger;
    }

    /// Movements that contradict what was booked before them.
    public List<CashMove> leftOut() {
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
            return Optional.of(new Refusal(
                    "An amount of " + amount.toPlainString() + " cannot be booked.",
                    "Write whole cents above zero, such as 25.00."));
        }
        if (movement.from == movement.to) {
            return Optional.of(new Refusal("Nothing moves from a place to itself.", "Choose where it went."));
        }
        boolean bounded = movement.from != Account.OUTSIDE && movement.from != Account.SHORT;
        BigDecimal there = balance(movement.from);
        if (bounded && there.compareTo(amount) < 0) {
            return Optional.of(new Refusal(
                    "Only " + there.toPlainString() + " is " + movement.from.words + "; " + amount.toPlainString()
                            + " cannot leave it.",
                    "Check the amount, or book first what brought the rest there."));
        }
        movements.add(movement);
        balances.merge(movement.from, amount.negate(), BigDecimal::add);
        balances.merge(movement.to, amount, BigDecimal::add);
        return Optional.empty();
    }

    public BigDecimal balance(Account account) {
        return balances.getOrDefault(account, BigDecimal.ZERO);
    }

    /// In order of booking.
    public List<Movement> movements() {
        return List.copyOf(movements);
    }

    /// All places together: zero, or the books are wrong.
    public BigDecimal sum() {
        return balances.values().stream().reduce(BigDecimal.ZERO, BigDecimal::add);
    }

    /// Places where coins were returned and boxes bought as well: what goes back there may come back.
    public List<String> loops() {
        List<String> returned = movements.stream()
                .filter(one -> one.from == Account.TO_RETURN && one.to == Account.OUTSIDE && !one.where.isBlank())
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

    /// Cash deposited or exchanged on a day, coins counting both ways. Over 10,000 dollars a day a bank reports
    /// it (31 CFR 1010.311); arranging amounts to stay under that is itself a crime (31 USC 5324), so the sum
    /// is only shown.
    public BigDecimal cashOn(LocalDate day) {
        return movements.stream()
                .filter(one -> one.day.equals(day) && (one.from == Account.OUTSIDE || one.to == Account.OUTSIDE))
                .map(Movement::amount)
                .reduce(BigDecimal.ZERO, BigDecimal::add);
    }
}
