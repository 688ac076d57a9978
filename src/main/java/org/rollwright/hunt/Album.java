package org.rollwright.hunt;

import java.util.Collections;
import java.util.Map;
import java.util.TreeMap;

/// An album's name, rule and what lies in its holes, as the journal tells it. What the rule means is the
/// business of the album room. Part of the [Logbook]: read it only inside [Desk#read].
public final class Album {
    private final AlbumId id;
    String name;
    String rule;
    /// By the hole's key, so that their order does not depend on how they came to be filled.
    final Map<String, CoinRef> holes = new TreeMap<>();

    Album(AlbumId id, String name, String rule) {
        this.id = id;
        this.name = name;
        this.rule = rule;
    }

    public AlbumId id() {
        return id;
    }

    public String name() {
        return name;
    }

    public String rule() {
        return rule;
    }

    /// The coin in each filled hole, by the hole's key. A coin whose find was struck out may still stand here;
    /// readers ask [Logbook#coin] and take an absent one for an empty hole.
    public Map<String, CoinRef> holes() {
        return Collections.unmodifiableMap(holes);
    }
}
