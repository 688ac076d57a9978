package org.rollwright.entry.narration;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Denomination;

/// A recording that was reviewed, and what the hunter says was in it: what the decoder learns a voice from.
///
/// @param learned when it was accepted
/// @param file name of the captions
/// @param boxes denominations of the boxes in order, at least one
/// @param watches rules of what was watched for
/// @param rollsPerBox rolls in a full box, 1 or more
/// @param finds all finds of the recording
public record Lesson(
        Instant learned,
        String file,
        List<Cue> cues,
        List<Denomination> boxes,
        List<String> watches,
        int rollsPerBox,
        List<Find> finds,
        Corrections corrections) {
    /// A find as the hunter says it was.
    ///
    /// @param at milliseconds from the start, about when it was said; -1 when that is not known
    /// @param box which box of the hunt, from 1
    /// @param roll within its box; 0 before the first one
    /// @param year null for one without a date
    /// @param count coins alike, 1 or more
    public record Find(long at, int box, int roll, @Nullable Integer year, int count) {}

    /// What the hunter did with the rows proposed.
    ///
    /// @param accepted as they were
    /// @param changed and accepted
    /// @param dropped although they were ticked
    /// @param added that were not there, or not ticked
    public record Corrections(int accepted, int changed, int dropped, int added) {
        /// Rows the decoder was wrong about.
        public int wrong() {
            return changed + dropped + added;
        }
    }

    /// Coins found.
    public int coins() {
        return finds.stream().mapToInt(Find::count).sum();
    }

    public Lesson {
        if (boxes.isEmpty() || rollsPerBox < 1) {
            throw new IllegalArgumentException("a lesson has a box at least, and rolls in it");
        }
        cues = List.copyOf(cues);
        boxes = List.copyOf(boxes);
        watches = List.copyOf(watches);
        finds = List.copyOf(finds);
    }
}
