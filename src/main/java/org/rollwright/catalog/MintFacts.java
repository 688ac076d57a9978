package org.rollwright.catalog;

import java.util.List;
import org.rollwright.coin.Country;
import org.rollwright.coin.Mint;

/// A mint's name and the words typed or said for it, within its country.
public record MintFacts(Country country, Mint mint, String name, List<String> words) {
    public MintFacts {
        words = List.copyOf(words);
    }
}
