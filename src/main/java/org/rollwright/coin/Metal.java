package org.rollwright.coin;

import java.util.Locale;

/// What a hunter means by "what is it made of". Bronze and brass cents are COPPER; BRASS is the dollar's
/// manganese brass.
public enum Metal {
    COPPER,
    ZINC,
    STEEL,
    SILVER,
    CUPRONICKEL,
    NICKEL,
    BRASS;

    /// The lower-case word used in files and on the entry line.
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
