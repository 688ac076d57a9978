package org.rollwright.catalog;

import java.util.Arrays;
import java.util.Optional;

/// How a published mintage counts.
public enum Precision {
    /// Coins of the date and mint, to the piece as far as anyone published.
    AS_PUBLISHED(""),
    /// Rounded, as to a tenth of a million.
    ROUNDED("rounded"),
    /// Coins made in the calendar year, whatever date they bear.
    CALENDAR_YEAR("calendar year"),
    /// Coins reported so far, in a year that is not over.
    TO_DATE("to date"),
    /// Estimated by the source.
    ESTIMATE("estimate"),
    /// The published figure less the proofs it counts.
    WITHOUT_PROOFS("proofs taken off");

    private final String word;

    Precision(String word) {
        this.word = word;
    }

    /// The word in the column mintage_is; blank for a figure as published.
    public String word() {
        return word;
    }

    static Optional<Precision> of(String word) {
        return Arrays.stream(values())
                .filter(precision -> precision.word.equals(word))
                .findFirst();
    }
}
