package org.rollwright.web.sheets;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.rollwright.entry.sheet.take.As;
import org.rollwright.entry.sheet.take.Column;
import org.rollwright.entry.sheet.take.Taken;
import org.rollwright.entry.sheet.take.TakenRow;
import org.rollwright.entry.sheet.take.Taking;

/// A sheet as the page shows it: what every column was read as, and what every row would become.
///
/// @param id under which the tool keeps the sheet while it is looked at
/// @param common questions that several rows ask, answered once
/// @param ready rows that would be recorded as they are
/// @param asked rows with a question
/// @param more rows that are not shown, because no page could hold them
public record SheetView(
        String id,
        String name,
        String as,
        List<Head> heads,
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
    public record Question(String input, String sentence, String value) {}

    /// A row.
    ///
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
            boolean doubled,
            List<String> leftOut) {}

    static SheetView of(String id, String name, Taken taken, Map<String, String> typed, List<String> problems) {
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
                .map(row -> row(row, typed))
                .toList();
        int things = (int)
                taken.rows().stream().filter(row -> !row.what().equals("blank")).count();
        int asked = taken.asked().size();
        return new SheetView(
                id,
                name,
                taken.as() == As.COINS ? "coins" : "boxes",
                heads,
                Taking.meanings(taken.as()),
                taken.questions().stream()
                        .map(one -> {
                            String input = "all:" + one.sheet() + "|" + one.field() + "|" + one.topic();
                            return new Question(
                                    input,
                                    t(
                                            "sheets.of-rows",
                                            one.sentence(),
                                            one.rows().size()),
                                    typed.getOrDefault(input, ""));
                        })
                        .toList(),
                rows,
                taken.ready().size(),
                asked,
                things - taken.ready().size() - asked,
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

    private static Row row(TakenRow row, Map<String, String> typed) {
        List<Part> parts = row.fields().entrySet().stream()
                .map(field -> new Part(
                        field.getKey(), field.getValue(), row.inferred().contains(field.getKey())))
                .toList();
        List<Question> questions = row.asks().stream()
                .map(ask -> {
                    String input = ask.field().isEmpty() ? "" : "answer:" + key(row) + ":" + ask.field();
                    return new Question(input, ask.sentence(), typed.getOrDefault(input, row.field(ask.field())));
                })
                .toList();
        String kind =
                row.isReady() ? "ready" : row.asks().isEmpty() && !row.what().equals("duplicate") ? "passed" : "asks";
        return new Row(
                key(row),
                (row.sheet().isEmpty() ? "" : row.sheet() + " ") + row.row(),
                kind,
                what(row),
                String.join(
                        " · ",
                        row.cells().stream().filter(cell -> !cell.isBlank()).toList()),
                row.isThing() ? parts : List.of(),
                questions,
                row.what().equals("duplicate"),
                row.leftOut());
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
