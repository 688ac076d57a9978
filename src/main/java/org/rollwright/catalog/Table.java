package org.rollwright.catalog;

import static org.rollwright.text.Texts.t;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.rollwright.coin.Limits;
import org.rollwright.coin.Refusal;

/// One CSV file while it is read: hands out rows and collects what is wrong with them.
public final class Table {
    private final NamedText file;
    private final List<RowProblem> problems = new ArrayList<>();
    private final List<Row> rows = new ArrayList<>();

    /// Where the rows come from.
    public enum From {
        /// A file that somebody may have written with a spreadsheet program: bounded, and read as one.
        FILE,
        /// The record, which is read as it is.
        RECORD
    }

    private final From from;
    /// What a cell is called, asked for once for tens of thousands of them.
    private final String cell = t("catalog.the-cell");
    private final Map<String, Integer> columnOf = new HashMap<>();

    /// @param columns every one of them must be in the header row
    public Table(NamedText file, List<String> columns) {
        this(file, columns, From.FILE);
    }

    /// @param columns every one of them must be in the header row
    public Table(NamedText file, List<String> columns, From from) {
        this.file = file;
        this.from = from;
        read(columns);
    }

    private void read(List<String> columns) {
        try (CsvReader<NamedCsvRecord> reader = CsvReader.builder().ofNamedCsvRecord(stripByteOrderMark(file.text()))) {
            boolean first = true;
            for (NamedCsvRecord record : reader) {
                if (first) {
                    first = false;
                    for (int i = 0; i < record.getHeader().size(); i++) {
                        columnOf.putIfAbsent(record.getHeader().get(i), i);
                    }
                    for (String column : columns) {
                        if (!record.getHeader().contains(column)) {
                            problem(
                                    1,
                                    column,
                                    t("catalog.the-column-is-missing"),
                                    t("catalog.the-header-row-must-be", String.join(",", columns)));
                        }
                    }
                    if (!problems.isEmpty()) {
                        return;
                    }
                }
                if (record.getFieldCount() != record.getHeader().size()) {
                    problem(
                            record.getStartingLineNumber(),
                            "",
                            t("catalog.the-row-has-cells", record.getFieldCount()),
                            t("catalog.cells-expected", record.getHeader().size()));
                } else if (from == From.RECORD || isBounded(record)) {
                    rows.add(new Row(record));
                }
            }
        } catch (CsvParseException e) {
            problem(1, "", t("catalog.not-csv", e.getMessage()), t("catalog.save-as-utf8"));
        } catch (java.io.IOException e) {
            throw new java.io.UncheckedIOException("reading from memory", e);
        }
    }

    private boolean isBounded(NamedCsvRecord record) {
        for (int i = 0; i < record.getFieldCount(); i++) {
            Optional<Refusal> flaw = Limits.text(cell, record.getField(i), Limits.WORDS);
            if (flaw.isPresent()) {
                problem(record.getStartingLineNumber(), record.getHeader().get(i), flaw.get());
                return false;
            }
        }
        return true;
    }

    private static String stripByteOrderMark(String text) {
        return text.startsWith("\uFEFF") ? text.substring(1) : text;
    }

    public List<Row> rows() {
        return rows;
    }

    public List<RowProblem> problems() {
        return problems;
    }

    private void problem(long line, String column, String wrong, String right) {
        problem(line, column, new Refusal(wrong, right));
    }

    private void problem(long line, String column, Refusal flaw) {
        problems.add(new RowProblem(file.name(), line, column, flaw));
    }

    /// A row. Every getter that finds a cell unusable notes the problem and answers empty.
    public final class Row {
        private final NamedCsvRecord record;

        private Row(NamedCsvRecord record) {
            this.record = record;
        }

        public String text(String column) {
            Integer at = columnOf.get(column);
            String text = at == null ? "" : record.getField(at);
            return from == From.FILE ? SheetCell.in(text) : text.strip();
        }

        public Optional<String> required(String column, String example) {
            String value = text(column);
            if (value.isEmpty()) {
                refuse(column, t("catalog.the-cell-is-empty"), t("catalog.write", example));
                return Optional.empty();
            }
            return Optional.of(value);
        }

        public List<String> words(String column) {
            String cell = text(column);
            return cell.isEmpty()
                    ? List.of()
                    : Arrays.stream(cell.split(";"))
                            .map(String::strip)
                            .filter(word -> !word.isEmpty())
                            .toList();
        }

        public OptionalInt wholeNumber(String column, int least, int most) {
            OptionalLong value = longNumber(column, least, most);
            return value.isPresent() ? OptionalInt.of((int) value.getAsLong()) : OptionalInt.empty();
        }

        OptionalLong longNumber(String column, long least, long most) {
            String value = text(column);
            try {
                long number = Long.parseLong(value);
                if (number >= least && number <= most) {
                    return OptionalLong.of(number);
                }
            } catch (NumberFormatException e) {
                // falls through to the refusal, which quotes the cell
            }
            refuse(column, t("catalog.not-allowed", value), t("catalog.whole-form", least, most));
            return OptionalLong.empty();
        }

        public OptionalDouble positive(String column) {
            String value = text(column);
            try {
                double number = Double.parseDouble(value);
                if (number > 0 && !Double.isInfinite(number)) {
                    return OptionalDouble.of(number);
                }
            } catch (NumberFormatException e) {
                // falls through to the refusal, which quotes the cell
            }
            refuse(column, t("catalog.not-allowed", value), t("catalog.positive-form"));
            return OptionalDouble.empty();
        }

        public void refuse(String column, String wrong, String right) {
            problem(record.getStartingLineNumber(), column, wrong, right);
        }

        public long line() {
            return record.getStartingLineNumber();
        }
    }
}
