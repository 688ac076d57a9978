package org.rollwright.hunt;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/// A roll of a box as far as it has been handled.
///
/// @param number from 1
/// @param counted coins counted in it, null when it was taken for full
/// @param opened when the hunter turned to it, null when it was only counted
/// @param left put back unsearched
/// @param watches what was being watched for when it was opened
public record Roll(
        int number, @Nullable Integer counted, @Nullable Instant opened, boolean left, List<Watch> watches) {
    public Roll {
        watches = List.copyOf(watches);
    }

    static Roll untouched(int number) {
        return new Roll(number, null, null, false, List.of());
    }

    Roll openedAt(Instant at, List<Watch> watchedNow) {
        return opened != null && !left ? this : new Roll(number, counted, at, false, watchedNow);
    }

    Roll withCount(int coins) {
        return new Roll(number, coins, opened, left, watches);
    }

    Roll leftUnsearched() {
        return new Roll(number, counted, opened, true, watches);
    }

    /// Whether it was opened and not put back; the roll in hand counts as searched only once the hunter goes
    /// on.
    public boolean searched() {
        return opened != null && !left;
    }

    /// Coins in it, taking an uncounted roll for full.
    public int coins(int coinsPerRoll) {
        return counted == null ? coinsPerRoll : counted;
    }
}
