package org.rollwright.catalog;

import java.util.List;

/// A run of issues the trade speaks of together, such as the Lincoln wheat cents.
///
/// @param id file name without its ending
/// @param words what a hunter types or says for it
public record Series(String id, String name, List<String> words) {
    public Series {
        words = List.copyOf(words);
    }
}
