package org.rollwright.cli.mat;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.rollwright.cli.shell.Count;
import org.rollwright.cli.shell.ExitCode;
import org.rollwright.cli.shell.Json;
import org.rollwright.cli.shell.Open;
import org.rollwright.desk.State;
import org.rollwright.hunt.Box;
import org.rollwright.store.Store;
import org.rollwright.text.Texts;
import picocli.CommandLine;

/// The report of a box, or the list of boxes.
@CommandLine.Command(
        name = "box",
        description = "Print the report of a box, or the list of all boxes.",
        footer = {
            "",
            "Example: ./run box \"Box 12\"",
            "",
            "Works beside a running tool. Exit status: 0 printed, 3 no such box, 5 the store cannot be opened."
        })
public final class BoxCommand implements Callable<Integer> {
    @CommandLine.Mixin
    private Open open = new Open();

    @CommandLine.Parameters(
            arity = "0..1",
            paramLabel = "BOX",
            description = "Name or number of a box; all boxes if left out.")
    private @Nullable String box;

    @CommandLine.Option(names = "--json", description = "Print JSON.")
    private boolean json;

    /// One box in the list.
    record Row(
            long box,
            String label,
            String denomination,
            String bank,
            String branch,
            String wrap,
            long coinsSearched,
            int found) {}

    @Override
    public Integer call() {
        try (Open.Bench bench = open.open(Store.Mode.READ, System.err)) {
            return box == null ? list(bench) : report(bench, box);
        }
    }

    private int list(Open.Bench bench) {
        List<Row> rows = bench.desk()
                .read(book -> book.hunt().boxes().stream()
                        .map(one -> new Row(
                                one.id().number(),
                                one.details().label(),
                                one.denomination().toString(),
                                one.details().bank(),
                                one.details().branch(),
                                one.details().wrap(),
                                one.searchedCoins(),
                                one.foundCoins()))
                        .toList());
        if (json) {
            System.out.println(Json.of(rows));
        } else {
            rows.forEach(row -> System.out.printf(
                    Locale.ROOT,
                    "%4d  %-18s %-12s %8d coins %5d %-5s  %s%n",
                    row.box,
                    row.label,
                    row.denomination,
                    row.coinsSearched,
                    row.found,
                    row.found == 1 ? "find" : "finds",
                    row.branch.isEmpty() ? row.bank : row.bank + ", " + row.branch));
        }
        return ExitCode.OK.number();
    }

    private int report(Open.Bench bench, String wanted) {
        BoxJson report = bench.desk()
                .read(book -> find(book, wanted).map(one -> BoxJson.of(book, one, bench.catalog())))
                .orElseThrow(() -> new Open.Stop(
                        ExitCode.NOTHING,
                        "There is no box '" + wanted + "'. " + Texts.command() + " box lists them all."));
        if (json) {
            System.out.println(Json.of(report));
            return ExitCode.OK.number();
        }
        System.out.println(report.label() + ", " + report.denomination());
        System.out.println(Count.of(report.found(), "find", "finds") + " in "
                + report.coinsSearched() + " coins searched"
                + (report.rank() == 0
                        ? ""
                        : report.ranked() == 1
                                ? "; the first box"
                                : "; number " + report.rank() + " of " + report.ranked() + " boxes"));
        report.remarks().forEach(remark -> System.out.println("  " + remark));
        System.out.println("by decade: " + join(report.byDecade()));
        System.out.println("by mint:   " + join(report.byMint()));
        System.out.println("by series: " + join(report.bySeries()));
        System.out.println("by roll:   "
                + String.join(
                        "  ",
                        report.byRoll().stream()
                                .map(roll -> "r" + roll.roll() + ":" + roll.found())
                                .toList()));
        report.finds()
                .forEach(find -> System.out.println("  f" + find.find() + "  r" + find.roll() + "  "
                        + (find.count() > 1 ? find.count() + " x " : "") + find.coin()
                        + (find.state().isEmpty() ? "" : "  " + find.state())
                        + (find.note().isEmpty() ? "" : "  \"" + find.note() + "\"")));
        return ExitCode.OK.number();
    }

    private static String join(List<org.rollwright.hunt.Tally.Line> lines) {
        return String.join(
                ", ",
                lines.stream().map(line -> line.label() + " " + line.coins()).toList());
    }

    private static Optional<Box> find(State book, String wanted) {
        Optional<Box> byName = book.hunt().boxes().stream()
                .filter(one -> one.details().label().equalsIgnoreCase(wanted))
                .findFirst();
        return byName.isPresent()
                ? byName
                : book.hunt().boxes().stream()
                        .filter(one -> Long.toString(one.id().number()).equals(wanted)
                                || one.id().toString().equals(wanted))
                        .findFirst();
    }
}
