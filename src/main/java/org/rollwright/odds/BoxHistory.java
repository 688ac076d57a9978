package org.rollwright.odds;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.rollwright.hunt.BoxId;

/// What one box gave of one target, and how much of it was searched while the target was watched for.
///
/// @param source bank, branch and wrap, or `source not noted`
/// @param wrap blank when not noted
/// @param sisters word shared with its sister boxes, blank for none
/// @param day of the pick-up, or of the first find; null when unknown
/// @param fullCoins coins of a full box of this kind
/// @param exposedCoins coins searched while the target was watched for
/// @param found of the target among those coins
/// @param perRoll found in each roll searched while watched for, in order of the rolls
/// @param rolls numbers of those rolls
/// @param dates coins found, by date and mint
/// @param whole whether every roll was searched while watching
/// @param endersMatching and
/// @param endersVisible at roll ends before opening; 0 when nobody looked
public record BoxHistory(
        BoxId id,
        String label,
        String source,
        String wrap,
        String sisters,
        @Nullable LocalDate day,
        long fullCoins,
        long exposedCoins,
        int found,
        List<Integer> perRoll,
        List<Integer> rolls,
        int endersMatching,
        int endersVisible,
        boolean whole,
        Map<String, Integer> dates) {
    public BoxHistory {
        perRoll = List.copyOf(perRoll);
        rolls = List.copyOf(rolls);
        dates = Map.copyOf(dates);
    }

    /// Exposure in full boxes.
    double fullBoxes() {
        return exposedCoins / (double) Math.max(1, fullCoins);
    }

    YieldModel.Seen seen() {
        return new YieldModel.Seen(source, 1, fullBoxes(), found);
    }
}
