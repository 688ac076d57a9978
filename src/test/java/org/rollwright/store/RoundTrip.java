package org.rollwright.store;

import org.rollwright.desk.State;
import org.rollwright.journal.Entry;

/// Takes entries and states to bytes and back, as the disk would, for tests of what stands above the store.
public final class RoundTrip {
    private RoundTrip() {}

    /// The entry as the journal on disk gives it back.
    public static Entry of(Entry entry) {
        return new Entry(
                entry.seq(), entry.at(), entry.scope(), entry.raw(), EventJson.read(EventJson.write(entry.event())));
    }

    /// The state as a snapshot on disk gives it back.
    public static State of(State book) {
        return State.of(StateFormat.read(StateFormat.write(State.Image.of(book))));
    }
}
