package org.rollwright.catalog;

/// A word of the trade that may follow a date: `rpm`, `clip`, `cleaned`.
///
/// @param word as typed; several words may share one canonical word
/// @param canonical what is recorded
public record TradeWord(String word, Role role, String canonical, String meaning) {
    /// What a trade word says of the coin.
    public enum Role {
        VARIETY,
        ERROR,
        DETAILS,
        STRIKE,
        COLOUR,
        /// Something seen that is neither a problem nor a colour of copper; it goes into the note.
        REMARK,
        DISPOSITION
    }
}
