package org.rollwright.cabinet;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Grade;
import org.rollwright.journal.Event;

/// What happens to coins owned, the places they lie in, and their prices.
public sealed interface CabinetEvent extends Event {
    /// A coin owned before the journal began, or bought, or given.
    record CoinAdded(CoinRef coin, CoinDescription facts, String provenance) implements CabinetEvent {}

    /// A coin came another way than by a hunt, with what is known of how.
    record CoinAcquired(CoinRef coin, CoinDescription facts, Acquisition acquisition) implements CabinetEvent {}

    /// What one coin is was told anew, beyond what its find says.
    ///
    /// @param gradeUpTo upper end where the grade is a range
    record CoinDescribed(
            CoinRef coin, CoinDescription facts, @Nullable Grade gradeUpTo) implements CabinetEvent {}

    /// A place for coins was made, renamed or moved.
    record PlaceMade(Place place) implements CabinetEvent {}

    /// A place was given up.
    record PlaceRemoved(PlaceId place) implements CabinetEvent {}

    /// Coins were put somewhere; null is nowhere in particular.
    record CoinsPut(List<CoinRef> coins, @Nullable PlaceId place) implements CabinetEvent {
        public CoinsPut {
            coins = List.copyOf(coins);
        }
    }

    /// Coins left the hunter's hands.
    record CoinsLeft(List<CoinRef> coins, CabinetNote.Gone gone) implements CabinetEvent {
        public CoinsLeft {
            coins = List.copyOf(coins);
        }
    }

    /// A coin went to be graded, or came back.
    record CoinSubmitted(CoinRef coin, CabinetNote.Submission submission) implements CabinetEvent {}

    /// A price was read or paid.
    record PriceNoted(PricePoint price) implements CabinetEvent {}

    /// A price no longer counts.
    record PriceForgotten(PricePoint price) implements CabinetEvent {}
}
