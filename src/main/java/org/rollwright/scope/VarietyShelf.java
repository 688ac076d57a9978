package org.rollwright.scope;

import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.coin.Identity;
import org.rollwright.hunt.HuntBook;

/// The varieties of the catalogue with those the journal adds. Thread-safe.
public final class VarietyShelf {
    private record Merged(Map<String, Map<String, String>> cells, VarietyBook book) {}

    private final Supplier<VarietyBook> source;
    private final Catalog catalog;
    private @Nullable VarietyBook base;
    private volatile @Nullable Merged merged;

    public VarietyShelf(VarietyBook base, Catalog catalog) {
        this(() -> base, catalog);
    }

    /// @param source reads the catalogue's varieties; asked once, when they are first needed
    public VarietyShelf(Supplier<VarietyBook> source, Catalog catalog) {
        this.source = source;
        this.catalog = catalog;
    }

    private synchronized VarietyBook base() {
        VarietyBook known = base;
        if (known == null) {
            known = source.get();
            base = known;
        }
        return known;
    }

    /// Ours and the user's, the user's before ours.
    public VarietyBook book(ScopeBook scope) {
        Merged now = merged;
        if (now == null || !now.cells.equals(scope.varieties())) {
            Map<String, Map<String, String>> cells = Map.copyOf(scope.varieties());
            now = new Merged(cells, base().with(cells, catalog));
            merged = now;
        }
        return now.book;
    }

    /// Whether a variety is one the catalogue files have.
    public boolean isOurs(String key) {
        return base().variety(key).isPresent();
    }

    /// What to check on a coin, the most worthwhile first.
    public List<Prompt> prompts(ScopeBook scope, HuntBook hunts, Identity coin) {
        return Prompt.of(book(scope), coin, hunts.checks());
    }

    /// Keys of what to check on a coin.
    public List<String> keys(ScopeBook scope, HuntBook hunts, Identity coin) {
        return prompts(scope, hunts, coin).stream()
                .map(prompt -> prompt.variety().key())
                .toList();
    }
}
