package org.rollwright.catalog;

import java.util.List;
import org.rollwright.coin.Country;

/// A country's name and the words typed or said for it.
public record CountryFacts(Country country, String name, List<String> words) {
    public CountryFacts {
        words = List.copyOf(words);
    }
}
