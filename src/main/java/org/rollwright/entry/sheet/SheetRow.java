package org.rollwright.entry.sheet;

import java.util.List;
import org.rollwright.catalog.SheetCell;

/// One row of a spreadsheet.
///
/// @param line from 1, as the spreadsheet program shows it
public record SheetRow(long line, List<String> cells) {
    public SheetRow {
        cells = List.copyOf(cells);
    }

    /// A cell's text without outer spaces; blank beyond the last.
    String cell(int column) {
        return column < cells.size() ? SheetCell.in(cells.get(column)) : "";
    }

    boolean isBlank() {
        return cells.stream().allMatch(String::isBlank);
    }
}
