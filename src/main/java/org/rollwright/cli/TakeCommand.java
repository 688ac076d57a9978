package org.rollwright.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.rollwright.entry.sheet.take.As;
import org.rollwright.entry.sheet.take.Column;
import org.rollwright.entry.sheet.take.Lexicon;
import org.rollwright.entry.sheet.take.Taken;
import org.rollwright.entry.sheet.take.TakenRow;
import org.rollwright.entry.sheet.take.Taking;
import org.rollwright.store.CatalogTexts;
import picocli.CommandLine;

/// A stranger's sheet, read without recording anything.
@CommandLine.Command(
        name = "take",
        description = "Read a sheet of coins or of boxes, CSV or XLSX, and tell of every row what it would become.",
        footer = {
            "",
            "Example: ./run take coins.xlsx --as coins",
            "         ./run take old-log.csv --as boxes --json",
            "",
            "Nothing is recorded. Fields marked with * were not said in the row itself.",
            "Exit status: 0 done, 2 the file was not usable."
        })
final class TakeCommand implements Callable<Integer> {
    private static final long MOST_BYTES = 20_000_000;

    @CommandLine.Mixin
    private Open open = new Open();

    @CommandLine.Parameters(paramLabel = "FILE", description = "The sheet.")
    private @Nullable Path file;

    @CommandLine.Option(
            names = "--as",
            paramLabel = "WHAT",
            description = "What its rows are: coins or boxes.")
    private @Nullable String as;

    @CommandLine.Option(names = "--json", description = "Print as JSON.")
    private boolean json;

    @Override
    public Integer call() {
        As what = as(as);
        Taken taken = read(bytes(file), what, new Taking(open.catalog(System.err), words()));
        if (json) {
            System.out.println(Json.of(report(taken)));
        } else {
            print(taken);
        }
        return ExitCode.OK.number();
    }

    static Lexicon words() {
        return Lexicon.parse(CatalogTexts.resource("sheets/words.csv"));
    }

    static As as(@Nullable String text) {
        return switch (text == null ? "" : text.toLowerCase(Locale.ROOT)) {
            case "coins" -> As.COINS;
            case "boxes" -> As.BOXES;
            case "" -> throw new Open.Stop(ExitCode.INPUT, "Say what the rows are: --as coins or --as boxes.");
            default -> throw new Open.Stop(ExitCode.INPUT, "'" + text + "' is neither coins nor boxes.");
        };
    }

    static byte[] bytes(@Nullable Path file) {
        if (file == null) {
            throw new Open.Stop(ExitCode.INPUT, "Name the file to read.");
        }
        try {
            if (!Files.isRegularFile(file)) {
                throw new Open.Stop(ExitCode.INPUT, "There is no file " + file + ".");
            }
            if (Files.size(file) > MOST_BYTES) {
                throw new Open.Stop(
                        ExitCode.INPUT, "The file is larger than 20 MB. Split it, or leave out what is not needed.");
            }
            return Files.readAllBytes(file);
        } catch (IOException e) {
            throw new Open.Stop(ExitCode.INPUT, "The file " + file + " cannot be read. Is it open in another program?");
        }
    }

    static Taken read(byte[] bytes, As what, Taking taking) {
        return switch (taking.read(bytes, what, Map.of())) {
            case Taking.Read.Unusable unusable -> throw new Open.Stop(ExitCode.INPUT, unusable.sentence());
            case Taking.Read.Good good -> good.taken();
        };
    }

    private static Map<String, Object> report(Taken taken) {
        Map<String, Object> report = new LinkedHashMap<>();
        report.put("as", taken.as().name().toLowerCase(Locale.ROOT));
        report.put("remarks", taken.remarks());
        List<Object> tables = new ArrayList<>();
        for (Taken.Table table : taken.tables()) {
            List<Map<String, Object>> columns = new ArrayList<>();
            for (Column column : table.columns()) {
                Map<String, Object> one = new LinkedHashMap<>();
                one.put("column", column.letters());
                one.put("heading", column.heading());
                one.put("read_as", column.kind().isEmpty() ? column.field() : "find: " + column.kind());
                one.put("how", column.how().name().toLowerCase(Locale.ROOT).replace('_', ' '));
                one.put("hidden", column.hidden());
                columns.add(one);
            }
            Map<String, Object> one = new LinkedHashMap<>();
            one.put("sheet", table.sheet());
            one.put("heading_row", table.headingRow());
            one.put("hidden", table.hidden());
            one.put("columns", columns);
            tables.add(one);
        }
        report.put("columns", tables);
        List<Object> rows = new ArrayList<>();
        for (TakenRow row : taken.rows()) {
            Map<String, Object> one = new LinkedHashMap<>();
            one.put("sheet", row.sheet());
            one.put("row", row.row());
            one.put("what", row.what());
            for (String field : taken.as().fields()) {
                one.put(field, row.field(field));
            }
            one.put("inferred", row.inferred());
            one.put("asks", row.asks().stream().map(TakenRow.Ask::sentence).toList());
            one.put("left_out", row.leftOut());
            Map<String, String> more = new LinkedHashMap<>(row.more());
            more.values().removeIf(String::isEmpty);
            one.put("more", more);
            rows.add(one);
        }
        report.put("rows", rows);
        return report;
    }

    private static void print(Taken taken) {
        taken.remarks().forEach(System.out::println);
        for (Taken.Table table : taken.tables()) {
            System.out.println("columns" + (table.sheet().isEmpty() ? "" : " of " + table.sheet())
                    + (table.headingRow() == 0 ? "" : ", headings in row " + table.headingRow()) + ":");
            for (Column column : table.columns()) {
                System.out.println("  " + column.letters() + " " + column.heading() + (column.hidden() ? " (hidden)" : "")
                        + " = " + (column.kind().isEmpty() ? column.field() : "finds of " + column.kind()));
            }
        }
        String sheet = "";
        for (TakenRow row : taken.rows()) {
            if (!row.sheet().equals(sheet)) {
                sheet = row.sheet();
                System.out.println(sheet + ":");
            }
            List<String> words = new ArrayList<>();
            row.fields().forEach((field, value) ->
                    words.add(field + (row.inferred().contains(field) ? "*" : "") + " " + value));
            System.out.println("row " + row.row() + ": " + row.what() + (words.isEmpty() ? "" : ": ")
                    + String.join(", ", words));
            row.leftOut().forEach(left -> System.out.println("    left out: " + left));
            row.asks().forEach(ask -> System.out.println("    ? " + ask.sentence()));
        }
        System.out.println(Count.of(taken.ready().size(), "row", "rows") + " could be taken as they are, "
                + taken.asked().size() + " need an answer.");
    }
}
