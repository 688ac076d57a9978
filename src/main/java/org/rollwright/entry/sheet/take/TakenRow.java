package org.rollwright.entry.sheet.take;

import static org.rollwright.text.Texts.t;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

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
    /// @param topic what it is about when other rows may ask the same, a word of the sheet mostly; blank when the
    ///     question is about this row only
    public record Ask(String field, String sentence, String topic) {}

    public TakenRow {
        fields = Collections.unmodifiableMap(new LinkedHashMap<>(fields));
        more = Collections.unmodifiableMap(new LinkedHashMap<>(more));
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

    /// The row with one question answered.
    TakenRow with(Taken.Answer answer) {
        boolean skip = answer.field().equals(Taken.Answer.SKIP);
        boolean take = answer.field().equals(Taken.Answer.TAKE);
        if (!isThing()) {
            return this;
        }
        Map<String, String> answered = new LinkedHashMap<>(fields);
        if (!skip && !take) {
            answered.put(answer.field(), answer.value());
            answered.values().removeIf(String::isEmpty);
        }
        String now = what;
        if (take && what.equals("duplicate")) {
            now = answered.containsKey("quantity") ? "coin" : "box";
        } else if (skip) {
            now = "note";
        }
        return new TakenRow(
                sheet,
                row,
                now,
                answered,
                inferred.stream().filter(field -> !field.equals(answer.field())).toList(),
                skip || take
                        ? List.of()
                        : asks.stream()
                                .filter(ask -> !ask.field().equals(answer.field()))
                                .toList(),
                skip
                        ? Stream.concat(leftOut.stream(), Stream.of(t("take.left-skipped")))
                                .toList()
                        : leftOut,
                more,
                cells);
    }

    /// A field, blank when it is not said.
    public String field(String name) {
        return fields.getOrDefault(name, "");
    }
}
