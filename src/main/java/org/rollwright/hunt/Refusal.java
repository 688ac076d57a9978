package org.rollwright.hunt;

/// Why an event is not taken into the journal.
///
/// @param wrong what was wrong, a whole sentence
/// @param right what would be right, a whole sentence
public record Refusal(String wrong, String right) {
    @Override
    public String toString() {
        return wrong + " " + right;
    }
}
