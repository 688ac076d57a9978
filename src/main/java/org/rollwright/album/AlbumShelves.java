package org.rollwright.album;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.cabinet.Holdings;
import org.rollwright.catalog.Catalog;
import org.rollwright.coin.Country;

/// The albums of the journal with their holes worked out. Holes depend on rule and catalogue only and are kept
/// from one reading to the next. Thread-safe.
public final class AlbumShelves {
    private record Worked(String rule, Places places) {}

    private final Catalog catalog;
    private final Country home;
    private final Map<AlbumId, Worked> worked = new HashMap<>();

    public AlbumShelves(Catalog catalog, Country home) {
        this.catalog = catalog;
        this.home = home;
    }

    /// Every album as it stands, in the order made. An album whose rule can no longer be read has no holes.
    public List<AlbumState> states(AlbumBook book, Holdings coins) {
        List<AlbumState> states = new ArrayList<>();
        book.albums().forEach(album -> states.add(state(album, coins)));
        return states;
    }

    /// One album as it stands.
    public AlbumState state(Album album, Holdings coins) {
        Map<String, CoinRef> content = new HashMap<>();
        album.holes().forEach((hole, coin) -> {
            if (coins.coin(coin).isPresent()) {
                content.put(hole, coin);
            }
        });
        return new AlbumState(album.id(), album.name(), places(album), content);
    }

    private synchronized Places places(Album album) {
        Worked known = worked.get(album.id());
        if (known == null || !known.rule.equals(album.rule())) {
            known = new Worked(
                    album.rule(),
                    switch (AlbumRule.parse(album.rule())) {
                        case AlbumRule.Parsed.Good good ->
                            new Places(good.rule(), catalog, good.rule().holes(catalog, home));
                        case AlbumRule.Parsed.Bad bad -> new Places(AlbumRule.nothing(), catalog, List.of());
                    });
            worked.put(album.id(), known);
        }
        return known.places;
    }

    /// The policy in force; one that cannot be read any more counts as the usual one.
    public static Policy policy(AlbumBook book) {
        return Policy.parse(book.policy()) instanceof Policy.Parsed.Good good ? good.policy() : Policy.usual();
    }
}
