package org.rollwright.hunt;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.rollwright.journal.Growing;

/// One search over one or more boxes.
///
/// @param touched when the last entry was made
/// @param over when it was finished, null while it is under way
/// @param watches what is watched for now
/// @param boxInHand null for a hunt without boxes
/// @param roll the roll in hand, 0 before the first
/// @param foundCoins coins found, counting each coin of a find
/// @param finds numbers of its finds in the order logged
/// @param marks moments marked for the recording
/// @param trials finds looked at for a variety in vain
public record Hunt(
        HuntId id,
        String name,
        Instant started,
        Instant touched,
        @Nullable Instant over,
        List<BoxId> boxes,
        List<Watch> watches,
        @Nullable BoxId boxInHand,
        int roll,
        int foundCoins,
        List<FindId> finds,
        List<Remark> marks,
        List<Remark> notes,
        List<Trial> trials) {
    /// A moment marked for the recording, or a remark.
    public record Remark(Instant at, String text) {}

    /// A find looked at for a variety and found not to be it.
    public record Trial(FindId find, String variety) {}

    public Hunt {
        boxes = Growing.list(boxes);
        watches = List.copyOf(watches);
        finds = Growing.list(finds);
        marks = Growing.list(marks);
        notes = Growing.list(notes);
        trials = Growing.list(trials);
    }

    static Hunt started(HuntEvent.HuntStarted started, Instant at) {
        List<BoxId> boxes = started.boxes();
        return new Hunt(
                started.hunt(),
                started.name(),
                at,
                at,
                null,
                boxes,
                started.watches(),
                boxes.isEmpty() ? null : boxes.getFirst(),
                0,
                0,
                Growing.list(),
                Growing.list(),
                Growing.list(),
                Growing.list());
    }

    public Optional<Instant> finished() {
        return Optional.ofNullable(over);
    }

    /// The box in hand; empty for a hunt without boxes.
    public Optional<BoxId> box() {
        return Optional.ofNullable(boxInHand);
    }

    Hunt touched(Instant at) {
        return timed(at, over);
    }

    Hunt over(@Nullable Instant at) {
        return timed(touched, at);
    }

    Hunt joinedBy(BoxId box) {
        return at(Growing.plus(boxes, box), boxInHand == null ? box : boxInHand, roll);
    }

    Hunt turnedTo(BoxId box, int number) {
        return at(boxes, box, number);
    }

    Hunt watching(List<Watch> now) {
        return new Hunt(
                id, name, started, touched, over, boxes, now, boxInHand, roll, foundCoins, finds, marks, notes, trials);
    }

    Hunt holding(List<FindId> now, int coins) {
        return new Hunt(
                id, name, started, touched, over, boxes, watches, boxInHand, roll, coins, now, marks, notes, trials);
    }

    Hunt marked(Remark mark) {
        return telling(Growing.plus(marks, mark), notes, trials);
    }

    Hunt noted(Remark note) {
        return telling(marks, Growing.plus(notes, note), trials);
    }

    Hunt tried(Trial trial) {
        return telling(marks, notes, Growing.plus(trials, trial));
    }

    private Hunt timed(Instant last, @Nullable Instant end) {
        return new Hunt(
                id, name, started, last, end, boxes, watches, boxInHand, roll, foundCoins, finds, marks, notes, trials);
    }

    private Hunt at(List<BoxId> all, @Nullable BoxId box, int number) {
        return new Hunt(
                id, name, started, touched, over, all, watches, box, number, foundCoins, finds, marks, notes, trials);
    }

    private Hunt telling(List<Remark> itsMarks, List<Remark> itsNotes, List<Trial> itsTrials) {
        return new Hunt(
                id,
                name,
                started,
                touched,
                over,
                boxes,
                watches,
                boxInHand,
                roll,
                foundCoins,
                finds,
                itsMarks,
                itsNotes,
                itsTrials);
    }
}
