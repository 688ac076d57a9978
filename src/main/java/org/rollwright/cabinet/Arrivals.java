package org.rollwright.cabinet;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.CoinDescription;
import org.rollwright.journal.Event;

/// Coins that come another way than by a hunt.
public final class Arrivals {
    private Arrivals() {}

    /// Coins alike come and are put somewhere, as one step.
    ///
    /// @param count at least 1
    /// @param place null for nowhere in particular
    public static Event of(
            CabinetBook book, CoinDescription coin, int count, Acquisition how, @Nullable PlaceId place) {
        List<Event> events = new ArrayList<>();
        List<CoinRef> coins = new ArrayList<>();
        int next = book.nextAdded().piece();
        for (int i = 0; i < count; i++) {
            CoinRef ref = new CoinRef(0, next + i);
            coins.add(ref);
            events.add(new CabinetEvent.CoinAcquired(ref, coin, how));
        }
        if (place != null) {
            events.add(new CabinetEvent.CoinsPut(coins, place));
        }
        return new Event.Batch(events);
    }
}
