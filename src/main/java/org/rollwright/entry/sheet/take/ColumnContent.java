package org.rollwright.entry.sheet.take;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;

/// What the cells of a column say of it. Immutable.
final class ColumnContent {
    private static final Set<String> MANY = Set.of("note", "find", "finds-text", "unread", "left");

    private final As as;
    private final Lexicon words;

    ColumnContent(As as, Lexicon words) {
        this.as = as;
        this.words = words;
    }

    /// Each field once; headings with two meanings settled by what stands below; columns without a heading read by
    /// their content where that is plain.
    List<Column> settled(Grid grid, int heading, int behind, List<Column> block) {
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
            if (column.is("number") && as == As.COINS && !has(columns, "quantity") && counts(cells)) {
                columns.set(i, column.as("quantity", Column.How.CONTENT));
            } else if (column.is("day-or-year")) {
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
                if (column.is("amount")) {
                    columns.set(i, column.as("left:amount", column.how()));
                    continue;
                }
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

    /// Whether small numbers come again and again, as counts do and numbers of rows do not.
    private static boolean counts(List<Grid.Cell> cells) {
        long different = cells.stream().map(Grid.Cell::text).distinct().count();
        return cells.size() >= 4
                && different * 10 <= cells.size() * 6L
                && share(cells, cell -> cell.text().matches("[0-9]{1,3}")) >= 0.9;
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

    boolean isDay(Grid.Cell cell) {
        Days.Read read = Days.read(cell, Days.Order.UNKNOWN);
        return (read instanceof Days.Read.Known known && known.iso().length() == 10)
                || read instanceof Days.Read.TwoWays
                || read instanceof Days.Read.NoYear;
    }

    private boolean isGrade(String text) {
        Grades grades = Grades.read(text, words);
        return text.matches(".*\\p{L}.*")
                && !grades.grade().isEmpty()
                && grades.rest().isEmpty();
    }
}
