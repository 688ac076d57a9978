package org.rollwright.catalog;

import static org.rollwright.text.Texts.t;

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

    /// The word a person reads; blank for a common date.
    public String said() {
        return switch (this) {
            case COMMON -> "";
            case SCARCE -> t("catalog.rarity-scarce");
            case SEMI_KEY -> t("catalog.rarity-semi-key");
            case KEY -> t("catalog.rarity-key");
        };
    }

    /// The word in the catalogue's files; blank for a common date.
    public String word() {
        return word;
    }
}
