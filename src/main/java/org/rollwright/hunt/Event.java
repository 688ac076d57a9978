package org.rollwright.hunt;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Mass;

/// Something that happened at the bench. Events are facts: they are appended, never changed.
///
/// Positions: rolls count from 1 within their box; roll 0 is "not in a roll" (loose coins, or before the first
/// roll).
public sealed interface Event {
    /// A box entered the record: ordered, picked up or simply put on the table.
    record BoxAdded(BoxId box, Denomination denomination, BoxDetails details) implements Event {}

    /// What is known of a box was changed as a whole.
    record BoxChanged(BoxId box, BoxDetails details) implements Event {}

    /// A search began on the boxes given.
    record HuntStarted(HuntId hunt, String name, List<BoxId> boxes, List<Watch> watches) implements Event {
        public HuntStarted {
            boxes = List.copyOf(boxes);
            watches = List.copyOf(watches);
        }
    }

    /// A box joined a hunt already under way.
    record BoxJoined(HuntId hunt, BoxId box) implements Event {}

    /// This is watched for as well; it counts from the next roll opened, because part of the present one is
    /// behind us.
    record WatchBegan(HuntId hunt, Watch watch) implements Event {}

    /// From here on it is no longer watched for.
    record WatchEnded(HuntId hunt, String watch) implements Event {}

    /// The hunter turned to a roll; the roll before it counts as searched.
    record RollOpened(HuntId hunt, BoxId box, int roll) implements Event {}

    /// A roll held another number of coins than a full one.
    record RollCounted(BoxId box, int roll, int coins) implements Event {}

    /// A roll was skipped or put back unsearched.
    record RollLeft(BoxId box, int roll) implements Event {}

    /// A find was logged.
    record FindLogged(Find find) implements Event {}

    /// What a find is was corrected; its place and number stay.
    record FindCorrected(FindId find, CoinDescription facts, int count, boolean ender) implements Event {}

    /// A find belongs to another roll or box.
    record FindMoved(FindId find, BoxId box, int roll) implements Event {}

    /// Some coins of a find were told apart and become a find of their own.
    ///
    /// @param part number of the new find, and its ordinal within the hunt
    /// @param coins how many leave the old find
    record FindSplit(FindId find, FindId part, int ordinal, int coins) implements Event {}

    /// A find was struck out.
    record FindDeleted(FindId find) implements Event {}

    /// What happens to the coins of a find was decided.
    record FindDisposed(FindId find, Disposition disposition) implements Event {}

    /// Coins seen at roll ends before opening: how many of those visible were finds.
    record EndersSeen(BoxId box, int matching, int visible) implements Event {}

    /// A weight was read.
    record Weighed(HuntId hunt, BoxId box, Mass mass, String what) implements Event {}

    /// The last find of a date and mint was looked at for its varieties, and is none of them. One trial for
    /// each.
    record Checked(HuntId hunt, FindId find, String variety) implements Event {}

    /// A find was looked at for varieties, with what came of it.
    ///
    /// @param variety key of the variety it is taken for; blank when it is none
    /// @param verdict how sure, in the words of the attribution
    /// @param path what was looked at and what was seen, in order
    record Attributed(FindId find, String variety, String verdict, List<Look> path, String note) implements Event {
        public Attributed {
            path = List.copyOf(path);
        }
    }

    /// A moment worth finding again in a recording.
    record Marked(HuntId hunt, String text) implements Event {}

    /// A remark on the hunt.
    record Noted(HuntId hunt, String text) implements Event {}

    /// The search ended; every opened roll counts as searched.
    record HuntFinished(HuntId hunt) implements Event {}

    /// A finished search goes on.
    record HuntResumed(HuntId hunt) implements Event {}

    /// Boxes searched before this journal began, as one sum.
    record OpeningBalance(Denomination denomination, String watch, int boxes, long coins, long found)
            implements Event {}

    /// A box searched before this journal began, of which only counts are known.
    ///
    /// @param coins searched
    record BoxTallied(BoxId box, long coins, List<WatchCount> counts) implements Event {
        public BoxTallied {
            counts = List.copyOf(counts);
        }
    }

    /// A coin owned before the journal began, or bought, or given.
    record CoinAdded(CoinRef coin, CoinDescription facts, String provenance) implements Event {}

    /// A coin came another way than by a hunt, with what is known of how.
    record CoinAcquired(CoinRef coin, CoinDescription facts, Acquisition acquisition) implements Event {}

    /// What one coin is was told anew, beyond what its find says.
    ///
    /// @param gradeUpTo upper end where the grade is a range
    record CoinDescribed(
            CoinRef coin, CoinDescription facts, @Nullable Grade gradeUpTo) implements Event {}

    /// A place for coins was made, renamed or moved.
    record PlaceMade(Place place) implements Event {}

    /// A place was given up.
    record PlaceRemoved(PlaceId place) implements Event {}

    /// Coins were put somewhere; null is nowhere in particular.
    record CoinsPut(List<CoinRef> coins, @Nullable PlaceId place) implements Event {
        public CoinsPut {
            coins = List.copyOf(coins);
        }
    }

    /// Coins left the hunter's hands.
    record CoinsLeft(List<CoinRef> coins, CabinetNote.Gone gone) implements Event {
        public CoinsLeft {
            coins = List.copyOf(coins);
        }
    }

    /// A coin went to be graded, or came back.
    record CoinSubmitted(CoinRef coin, CabinetNote.Submission submission) implements Event {}

    /// A price was read or paid.
    record PriceNoted(PricePoint price) implements Event {}

    /// A price no longer counts.
    record PriceForgotten(PricePoint price) implements Event {}

    /// A cup for running weighings was begun, or begun anew.
    record CupBegun(Cup cup) implements Event {}

    /// The cup was weighed with what was added.
    record CupRead(String cup, String what, Mass mass) implements Event {}

    /// A counted pile was weighed.
    record PileCounted(CountedPile pile) implements Event {}

    /// Face value moved from one place to another.
    record CashMoved(CashMove move) implements Event {}

    /// A branch was written down, or rewritten under the same name.
    record BranchWritten(Branch branch) implements Event {}

    /// A branch is no longer listed.
    record BranchRemoved(String branch) implements Event {}

    /// Boxes were ordered.
    record OrderPlaced(Order order) implements Event {}

    /// An order came to an end.
    ///
    /// @param arrived the boxes that came, none when it was given up
    record OrderEnded(long order, java.time.LocalDate day, List<BoxId> arrived) implements Event {
        public OrderEnded {
            arrived = List.copyOf(arrived);
        }
    }

    /// Time, road or fuel was spent.
    record EffortNoted(Effort effort) implements Event {}

    /// A price of a metal was typed.
    record MetalPriced(MetalPrice price) implements Event {}

    /// An album was made or its rule rewritten.
    record AlbumDefined(AlbumId album, String name, String rule) implements Event {}

    /// An album was given up; its coins stay owned.
    record AlbumRemoved(AlbumId album) implements Event {}

    /// Coins went into holes or out of them, all at once.
    record HolesFilled(List<HoleChange> changes) implements Event {
        public HolesFilled {
            changes = List.copyOf(changes);
        }
    }

    /// A variety of the user's own was written, or one of ours rewritten.
    ///
    /// @param cells its row by column, as a file of varieties has it
    record VarietyWritten(String variety, Map<String, String> cells) implements Event {
        public VarietyWritten {
            cells = Map.copyOf(cells);
        }
    }

    /// A variety of the user's own was given up, or ours put back.
    record VarietyRemoved(String variety) implements Event {}

    /// A photograph was kept.
    ///
    /// @param photo its name on the shelf
    /// @param about what it shows, blank when nothing in particular
    record PhotoKept(String photo, int width, int height, PhotoSubject about, String caption) implements Event {}

    /// A photograph shows something else than was said, or is no longer wanted there.
    record PhotoTaken(String photo, PhotoSubject about) implements Event {}

    /// The order in which coins are compared was changed.
    record PolicyChanged(String policy) implements Event {}

    /// Several events that stand or fall together, such as the finds of one line.
    record Batch(List<Event> events) implements Event {
        public Batch {
            events = List.copyOf(events);
        }
    }

    /// An earlier entry no longer counts.
    record Undone(long target) implements Event {}

    /// An undone entry counts again.
    record Redone(long target) implements Event {}

    /// One look of an attribution: what was looked for and the answer.
    record Look(String looked, String answer) {}

    /// Coins found of what was watched for.
    record WatchCount(Watch watch, int found) {}

    /// One hole's new content.
    ///
    /// @param hole the hole's key within its album
    /// @param coin null when the hole was emptied
    record HoleChange(AlbumId album, String hole, @Nullable CoinRef coin) {}
}
