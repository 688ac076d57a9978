package org.rollwright.album;

import static org.rollwright.text.Texts.t;

import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.cabinet.Holdings;
import org.rollwright.coin.Refusal;

/// Keeps contradictions about albums out of the journal.
final class AlbumChecks {
    private AlbumChecks() {}

    static Optional<Refusal> refuse(AlbumBook book, AlbumEvent event, Holdings coins) {
        return switch (event) {
            case AlbumEvent.AlbumDefined defined ->
                defined.name().isBlank()
                        ? Refusal.of(t("hunt.album-name-missing"), t("hunt.give-it-one"))
                        : Optional.empty();
            case AlbumEvent.AlbumRemoved removed -> album(book, removed.album());
            case AlbumEvent.HolesFilled filled -> holes(book, filled, coins);
            case AlbumEvent.PolicyChanged changed -> Optional.empty();
        };
    }

    private static Optional<Refusal> album(AlbumBook book, AlbumId id) {
        return book.album(id).isPresent()
                ? Optional.empty()
                : Refusal.of(t("hunt.album-unknown", id), t("hunt.album-list"));
    }

    private static Optional<Refusal> holes(AlbumBook book, AlbumEvent.HolesFilled filled, Holdings coins) {
        for (AlbumEvent.HoleChange change : filled.changes()) {
            Optional<Refusal> refusal = album(book, change.album()).or(() -> {
                CoinRef coin = change.coin();
                return coin == null || coins.coin(coin).isPresent()
                        ? Optional.empty()
                        : Refusal.of(t("hunt.coin-gone", coin), t("hunt.compare-the-album-again"));
            });
            if (refusal.isPresent()) {
                return refusal;
            }
        }
        return coinTwice(book, filled);
    }

    /// A coin can lie in one hole only.
    private static Optional<Refusal> coinTwice(AlbumBook book, AlbumEvent.HolesFilled filled) {
        Map<String, CoinRef> after = new HashMap<>();
        book.albums().forEach(album -> album.holes().forEach((hole, coin) -> after.put(album.id() + "/" + hole, coin)));
        for (AlbumEvent.HoleChange change : filled.changes()) {
            String key = change.album() + "/" + change.hole();
            CoinRef coin = change.coin();
            if (coin == null) {
                after.remove(key);
            } else {
                after.put(key, coin);
            }
        }
        Set<CoinRef> seen = new HashSet<>();
        for (CoinRef coin : after.values()) {
            if (!seen.add(coin)) {
                return Refusal.of(t("hunt.coin-in-two-holes", coin), t("hunt.hole-empty-first"));
            }
        }
        return Optional.empty();
    }
}
