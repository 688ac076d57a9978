package org.rollwright.entry.sheet.take;

/// One column of a table: what stands above it and what it was read as.
///
/// @param index from 0
/// @param heading as it stands, blank when there is none
/// @param field the field it fills; `find` for what was found; `unread` when nothing is known of it
/// @param kind what was found, blank in all other columns
/// @param how how sure that is
/// @param hidden whether the spreadsheet hides it
public record Column(int index, String heading, String field, String kind, How how, boolean hidden) {
    /// Where the meaning of a column comes from.
    public enum How {
        /// its heading says it
        HEADING,
        /// its heading says it among other words
        PART_OF_HEADING,
        /// what stands in it says it
        CONTENT,
        /// the hunter said it
        SAID,
        /// nothing says it
        UNREAD
    }

    /// The column's letters.
    public String letters() {
        return Grid.letters(index);
    }

    boolean is(String wanted) {
        return field.equals(wanted);
    }

    Column as(String wanted, How why) {
        return new Column(index, heading, wanted, kind, why, hidden);
    }
}
