package org.rollwright.scale;

import static org.rollwright.text.Texts.t;

import java.util.Optional;
import org.rollwright.coin.Refusal;

/// Keeps contradictions about cups, piles and prices of metals out of the journal.
final class ScaleChecks {
    private static final int MOST_COINS = 1_000_000;

    private ScaleChecks() {}

    static Optional<Refusal> refuse(ScaleBook book, ScaleEvent event) {
        return switch (event) {
            case ScaleEvent.CupBegun begun -> cup(begun.cup());
            case ScaleEvent.CupRead read -> reading(book, read);
            case ScaleEvent.PileCounted counted -> pile(counted.pile());
            case ScaleEvent.MetalPriced priced ->
                priced.price().perKilogram().signum() > 0
                        ? Optional.empty()
                        : Refusal.of(t("hunt.price-zero"), t("hunt.metal-type-price"));
        };
    }

    private static Optional<Refusal> cup(Cup cup) {
        return cup.name().isBlank()
                ? Refusal.of(t("hunt.cup-name-missing"), t("hunt.cup-give-name"))
                : Optional.empty();
    }

    private static Optional<Refusal> reading(ScaleBook book, ScaleEvent.CupRead read) {
        Cup cup = book.cup(read.cup()).orElse(null);
        if (cup == null) {
            return Refusal.of(t("hunt.cup-unknown", read.cup()), t("hunt.cup-begin-first"));
        }
        double step = cup.resolution().grams();
        if (read.mass().grams() < cup.tare().grams() - step) {
            return Refusal.of(t("hunt.cup-below-tare", cup.tare().grams()), t("hunt.cup-check-unit"));
        }
        return read.mass().grams() < cup.last().grams() - step
                ? Refusal.of(
                        t(
                                "hunt.cup-lighter",
                                Math.round(10
                                                * (cup.last().grams()
                                                        - read.mass().grams()))
                                        / 10.0),
                        t("hunt.cup-check-reading"))
                : Optional.empty();
    }

    private static Optional<Refusal> pile(CountedPile pile) {
        if (pile.coins() < 10 || pile.coins() > MOST_COINS) {
            return Refusal.of(t("hunt.pile-small", pile.coins()), t("hunt.pile-count-more"));
        }
        double each = pile.gramsPerCoin();
        return each < 0.5 || each > 40
                ? Refusal.of(t("hunt.pile-per-coin", Math.round(100 * each) / 100.0), t("hunt.cup-check-count"))
                : Optional.empty();
    }
}
