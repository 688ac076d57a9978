package org.rollwright.till;

import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Denomination;
import org.rollwright.hunt.BoxId;

/// Boxes ordered from a branch.
///
/// @param number never given twice
/// @param branch name of the branch
/// @param boxes how many, 1 to 1000
/// @param due when they can be picked up
/// @param prepaid whether the money left when they were ordered
/// @param ended when it arrived or was given up, null while it is open
/// @param arrived the boxes that came; fewer than ordered when the bank was short
public record Order(
        OrderId number,
        String branch,
        Denomination denomination,
        int boxes,
        LocalDate placed,
        LocalDate due,
        boolean prepaid,
        String note,
        @Nullable LocalDate ended,
        List<BoxId> arrived) {
    public Order {
        arrived = List.copyOf(arrived);
    }

    public boolean isOpen() {
        return ended == null;
    }

    /// The same order at its end.
    public Order endedOn(LocalDate day, List<BoxId> came) {
        return new Order(number, branch, denomination, boxes, placed, due, prepaid, note, day, came);
    }
}
