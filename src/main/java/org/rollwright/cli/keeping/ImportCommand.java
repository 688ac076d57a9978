package org.rollwright.cli.keeping;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.rollwright.cli.shell.Count;
import org.rollwright.cli.shell.ExitCode;
import org.rollwright.cli.shell.Json;
import org.rollwright.cli.shell.Open;
import org.rollwright.desk.Desk;
import org.rollwright.entry.sheet.Mapping;
import org.rollwright.entry.sheet.SheetImport;
import org.rollwright.entry.sheet.SheetRow;
import org.rollwright.store.Sheets;
import org.rollwright.store.Store;
import picocli.CommandLine;

/// Earlier boxes from a spreadsheet.
@CommandLine.Command(
        name = "import",
        description = "Import earlier boxes from a spreadsheet (CSV or XLSX), one row per box.",
        footer = {
            "",
            "Example: ./run import old-boxes.csv",
            "         ./run import old-boxes.csv --mapping \"label=Box; date=Day; found:wheat=Wheats; dates=dmy\" --commit",
            "",
            "Without --commit nothing is written: every row is reported with what it would become. The whole import",
            "is one step; if a row is refused, nothing is imported unless --leave-out-refused is given.",
            "Exit status: 0 done, 2 the file or a row was not usable, 4 the store is in use, 5 not saved."
        })
public final class ImportCommand implements Callable<Integer> {
    @CommandLine.Mixin
    private Open open = new Open();

    @CommandLine.Parameters(paramLabel = "FILE", description = "The spreadsheet; its first row holds the headings.")
    private @Nullable Path file;

    @CommandLine.Option(
            names = "--mapping",
            paramLabel = "TEXT",
            description = "Which column is what; guessed from the headings and printed if left out.")
    private @Nullable String mapping;

    @CommandLine.Option(names = "--commit", description = "Import; without it the import is only tried.")
    private boolean commit;

    @CommandLine.Option(
            names = "--leave-out-refused",
            description = "Import the good rows although others are refused.")
    private boolean leaveOut;

    @CommandLine.Option(names = "--json", description = "Print the report as JSON.")
    private boolean json;

    /// What is printed.
    record Report(
            String mapping,
            int good,
            long refused,
            boolean imported,
            List<String> problems,
            List<SheetImport.RowReport> rows) {}

    @Override
    public Integer call() {
        Path wanted = file;
        if (wanted == null) {
            throw new Open.Stop(ExitCode.INPUT, "Name the file to import.");
        }
        List<SheetRow> rows =
                switch (Sheets.read(wanted)) {
                    case Sheets.Read.Unusable unusable -> throw new Open.Stop(ExitCode.INPUT, unusable.sentence());
                    case Sheets.Read.Rows read -> read.rows();
                };
        try (Open.Bench bench = open.open(Store.Mode.WRITE, System.err)) {
            Mapping columns = mapping(rows, bench);
            SheetImport.Plan plan =
                    bench.desk().read(book -> SheetImport.plan(rows, columns, bench.catalog(), book.hunt()));
            boolean usable = plan.problems().isEmpty() && !plan.boxes().isEmpty() && (plan.refused() == 0 || leaveOut);
            boolean imported = false;
            if (commit && usable) {
                Desk.Outcome outcome =
                        bench.desk().record(0, "import " + wanted.getFileName(), known -> plan.event(known.hunt()));
                if (outcome instanceof Desk.Outcome.Refused refused) {
                    throw new Open.Stop(ExitCode.INPUT, refused.refusal().toString());
                }
                imported = true;
            }
            print(new Report(
                    columns.text(), plan.boxes().size(), plan.refused(), imported, plan.problems(), plan.rows()));
            return usable ? ExitCode.OK.number() : ExitCode.INPUT.number();
        }
    }

    private Mapping mapping(List<SheetRow> rows, Open.Bench bench) {
        String text = mapping;
        if (text == null) {
            return Mapping.guess(rows.isEmpty() ? List.of() : rows.getFirst().cells(), bench.catalog());
        }
        return switch (Mapping.parse(text)) {
            case Mapping.Parsed.Good good -> good.mapping();
            case Mapping.Parsed.Bad bad ->
                throw new Open.Stop(ExitCode.INPUT, bad.flaw().toString());
        };
    }

    private void print(Report report) {
        if (json) {
            System.out.println(Json.of(report));
            return;
        }
        System.out.println("columns: " + report.mapping);
        report.problems.forEach(System.out::println);
        for (SheetImport.RowReport row : report.rows) {
            List<String> words = new ArrayList<>();
            words.add("line " + row.line() + ":");
            words.add(
                    row.wrong().isEmpty()
                            ? row.text()
                            : "REFUSED, column " + row.column() + ": " + row.wrong() + " " + row.right());
            if (!row.warning().isEmpty()) {
                words.add("(" + row.warning() + ")");
            }
            System.out.println(String.join(" ", words));
        }
        System.out.println(Count.of(report.good, "row", "rows") + " good, " + report.refused + " refused. "
                + (report.imported
                        ? "Imported as one step; undo it under Boxes."
                        : commit ? "Nothing was imported." : "Nothing was written; add --commit to import."));
    }
}
