package org.rollwright.catalog;

import java.util.Optional;

/// A side of a coin.
public enum Side {
    OBVERSE("obverse"),
    REVERSE("reverse");

    private final String word;

    Side(String word) {
        this.word = word;
    }

    /// As the catalogue writes it.
    public String word() {
        return word;
    }

    /// The side a word names; empty when it names none.
    public static Optional<Side> of(String word) {
        for (Side side : values()) {
            if (side.word.equals(word)) {
                return Optional.of(side);
            }
        }
        return Optional.empty();
    }
}
