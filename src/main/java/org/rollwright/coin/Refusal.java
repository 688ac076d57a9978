package org.rollwright.coin;

import java.util.Optional;

/// Why something read from a person or a file cannot be used, or cannot be recorded.
///
/// @param wrong what was wrong, a whole sentence
/// @param right what would be right, a whole sentence
public record Refusal(String wrong, String right) {
    /// A refusal as the answer of a check.
    public static Optional<Refusal> of(String wrong, String right) {
        return Optional.of(new Refusal(wrong, right));
    }

    @Override
    public String toString() {
        return wrong + " " + right;
    }
}
