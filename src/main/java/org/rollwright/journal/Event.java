package org.rollwright.journal;

import java.util.List;

/// Something that happened at the bench. Events are facts: they are appended, never changed. Each area seals the
/// kinds of its own; here are those that speak of other events.
public interface Event {
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

    /// The event itself, or what a batch holds.
    static List<Event> parts(Event event) {
        return event instanceof Batch batch ? batch.events() : List.of(event);
    }
}
