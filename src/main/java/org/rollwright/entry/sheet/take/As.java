package org.rollwright.entry.sheet.take;

import java.util.List;

/// What the rows of a sheet shall become.
public enum As {
    COINS,
    BOXES;

    /// The fields of a row, in their order.
    public List<String> fields() {
        return switch (this) {
            case COINS ->
                List.of(
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
                        "note");
            case BOXES -> List.of("date", "bank", "denomination", "rolls", "coins", "finds", "grams", "note");
        };
    }
}
