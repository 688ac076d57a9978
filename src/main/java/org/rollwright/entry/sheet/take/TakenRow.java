package org.rollwright.entry.sheet.take;

import java.util.List;
import java.util.Map;

/// One row of a sheet and what it would become.
///
/// @param sheet name of the sheet, blank in a text file
/// @param row from 1 as the spreadsheet shows it; in a text file the number of the record
/// @param what `coin`, `box`, `duplicate`, `heading`, `total`, `note`, `blank` or `unusable`
/// @param fields by the names of [As#fields]; what is not said is not there
/// @param inferred fields that were not said in the row itself
/// @param asks what must be answered before the row can be taken
/// @param leftOut what of the row is not taken, and why
/// @param more what is said beside: where it came from, what it is thought to be worth, its number
/// @param cells the row as it stands, for a person to look at
public record TakenRow(
        String sheet,
        long row,
        String what,
        Map<String, String> fields,
        List<String> inferred,
        List<Ask> asks,
        List<String> leftOut,
        Map<String, String> more,
        List<String> cells) {
    /// A question.
    ///
    /// @param field the field an answer would fill; blank when the answer is yes or no
    /// @param sentence the question in plain words
    public record Ask(String field, String sentence) {}

    public TakenRow {
        fields = java.util.Collections.unmodifiableMap(new java.util.LinkedHashMap<>(fields));
        more = java.util.Collections.unmodifiableMap(new java.util.LinkedHashMap<>(more));
        inferred = List.copyOf(inferred);
        asks = List.copyOf(asks);
        leftOut = List.copyOf(leftOut);
        cells = List.copyOf(cells);
    }

    /// Whether something would be recorded of it when nothing is left to ask.
    public boolean isThing() {
        return what.equals("coin") || what.equals("box") || what.equals("duplicate") || what.equals("unusable");
    }

    /// Whether it would be recorded as it is.
    public boolean isReady() {
        return asks.isEmpty() && (what.equals("coin") || what.equals("box"));
    }

    /// A field, blank when it is not said.
    public String field(String name) {
        return fields.getOrDefault(name, "");
    }
}
