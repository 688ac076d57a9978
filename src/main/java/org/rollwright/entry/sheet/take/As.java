package org.rollwright.entry.sheet.take;

import java.util.List;

/// What the rows of a sheet shall become.
public enum As {
    COINS(List.of(
            "country",
            "denomination",
            "year",
            "mint",
            "kind",
            "variety",
            "grade",
            "details",
            "colour",
            "quantity",
            "place",
            "paid",
            "currency",
            "acquired",
            "note")),
    BOXES(List.of("date", "bank", "denomination", "rolls", "coins", "finds", "grams", "note"));

    private final List<String> fields;

    As(List<String> fields) {
        this.fields = fields;
    }

    /// The fields of a row, in their order.
    public List<String> fields() {
        return fields;
    }
}
