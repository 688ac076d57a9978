package org.rollwright.entry.sheet.take;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/// Computes plain formulas whose value a file does not hold: sums, products, counts, references.
///
/// What is not plain stays uncomputed and is named. Used by one thread.
final class Formulas {
    private static final Pattern REFERENCE = Pattern.compile("\\$?([A-Z]{1,3})\\$?([0-9]{1,7})");
    private static final int MOST_CELLS = 200_000;
    private static final int DEEPEST = 400;

    /// Ends a computation that is not plain.
    private static final class NotPlain extends RuntimeException {
        private static final long serialVersionUID = 1L;

        NotPlain() {
            super("not plain", null, false, false);
        }
    }

    /// Where a cell is: sheet, column from 0, row from 1.
    private record Place(String sheet, int column, long row) {}

    private final Map<Place, Grid.Cell> cells = new HashMap<>();
    private final Map<Place, Optional<Object>> known = new HashMap<>();
    private final Set<Place> open = new HashSet<>();
    private int looked;

    private Formulas() {}

    /// The same sheets, with values in the cells whose formula could be computed.
    static List<Grid> computed(List<Grid> grids) {
        boolean needed = grids.stream()
                .flatMap(grid -> grid.lines().stream())
                .flatMap(line -> line.cells().stream())
                .anyMatch(Grid.Cell::isOpen);
        if (!needed) {
            return grids;
        }
        Formulas formulas = new Formulas();
        for (Grid grid : grids) {
            for (Grid.Line line : grid.lines()) {
                for (int c = 0; c < line.cells().size(); c++) {
                    if (!line.cell(c).isBlank()) {
                        formulas.cells.put(new Place(sheet(grid.name()), c, line.number()), line.cell(c));
                    }
                }
            }
        }
        List<Grid> done = new ArrayList<>();
        for (Grid grid : grids) {
            List<Grid.Line> lines = new ArrayList<>();
            for (Grid.Line line : grid.lines()) {
                List<Grid.Cell> row = new ArrayList<>();
                for (int c = 0; c < line.cells().size(); c++) {
                    Grid.Cell cell = line.cell(c);
                    row.add(cell.isOpen() ? formulas.filled(new Place(sheet(grid.name()), c, line.number())) : cell);
                }
                lines.add(new Grid.Line(line.number(), line.hidden(), line.wide(), row));
            }
            done.add(new Grid(grid.name(), grid.hidden(), lines, grid.hiddenColumns()));
        }
        return done;
    }

    private static String sheet(String name) {
        return name.toLowerCase(Locale.ROOT);
    }

    private Grid.Cell filled(Place place) {
        Grid.Cell cell = cells.getOrDefault(place, Grid.Cell.BLANK);
        Object value = value(place);
        return switch (value) {
            case BigDecimal number ->
                new Grid.Cell(
                        number.setScale(6, RoundingMode.HALF_UP)
                                .stripTrailingZeros()
                                .toPlainString(),
                        number,
                        null,
                        cell.format(),
                        cell.formula(),
                        true);
            case String text -> new Grid.Cell(text.strip(), null, null, "", cell.formula(), true);
            case null, default -> cell;
        };
    }

    private @Nullable Object value(Place place) {
        Optional<Object> before = known.get(place);
        if (before != null) {
            return before.orElse(null);
        }
        Grid.Cell cell = cells.get(place);
        if (cell == null) {
            return "";
        }
        if (!cell.isOpen()) {
            return cell.number() == null ? cell.text() : cell.number();
        }
        if (!open.add(place) || open.size() > DEEPEST) {
            return null;
        }
        Object value;
        try {
            value = new Reader(cell.formula(), place.sheet()).whole();
        } catch (NotPlain | ArithmeticException e) {
            value = null;
        }
        open.remove(place);
        known.put(place, Optional.ofNullable(value));
        return value;
    }

    /// Brackets and signs that may stand inside each other.
    private static final int DEEPEST_BRACKETS = 100;

    /// One formula while it is read.
    private final class Reader {
        private int deep;
        private final String text;
        private final String sheet;
        private int at;

        Reader(String formula, String sheet) {
            this.text = formula.startsWith("=") ? formula.substring(1) : formula;
            this.sheet = sheet;
        }

        Object whole() {
            Object value = comparison();
            skip();
            if (at < text.length()) {
                throw new NotPlain();
            }
            return value;
        }

        private void skip() {
            while (at < text.length() && Character.isWhitespace(text.charAt(at))) {
                at++;
            }
        }

        private boolean eat(String what) {
            skip();
            if (text.startsWith(what, at)) {
                at += what.length();
                return true;
            }
            return false;
        }

        private Object comparison() {
            Object left = joined();
            skip();
            return left;
        }

        private Object joined() {
            Object left = sum();
            while (eat("&")) {
                left = words(left) + words(sum());
            }
            return left;
        }

        private Object sum() {
            Object left = product();
            while (true) {
                if (eat("+")) {
                    left = number(left).add(number(product()));
                } else if (eat("-")) {
                    left = number(left).subtract(number(product()));
                } else {
                    return left;
                }
            }
        }

        private Object product() {
            Object left = signed();
            while (true) {
                if (eat("*")) {
                    left = number(left).multiply(number(signed()));
                } else if (eat("/")) {
                    BigDecimal by = number(signed());
                    if (by.signum() == 0) {
                        throw new NotPlain();
                    }
                    left = number(left).divide(by, MathContext.DECIMAL64);
                } else {
                    return left;
                }
            }
        }

        private Object signed() {
            // brackets and signs inside each other, as no keeper writes them
            if (++deep > DEEPEST_BRACKETS) {
                throw new NotPlain();
            }
            try {
                return signedOnce();
            } finally {
                deep--;
            }
        }

        private Object signedOnce() {
            if (eat("-")) {
                return number(signed()).negate();
            }
            if (eat("+")) {
                return signed();
            }
            Object value = atom();
            return eat("%") ? number(value).movePointLeft(2) : value;
        }

        private Object atom() {
            skip();
            if (at >= text.length()) {
                throw new NotPlain();
            }
            char c = text.charAt(at);
            if (c == '(') {
                at++;
                Object inner = comparison();
                if (!eat(")")) {
                    throw new NotPlain();
                }
                return inner;
            }
            if (c == '"') {
                int end = text.indexOf('"', at + 1);
                if (end < 0) {
                    throw new NotPlain();
                }
                String words = text.substring(at + 1, end);
                at = end + 1;
                return words;
            }
            Matcher digits = Pattern.compile("[0-9]{1,15}(\\.[0-9]{1,15})?").matcher(text);
            if (digits.region(at, text.length()).lookingAt()) {
                at = digits.end();
                return new BigDecimal(digits.group());
            }
            Matcher called = Pattern.compile("([A-Z][A-Z0-9.]*)\\s*\\(").matcher(text.toUpperCase(Locale.ROOT));
            if (called.region(at, text.length()).lookingAt()) {
                at = called.end();
                return call(called.group(1));
            }
            List<Object> range = range();
            if (range.size() != 1) {
                throw new NotPlain();
            }
            return range.getFirst();
        }

        private Object call(String name) {
            List<List<Object>> arguments = new ArrayList<>();
            skip();
            if (!eat(")")) {
                do {
                    arguments.add(argument());
                } while (eat(",") || eat(";"));
                if (!eat(")")) {
                    throw new NotPlain();
                }
            }
            List<Object> all = arguments.stream().flatMap(List::stream).toList();
            List<BigDecimal> numbers = all.stream()
                    .filter(BigDecimal.class::isInstance)
                    .map(BigDecimal.class::cast)
                    .toList();
            BigDecimal sum = numbers.stream().reduce(BigDecimal.ZERO, BigDecimal::add);
            return switch (name) {
                case "SUM" -> sum;
                case "COUNT" -> BigDecimal.valueOf(numbers.size());
                case "COUNTA" ->
                    BigDecimal.valueOf(
                            all.stream().filter(value -> !"".equals(value)).count());
                case "AVERAGE" ->
                    numbers.isEmpty() ? fail() : sum.divide(BigDecimal.valueOf(numbers.size()), MathContext.DECIMAL64);
                case "MAX" -> numbers.stream().reduce(BigDecimal::max).orElse(BigDecimal.ZERO);
                case "MIN" -> numbers.stream().reduce(BigDecimal::min).orElse(BigDecimal.ZERO);
                case "PRODUCT" -> numbers.stream().reduce(BigDecimal.ONE, BigDecimal::multiply);
                case "ABS" -> only(numbers, all).abs();
                case "INT" -> only(numbers, all).setScale(0, RoundingMode.FLOOR);
                case "ROUND" ->
                    numbers.size() == 2
                            ? numbers.getFirst()
                                    .setScale(Math.clamp(numbers.get(1).longValue(), -10, 10), RoundingMode.HALF_UP)
                            : fail();
                case "CONCATENATE", "CONCAT" -> all.stream().map(Reader::words).reduce("", String::concat);
                default -> fail();
            };
        }

        private static BigDecimal only(List<BigDecimal> numbers, List<Object> all) {
            if (numbers.size() != 1 || all.size() != 1) {
                throw new NotPlain();
            }
            return numbers.getFirst();
        }

        private static BigDecimal fail() {
            throw new NotPlain();
        }

        private List<Object> argument() {
            int before = at;
            try {
                List<Object> range = range();
                skip();
                if (at < text.length() && ",;)".indexOf(text.charAt(at)) >= 0) {
                    return range;
                }
            } catch (NotPlain e) {
                // no range: read once more as an expression
            }
            at = before;
            return List.of(comparison());
        }

        /// A reference, or a range of them, with the sheet in front where it is another.
        private List<Object> range() {
            skip();
            String of = sheet;
            Matcher other =
                    Pattern.compile("(?:'([^']{1,60})'|([\\p{L}0-9_.]{1,60}))!").matcher(text);
            if (other.region(at, text.length()).lookingAt()) {
                at = other.end();
                of = sheet(other.group(1) == null ? other.group(2) : other.group(1));
            }
            Matcher first = REFERENCE.matcher(text.toUpperCase(Locale.ROOT));
            if (!first.region(at, text.length()).lookingAt()) {
                throw new NotPlain();
            }
            at = first.end();
            int column = column(first.group(1));
            long row = Long.parseLong(first.group(2));
            int lastColumn = column;
            long lastRow = row;
            if (eat(":")) {
                Matcher last = REFERENCE.matcher(text.toUpperCase(Locale.ROOT));
                if (!last.region(at, text.length()).lookingAt()) {
                    throw new NotPlain();
                }
                at = last.end();
                lastColumn = column(last.group(1));
                lastRow = Long.parseLong(last.group(2));
            }
            looked += (int) Math.min(MOST_CELLS, Math.max(1, (lastRow - row + 1) * (lastColumn - column + 1L)));
            if (looked > MOST_CELLS) {
                throw new NotPlain();
            }
            List<Object> values = new ArrayList<>();
            for (long r = row; r <= lastRow; r++) {
                for (int c = column; c <= lastColumn; c++) {
                    Object value = value(new Place(of, c, r));
                    if (value == null) {
                        throw new NotPlain();
                    }
                    values.add(value);
                }
            }
            return values;
        }

        private static int column(String letters) {
            int column = 0;
            for (int i = 0; i < letters.length(); i++) {
                column = column * 26 + letters.charAt(i) - 'A' + 1;
            }
            return column - 1;
        }

        private static BigDecimal number(Object value) {
            return switch (value) {
                case BigDecimal number -> number;
                case String text when text.isBlank() -> BigDecimal.ZERO;
                case String text when text.matches("-?[0-9]{1,15}(\\.[0-9]{1,15})?") -> new BigDecimal(text);
                default -> throw new NotPlain();
            };
        }

        private static String words(Object value) {
            return value instanceof BigDecimal number
                    ? number.stripTrailingZeros().toPlainString()
                    : value.toString();
        }
    }
}
