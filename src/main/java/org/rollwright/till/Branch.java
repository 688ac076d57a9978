package org.rollwright.till;

import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.Set;
import java.util.TreeSet;
import org.rollwright.journal.Word;

/// A branch of a bank, or another place coins come from or go to.
///
/// @param bank its bank, never blank
/// @param branch which of its branches, blank when the bank has one
/// @param gives whether boxes or rolls can be had there
/// @param takes whether coins can be returned there
/// @param open days of the week on which it is open
/// @param leadDays days from an order to the pick-up, 0 to 60
/// @param boxFee asked for a box, 0 or more
/// @param countPercent kept back when coins are counted, in hundredths of the amount, 0 to 30
/// @param kilometres road from home, 0 to 2000
/// @param bearing where it lies seen from home; blank when not said
/// @param closed given up for good
public record Branch(
        String bank,
        String branch,
        boolean gives,
        boolean takes,
        Set<DayOfWeek> open,
        int leadDays,
        BigDecimal boxFee,
        BigDecimal countPercent,
        double kilometres,
        Word<Bearing> bearing,
        boolean closed,
        String note) {
    public Branch {
        // in the order of the week, so that the same branch is written the same way
        open = java.util.Collections.unmodifiableSet(new TreeSet<>(open));
    }

    /// What boxes and bookings call it: bank, branch.
    public String name() {
        return nameOf(bank, branch);
    }

    /// The name of a place by its bank and branch; blank when both are.
    public static String nameOf(String bank, String branch) {
        return branch.isBlank() ? bank.strip() : bank.strip() + ", " + branch.strip();
    }

    public boolean openOn(LocalDate day) {
        return !closed && open.contains(day.getDayOfWeek());
    }
}
