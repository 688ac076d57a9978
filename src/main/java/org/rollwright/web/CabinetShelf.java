package org.rollwright.web;

import org.rollwright.cabinet.CabinetIndex;
import org.rollwright.cabinet.GradingRecord;
import org.rollwright.cabinet.ValueModel;
import org.rollwright.hunt.CabinetNote;
import org.rollwright.hunt.Logbook;

/// The cabinet as of the last entry of the journal, built once until the journal grows.
final class CabinetShelf {
    /// Everything the pages need of it.
    record State(long last, CabinetIndex index, ValueModel values, GradingRecord record) {}

    private record Priced(java.util.Map<?, ?> prices, ValueModel model) {}

    private final Bench bench;
    private volatile State state;
    private volatile Priced priced;

    CabinetShelf(Bench bench) {
        this.bench = bench;
        ValueModel none = ValueModel.of(java.util.Map.of());
        this.priced = new Priced(java.util.Map.of(), none);
        this.state = bench.desk()
                .read(book -> new State(
                        -1,
                        CabinetIndex.of(new Logbook(), bench.catalog()),
                        none,
                        GradingRecord.of(java.util.List.of())));
    }

    State state(Logbook book) {
        State now = state;
        if (now.last != book.last()) {
            now = new State(
                    book.last(),
                    CabinetIndex.of(book, bench.catalog()),
                    values(book),
                    GradingRecord.of(book.cabinetNotes().stream()
                            .map(CabinetNote::submission)
                            .filter(java.util.Objects::nonNull)
                            .toList()));
            state = now;
        }
        return now;
    }

    /// The model is learned anew only when a price changed.
    private ValueModel values(Logbook book) {
        Priced now = priced;
        if (!now.prices.equals(book.prices())) {
            var prices = java.util.Map.copyOf(book.prices());
            now = new Priced(prices, ValueModel.of(prices));
            priced = now;
        }
        return now.model;
    }
}
