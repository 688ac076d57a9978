package org.rollwright.entry.sheet.take;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/// One sheet of a file as it stands there.
///
/// @param name blank in a text file
/// @param hiddenColumns from 0
record Grid(String name, boolean hidden, List<Line> lines, Set<Integer> hiddenColumns) {
    Grid {
        lines = List.copyOf(lines);
        hiddenColumns = Set.copyOf(hiddenColumns);
    }

    /// One row.
    ///
    /// @param number from 1; in a text file the number of the record
    /// @param wide whether it has a cell merged across three columns or more
    record Line(long number, boolean hidden, boolean wide, List<Cell> cells) {
        Line {
            cells = List.copyOf(cells);
        }

        Cell cell(int column) {
            return column >= 0 && column < cells.size() ? cells.get(column) : Cell.BLANK;
        }

        String text(int column) {
            return cell(column).text();
        }

        boolean isBlank() {
            return cells.stream().allMatch(Cell::isBlank);
        }
    }

    /// One cell.
    ///
    /// @param text without outer spaces; a number plain, a day as 2026-05-03
    /// @param number null when it is no number
    /// @param day null when it is no day
    /// @param format of the number, blank when none is known
    /// @param formula blank when there is none
    /// @param computed whether the value was computed here because none was stored
    record Cell(
            String text,
            @Nullable BigDecimal number,
            @Nullable LocalDate day,
            String format,
            String formula,
            boolean computed) {
        static final Cell BLANK = new Cell("", null, null, "", "", false);

        static Cell of(String text) {
            return text.isBlank() ? BLANK : new Cell(text.strip(), null, null, "", "", false);
        }

        boolean isBlank() {
            return text.isEmpty() && formula.isEmpty();
        }

        /// A formula whose value is neither stored nor plain enough to be computed.
        boolean isOpen() {
            return text.isEmpty() && !formula.isEmpty();
        }
    }

    /// A column's letters as spreadsheets show them.
    static String letters(int column) {
        String letters = "";
        int rest = column;
        while (rest >= 0) {
            letters = (char) ('A' + rest % 26) + letters;
            rest = rest / 26 - 1;
        }
        return letters;
    }
}
