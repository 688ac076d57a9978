package org.rollwright.hunt;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/// A roll of a box as far as it has been handled.
///
/// @param number from 1
/// @param counted coins counted in it, null when it was taken for full
/// @param opened when the hunter turned to it, null when it was only counted
/// @param left put back unsearched, or before its end was seen
/// @param gone whether the hunter went on from it to another roll, or finished the hunt
/// @param watches what was being watched for when it was opened
public record Roll(
        int number,
        @Nullable Integer counted,
        @Nullable Instant opened,
        boolean left,
        boolean gone,
        List<Watch> watches) {
    public Roll {
        watches = List.copyOf(watches);
    }

    static Roll untouched(int number) {
        return new Roll(number, null, null, false, false, List.of());
    }

    Roll openedAt(Instant at, List<Watch> watchedNow) {
        return opened != null && !left ? this : new Roll(number, counted, at, false, false, watchedNow);
    }

    Roll withCount(int coins) {
        return new Roll(number, coins, opened, left, gone, watches);
    }

    Roll leftUnsearched() {
        return new Roll(number, counted, opened, true, false, watches);
    }

    /// The hunter goes on from it, or finishes: what was open was searched.
    Roll goneOnFrom() {
        return open() ? new Roll(number, counted, opened, false, true, watches) : this;
    }

    /// Whether it is being searched: opened, not put back, and nobody went on from it.
    public boolean open() {
        return opened != null && !left && !gone;
    }

    /// Whether all of it was looked at: it was opened and not put back, and the hunter went on. Coins of other
    /// rolls are exposed to nothing, so no rate may count them.
    public boolean searched() {
        return opened != null && !left && gone;
    }

    /// Coins in it, taking an uncounted roll for full.
    public int coins(int coinsPerRoll) {
        return counted == null ? coinsPerRoll : counted;
    }
}
