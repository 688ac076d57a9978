package org.rollwright.entry.sheet.take;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/// Where tables begin on a sheet, and what their columns are.
final class TableFinder {
    /// A table: its rows lie behind the heading line and before the last.
    ///
    /// @param heading place of the heading line in the grid, -1 when it has none
    /// @param behind place behind its last line
    /// @param side columns beside the table that belong to something else
    record Found(int heading, int behind, List<Column> columns, Set<Integer> side) {
        Optional<Column> column(String field) {
            return columns.stream().filter(column -> column.is(field)).findFirst();
        }

        List<Column> columns(String field) {
            return columns.stream().filter(column -> column.is(field)).toList();
        }
    }

    private static final Set<String> COIN_CORE = Set.of(
            "coin", "denomination", "value-or-denomination", "year", "day-or-year", "grade", "country", "kind", "mint");
    private static final Set<String> BOX_CORE = Set.of("date", "bank", "denomination", "amount", "rolls", "coins");
    private static final int MOST_TABLES = 200;

    private final As as;
    private final Lexicon words;
    private final Headings heads;
    private final ColumnContent content;

    /// @param said what headings mean by the hunter's word, by [Words#key] of the heading
    TableFinder(As as, Lexicon words, Map<String, String> said) {
        this.as = as;
        this.words = words;
        this.heads = new Headings(as, words, said);
        this.content = new ColumnContent(as, words);
    }

    List<Found> tables(Grid grid) {
        List<Integer> headings = new ArrayList<>();
        for (int i = 0; i < grid.lines().size() && headings.size() < MOST_TABLES; i++) {
            if (isHeading(grid.lines().get(i))) {
                headings.add(i);
            }
        }
        for (int i = 0; i < grid.lines().size() && headings.isEmpty(); i++) {
            if (isLikeHeading(grid.lines().get(i))) {
                headings.add(i);
            }
        }
        List<Found> tables = new ArrayList<>();
        for (int h = 0; h < headings.size(); h++) {
            int behind =
                    h + 1 < headings.size() ? headings.get(h + 1) : grid.lines().size();
            tables.addAll(blocks(grid, headings.get(h), behind));
        }
        if (tables.isEmpty() && !grid.lines().isEmpty()) {
            List<Column> columns = content.settled(grid, -1, grid.lines().size(), unnamed(grid));
            if (core(columns) >= 2) {
                tables.add(new Found(-1, grid.lines().size(), columns, Set.of()));
            }
        }
        return tables;
    }

    private static List<Column> unnamed(Grid grid) {
        int width = grid.lines().stream()
                .mapToInt(line -> line.cells().size())
                .max()
                .orElse(0);
        List<Column> columns = new ArrayList<>();
        for (int c = 0; c < width; c++) {
            columns.add(new Column(
                    c, "", "unread", "", Column.How.UNREAD, grid.hiddenColumns().contains(c)));
        }
        return columns;
    }

    private boolean isHeading(Grid.Line line) {
        int filled = 0;
        int known = 0;
        int sure = 0;
        Set<String> core = new HashSet<>();
        for (int c = 0; c < line.cells().size(); c++) {
            Grid.Cell cell = line.cell(c);
            if (cell.isBlank()) {
                continue;
            }
            filled++;
            if (cell.day() != null || !cell.formula().isEmpty() || cell.text().length() > 60) {
                return false;
            }
            boolean counted = cell.text().matches("[~$]?[0-9][0-9.,/-]* .*")
                    && words.exact("find", cell.text()).isEmpty();
            if (counted || (content.isDay(cell) && !cell.text().matches("[0-9]{4}"))) {
                return false;
            }
            Column column = heads.column(c, cell.text(), "", false);
            boolean number = cell.number() != null || cell.text().matches("(?=.*[0-9])[0-9.,$€£ ]+");
            if (number && !column.is("find")) {
                return false;
            }
            if (!column.is("unread")) {
                known++;
                sure += column.how() == Column.How.PART_OF_HEADING ? 0 : 1;
            }
            if (isCore(column.field()) && column.how() != Column.How.PART_OF_HEADING) {
                core.add(column.field());
            }
        }
        // one column that describes the coin, and three more that are known beyond doubt
        boolean described = filled >= 3 && !core.isEmpty() && sure >= 3 && known * 2 >= filled;
        boolean pair =
                as == As.COINS && filled == 2 && core.size() == 2 && (core.contains("year") || core.contains("grade"));
        return (filled >= 3 && core.size() >= 2 && known * 2 >= filled) || described || pair;
    }

    /// Where no line is plainly one of headings: words only, half of them known in part, one of them of what matters.
    private boolean isLikeHeading(Grid.Line line) {
        List<Grid.Cell> cells =
                line.cells().stream().filter(cell -> !cell.isBlank()).toList();
        if (cells.size() < 3
                || cells.stream()
                        .anyMatch(
                                cell -> cell.text().length() > 40 || cell.text().matches(".*[0-9].*"))) {
            return false;
        }
        List<Column> columns = cells.stream()
                .map(cell -> heads.column(0, cell.text(), "", false))
                .filter(column -> !column.is("unread"))
                .toList();
        return columns.size() * 2 >= cells.size() && core(columns) >= 1 && columns.size() >= 2;
    }

    private boolean isCore(String field) {
        return (as == As.COINS ? COIN_CORE : BOX_CORE).contains(field);
    }

    private long core(List<Column> columns) {
        return columns.stream()
                .map(Column::field)
                .filter(this::isCore)
                .distinct()
                .count();
    }

    /// The tables under one heading line: parted by columns without heading and content, and where headings begin
    /// again.
    private List<Found> blocks(Grid grid, int heading, int behind) {
        Grid.Line line = grid.lines().get(heading);
        Grid.Line above = heading > 0 ? grid.lines().get(heading - 1) : null;
        int width = grid.lines().subList(heading, behind).stream()
                .mapToInt(one -> one.cells().size())
                .max()
                .orElse(0);
        List<List<Column>> blocks = new ArrayList<>();
        List<Column> block = new ArrayList<>();
        String group = "";
        for (int c = 0; c < width; c++) {
            int at = c;
            boolean empty = line.text(c).isEmpty()
                    && grid.lines().subList(heading + 1, behind).stream()
                            .allMatch(one -> one.cell(at).isBlank());
            if (above != null && !above.text(c).isEmpty()) {
                group = above.text(c);
            }
            Column column =
                    heads.column(c, line.text(c), group, grid.hiddenColumns().contains(c));
            boolean again = !column.heading().isEmpty()
                    && isCore(column.field())
                    && block.size() >= 3
                    && block.getFirst().heading().equalsIgnoreCase(column.heading());
            if ((empty || again) && !block.isEmpty()) {
                blocks.add(block);
                block = new ArrayList<>();
            }
            if (!empty) {
                block.add(column);
            }
        }
        if (!block.isEmpty()) {
            blocks.add(block);
        }
        if (as == As.COINS) {
            unglue(grid, heading, behind, blocks);
        }
        List<List<Column>> settled = blocks.stream()
                .map(one -> content.settled(grid, heading, behind, one))
                .toList();
        long best = settled.stream().mapToLong(this::core).max().orElse(0);
        List<Found> found = new ArrayList<>();
        boolean first = true;
        for (List<Column> one : settled) {
            long core = core(one);
            // a table of its own beside the first has a row of headings of its own worth, too
            if ((core == best && first) || (core >= 3 && core * 2 > best)) {
                Set<Integer> side = new HashSet<>();
                if (first) {
                    for (int c = 0; c < width; c++) {
                        side.add(c);
                    }
                    settled.stream()
                            .filter(other -> other.equals(one) || (core(other) >= 3 && core(other) * 2 > best))
                            .flatMap(List::stream)
                            .forEach(column -> side.remove(column.index()));
                    // what is glued to the table without a column between belongs to it
                    first = false;
                }
                found.add(new Found(heading, behind, one, side));
            }
        }
        return found;
    }

    /// A tally right beside a table without a column between: words and figures in its last two columns, in the same
    /// few rows.
    private static void unglue(Grid grid, int heading, int behind, List<List<Column>> blocks) {
        List<Column> block = blocks.getLast();
        int width = block.size();
        if (width < 6) {
            return;
        }
        int label = block.get(width - 2).index();
        int figure = block.getLast().index();
        int rows = 0;
        int both = 0;
        for (Grid.Line line : grid.lines().subList(heading + 1, behind)) {
            boolean word = !line.cell(label).isBlank();
            boolean number = !line.cell(figure).isBlank();
            if (word != number) {
                return;
            }
            rows += line.isBlank() ? 0 : 1;
            both += word ? 1 : 0;
            boolean figures =
                    line.cell(figure).number() != null || line.text(figure).matches("[0-9.,]*");
            if (word && (line.cell(label).number() != null || !figures)) {
                return;
            }
        }
        Set<String> loose = Set.of("unread", "kind", "coin", "quantity", "denomination", "number");
        if (both >= 1
                && both * 10 <= rows * 6
                && loose.contains(block.get(width - 2).field())
                && loose.contains(block.getLast().field())) {
            blocks.set(blocks.size() - 1, new ArrayList<>(block.subList(0, width - 2)));
            blocks.add(new ArrayList<>(block.subList(width - 2, width)));
        }
    }
}
