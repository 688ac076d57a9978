package org.rollwright.album;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.catalog.Issue;
import org.rollwright.coin.Denomination;

/// An album as it stands.
///
/// @param content the coin in each filled hole, by the hole's key; coins no longer owned are left out by the
///     caller
public record AlbumState(AlbumId id, String name, Places places, Map<String, CoinRef> content) {
    public AlbumState {
        content = Map.copyOf(content);
    }

    /// Ordinary holes without a coin, for coins of one denomination, in the album's order.
    public Map<String, List<Issue>> emptyHoles(Denomination denomination) {
        Map<String, List<Issue>> empty = new LinkedHashMap<>();
        for (Hole hole : places.holes()) {
            boolean ours = hole.issues().getFirst().identity().denomination().equals(denomination);
            if (ours && hole.variety().isEmpty() && !content.containsKey(hole.key())) {
                empty.put(hole.key(), hole.issues());
            }
        }
        return empty;
    }
}
