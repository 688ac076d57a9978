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

    /// The lower-case word used on the entry line and in files.
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
