package org.rollwright.entry.sheet.take;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/// A row while it is read. Used by one thread.
final class Draft {
    final String sheet;
    final Grid.Line line;
    String what;

    /// Whether the row has a number of its own, not one that is computed from its place.
    boolean numbered;

    final Map<String, String> fields = new LinkedHashMap<>();
    final Set<String> inferred = new LinkedHashSet<>();
    final List<TakenRow.Ask> asks = new ArrayList<>();
    final List<String> leftOut = new ArrayList<>();
    final Map<String, String> more = new LinkedHashMap<>();

    Draft(String sheet, Grid.Line line, String what) {
        this.sheet = sheet;
        this.line = line;
        this.what = what;
    }

    void put(String field, String value) {
        if (!value.isBlank()) {
            fields.put(field, value);
        }
    }

    void infer(String field, String value) {
        if (!value.isBlank()) {
            fields.put(field, value);
            inferred.add(field);
        }
    }

    String get(String field) {
        return fields.getOrDefault(field, "");
    }

    boolean has(String field) {
        return fields.containsKey(field);
    }

    /// One question for each field: the first one is the plainest.
    void ask(String field, String sentence) {
        ask(field, sentence, "");
    }

    /// A question whose answer may be the same for all rows that ask it.
    void ask(String field, String sentence, String topic) {
        if (asks.stream().noneMatch(ask -> ask.sentence().equals(sentence))) {
            asks.add(new TakenRow.Ask(field, sentence, topic));
        }
    }

    TakenRow done(As as) {
        Map<String, String> ordered = new LinkedHashMap<>();
        for (String field : as.fields()) {
            if (fields.containsKey(field)) {
                ordered.put(field, get(field));
            }
        }
        return new TakenRow(
                sheet,
                line.number(),
                what,
                ordered,
                List.copyOf(inferred),
                asks,
                leftOut,
                more,
                line.cells().stream().map(Grid.Cell::text).toList());
    }
}
