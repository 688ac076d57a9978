package org.rollwright.cabinet;

import java.util.Locale;
import org.rollwright.journal.Word;

/// How a coin leaves the hunter's hands.
public enum Leaving implements Word.Listed {
    SOLD,
    GIVEN,
    SPENT,
    LOST;

    @Override
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
