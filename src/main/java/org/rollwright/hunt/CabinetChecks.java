package org.rollwright.hunt;

import static org.rollwright.text.Texts.t;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/// Keeps contradictions about owned coins, places, prices and weighings out of the journal.
final class CabinetChecks {
    private static final int MOST_COINS = 1_000_000;

    private CabinetChecks() {}

    private static Optional<Refusal> refusal(String wrong, String right) {
        return Optional.of(new Refusal(wrong, right));
    }

    static Optional<Refusal> owned(Logbook book, List<CoinRef> coins) {
        for (CoinRef coin : coins) {
            if (book.coin(coin).isEmpty()) {
                return refusal(t("hunt.there-is-no-coin-in", coin), t("hunt.look-at-the-cabinet-again"));
            }
        }
        return coins.isEmpty()
                ? refusal(t("hunt.no-coin-was-chosen"), t("hunt.tick-at-least-one-coin"))
                : Optional.empty();
    }

    static Optional<Refusal> place(Logbook book, Place place) {
        if (place.name().isBlank()) {
            return refusal(t("hunt.the-place-has-no-name"), t("hunt.give-it-one-such-as"));
        }
        if (place.capacity() < 0 || place.capacity() > MOST_COINS) {
            return refusal(t("hunt.a-place-cannot-hold-coins", place.capacity()), t("hunt.write-0-when-it-does"));
        }
        Set<PlaceId> above = new HashSet<>();
        above.add(place.id());
        @Nullable PlaceId parent = place.parent();
        while (parent != null) {
            Optional<Place> known = book.place(parent);
            if (known.isEmpty()) {
                return refusal(t("hunt.the-place-around-it-is"), t("hunt.choose-one-of-the-list"));
            }
            if (!above.add(parent)) {
                return refusal(t("hunt.a-place-cannot-lie-within"), t("hunt.choose-another-place-around-it"));
            }
            parent = known.get().parent();
        }
        return Optional.empty();
    }

    static Optional<Refusal> emptied(Logbook book, PlaceId id) {
        Optional<Place> place = book.place(id);
        if (place.isEmpty()) {
            return refusal(t("hunt.there-is-no-such-place"), t("hunt.look-at-the-list-of"));
        }
        boolean inside = book.places().stream().anyMatch(other -> id.equals(other.parent()));
        long coins = coinsIn(book, id);
        return inside || coins > 0
                ? refusal(
                        coins > 0
                                ? t(
                                        "hunt.is-not-empty-coins-lie",
                                        coins,
                                        place.get().name())
                                : t("hunt.is-not-empty", place.get().name()),
                        t("hunt.move-what-is-in-it"))
                : Optional.empty();
    }

    static long coinsIn(Logbook book, PlaceId id) {
        return book.cabinetNotes().stream()
                .filter(note -> id.equals(note.place())
                        && note.gone() == null
                        && book.coin(note.coin()).isPresent())
                .count();
    }

    static Optional<Refusal> put(Logbook book, Event.CoinsPut put) {
        Optional<Refusal> missing = owned(book, put.coins());
        PlaceId where = put.place();
        if (missing.isPresent() || where == null) {
            return missing;
        }
        Optional<Place> place = book.place(where);
        if (place.isEmpty()) {
            return refusal(t("hunt.there-is-no-such-place"), t("hunt.choose-one-of-the-list-2"));
        }
        int capacity = place.get().capacity();
        if (capacity > 0) {
            long coming = put.coins().stream()
                    .distinct()
                    .filter(coin -> book.cabinet(coin)
                            .map(note -> !where.equals(note.place()))
                            .orElse(true))
                    .count();
            long there = coinsIn(book, where);
            if (there + coming > capacity) {
                return refusal(
                        t("hunt.holds-coins-and-has-more", place.get().name(), capacity, there, coming),
                        t("hunt.move-fewer-or-into-another"));
            }
        }
        return Optional.empty();
    }

    static Optional<Refusal> left(Logbook book, Event.CoinsLeft left) {
        if (!List.of("sold", "given", "spent", "lost").contains(left.gone().how())) {
            return refusal(t("hunt.is-no-way-to-leave", left.gone().how()), t("hunt.choose-sold-given-spent-or"));
        }
        java.math.BigDecimal price = left.gone().price();
        if (price != null && price.signum() < 0) {
            return refusal(t("hunt.a-price-cannot-be-negative"), t("hunt.write-what-was-paid-or"));
        }
        return owned(book, left.coins());
    }

    static Optional<Refusal> price(PricePoint price) {
        if (price.amount().signum() <= 0) {
            return refusal(t("hunt.a-price-of-zero-or"), t("hunt.leave-the-cell-blank-or"));
        }
        return price.amount().compareTo(java.math.BigDecimal.valueOf(1_000_000_000L)) > 0
                ? refusal(t("hunt.more-than-a-thousand-million"), t("hunt.check-the-figure"))
                : Optional.empty();
    }

    static Optional<Refusal> cup(Cup cup) {
        return cup.name().isBlank()
                ? refusal(t("hunt.the-cup-has-no-name"), t("hunt.give-it-one-such-as-2"))
                : Optional.empty();
    }

    static Optional<Refusal> reading(Logbook book, Event.CupRead read) {
        Cup cup = book.cups.get(read.cup());
        if (cup == null) {
            return refusal(t("hunt.there-is-no-cup", read.cup()), t("hunt.begin-it-first-with-its"));
        }
        double step = cup.resolution().grams();
        if (read.mass().grams() < cup.tare().grams() - step) {
            return refusal(t("hunt.the-reading-is-below-the", cup.tare().grams()), t("hunt.check-the-unit-or-begin"));
        }
        return read.mass().grams() < cup.last().grams() - step
                ? refusal(
                        t(
                                "hunt.the-cup-became-lighter-by",
                                Math.round(10
                                                * (cup.last().grams()
                                                        - read.mass().grams()))
                                        / 10.0),
                        t("hunt.check-the-reading-after-emptying"))
                : Optional.empty();
    }

    static Optional<Refusal> pile(CountedPile pile) {
        if (pile.coins() < 10 || pile.coins() > MOST_COINS) {
            return refusal(t("hunt.a-pile-of-coins-tells", pile.coins()), t("hunt.count-at-least-10-better"));
        }
        double each = pile.gramsPerCoin();
        return each < 0.5 || each > 40
                ? refusal(
                        t("hunt.that-makes-g-for-one", Math.round(100 * each) / 100.0),
                        t("hunt.check-the-count-and-the"))
                : Optional.empty();
    }
}
