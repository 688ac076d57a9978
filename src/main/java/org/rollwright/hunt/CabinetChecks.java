package org.rollwright.hunt;

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
                return refusal("There is no coin " + coin + " in your hands.", "Look at the cabinet again.");
            }
        }
        return coins.isEmpty() ? refusal("No coin was chosen.", "Tick at least one coin.") : Optional.empty();
    }

    static Optional<Refusal> place(Logbook book, Place place) {
        if (place.name().isBlank()) {
            return refusal("The place has no name.", "Give it one, such as tube 12.");
        }
        if (place.capacity() < 0 || place.capacity() > MOST_COINS) {
            return refusal("A place cannot hold " + place.capacity() + " coins.", "Write 0 when it does not matter.");
        }
        Set<PlaceId> above = new HashSet<>();
        above.add(place.id());
        @Nullable PlaceId parent = place.parent();
        while (parent != null) {
            Optional<Place> known = book.place(parent);
            if (known.isEmpty()) {
                return refusal("The place around it is not there.", "Choose one of the list.");
            }
            if (!above.add(parent)) {
                return refusal("A place cannot lie within itself.", "Choose another place around it.");
            }
            parent = known.get().parent();
        }
        return Optional.empty();
    }

    static Optional<Refusal> emptied(Logbook book, PlaceId id) {
        Optional<Place> place = book.place(id);
        if (place.isEmpty()) {
            return refusal("There is no such place.", "Look at the list of places.");
        }
        boolean inside = book.places().stream().anyMatch(other -> id.equals(other.parent()));
        long coins = coinsIn(book, id);
        return inside || coins > 0
                ? refusal(
                        place.get().name() + " is not empty" + (coins > 0 ? ": " + coins + " coins lie there." : "."),
                        "Move what is in it first.")
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
            return refusal("There is no such place.", "Choose one of the list, or make it first.");
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
                        place.get().name() + " holds " + capacity + " coins and has " + there + "; " + coming
                                + " more do not fit.",
                        "Move fewer, or into another place.");
            }
        }
        return Optional.empty();
    }

    static Optional<Refusal> left(Logbook book, Event.CoinsLeft left) {
        if (!List.of("sold", "given", "spent", "lost").contains(left.gone().how())) {
            return refusal("'" + left.gone().how() + "' is no way to leave.", "Choose sold, given, spent or lost.");
        }
        java.math.BigDecimal price = left.gone().price();
        if (price != null && price.signum() < 0) {
            return refusal("A price cannot be negative.", "Write what was paid, or leave it blank.");
        }
        return owned(book, left.coins());
    }

    static Optional<Refusal> price(PricePoint price) {
        if (price.amount().signum() <= 0) {
            return refusal("A price of zero or less values nothing.", "Leave the cell blank, or write what it costs.");
        }
        return price.amount().compareTo(java.math.BigDecimal.valueOf(1_000_000_000L)) > 0
                ? refusal("More than a thousand million is no price of a coin.", "Check the figure.")
                : Optional.empty();
    }

    static Optional<Refusal> cup(Cup cup) {
        return cup.name().isBlank()
                ? refusal("The cup has no name.", "Give it one, such as copper.")
                : Optional.empty();
    }

    static Optional<Refusal> reading(Logbook book, Event.CupRead read) {
        Cup cup = book.cups.get(read.cup());
        if (cup == null) {
            return refusal("There is no cup " + read.cup() + ".", "Begin it first, with its tare.");
        }
        double step = cup.resolution().grams();
        if (read.mass().grams() < cup.tare().grams() - step) {
            return refusal(
                    "The reading is below the empty cup's " + cup.tare().grams() + " g.",
                    "Check the unit, or begin the cup anew with another tare.");
        }
        return read.mass().grams() < cup.last().grams() - step
                ? refusal(
                        "The cup became lighter by "
                                + Math.round(10
                                                * (cup.last().grams()
                                                        - read.mass().grams()))
                                        / 10.0 + " g: nothing was added, or something was taken out.",
                        "Check the reading; after emptying, begin the cup anew.")
                : Optional.empty();
    }

    static Optional<Refusal> pile(CountedPile pile) {
        if (pile.coins() < 10 || pile.coins() > MOST_COINS) {
            return refusal("A pile of " + pile.coins() + " coins tells too little.", "Count at least 10, better 100.");
        }
        double each = pile.gramsPerCoin();
        return each < 0.5 || each > 40
                ? refusal(
                        "That makes " + Math.round(100 * each) / 100.0 + " g for one coin.",
                        "Check the count and the unit.")
                : Optional.empty();
    }
}
