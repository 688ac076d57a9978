package org.rollwright.cli.books;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.rollwright.action.TakenSheet;
import org.rollwright.cli.shell.Count;
import org.rollwright.cli.shell.ExitCode;
import org.rollwright.cli.shell.Json;
import org.rollwright.cli.shell.Open;
import org.rollwright.desk.Desk;
import org.rollwright.entry.sheet.take.As;
import org.rollwright.entry.sheet.take.Column;
import org.rollwright.entry.sheet.take.Lexicon;
import org.rollwright.entry.sheet.take.Taken;
import org.rollwright.entry.sheet.take.TakenRow;
import org.rollwright.entry.sheet.take.Taking;
import org.rollwright.store.CatalogTexts;
import org.rollwright.store.Settings;
import org.rollwright.store.Store;
import picocli.CommandLine;

/// A stranger's sheet, read without recording anything.
@CommandLine.Command(
        name = "take",
        description = "Read a sheet of coins or of boxes, CSV or XLSX, and tell of every row what it becomes.",
        footer = {
            "",
            "Example: ./run take coins.xlsx --as coins",
            "         ./run take coins.xlsx --as coins --answer \"9 note=checked, genuine\" --answer \"24 skip\" --commit",
            "         ./run take log.csv --as boxes --heading \"Goodies=find:wheat\" --json",
            "",
            "Nothing is recorded without --commit. With it every row without a question is recorded, all as one step,",
            "and the others are named. Fields marked with * were not said in the row itself.",
            "An answer is a row and a field, 12 mint=D, or 12 skip, or 12 take (as shown); with a sheet, Sheet!12 skip.",
            "What many rows ask is asked once and answered with * for the row: * denomination=1 cent, or *[B] grade=VG.",
            "A row that is already in the record is left, unless --again says that there are two of it.",
            "Exit status: 0 done, 2 the file or an answer was not usable, 4 the store is in use, 5 not saved."
        })
public final class TakeCommand implements Callable<Integer> {
    private static final long MOST_BYTES = 20_000_000;

    @CommandLine.Mixin
    private Open open = new Open();

    @CommandLine.Parameters(paramLabel = "FILE", description = "The sheet.")
    private @Nullable Path file;

    @CommandLine.Option(names = "--as", paramLabel = "WHAT", description = "What its rows are: coins or boxes.")
    private @Nullable String as;

    @CommandLine.Option(
            names = "--answer",
            paramLabel = "TEXT",
            description = "An answer to what is asked of a row; may be given several times.")
    private List<String> answers = List.of();

    @CommandLine.Option(
            names = "--answers",
            paramLabel = "FILE",
            description = "A text file with an answer in each line.")
    private @Nullable Path answerFile;

    @CommandLine.Option(
            names = "--heading",
            paramLabel = "TEXT",
            description = "What a heading means, \"Goodies=find:wheat\" or \"xx=unread\"; remembered with --commit.")
    private List<String> headings = List.of();

    @CommandLine.Option(names = "--commit", description = "Record the rows without a question.")
    private boolean commit;

    @CommandLine.Option(names = "--again", description = "Record rows that are already recorded once more.")
    private boolean again;

    @CommandLine.Option(names = "--json", description = "Print as JSON.")
    private boolean json;

    @Override
    public Integer call() {
        As what = as(as);
        byte[] bytes = bytes(file);
        Settings settings = new Settings(open.folder());
        Map<String, String> said = said(what, settings);
        List<Taken.Answer> given = answers();
        Taking.Said beside = new Taking.Said(said, Taking.usual(given), fileName());
        if (!commit) {
            Taken taken = answered(read(bytes, what, new Taking(open.catalog(System.err), words()), beside), given);
            warn(taken);
            print(taken, null);
            return ExitCode.OK.number();
        }
        try (Open.Bench bench = open.open(Store.Mode.WRITE, System.err)) {
            Taken taken = answered(read(bytes, what, new Taking(bench.catalog(), words()), beside), given);
            LocalDate today = LocalDate.ofInstant(InstantSource.system().instant(), ZoneId.systemDefault());
            TakenSheet.Plan plan =
                    TakenSheet.plan(taken, bench.catalog(), today, bench.desk().state(), row -> again);
            if (plan.things() > 0) {
                Desk.Outcome outcome = bench.desk().record(0, "take " + fileName(), plan::event);
                if (outcome instanceof Desk.Outcome.Refused refused) {
                    throw new Open.Stop(ExitCode.INPUT, refused.refusal().toString());
                }
            }
            remember(what, settings);
            print(taken, plan);
            return plan.things() > 0 ? ExitCode.OK.number() : ExitCode.INPUT.number();
        }
    }

    /// Tells before anything is recorded that rows are in the record already.
    private void warn(Taken taken) {
        if (again || !Files.isDirectory(open.folder())) {
            return;
        }
        try (Open.Bench bench = open.open(Store.Mode.READ, System.err)) {
            LocalDate today = LocalDate.ofInstant(InstantSource.system().instant(), ZoneId.systemDefault());
            int known = TakenSheet.plan(
                            taken, bench.catalog(), today, bench.desk().state(), row -> false)
                    .known();
            if (known > 0) {
                System.err.println(Count.of(known, "row is", "rows are")
                        + " in the record already, and would be left: was the sheet taken before? --again takes "
                        + (known == 1 ? "it" : "them") + " once more.");
            }
        } catch (Open.Stop e) {
            // what is shown needs no store; recording tells what is wrong with it
        }
    }

    private String fileName() {
        Path named = file == null ? null : file.getFileName();
        return named == null ? "" : named.toString();
    }

    private static String remembered(As what) {
        return "sheet." + what.name().toLowerCase(Locale.ROOT) + ".";
    }

    /// What headings mean: as remembered, and as said now.
    private Map<String, String> said(As what, Settings settings) {
        Map<String, String> said = new LinkedHashMap<>();
        settings.all().forEach((name, value) -> {
            if (name.startsWith(remembered(what))) {
                said.put(name.substring(remembered(what).length()), value);
            }
        });
        for (String heading : headings) {
            int equals = heading.lastIndexOf('=');
            String meaning = equals < 0 ? "" : heading.substring(equals + 1).strip();
            if (equals < 1 || !Taking.isMeaning(meaning, what)) {
                throw new Open.Stop(
                        ExitCode.INPUT,
                        "'" + heading + "' says of no heading what it means. Write Heading=field for "
                                + String.join(", ", Taking.meanings(what)) + ".");
            }
            said.put(heading.substring(0, equals).strip(), meaning);
        }
        return said;
    }

    private void remember(As what, Settings settings) {
        Map<String, String> said = new LinkedHashMap<>();
        for (String heading : headings) {
            int equals = heading.lastIndexOf('=');
            said.put(
                    remembered(what) + heading.substring(0, equals).strip(),
                    heading.substring(equals + 1).strip());
        }
        if (said.isEmpty()) {
            return;
        }
        try {
            settings.choose(said);
        } catch (IOException e) {
            System.err.println("What the headings mean could not be remembered; the rows are recorded.");
        }
    }

    private List<Taken.Answer> answers() {
        List<String> texts = new ArrayList<>(answers);
        Path lines = answerFile;
        if (lines != null) {
            try {
                Files.readAllLines(lines).stream()
                        .filter(line -> !line.isBlank())
                        .forEach(texts::add);
            } catch (IOException e) {
                throw new Open.Stop(
                        ExitCode.INPUT,
                        "The file " + lines + " cannot be read as text in UTF-8, an answer in each line.");
            }
        }
        return texts.stream()
                .map(text -> Taken.Answer.parse(text)
                        .orElseThrow(() -> new Open.Stop(
                                ExitCode.INPUT,
                                "'" + text
                                        + "' is no answer. Write a row and a field: 12 mint=D, 12 skip or 12 take.")))
                .toList();
    }

    private static Taken answered(Taken taken, List<Taken.Answer> given) {
        taken.astray(given).stream()
                .filter(answer -> !Taking.usual(List.of(answer)).containsKey(answer.field()))
                .findFirst()
                .ifPresent(answer -> {
                    throw new Open.Stop(
                            ExitCode.INPUT,
                            "Nothing is to be answered by '" + answer.row() + " " + answer.field()
                                    + "': there is no such row of a thing, or no such field. The fields are "
                                    + String.join(", ", taken.as().fields()) + ".");
                });
        return taken.with(given);
    }

    static Lexicon words() {
        return Lexicon.parse(CatalogTexts.resource("sheets/lexicon.csv"));
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

    static Taken read(byte[] bytes, As what, Taking taking, Taking.Said said) {
        return switch (taking.read(bytes, what, said)) {
            case Taking.Read.Unusable unusable -> throw new Open.Stop(ExitCode.INPUT, unusable.sentence());
            case Taking.Read.Good good -> good.taken();
        };
    }

    private void print(Taken taken, TakenSheet.@Nullable Plan plan) {
        if (json) {
            Map<String, Object> report = report(taken);
            report.put("recorded", plan == null ? 0 : plan.things());
            report.put("left", plan == null ? List.of() : plan.left());
            System.out.println(Json.of(report));
            return;
        }
        if (plan == null) {
            print(taken);
            return;
        }
        plan.left()
                .forEach(left -> System.out.println((left.sheet().isEmpty() ? "" : left.sheet() + ", ") + "row "
                        + left.row() + " is left: " + left.why()));
        System.out.println(Count.of(plan.rows(), "row", "rows") + " recorded as "
                + Count.of(
                        plan.things(),
                        taken.as() == As.COINS ? "coin" : "box",
                        taken.as() == As.COINS ? "coins" : "boxes")
                + (plan.things() > 0 ? ", one step; undo takes it back. " : ". ")
                + Count.of(plan.left().size(), "row", "rows") + " left.");
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
        List<Object> questions = new ArrayList<>();
        for (Taken.Question question : taken.questions()) {
            Map<String, Object> one = new LinkedHashMap<>();
            one.put("sheet", question.sheet());
            one.put("field", question.field());
            one.put("about", question.topic());
            one.put("asks", question.sentence());
            one.put("rows", question.rows());
            one.put("answer", answer(question));
            questions.add(one);
        }
        report.put("questions", questions);
        return report;
    }

    /// How a question of several rows is answered.
    private static String answer(Taken.Question question) {
        return (question.sheet().isEmpty() ? "" : question.sheet() + "!") + "*[" + question.topic() + "] "
                + question.field() + "=";
    }

    private static void print(Taken taken) {
        taken.remarks().forEach(System.out::println);
        for (Taken.Table table : taken.tables()) {
            System.out.println("columns" + (table.sheet().isEmpty() ? "" : " of " + table.sheet())
                    + (table.headingRow() == 0 ? "" : ", headings in row " + table.headingRow()) + ":");
            for (Column column : table.columns()) {
                System.out.println(
                        "  " + column.letters() + " " + column.heading() + (column.hidden() ? " (hidden)" : "") + " = "
                                + (column.kind().isEmpty() ? column.field() : "finds of " + column.kind()));
            }
        }
        String sheet = "";
        for (TakenRow row : taken.rows()) {
            if (!row.sheet().equals(sheet)) {
                sheet = row.sheet();
                System.out.println(sheet + ":");
            }
            List<String> words = new ArrayList<>();
            row.fields()
                    .forEach((field, value) ->
                            words.add(field + (row.inferred().contains(field) ? "*" : "") + " " + value));
            System.out.println(
                    "row " + row.row() + ": " + row.what() + (words.isEmpty() ? "" : ": ") + String.join(", ", words));
            row.leftOut().forEach(left -> System.out.println("    left out: " + left));
            row.asks().forEach(ask -> System.out.println("    ? " + ask.sentence()));
        }
        for (Taken.Question question : taken.questions()) {
            System.out.println("asked of " + Count.of(question.rows().size(), "row", "rows") + ": "
                    + question.sentence() + " One answer for all: --answer \"" + answer(question) + "...\"");
        }
        System.out.println(Count.of(taken.ready().size(), "row", "rows") + " could be taken as they are, "
                + taken.asked().size() + " need an answer.");
    }
}
