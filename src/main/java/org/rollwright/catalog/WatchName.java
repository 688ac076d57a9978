package org.rollwright.catalog;

import java.util.List;

/// A named thing to watch for: `wheat`, `copper`, `silver`.
///
/// @param words what may be typed for it besides its name
/// @param rule the rule as written, kept so that it can be stored with a hunt
public record WatchName(String name, List<String> words, String rule, Selection selection, String meaning) {
    public WatchName {
        words = List.copyOf(words);
    }
}
