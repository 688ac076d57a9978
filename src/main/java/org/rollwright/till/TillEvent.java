package org.rollwright.till;

import java.time.LocalDate;
import java.util.List;
import org.rollwright.hunt.BoxId;
import org.rollwright.journal.Event;

/// What happens at banks: cash, branches, orders, and the time and road it took.
public sealed interface TillEvent extends Event {
    /// Face value moved from one place to another.
    record CashMoved(CashMove move) implements TillEvent {}

    /// A branch was written down, or rewritten under the same name.
    record BranchWritten(Branch branch) implements TillEvent {}

    /// A branch is no longer listed.
    record BranchRemoved(String branch) implements TillEvent {}

    /// Boxes were ordered.
    record OrderPlaced(Order order) implements TillEvent {}

    /// An order came to an end.
    ///
    /// @param arrived the boxes that came, none when it was given up
    record OrderEnded(OrderId order, LocalDate day, List<BoxId> arrived) implements TillEvent {
        public OrderEnded {
            arrived = List.copyOf(arrived);
        }
    }

    /// Time, road or fuel was spent.
    record EffortNoted(Effort effort) implements TillEvent {}
}
