package org.rollwright.scope;

import org.rollwright.catalog.CatalogFolder;
import org.rollwright.store.CatalogTexts;

/// The catalogue of varieties as the tool ships it.
public final class Varieties {
    private static final VarietyBook.Loaded LOADED = load();

    private Varieties() {}

    private static VarietyBook.Loaded load() {
        return VarietyBook.load(
                CatalogTexts.varieties(java.nio.file.Path.of("no-such-folder")).files(), CatalogFolder.catalog());
    }

    static VarietyBook.Loaded loaded() {
        return LOADED;
    }

    public static VarietyBook book() {
        return LOADED.book();
    }
}
