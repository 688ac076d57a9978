package org.rollwright.entry.sheet.take;

import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

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

    /// An answer to what was asked of a row.
    ///
    /// @param sheet name of the sheet, blank for the only one
    /// @param field a field of [As#fields], or [#SKIP] or [#TAKE]
    /// @param value what the field shall be; blank for none
    public record Answer(String sheet, long row, String field, String value) {
        /// The row shall not be taken.
        public static final String SKIP = "skip";

        /// The row shall be taken as it is shown, a duplicate as a thing of its own.
        public static final String TAKE = "take";

        private static final Pattern FORM =
                Pattern.compile("\\s*(?:(.+)!)?([0-9]{1,7})\\s+(?:(skip|take)|([a-z]+)\\s*=\\s*(.*))\\s*");

        /// Reads `12 mint=D`, `My coins!12 skip` or `12 take`.
        public static Optional<Answer> parse(String text) {
            Matcher form = FORM.matcher(text);
            if (!form.matches()) {
                return Optional.empty();
            }
            String sheet = form.group(1) == null ? "" : form.group(1).strip();
            long row = Long.parseLong(form.group(2));
            return Optional.of(
                    form.group(3) == null
                            ? new Answer(
                                    sheet, row, form.group(4), form.group(5).strip())
                            : new Answer(sheet, row, form.group(3), ""));
        }
    }

    /// The same sheet with some answers: a field that is answered is asked about no more.
    public Taken with(List<Answer> answers) {
        return new Taken(
                as,
                tables,
                rows.stream()
                        .map(row -> answers.stream()
                                .filter(answer -> answer.row() == row.row())
                                .filter(answer -> answer.sheet().isEmpty()
                                        || answer.sheet().equals(row.sheet()))
                                .reduce(row, TakenRow::with, (a, b) -> b))
                        .toList(),
                remarks);
    }

    /// Answers that answer nothing here: no such row, or no such field.
    public List<Answer> astray(List<Answer> answers) {
        return answers.stream()
                .filter(answer -> rows.stream()
                                .noneMatch(row -> row.isThing()
                                        && row.row() == answer.row()
                                        && (answer.sheet().isEmpty()
                                                || answer.sheet().equals(row.sheet())))
                        || !(as.fields().contains(answer.field())
                                || answer.field().equals(Answer.SKIP)
                                || answer.field().equals(Answer.TAKE)))
                .toList();
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
