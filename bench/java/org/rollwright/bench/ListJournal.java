package org.rollwright.bench;

import java.util.List;
import java.util.function.Consumer;
import org.rollwright.journal.Entry;
import org.rollwright.journal.Journal;

/// A journal that lies in memory and forgets what is appended.
final class ListJournal implements Journal {
    private final List<Entry> entries;
    private long last;

    ListJournal(List<Entry> entries) {
        this.entries = entries;
        this.last = entries.size();
    }

    @Override
    public void append(Entry entry) {
        last = entry.seq();
    }

    @Override
    public void read(long after, Consumer<Entry> reader) {
        entries.subList((int) after, entries.size()).forEach(reader);
    }

    @Override
    public long last() {
        return last;
    }

    @Override
    public void close() {
        // nothing to let go of
    }
}
