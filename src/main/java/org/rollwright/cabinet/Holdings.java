package org.rollwright.cabinet;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.FindId;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.HuntBook;

/// The coins in the hunter's hands: finds that were kept, and coins that came another way.
public record Holdings(HuntBook hunts, CabinetBook cabinet) {
    /// A coin in the hunter's hands, empty when its find was struck out or the coin was returned, sold or given away.
    public Optional<OwnedCoin> coin(CoinRef ref) {
        if (isGone(ref)) {
            return Optional.empty();
        }
        if (ref.find() == 0) {
            return cabinet.added(ref).map(this::told);
        }
        Find find = hunts.find(new FindId(ref.find())).orElse(null);
        if (find == null || ref.piece() > find.count() || find.disposition().leaves()) {
            return Optional.empty();
        }
        return Optional.of(told(new OwnedCoin(ref, find.facts(), hunts.whereabouts(find))));
    }

    /// Every coin in the hunter's hands: added ones, then finds in the order logged.
    public List<OwnedCoin> coins() {
        List<OwnedCoin> owned = new ArrayList<>();
        cabinet.added().stream()
                .filter(coin -> !isGone(coin.ref()))
                .map(this::told)
                .forEach(owned::add);
        for (Hunt hunt : hunts.hunts()) {
            for (FindId id : hunt.finds()) {
                owned.addAll(coinsOf(hunts.known(id)));
            }
        }
        return owned;
    }

    /// The coins of one find that are still in the hunter's hands.
    public List<OwnedCoin> coinsOf(Find find) {
        List<OwnedCoin> coins = new ArrayList<>();
        if (!find.disposition().leaves()) {
            for (int piece = 1; piece <= find.count(); piece++) {
                CoinRef ref = CoinRef.of(find.id(), piece);
                if (!isGone(ref)) {
                    coins.add(told(new OwnedCoin(ref, find.facts(), hunts.whereabouts(find))));
                }
            }
        }
        return coins;
    }

    private boolean isGone(CoinRef coin) {
        return cabinet.note(coin).filter(note -> note.gone() != null).isPresent();
    }

    private OwnedCoin told(OwnedCoin coin) {
        return cabinet.note(coin.ref()).map(coin::told).orElse(coin);
    }
}
