package org.rollwright.album;

import java.util.Map;
import org.rollwright.hunt.AlbumId;
import org.rollwright.hunt.CoinRef;

/// An album as it stands.
///
/// @param content the coin in each filled hole, by the hole's key; coins no longer owned are left out by the
///     caller
public record AlbumState(AlbumId id, String name, Places places, Map<String, CoinRef> content) {
    public AlbumState {
        content = Map.copyOf(content);
    }
}
