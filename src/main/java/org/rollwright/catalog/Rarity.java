package org.rollwright.catalog;

/// How hard a date is to find within its series, by common practice of the trade; most dates are COMMON.
public enum Rarity {
    COMMON(""),
    SCARCE("scarce"),
    SEMI_KEY("semi-key"),
    KEY("key");

    private final String word;

    Rarity(String word) {
        this.word = word;
    }

    /// The word in the catalogue's files; blank for a common date.
    public String word() {
        return word;
    }
}
