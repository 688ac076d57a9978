package org.rollwright.cabinet;

import static org.rollwright.text.Texts.t;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Refusal;

/// Keeps contradictions about owned coins, places and prices out of the journal.
final class CabinetChecks {
    private static final int MOST_COINS = 1_000_000;

    private CabinetChecks() {}

    static Optional<Refusal> refuse(Holdings held, CabinetEvent event) {
        return switch (event) {
            case CabinetEvent.CoinAdded added -> free(held, added.coin());
            case CabinetEvent.CoinAcquired acquired -> free(held, acquired.coin());
            case CabinetEvent.CoinDescribed described -> owned(held, List.of(described.coin()));
            case CabinetEvent.PlaceMade made -> place(held.cabinet(), made.place());
            case CabinetEvent.PlaceRemoved removed -> emptied(held, removed.place());
            case CabinetEvent.CoinsPut put -> put(held, put);
            case CabinetEvent.CoinsLeft left -> left(held, left);
            case CabinetEvent.CoinSubmitted submitted -> owned(held, List.of(submitted.coin()));
            case CabinetEvent.PriceNoted noted -> price(noted.price());
            case CabinetEvent.PriceForgotten forgotten -> Optional.empty();
        };
    }

    private static Optional<Refusal> free(Holdings held, CoinRef coin) {
        return held.coin(coin).isPresent() || held.cabinet().added(coin).isPresent()
                ? refusal(t("hunt.coin-taken", coin), t("hunt.take-the-next-number"))
                : Optional.empty();
    }

    private static Optional<Refusal> refusal(String wrong, String right) {
        return Refusal.of(wrong, right);
    }

    private static Optional<Refusal> owned(Holdings held, List<CoinRef> coins) {
        for (CoinRef coin : coins) {
            if (held.coin(coin).isEmpty()) {
                return refusal(t("hunt.hand-empty", coin), t("hunt.cabinet-look-again"));
            }
        }
        return coins.isEmpty() ? refusal(t("hunt.no-coin-was-chosen"), t("hunt.coin-tick-one")) : Optional.empty();
    }

    private static Optional<Refusal> place(CabinetBook book, Place place) {
        if (place.name().isBlank()) {
            return refusal(t("hunt.place-name-missing"), t("hunt.place-give-name"));
        }
        if (place.capacity() < 0 || place.capacity() > MOST_COINS) {
            return refusal(t("hunt.place-capacity-wrong", place.capacity()), t("hunt.zero-ignored"));
        }
        Set<PlaceId> above = new HashSet<>();
        above.add(place.id());
        @Nullable PlaceId parent = place.parent();
        while (parent != null) {
            Optional<Place> known = book.place(parent);
            if (known.isEmpty()) {
                return refusal(t("hunt.place-parent-missing"), t("hunt.choose-listed"));
            }
            if (!above.add(parent)) {
                return refusal(t("hunt.place-within-itself"), t("hunt.place-choose-another"));
            }
            parent = known.get().parent();
        }
        return Optional.empty();
    }

    private static Optional<Refusal> emptied(Holdings held, PlaceId id) {
        Optional<Place> place = held.cabinet().place(id);
        if (place.isEmpty()) {
            return refusal(t("hunt.place-unknown"), t("hunt.place-list"));
        }
        boolean inside = held.cabinet().places().stream().anyMatch(other -> id.equals(other.parent()));
        long coins = coinsIn(held, id);
        return inside || coins > 0
                ? refusal(
                        coins > 0
                                ? t("hunt.place-not-empty", coins, place.get().name())
                                : t("hunt.not-empty", place.get().name()),
                        t("hunt.place-move-contents"))
                : Optional.empty();
    }

    private static long coinsIn(Holdings held, PlaceId id) {
        return held.cabinet().notes().stream()
                .filter(note -> id.equals(note.place())
                        && note.gone() == null
                        && held.coin(note.coin()).isPresent())
                .count();
    }

    private static Optional<Refusal> put(Holdings held, CabinetEvent.CoinsPut put) {
        Optional<Refusal> missing = owned(held, put.coins());
        PlaceId where = put.place();
        if (missing.isPresent() || where == null) {
            return missing;
        }
        Optional<Place> place = held.cabinet().place(where);
        if (place.isEmpty()) {
            return refusal(t("hunt.place-unknown"), t("hunt.choose-or-make"));
        }
        int capacity = place.get().capacity();
        if (capacity > 0) {
            long coming = put.coins().stream()
                    .distinct()
                    .filter(coin -> held.cabinet()
                            .note(coin)
                            .map(note -> !where.equals(note.place()))
                            .orElse(true))
                    .count();
            long there = coinsIn(held, where);
            if (there + coming > capacity) {
                return refusal(
                        t("hunt.place-full", place.get().name(), capacity, there, coming),
                        t("hunt.place-move-elsewhere"));
            }
        }
        return Optional.empty();
    }

    private static Optional<Refusal> left(Holdings held, CabinetEvent.CoinsLeft left) {
        if (left.gone().how().in(Leaving.class).isEmpty()) {
            return refusal(t("hunt.disposition-wrong", left.gone().how()), t("hunt.disposition-choose"));
        }
        java.math.BigDecimal price = left.gone().price();
        if (price != null && price.signum() < 0) {
            return refusal(t("hunt.price-negative"), t("hunt.paid-form"));
        }
        return owned(held, left.coins());
    }

    private static Optional<Refusal> price(PricePoint price) {
        if (price.amount().signum() <= 0) {
            return refusal(t("hunt.price-zero"), t("hunt.price-leave-blank"));
        }
        return price.amount().compareTo(java.math.BigDecimal.valueOf(1_000_000_000L)) > 0
                ? refusal(t("hunt.price-too-large"), t("hunt.check-the-figure"))
                : Optional.empty();
    }
}
