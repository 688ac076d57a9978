package org.rollwright.catalog;

/// Why a row of a file was refused.
///
/// @param line 1 is the header row
/// @param column name of the column, or blank when the whole row is at fault
public record RowProblem(String file, long line, String column, String wrong, String right) {

    /// One line for a person: `my-series.csv, line 4, column year: 'abcd' is no year. Write four digits, such
    /// as 1936.`
    @Override
    public String toString() {
        String where = file + ", line " + line + (column.isEmpty() ? "" : ", column " + column);
        return where + ": " + wrong + " " + right;
    }
}
