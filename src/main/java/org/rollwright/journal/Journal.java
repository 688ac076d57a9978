package org.rollwright.journal;

import java.util.function.Consumer;

/// Where entries are kept for good. An implementation acknowledges an append only when it would survive a power
/// cut.
public interface Journal extends AutoCloseable {
    /// Appends an entry: it is durable on return.
    ///
    /// @throws JournalException when it could not be made durable; then it was not kept
    void append(Entry entry);

    /// Reads entries in order, beginning after a position.
    ///
    /// @param after position of the last entry already known, 0 for none
    void read(long after, Consumer<Entry> reader);

    /// The entry at a position.
    ///
    /// @throws IllegalArgumentException when there is none
    default Entry at(long seq) {
        Entry[] found = new Entry[1];
        read(seq - 1, entry -> {
            if (entry.seq() == seq) {
                found[0] = entry;
            }
        });
        if (found[0] == null) {
            throw new IllegalArgumentException("there is no entry " + seq);
        }
        return found[0];
    }

    /// Position of the last entry, 0 when there is none.
    long last();

    @Override
    void close();
}
