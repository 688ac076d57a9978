package org.rollwright.hunt;

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

    /// The lower-case word used on the entry line and in files.
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
