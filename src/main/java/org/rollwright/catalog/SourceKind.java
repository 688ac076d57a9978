package org.rollwright.catalog;

import java.util.Arrays;
import java.util.Optional;

/// What kind of source a fact of the catalogue stands on, the firmest first.
public enum SourceKind {
    /// A mint's own report or page, a statute.
    OFFICIAL("official"),
    /// An encyclopaedia or a museum.
    ENCYCLOPAEDIA("encyclopaedia"),
    /// A list, a table or an article somebody published; the news.
    LIST("published list"),
    /// Remembered row by row, and the rows add up to a total somebody published.
    TOTAL("published total"),
    /// A source that sources.csv does not know, such as one of the hunter's own.
    OTHER("other"),
    /// Remembered.
    MEMORY("memory");

    private final String word;

    SourceKind(String word) {
        this.word = word;
    }

    /// The word in catalog/sources.csv.
    public String word() {
        return word;
    }

    static Optional<SourceKind> of(String word) {
        return Arrays.stream(values()).filter(kind -> kind.word.equals(word)).findFirst();
    }
}
