package org.rollwright.scope;

import java.util.List;
import java.util.Map;
import org.rollwright.catalog.Catalog;
import org.rollwright.coin.Identity;
import org.rollwright.hunt.Logbook;

/// The varieties of the catalogue with those the journal adds. Thread-safe.
public final class VarietyShelf {
    private record Merged(Map<String, Map<String, String>> cells, VarietyBook book) {}

    private final VarietyBook base;
    private final Catalog catalog;
    private volatile Merged merged;

    public VarietyShelf(VarietyBook base, Catalog catalog) {
        this.base = base;
        this.catalog = catalog;
        this.merged = new Merged(Map.of(), base);
    }

    /// Ours and the user's, the user's before ours.
    public VarietyBook book(Logbook logbook) {
        Merged now = merged;
        if (!now.cells.equals(logbook.varieties())) {
            Map<String, Map<String, String>> cells = Map.copyOf(logbook.varieties());
            now = new Merged(cells, base.with(cells, catalog));
            merged = now;
        }
        return now.book;
    }

    /// Whether a variety is one the catalogue files have.
    public boolean isOurs(String key) {
        return base.variety(key).isPresent();
    }

    /// What to check on a coin, the most worthwhile first.
    public List<Prompt> prompts(Logbook logbook, Identity coin) {
        return Prompt.of(book(logbook), coin, logbook.checks());
    }

    /// Keys of what to check on a coin.
    public List<String> keys(Logbook logbook, Identity coin) {
        return prompts(logbook, coin).stream()
                .map(prompt -> prompt.variety().key())
                .toList();
    }
}
