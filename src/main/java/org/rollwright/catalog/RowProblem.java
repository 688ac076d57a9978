package org.rollwright.catalog;

import static org.rollwright.text.Texts.t;

/// Why a row of a file was refused.
///
/// @param line 1 is the header row
/// @param column name of the column, or blank when the whole row is at fault
public record RowProblem(String file, long line, String column, String wrong, String right) {

    /// One line for a person: `my-series.csv, line 4, column year: 'abcd' is no year. Write four digits, such
    /// as 1936.`
    @Override
    public String toString() {
        return column.isEmpty()
                ? t("catalog.in-line", file, line, wrong, right)
                : t("catalog.in-column", file, line, column, wrong, right);
    }
}
