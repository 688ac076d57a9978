package org.rollwright.catalog;

import static org.rollwright.text.Texts.t;

import org.rollwright.coin.Refusal;

/// Why a row of a file was refused.
///
/// @param file its name; blank when there is one table only, whose rows are counted then
/// @param line 1 is the header row
/// @param column name of the column, or blank when the whole row is at fault
public record RowProblem(String file, long line, String column, Refusal flaw) {

    /// One line for a person: `my-series.csv, line 4, column year: 'abcd' is no year. Write four digits, such
    /// as 1936.`
    @Override
    public String toString() {
        String wrong = flaw.wrong();
        String right = flaw.right();
        if (file.isEmpty()) {
            return column.isEmpty()
                    ? t("catalog.in-row", line, wrong, right)
                    : t("catalog.in-column-of-row", line, column, wrong, right);
        }
        return column.isEmpty()
                ? t("catalog.in-line", file, line, wrong, right)
                : t("catalog.in-column", file, line, column, wrong, right);
    }
}
