package org.rollwright.album;

import java.util.Collections;
import java.util.Map;
import java.util.TreeMap;
import org.rollwright.cabinet.CoinRef;

/// An album's name, rule and what lies in its holes, as the journal tells it; [AlbumRule] tells what the rule means.
///
/// @param holes the coin in each filled hole, by the hole's key and in its order. A coin whose find was struck out may
///     still stand here; readers ask [org.rollwright.cabinet.Holdings#coin] and take an absent one for an empty hole.
public record Album(AlbumId id, String name, String rule, Map<String, CoinRef> holes) {
    public Album {
        // in the order of keys, so that it does not tell how they came to be filled
        holes = Collections.unmodifiableMap(new TreeMap<>(holes));
    }

    Album told(String newName, String newRule) {
        return new Album(id, newName, newRule, holes);
    }

    Album filled(Map<String, CoinRef> now) {
        return new Album(id, name, rule, now);
    }
}
