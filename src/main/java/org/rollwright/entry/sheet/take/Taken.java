package org.rollwright.entry.sheet.take;

import java.util.List;

/// A sheet as it was read: every row with what it would become.
///
/// @param tables the tables found, with what their columns were read as
/// @param rows every row of every sheet, in order
/// @param remarks what a person may want to know of how the file was read
public record Taken(As as, List<Table> tables, List<TakenRow> rows, List<String> remarks) {
    /// A table.
    ///
    /// @param sheet name of the sheet, blank in a text file
    /// @param headingRow row of its headings, 0 when it has none
    /// @param hidden whether the spreadsheet hides the sheet
    public record Table(String sheet, long headingRow, boolean hidden, List<Column> columns) {
        public Table {
            columns = List.copyOf(columns);
        }
    }

    public Taken {
        tables = List.copyOf(tables);
        rows = List.copyOf(rows);
        remarks = List.copyOf(remarks);
    }

    /// Rows that would be recorded as they are.
    public List<TakenRow> ready() {
        return rows.stream().filter(TakenRow::isReady).toList();
    }

    /// Rows with a question.
    public List<TakenRow> asked() {
        return rows.stream().filter(row -> !row.asks().isEmpty()).toList();
    }
}
