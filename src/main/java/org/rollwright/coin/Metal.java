package org.rollwright.coin;

import static org.rollwright.text.Texts.t;

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

    /// The word a person reads.
    public String said() {
        return switch (this) {
            case COPPER -> t("coin.metal-copper");
            case ZINC -> t("coin.metal-zinc");
            case STEEL -> t("coin.metal-steel");
            case SILVER -> t("coin.metal-silver");
            case CUPRONICKEL -> t("coin.metal-cupronickel");
            case NICKEL -> t("coin.metal-nickel");
            case BRASS -> t("coin.metal-brass");
        };
    }

    /// The lower-case word used in files and on the entry line.
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
