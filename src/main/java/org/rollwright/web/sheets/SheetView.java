package org.rollwright.web.sheets;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.rollwright.action.TakenSheet;
import org.rollwright.entry.sheet.take.As;
import org.rollwright.entry.sheet.take.Column;
import org.rollwright.entry.sheet.take.Taken;
import org.rollwright.entry.sheet.take.TakenRow;
import org.rollwright.entry.sheet.take.Taking;

/// A sheet as the page shows it: what every column was read as, and what every row would become.
///
/// @param id under which the tool keeps the sheet while it is looked at
/// @param common questions that several rows ask, answered once
/// @param typed what was typed in the form sent last
/// @param ready rows that would be recorded as they are
/// @param asked rows with a question
/// @param more rows that are not shown, because no page could hold them
public record SheetView(
        String id,
        String name,
        String as,
        List<Head> heads,
        Map<String, String> typed,
        List<String> meanings,
        List<Question> common,
        List<Row> rows,
        int ready,
        int asked,
        int passed,
        int more,
        List<String> remarks,
        List<String> problems) {
    /// Rows a page shows.
    private static final int SHOWN = 2_000;

    /// A column: its heading and what it was read as.
    ///
    /// @param how why, in words
    public record Head(String where, String heading, String field, String how, boolean unread) {}

    /// A field of what a row would become.
    ///
    /// @param inferred not said in the row itself
    public record Part(String name, String value, boolean inferred) {}

    /// A question.
    ///
    /// @param input name of the field of the form; blank where only taking or leaving is to be decided
    /// @param value what was answered, blank for nothing yet
    /// @param guess what the row is shown with, which counts only when the row is taken as it is shown
    public record Question(String input, String sentence, String value, String guess) {}

    /// A row.
    ///
    /// @param open whether it is still to be decided, or was: taken as it is shown, or left out
    /// @param known whether it stands in the record already, so that it can only be taken once more
    /// @param decided take, again, skip or blank
    /// @param key of the row in the form
    /// @param kind ready, asks or passed
    /// @param what in words
    public record Row(
            String key,
            String number,
            String kind,
            String what,
            String cells,
            List<Part> parts,
            List<Question> questions,
            boolean open,
            boolean known,
            String decided,
            List<String> leftOut) {}

    static SheetView of(
            String id,
            String name,
            Taken taken,
            TakenSheet.Plan plan,
            Map<String, String> answers,
            Map<String, String> typed,
            List<String> problems) {
        Map<String, TakenSheet.Left> left = new HashMap<>();
        plan.left().forEach(one -> left.put(one.sheet() + "!" + one.row(), one));
        List<Head> heads = new ArrayList<>();
        for (Taken.Table table : taken.tables()) {
            for (Column column : table.columns()) {
                boolean unread = column.how() == Column.How.UNREAD;
                if (!column.heading().isEmpty() || !unread) {
                    heads.add(new Head(
                            table.sheet() + " " + column.letters(),
                            column.heading(),
                            column.field() + (column.kind().isEmpty() ? "" : ": " + column.kind()),
                            how(column),
                            unread));
                }
            }
        }
        List<Row> rows = taken.rows().stream()
                .filter(row -> !row.what().equals("blank"))
                .limit(SHOWN)
                .map(row -> row(row, answers, left))
                .toList();
        int things = (int)
                taken.rows().stream().filter(row -> !row.what().equals("blank")).count();
        int asked = (int) taken.rows().stream()
                .filter(row -> row.isThing() && left.containsKey(key(row)))
                .count();
        return new SheetView(
                id,
                name,
                taken.as() == As.COINS ? "coins" : "boxes",
                heads,
                typed,
                Taking.meanings(taken.as()),
                common(taken, answers),
                rows,
                plan.rows(),
                asked,
                things - plan.rows() - asked,
                things - rows.size(),
                taken.remarks(),
                problems);
    }

    private static String how(Column column) {
        String words =
                switch (column.how()) {
                    case HEADING -> t("sheets.by-heading");
                    case PART_OF_HEADING -> t("sheets.by-part-of-heading");
                    case CONTENT -> t("sheets.by-content");
                    case SAID -> t("sheets.by-you");
                    case UNREAD -> t("sheets.unread");
                };
        return column.hidden() ? words + ", " + t("sheets.hidden") : words;
    }

    /// How a row is named in the form.
    static String key(TakenRow row) {
        return row.sheet() + "!" + row.row();
    }

    private static Row row(TakenRow row, Map<String, String> answers, Map<String, TakenSheet.Left> left) {
        List<Part> parts = row.fields().entrySet().stream()
                .map(field -> new Part(
                        field.getKey(), field.getValue(), row.inferred().contains(field.getKey())))
                .toList();
        String rowField = "row:" + key(row);
        List<Question> questions = new ArrayList<>();
        row.asks()
                .forEach(ask -> questions.add(new Question(
                        ask.field().isEmpty() ? "" : "answer:" + key(row) + ":" + ask.field(),
                        ask.sentence(),
                        "",
                        row.field(ask.field()))));
        // an answer stays on the page, to be changed or taken back
        answers.forEach((name, value) -> {
            if (name.startsWith("answer:" + key(row) + ":")
                    && questions.stream().noneMatch(one -> one.input().equals(name))) {
                questions.add(new Question(
                        name, t("sheets.you-answered", name.substring(name.lastIndexOf(':') + 1)), value, ""));
            }
        });
        TakenSheet.@Nullable Left why = row.isThing() ? left.get(key(row)) : null;
        boolean open = why != null;
        String decided = answers.getOrDefault(rowField, "");
        List<String> out = new ArrayList<>(row.leftOut());
        if (why != null && row.asks().isEmpty()) {
            out.addFirst(why.why());
        }
        return new Row(
                key(row),
                (row.sheet().isEmpty() ? "" : row.sheet() + " ") + row.row(),
                open ? "asks" : row.isThing() ? "ready" : "passed",
                what(row),
                String.join(
                        " · ",
                        row.cells().stream().filter(cell -> !cell.isBlank()).toList()),
                row.isThing() ? parts : List.of(),
                questions,
                open || !decided.isEmpty(),
                decided.equals("again") || (why != null && why.known()),
                decided,
                List.copyOf(out));
    }

    /// Questions that several rows ask, and the answers to those that ask no more.
    private static List<Question> common(Taken taken, Map<String, String> answers) {
        List<Question> common = new ArrayList<>();
        taken.questions()
                .forEach(one -> common.add(new Question(
                        "all:" + one.sheet() + "|" + one.field() + "|" + one.topic(),
                        t("sheets.of-rows", one.sentence(), one.rows().size()),
                        "",
                        "")));
        answers.forEach((name, value) -> {
            if (name.startsWith("all:")
                    && common.stream().noneMatch(one -> one.input().equals(name))) {
                common.add(new Question(name, t("sheets.you-answered", name.split("\\|", 3)[1]), value, ""));
            }
        });
        return common;
    }

    private static String what(TakenRow row) {
        return switch (row.what()) {
            case "coin" -> t("sheets.coin");
            case "box" -> t("sheets.box");
            case "duplicate" -> t("sheets.duplicate");
            case "heading" -> t("sheets.heading");
            case "total" -> t("sheets.total");
            case "unusable" -> t("sheets.unusable");
            default -> t("sheets.note");
        };
    }
}
