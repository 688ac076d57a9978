package org.rollwright.entry.sheet.take;

import java.math.BigDecimal;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/// Lines that sum up others: by their words, by their formulas, or because their figures are the sums of what stands
/// above. Used by one thread.
final class Totals {
    private static final Pattern FIGURE_FIRST = Pattern.compile("[0-9]");

    private static final Pattern REFERENCE = Pattern.compile("(?<![A-Za-z])\\$?[A-Z]{1,3}\\$?([0-9]{1,7})(?![0-9(])");

    private static final Set<String> BRIEF = Set.of("all", "tot", "media", "som", "sum");

    private final As as;
    private final Lexicon words;

    /// Sums of the columns of a table since its beginning and since the last total.
    private final Map<Integer, BigDecimal> all = new HashMap<>();

    private final Map<Integer, BigDecimal> largest = new HashMap<>();
    private final Map<Integer, BigDecimal> since = new HashMap<>();

    Totals(As as, Lexicon words) {
        this.as = as;
        this.words = words;
    }

    /// Whether a line calls itself a total.
    ///
    /// @param table null above the first table
    boolean named(Grid.Line line, TableFinder.@Nullable Found table) {
        Set<Integer> notes = new HashSet<>();
        boolean dated = false;
        if (table != null) {
            table.columns("note").forEach(column -> notes.add(column.index()));
            table.columns("finds-text").forEach(column -> notes.add(column.index()));
            Stream<String> own = as == As.COINS ? Stream.of("year", "grade", "country") : Stream.of("date");
            dated = own.flatMap(field -> table.column(field).stream())
                    .anyMatch(column -> !line.cell(column.index()).isBlank()
                            && words.find(line.text(column.index()), "total").isEmpty());
            if (dated && as == As.COINS) {
                return false;
            }
            if (dated) {
                // Q1 may be the first box of quarters
                table.columns("number").forEach(column -> notes.add(column.index()));
            }
        }
        Set<Integer> counts = new HashSet<>();
        if (table != null) {
            table.columns("find").forEach(column -> counts.add(column.index()));
        }
        for (int c = 0; c < line.cells().size(); c++) {
            String text = line.text(c);
            int count = Words.of(text).size();
            // `41 total` where finds are counted is what one box gave
            if (counts.contains(c) && FIGURE_FIRST.matcher(text).lookingAt()) {
                continue;
            }
            if (text.isEmpty()
                    || notes.contains(c)
                    || (table != null && table.side().contains(c))
                    || count > 6) {
                continue;
            }
            for (Lexicon.Hit hit : words.find(text, "total")) {
                boolean whole = hit.first() == 0 && hit.behind() == count;
                boolean phrase = hit.first() == 0 || hit.behind() == count;
                boolean brief = hit.term().tokens().size() == 1
                        && BRIEF.contains(hit.term().tokens().getFirst());
                // a box with a day of its own may be of a bank with such a word in its name
                if (phrase && ((!brief && !dated) || whole)) {
                    return true;
                }
            }
        }
        return false;
    }

    /// Whether all that a line says beside one text are formulas over other lines.
    static boolean computed(Grid.Line line, List<Column> read) {
        int texts = 0;
        int sums = 0;
        for (Column column : read) {
            Grid.Cell cell = line.cell(column.index());
            if (cell.formula().isEmpty()) {
                if (cell.number() != null || cell.day() != null || cell.text().matches("[0-9.,$%]+")) {
                    return false;
                }
                texts++;
            } else if (overOthers(cell.formula(), line.number())) {
                sums++;
            } else {
                return false;
            }
        }
        return texts <= 1 && sums >= 1;
    }

    private static boolean overOthers(String formula, long row) {
        Matcher reference = REFERENCE.matcher(formula);
        boolean others = false;
        while (reference.find()) {
            if (Long.parseLong(reference.group(1)) == row) {
                return false;
            }
            others = true;
        }
        return others;
    }

    /// Whether the figures of a line without anything that tells a thing are sums of those above.
    boolean sums(Grid.Line line, List<Column> read) {
        int figures = 0;
        boolean overAll = true;
        boolean large = true;
        boolean overLast = true;
        for (Column column : read) {
            BigDecimal figure = figure(line.cell(column.index()));
            if (figure == null) {
                if (as == As.COINS || !column.is("note")) {
                    return false;
                }
                continue;
            }
            figures++;
            BigDecimal most = largest.get(column.index());
            large &= most != null && figure.compareTo(most) >= 0;
            overAll &= figure.compareTo(all.getOrDefault(column.index(), BigDecimal.ONE.negate())) == 0;
            overLast &= figure.compareTo(since.getOrDefault(column.index(), BigDecimal.ONE.negate())) == 0;
        }
        // without a day, a bank and a number, figures none of which is below the largest above are sums of something
        return figures >= 2 && (overAll || overLast || (as == As.BOXES && large));
    }

    /// Takes note of the figures of a thing.
    void add(Grid.Line line, List<Column> read) {
        for (Column column : read) {
            BigDecimal figure = figure(line.cell(column.index()));
            if (figure != null) {
                largest.merge(column.index(), figure, BigDecimal::max);
                all.merge(column.index(), figure, BigDecimal::add);
                since.merge(column.index(), figure, BigDecimal::add);
            }
        }
    }

    /// A total was read, or a table begins.
    void again(boolean table) {
        since.clear();
        if (table) {
            all.clear();
            largest.clear();
        }
    }

    private static @Nullable BigDecimal figure(Grid.Cell cell) {
        if (cell.number() != null) {
            return cell.number();
        }
        String plain = cell.text().replaceAll("[$€£ ]", "");
        if (plain.matches("[0-9]{1,3}(,[0-9]{3})+(\\.[0-9]{2})?")) {
            plain = plain.replace(",", "");
        }
        return plain.matches("[0-9]{1,9}([.,][0-9]{1,2})?") ? new BigDecimal(plain.replace(',', '.')) : null;
    }
}
