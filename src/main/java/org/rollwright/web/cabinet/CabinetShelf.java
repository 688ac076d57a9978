package org.rollwright.web.cabinet;

import org.rollwright.cabinet.CabinetIndex;
import org.rollwright.cabinet.CabinetNote;
import org.rollwright.cabinet.GradingRecord;
import org.rollwright.cabinet.ValueModel;
import org.rollwright.desk.State;
import org.rollwright.text.Texts;
import org.rollwright.web.shell.Bench;

/// The cabinet as of the last entry of the journal, built once until the journal grows.
public final class CabinetShelf {
    /// Everything the pages need of it.
    public record Contents(long last, String language, CabinetIndex index, ValueModel values, GradingRecord record) {}

    private record Priced(java.util.Map<?, ?> prices, ValueModel model) {}

    private final Bench bench;
    private volatile Contents contents;
    private volatile Priced priced;

    public CabinetShelf(Bench bench) {
        this.bench = bench;
        ValueModel none = ValueModel.of(java.util.Map.of());
        this.priced = new Priced(java.util.Map.of(), none);
        this.contents = new Contents(
                -1,
                "",
                CabinetIndex.of(State.EMPTY.holdings(), State.EMPTY.album().lying(), bench.catalog()),
                none,
                GradingRecord.of(java.util.List.of()));
    }

    public Contents contents(State book) {
        Contents now = contents;
        // words for a person are among what it holds
        String language = Texts.language();
        if (now.last != book.last() || !now.language.equals(language)) {
            now = new Contents(
                    book.last(),
                    language,
                    CabinetIndex.of(book.holdings(), book.album().lying(), bench.catalog()),
                    values(book),
                    GradingRecord.of(book.cabinet().notes().stream()
                            .map(CabinetNote::submission)
                            .filter(java.util.Objects::nonNull)
                            .toList()));
            contents = now;
        }
        return now;
    }

    /// What the typed prices teach; learned anew only when a price changed.
    public ValueModel values(State book) {
        Priced now = priced;
        if (!now.prices.equals(book.cabinet().prices())) {
            var prices = java.util.Map.copyOf(book.cabinet().prices());
            now = new Priced(prices, ValueModel.of(prices));
            priced = now;
        }
        return now.model;
    }
}
