package org.rollwright.entry.sheet.take;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/// Signs and words for `the same as above` in rows of coins. Used by one thread.
final class Dittos {
    private static final Set<String> NEVER = Set.of("number", "note", "mint", "unread", "quantity");

    private final Lexicon words;
    private final Map<Integer, Grid.Cell> above = new HashMap<>();

    Dittos(Lexicon words) {
        this.words = words;
    }

    /// The line with what its signs stand for; what it says is remembered for the next.
    Grid.Line filled(Grid.Line line, TableFinder.Found table) {
        List<Grid.Cell> cells = new ArrayList<>(line.cells());
        for (Column column : table.columns()) {
            Grid.Cell cell = line.cell(column.index());
            if (NEVER.contains(column.field()) || cell.text().isEmpty()) {
                continue;
            }
            boolean sign = cell.text().matches("[\"'〃″]{1,2}|'{2}");
            if (sign
                    || (cell.text().length() > 2
                            && words.exact("same", cell.text()).isPresent())) {
                cells.set(column.index(), above.getOrDefault(column.index(), Grid.Cell.BLANK));
            } else {
                above.put(column.index(), cell);
            }
        }
        return new Grid.Line(line.number(), line.hidden(), line.wide(), cells);
    }
}
