package org.rollwright.desk;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.rollwright.journal.Entry;
import org.rollwright.journal.Journal;
import org.rollwright.journal.JournalException;

/// A journal in memory, for tests of what is above it.
public final class MemoryJournal implements Journal {
    private final List<Entry> entries = new ArrayList<>();
    private volatile boolean full;

    /// Behaves as on a full disk, or no more.
    public void full(boolean isFull) {
        full = isFull;
    }

    @Override
    public synchronized void append(Entry entry) {
        if (full) {
            throw new JournalException("Not saved: the disk is full.", new IllegalStateException());
        }
        entries.add(entry);
    }

    @Override
    public void read(long after, Consumer<Entry> reader) {
        List.copyOf(entries).stream().filter(entry -> entry.seq() > after).forEach(reader);
    }

    @Override
    public long last() {
        return entries.isEmpty() ? 0 : entries.getLast().seq();
    }

    @Override
    public synchronized Entry at(long seq) {
        return entries.get((int) seq - 1);
    }

    @Override
    public void close() {
        // nothing to let go of
    }
}
