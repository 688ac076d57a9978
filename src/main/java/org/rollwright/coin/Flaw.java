package org.rollwright.coin;

/// Why something read from a person or a file cannot be used.
///
/// @param wrong what was wrong, a whole sentence
/// @param right what would be right, a whole sentence
public record Flaw(String wrong, String right) {
    @Override
    public String toString() {
        return wrong + " " + right;
    }
}
