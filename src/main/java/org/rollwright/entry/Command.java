package org.rollwright.entry;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Mass;
import org.rollwright.hunt.Disposition;
import org.rollwright.hunt.Watch;

/// One thing an entry line asks for. Finds are named by their ordinal within the hunt.
public sealed interface Command {
    /// A find in the roll in hand.
    record Found(FindDraft draft) implements Command {}

    record NextRoll() implements Command {}

    /// @param coins coins counted in it, null when not counted
    record GoToRoll(int roll, @Nullable Integer coins) implements Command {}

    /// @param ordinal which box of the hunt, from 1
    record GoToBox(int ordinal) implements Command {}

    /// @param roll null for the roll in hand
    record LeaveRoll(@Nullable Integer roll) implements Command {}

    record SawEnders(int matching, int visible) implements Command {}

    record Weigh(Mass mass, String what) implements Command {}

    record Mark(String text) implements Command {}

    record Note(String text) implements Command {}

    record Undo() implements Command {}

    record Redo() implements Command {}

    /// The find was looked at and is none of its varieties.
    ///
    /// @param find ordinal, null for the last find
    /// @param varieties those ruled out; empty for all that the date is known for
    record Checked(@Nullable Integer find, List<String> varieties) implements Command {
        public Checked {
            varieties = List.copyOf(varieties);
        }
    }

    record WatchFor(Watch watch) implements Command {}

    record StopWatching(String name) implements Command {}

    record Fix(int find, FindDraft draft) implements Command {}

    /// @param box which box of the hunt, from 1; null for the find's own
    record Move(int find, @Nullable Integer box, int roll) implements Command {}

    record Split(int find, int coins) implements Command {}

    record Drop(int find) implements Command {}

    record Put(int find, Disposition disposition) implements Command {}

    /// Every find of the hunt of which nothing was decided yet.
    record PutRest(Disposition disposition) implements Command {}

    record Finish() implements Command {}

    record Resume() implements Command {}

    /// A find as typed, before it has a number and a place.
    record FindDraft(CoinDescription facts, int count, boolean ender, Disposition disposition) {}
}
