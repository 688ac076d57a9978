package org.rollwright.hunt;

import java.util.List;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Mass;
import org.rollwright.journal.Event;

/// What happens while boxes are searched.
///
/// What an event says of itself, it also says by the interfaces below: undo works within a hunt, so every event belongs
/// to one, or to none ([Outside]), or wherever it is recorded.
public sealed interface HuntEvent extends Event {
    /// Belongs to a hunt.
    interface OfHunt {
        HuntId hunt();
    }

    /// Belongs to the hunt that searches a box.
    interface OfBox {
        BoxId box();
    }

    /// Belongs to the hunt of a find.
    interface OfFind {
        FindId find();
    }

    /// Belongs to no hunt.
    interface Outside {}

    /// A box entered the record: ordered, picked up or simply put on the table.
    record BoxAdded(BoxId box, Denomination denomination, BoxDetails details) implements HuntEvent {}

    /// What is known of a box was changed as a whole.
    record BoxChanged(BoxId box, BoxDetails details) implements HuntEvent, Outside {}

    /// A search began on the boxes given.
    record HuntStarted(HuntId hunt, String name, List<BoxId> boxes, List<Watch> watches) implements HuntEvent, OfHunt {
        public HuntStarted {
            boxes = List.copyOf(boxes);
            watches = List.copyOf(watches);
        }
    }

    /// A box joined a hunt already under way.
    record BoxJoined(HuntId hunt, BoxId box) implements HuntEvent, OfHunt {}

    /// This is watched for as well; it counts from the next roll opened, because part of the present one is
    /// behind us.
    record WatchBegan(HuntId hunt, Watch watch) implements HuntEvent, OfHunt {}

    /// From here on it is no longer watched for.
    record WatchEnded(HuntId hunt, String watch) implements HuntEvent, OfHunt {}

    /// The hunter turned to a roll; the roll before it counts as searched.
    record RollOpened(HuntId hunt, BoxId box, int roll) implements HuntEvent, OfHunt {}

    /// A roll held another number of coins than a full one.
    record RollCounted(BoxId box, int roll, int coins) implements HuntEvent, OfBox {}

    /// A roll was skipped or put back unsearched.
    record RollLeft(BoxId box, int roll) implements HuntEvent, OfBox {}

    /// A find was logged.
    record FindLogged(Find find) implements HuntEvent {}

    /// What a find is was corrected; its place and number stay.
    record FindCorrected(FindId find, CoinDescription facts, int count, boolean ender) implements HuntEvent, OfFind {}

    /// A find belongs to another roll or box.
    record FindMoved(FindId find, BoxId box, int roll) implements HuntEvent, OfFind {}

    /// Some coins of a find were told apart and become a find of their own.
    ///
    /// @param part number of the new find, and its ordinal within the hunt
    /// @param coins how many leave the old find
    record FindSplit(FindId find, FindId part, int ordinal, int coins) implements HuntEvent, OfFind {}

    /// A find was struck out.
    record FindDeleted(FindId find) implements HuntEvent, OfFind {}

    /// What happens to the coins of a find was decided.
    record FindDisposed(FindId find, Disposition disposition) implements HuntEvent, OfFind {}

    /// Coins seen at roll ends before opening: how many of those visible were finds.
    record EndersSeen(BoxId box, int matching, int visible) implements HuntEvent {}

    /// A weight was read.
    record Weighed(HuntId hunt, BoxId box, Mass mass, String what) implements HuntEvent, OfHunt {}

    /// The last find of a date and mint was looked at for its varieties, and is none of them. One trial for
    /// each.
    record Checked(HuntId hunt, FindId find, String variety) implements HuntEvent, OfHunt {}

    /// A moment worth finding again in a recording.
    record Marked(HuntId hunt, String text) implements HuntEvent, OfHunt {}

    /// A remark on the hunt.
    record Noted(HuntId hunt, String text) implements HuntEvent, OfHunt {}

    /// The search ended; every opened roll counts as searched.
    record HuntFinished(HuntId hunt) implements HuntEvent, OfHunt {}

    /// A finished search goes on.
    record HuntResumed(HuntId hunt) implements HuntEvent, OfHunt {}

    /// Boxes searched before this journal began, as one sum.
    record OpeningBalance(Denomination denomination, String watch, int boxes, long coins, long found)
            implements HuntEvent, Outside {}

    /// A box searched before this journal began, of which only counts are known.
    ///
    /// @param coins searched
    record BoxTallied(BoxId box, long coins, List<WatchCount> counts) implements HuntEvent, Outside {
        public BoxTallied {
            counts = List.copyOf(counts);
        }

        /// Coins found of all that was watched for.
        int found() {
            return counts.stream().mapToInt(WatchCount::found).sum();
        }
    }

    /// Coins found of what was watched for.
    record WatchCount(Watch watch, int found) {}
}
