package org.rollwright.coin;

/// A denomination of one country, such as the US cent. Face value, roll and box sizes are catalogue facts.
///
/// @param key lower-case word or hyphenated words: `cent`, `large-dollar`; for a country without a list of
///     denominations in the catalogue, what the coin itself says (`1p`) or `coin`
public record Denomination(Country country, String key) {
    public static final Denomination US_CENT = new Denomination(Country.US, "cent");

    public Denomination {
        if (key.isBlank() || !key.equals(key.strip())) {
            throw new IllegalArgumentException("denomination must be a word, was '" + key + "'");
        }
    }

    @Override
    public String toString() {
        return country + " " + key;
    }
}
