package org.rollwright.entry.sheet.take;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;

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

    private static final Set<String> MANY = Set.of("note", "find", "finds-text", "unread", "left");

    /// Fields that are understood but not carried over.
    private static final Set<String> LEFT =
            Set.of("running", "hours", "returned", "yield", "wrap", "reference", "photo", "sold");

    private final As as;
    private final Lexicon words;
    private final Map<String, String> said;

    /// @param said what headings mean by the hunter's word, by [Words#key] of the heading
    TableFinder(As as, Lexicon words, Map<String, String> said) {
        this.as = as;
        this.words = words;
        this.said = said;
    }

    List<Found> tables(Grid grid) {
        List<Integer> headings = new ArrayList<>();
        for (int i = 0; i < grid.lines().size() && headings.size() < MOST_TABLES; i++) {
            if (isHeading(grid.lines().get(i))) {
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
            List<Column> columns = settled(grid, -1, grid.lines().size(), unnamed(grid));
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
            if (counted || (isDay(cell) && !cell.text().matches("[0-9]{4}"))) {
                return false;
            }
            Column column = column(c, cell.text(), "", false);
            boolean number = cell.number() != null || cell.text().matches("[0-9.,$€£ ]+");
            if (number && !column.is("find")) {
                return false;
            }
            if (!column.is("unread")) {
                known++;
            }
            if (isCore(column.field()) && column.how() != Column.How.PART_OF_HEADING) {
                core.add(column.field());
            }
        }
        boolean pair =
                as == As.COINS && filled == 2 && core.size() == 2 && (core.contains("year") || core.contains("grade"));
        return (filled >= 3 && core.size() >= 2 && known * 2 >= filled) || pair;
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
            Column column = column(c, line.text(c), group, grid.hiddenColumns().contains(c));
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
        List<List<Column>> settled =
                blocks.stream().map(one -> settled(grid, heading, behind, one)).toList();
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

    private Column column(int index, String heading, String group, boolean hidden) {
        if (heading.isBlank()) {
            return new Column(index, "", "unread", "", Column.How.UNREAD, hidden);
        }
        String own = said.get(Words.key(heading));
        if (own != null) {
            return own.startsWith("find:")
                    ? new Column(index, heading, "find", own.substring(5), Column.How.SAID, hidden)
                    : new Column(index, heading, own, "", Column.How.SAID, hidden);
        }
        if (as == As.BOXES && heading.matches("(90|80|40|35)s?")) {
            return new Column(index, heading, "find", heading.substring(0, 2) + "% silver", Column.How.HEADING, hidden);
        }
        String bare = heading.replaceAll("\\([^)]*\\)|\\[[^]]*\\]", " ")
                .replaceAll("[:*]+", " ")
                .strip();
        for (String text : List.of(heading, bare)) {
            Optional<String> field = field(text);
            if (field.isPresent() && !isKindHere(text, field.get())) {
                return new Column(index, heading, left(field.get()), "", Column.How.HEADING, hidden);
            }
            if (as == As.BOXES) {
                Optional<String> kind =
                        kind(text).or(() -> group.isEmpty() ? Optional.empty() : kind(group + " " + text));
                if (kind.isPresent()) {
                    return new Column(index, heading, "find", kind.get(), Column.How.HEADING, hidden);
                }
            }
        }
        return inPart(index, heading, bare.isEmpty() ? heading : bare, hidden);
    }

    /// A word that names a column and a kind, such as `error`, is a kind where finds are counted.
    private boolean isKindHere(String text, String field) {
        return as == As.BOXES && field.equals("finds-text") && kind(text).isPresent();
    }

    private static String left(String field) {
        return LEFT.contains(field) ? "left:" + field : field;
    }

    private Optional<String> field(String text) {
        List<String> fields = words.all("heading", text);
        String own = as.name().toLowerCase(Locale.ROOT) + ".";
        return fields.stream()
                .filter(field -> field.startsWith(own) || field.startsWith("both."))
                .map(field -> field.substring(field.indexOf('.') + 1))
                .findFirst();
    }

    private static final Set<String> FILLERS = Set.of(
            "#", "count", "found", "qty", "of", "number", "no", "the", "nr", "ct", "cts", "cnt", "coins", "finds",
            "total", "how", "many", "kept", "aantal", "anzahl", "nb", "nombre");

    private Optional<String> kind(String text) {
        Optional<String> exact = words.exact("kind", text).or(() -> words.exact("find", text));
        if (exact.isPresent()) {
            return exact;
        }
        String rest = String.join(
                " ",
                Words.of(text).stream()
                        .map(Words.Token::text)
                        .filter(word -> !FILLERS.contains(word))
                        .toList());
        return words.exact("kind", rest).or(() -> words.exact("find", rest));
    }

    private Column inPart(int index, String heading, String bare, boolean hidden) {
        List<String> tokens = Words.of(heading).stream().map(Words.Token::text).toList();
        Predicate<List<String>> any = list -> list.stream().anyMatch(tokens::contains);
        if (as == As.BOXES) {
            boolean sums = any.test(List.of("running", "cum", "cumulative", "ytd"))
                    || heading.toLowerCase(Locale.ROOT).matches(".*(to date|so far).*");
            if (sums) {
                return new Column(index, heading, "left:running", "", Column.How.PART_OF_HEADING, hidden);
            }
            if (any.test(List.of("wt", "weight", "weighed", "gewicht", "poids", "peso"))
                    || (words.has(heading, "find") && !Weights.unit(heading).isEmpty())) {
                return new Column(index, heading, "grams", "", Column.How.PART_OF_HEADING, hidden);
            }
            if (tokens.contains("%")
                    && words.find(heading, "find").stream()
                            .noneMatch(hit -> hit.means().contains("%"))) {
                return new Column(index, heading, "left:yield", "", Column.How.PART_OF_HEADING, hidden);
            }
        }
        Column best = null;
        int longest = 0;
        for (Lexicon.Hit hit : words.find(bare, "heading")) {
            String text = bare.substring(hit.from(), hit.to());
            Optional<String> field = field(text);
            if (field.isPresent() && text.length() > longest && text.length() >= 4) {
                best = new Column(index, heading, left(field.get()), "", Column.How.PART_OF_HEADING, hidden);
                longest = text.length();
            }
        }
        if (as == As.BOXES && tokens.size() <= 4) {
            for (Lexicon.Hit hit : words.find(bare, "kind", "find")) {
                if (hit.to() - hit.from() >= Math.max(3, longest)) {
                    best = new Column(index, heading, "find", hit.means(), Column.How.PART_OF_HEADING, hidden);
                    longest = hit.to() - hit.from();
                }
            }
        }
        return best == null ? new Column(index, heading, "unread", "", Column.How.UNREAD, hidden) : best;
    }

    /// Each field once; headings with two meanings settled by what stands below; columns without a heading read by
    /// their content where that is plain.
    private List<Column> settled(Grid grid, int heading, int behind, List<Column> block) {
        List<Column> columns = new ArrayList<>(block);
        Map<Integer, List<Grid.Cell>> content = new HashMap<>();
        for (Column column : columns) {
            content.put(
                    column.index(),
                    grid.lines().subList(heading + 1, behind).stream()
                            .map(line -> line.cell(column.index()))
                            .filter(cell -> !cell.isBlank() && cell.formula().isEmpty())
                            .toList());
        }
        for (int i = 0; i < columns.size(); i++) {
            Column column = columns.get(i);
            List<Grid.Cell> cells = content.getOrDefault(column.index(), List.of());
            if (column.is("day-or-year")) {
                boolean years = share(cells, cell -> YearCell.isYear(cell.text())) >= 0.5;
                columns.set(i, column.as(years ? "year" : "acquired", column.how()));
            } else if (column.is("coins")
                    && share(cells, cell -> cell.text().matches("(?i).*(box|roll|[$]).*")) >= 0.3
                    && !has(columns, "amount")) {
                columns.set(i, column.as("amount", Column.How.CONTENT));
            } else if (column.is("value-or-denomination")) {
                boolean units = share(cells, cell -> cell.number() == null && hasUnit(cell.text())) >= 0.4;
                columns.set(i, column.as(units ? "denomination" : "worth", column.how()));
            } else if (column.is("denomination")
                    && as == As.COINS
                    && share(
                                    cells,
                                    cell -> cell.number() != null
                                            || (Money.currency(cell.text()).isEmpty() && !hasUnit(cell.text())))
                            > 0.9
                    && has(columns, "coin")
                    && !cells.isEmpty()) {
                columns.set(i, column.as("left:face", column.how()));
            } else if (column.is("acquired")
                    && as == As.COINS
                    && share(cells, cell -> cell.day() == null && YearCell.isCoinYear(cell.text())) >= 0.6
                    && !has(columns, "year")
                    && !has(columns, "day-or-year")) {
                columns.set(i, column.as("year", Column.How.CONTENT));
            } else if (column.is("place")
                    && as == As.COINS
                    && share(cells, cell -> words.exact("country", cell.text()).isPresent()) >= 0.7
                    && !has(columns, "country")) {
                columns.set(i, column.as("country", Column.How.CONTENT));
            }
        }
        Set<String> seen = new HashSet<>();
        for (int i = 0; i < columns.size(); i++) {
            Column column = columns.get(i);
            if (MANY.contains(column.field()) || column.field().startsWith("left:")) {
                continue;
            }
            if (!seen.add(column.field())) {
                boolean kind = column.is("coin") && !has(columns, "kind");
                columns.set(
                        i,
                        column.as(
                                kind ? "kind" : column.is("denomination") && !has(columns, "coin") ? "coin" : "unread",
                                column.how()));
                seen.add(kind ? "kind" : column.field());
            }
        }
        for (int i = 0; i < columns.size(); i++) {
            Column column = columns.get(i);
            if (column.is("unread")) {
                columns.set(i, byContent(column, content.getOrDefault(column.index(), List.of()), columns, i));
            }
        }
        return List.copyOf(columns);
    }

    private static boolean has(List<Column> columns, String field) {
        return columns.stream().anyMatch(column -> column.is(field));
    }

    private static double share(List<Grid.Cell> cells, Predicate<Grid.Cell> what) {
        return cells.isEmpty() ? 0 : (double) cells.stream().filter(what).count() / cells.size();
    }

    private boolean hasUnit(String text) {
        return words.has(text, "named") || words.has(text, "unit");
    }

    private Column byContent(Column column, List<Grid.Cell> cells, List<Column> columns, int place) {
        if (cells.size() < 2 || (!column.heading().isEmpty() && cells.size() < 4)) {
            return column;
        }
        String field = "";
        if (place == 0
                && !has(columns, "number")
                && share(
                                cells,
                                cell -> cell.text().matches("[#a-zA-Z]{0,2}[0-9]{1,4}[a-z]?\\.?")
                                        && !YearCell.isCoinYear(cell.text()))
                        >= 0.6) {
            field = "number";
        } else if (column.heading().isEmpty()
                || (column.how() == Column.How.UNREAD && column.heading().length() > 3)) {
            boolean headed = !column.heading().isEmpty();
            if (as == As.COINS) {
                if (share(cells, cell -> YearCell.isCoinYear(cell.text())) >= 0.7 && !has(columns, "year")) {
                    field = "year";
                } else if (share(
                                        cells,
                                        cell -> words.exact("country", cell.text())
                                                        .isPresent()
                                                && cell.text().length() > 1)
                                >= 0.7
                        && !has(columns, "country")) {
                    field = "country";
                } else if (share(cells, cell -> cell.number() == null && isGrade(cell.text())) >= 0.7
                        && !has(columns, "grade")) {
                    field = "grade";
                } else if (share(cells, cell -> cell.number() == null && hasUnit(cell.text())) >= 0.7
                        && !has(columns, "denomination")
                        && !has(columns, "coin")) {
                    field = "coin";
                } else if (!headed
                        && share(
                                        cells,
                                        cell -> cell.number() == null
                                                && !Money.currency(cell.text()).isEmpty()
                                                && cell.text().matches(".*[0-9].*"))
                                >= 0.6
                        && !has(columns, "paid")
                        && !has(columns, "worth")) {
                    field = "paid";
                }
            } else {
                if (share(cells, this::isDay) >= 0.7 && !has(columns, "date")) {
                    field = "date";
                } else if (share(cells, cell -> words.has(cell.text(), "named")) >= 0.7
                        && !has(columns, "denomination")) {
                    field = "denomination";
                } else if (!headed
                        && share(
                                        cells,
                                        cell -> cell.text()
                                                .matches(
                                                        "(?i).*\\b(bank|c\\.?u\\.?|credit union|savings|s&l|natl|trust)\\b.*"))
                                >= 0.4
                        && !has(columns, "bank")) {
                    field = "bank";
                } else if (!headed
                        && share(cells, cell -> cell.text().matches("[$] ?[0-9][0-9.,]*.*|.*\\bbox\\b.*")) >= 0.6
                        && !has(columns, "amount")) {
                    field = "amount";
                } else if (!headed
                        && share(cells, cell -> cell.text().matches("(?i)[0-9]+ ?(rolls?|rls?)\\b.*")) >= 0.6
                        && !has(columns, "rolls")) {
                    field = "rolls";
                } else if (!headed
                        && share(cells, cell -> cell.text().matches("(?i)[0-9.,]+ ?(kg|g|lbs?|oz|grams?)\\b.*")) >= 0.6
                        && !has(columns, "grams")) {
                    field = "grams";
                } else if (!headed
                        && share(
                                        cells,
                                        cell -> cell.number() == null
                                                && !words.find(cell.text(), "kind", "find", "nothing")
                                                        .isEmpty())
                                >= 0.5) {
                    field = "finds-text";
                }
            }
            if (field.isEmpty()
                    && !headed
                    && share(cells, cell -> cell.number() == null && cell.text().length() > 8) >= 0.5) {
                field = "note";
            }
        }
        return field.isEmpty() ? column : column.as(field, Column.How.CONTENT);
    }

    private boolean isDay(Grid.Cell cell) {
        Days.Read read = Days.read(cell, Days.Order.UNKNOWN);
        return (read instanceof Days.Read.Known known && known.iso().length() == 10)
                || read instanceof Days.Read.TwoWays
                || read instanceof Days.Read.NoYear;
    }

    private boolean isGrade(String text) {
        Grades grades = Grades.read(text, words);
        return !grades.grade().isEmpty() && grades.rest().isEmpty();
    }
}
