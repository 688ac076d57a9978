package org.rollwright.hunt;

import static org.rollwright.text.Texts.t;

import java.util.Locale;

/// What happens to the coins of a find.
public enum Disposition {
    /// Not decided yet.
    OPEN,
    KEEP,
    ALBUM,
    SELL,
    GIVE,
    RETURN;

    /// Whether the coins have left the hunter's hands by it.
    public boolean leaves() {
        return this == SELL || this == GIVE || this == RETURN;
    }

    /// The word a person reads; blank when nothing is decided.
    public String said() {
        return switch (this) {
            case OPEN -> "";
            case KEEP -> t("hunt.disposition-keep");
            case ALBUM -> t("hunt.disposition-album");
            case SELL -> t("hunt.disposition-sell");
            case GIVE -> t("hunt.disposition-give");
            case RETURN -> t("hunt.disposition-return");
        };
    }

    /// The lower-case word used on the entry line and in files.
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
