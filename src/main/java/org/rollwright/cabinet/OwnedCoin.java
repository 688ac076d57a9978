package org.rollwright.cabinet;

import org.rollwright.coin.CoinDescription;

/// One coin in the hunter's hands.
///
/// @param provenance where it came from, for a person: `Box 12, roll 7` or what was said when it was added
public record OwnedCoin(CoinRef ref, CoinDescription description, String provenance) {
    /// By the reference, which tells coins apart.
    @Override
    public int hashCode() {
        return ref.hashCode();
    }

    OwnedCoin told(CabinetNote note) {
        return note.description() == null ? this : new OwnedCoin(ref, note.description(), provenance);
    }
}
