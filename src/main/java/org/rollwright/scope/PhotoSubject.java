package org.rollwright.scope;

import org.rollwright.hunt.FindId;

/// What a photograph shows.
///
/// @param kind `find`, `variety`, `bench` (nothing in particular)
/// @param key number of the find or key of the variety; blank otherwise
/// @param part which marker of the variety, from 1; 0 for none in particular
public record PhotoSubject(String kind, String key, int part) {
    public static final PhotoSubject BENCH = new PhotoSubject("bench", "", 0);

    public static PhotoSubject find(FindId find) {
        return new PhotoSubject("find", Long.toString(find.number()), 0);
    }

    public static PhotoSubject variety(String key, int marker) {
        return new PhotoSubject("variety", key, marker);
    }

    /// The find it shows, empty when it shows something else.
    public java.util.Optional<FindId> findId() {
        return kind.equals("find") && key.matches("[0-9]{1,18}")
                ? java.util.Optional.of(new FindId(Long.parseLong(key)))
                : java.util.Optional.empty();
    }
}
