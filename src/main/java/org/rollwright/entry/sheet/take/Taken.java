package org.rollwright.entry.sheet.take;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
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

    /// A question several rows of a sheet ask, to be answered once: see [Answer#ALL].
    ///
    /// @param topic what it is about: a word of the sheet, or what is missing
    /// @param sentence as the first of the rows asks it
    public record Question(String sheet, String field, String topic, String sentence, List<Long> rows) {
        public Question {
            rows = List.copyOf(rows);
        }
    }

    /// An answer to what was asked of a row.
    ///
    /// @param sheet name of the sheet, blank for the only one
    /// @param row [#ALL] for every row that asks a question of several
    /// @param topic of which question of several it is the answer; blank for all of the field
    /// @param field a field of [As#fields], or [#SKIP] or [#TAKE]
    /// @param value what the field shall be; blank for none
    public record Answer(String sheet, long row, String topic, String field, String value) {
        /// The row of an answer to a question of several.
        public static final long ALL = 0;

        public Answer(String sheet, long row, String field, String value) {
            this(sheet, row, "", field, value);
        }

        /// The row shall not be taken.
        public static final String SKIP = "skip";

        /// The row shall be taken as it is shown, a duplicate as a thing of its own.
        public static final String TAKE = "take";

        private static final Pattern FORM = Pattern.compile(
                "\\s*(?:(.+)!)?([0-9]{1,7}|\\*(?:\\[(.+)\\])?)\\s+(?:(skip|take)|([a-z]+)\\s*=\\s*(.*))\\s*");

        /// Reads `12 mint=D`, `My coins!12 skip`, `12 take`, `* denomination=1 cent` or `*[B] grade=VG`.
        public static Optional<Answer> parse(String text) {
            Matcher form = FORM.matcher(text);
            if (!form.matches()) {
                return Optional.empty();
            }
            String sheet = form.group(1) == null ? "" : form.group(1).strip();
            boolean all = form.group(2).startsWith("*");
            long row = all ? ALL : Long.parseLong(form.group(2));
            String topic = form.group(3) == null ? "" : form.group(3).strip();
            return Optional.of(
                    form.group(4) == null
                            ? new Answer(
                                    sheet,
                                    row,
                                    topic,
                                    form.group(5),
                                    form.group(6).strip())
                            : new Answer(sheet, row, topic, form.group(4), ""));
        }

        /// Whether it is about a row.
        boolean isOf(TakenRow of) {
            boolean here = sheet.isEmpty() || sheet.equals(of.sheet());
            return here
                    && (row == ALL
                            ? of.asks().stream()
                                    .anyMatch(ask -> !ask.topic().isEmpty()
                                            && ask.field().equals(field)
                                            && (topic.isEmpty() || topic.equalsIgnoreCase(ask.topic())))
                            : row == of.row());
        }
    }

    /// The same sheet with some answers: a field that is answered is asked about no more.
    public Taken with(List<Answer> answers) {
        return new Taken(
                as,
                tables,
                rows.stream()
                        .map(row -> answers.stream()
                                .filter(answer -> answer.isOf(row))
                                .reduce(row, TakenRow::with, (a, b) -> b))
                        .toList(),
                remarks);
    }

    /// Answers that answer nothing here: no such row, or no such field.
    public List<Answer> astray(List<Answer> answers) {
        return answers.stream()
                .filter(answer -> rows.stream().noneMatch(row -> row.isThing() && answer.isOf(row))
                        || !(as.fields().contains(answer.field())
                                || answer.field().equals(Answer.SKIP)
                                || answer.field().equals(Answer.TAKE)))
                .toList();
    }

    /// Questions that several rows ask, in the order of the sheet.
    public List<Question> questions() {
        Map<List<String>, List<TakenRow>> asking = new LinkedHashMap<>();
        for (TakenRow row : rows) {
            for (TakenRow.Ask ask : row.asks()) {
                if (!ask.topic().isEmpty()) {
                    asking.computeIfAbsent(List.of(row.sheet(), ask.field(), ask.topic()), key -> new ArrayList<>())
                            .add(row);
                }
            }
        }
        List<Question> questions = new ArrayList<>();
        asking.forEach((key, of) -> {
            if (of.size() > 1) {
                String sentence = of.getFirst().asks().stream()
                        .filter(ask -> ask.topic().equals(key.get(2)))
                        .findFirst()
                        .map(TakenRow.Ask::sentence)
                        .orElse("");
                questions.add(new Question(
                        key.get(0),
                        key.get(1),
                        key.get(2),
                        sentence,
                        of.stream().map(TakenRow::row).toList()));
            }
        });
        return List.copyOf(questions);
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
