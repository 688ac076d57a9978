package org.rollwright.cli.books;

import java.io.IOException;
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
import org.rollwright.cabinet.CabinetIndex;
import org.rollwright.cabinet.CoinSheet;
import org.rollwright.cabinet.ValueModel;
import org.rollwright.cli.shell.Count;
import org.rollwright.cli.shell.ExitCode;
import org.rollwright.cli.shell.Json;
import org.rollwright.cli.shell.JsonTable;
import org.rollwright.cli.shell.Open;
import org.rollwright.coin.DayStyle;
import org.rollwright.desk.Desk;
import org.rollwright.entry.sheet.SheetRow;
import org.rollwright.store.Sheets;
import org.rollwright.store.Store;
import org.rollwright.store.Tables;
import picocli.CommandLine;

/// The coins owned: listed, saved as a table, taken in from one.
@CommandLine.Command(
        name = "cabinet",
        description = "List the coins owned, save them as CSV, XLSX or JSON, or take coins in from a spreadsheet.",
        footer = {
            "",
            "Example: ./run cabinet tube 12             coins in whose row these words occur",
            "         ./run cabinet --save coins.xlsx   all of them, for a spreadsheet",
            "         ./run cabinet --take theirs.csv --columns \"year=Date; mint=MM; price=Paid\" --days month-first",
            "",
            "--take only tries: every row is reported. With --commit the whole table is taken as one step, or nothing.",
            "Exit status: 0 done, 2 the file or a row was not usable, 4 the store is in use, 5 not saved."
        })
public final class CabinetCommand implements Callable<Integer> {
    @CommandLine.Mixin
    private Open open = new Open();

    @CommandLine.Parameters(paramLabel = "WORD", description = "Words that occur in the coin's row.")
    private List<String> words = List.of();

    @CommandLine.Option(
            names = "--save",
            paramLabel = "FILE",
            description = "Write the coins to a file ending in .csv, .xlsx or .json.")
    private @Nullable Path save;

    @CommandLine.Option(names = "--take", paramLabel = "FILE", description = "Take coins from a CSV or XLSX file.")
    private @Nullable Path take;

    @CommandLine.Option(
            names = "--columns",
            paramLabel = "TEXT",
            description = "Our column = theirs, separated by ;. Columns of the same name need not be said.")
    private String columns = "";

    @CommandLine.Option(
            names = "--days",
            paramLabel = "STYLE",
            description = "How days are written in the file: iso, month-first (3/14/2026) or day-first (14.3.2026).")
    private @Nullable String days;

    @CommandLine.Option(names = "--commit", description = "Take the coins; without it the table is only tried.")
    private boolean commit;

    @CommandLine.Option(names = "--json", description = "Print as JSON.")
    private boolean json;

    /// What is printed of the coins.
    record Listing(
            int coins,
            String face,
            double value,
            double low,
            double high,
            int withoutValue,
            List<Map<String, String>> rows) {}

    /// What is printed of a table taken in.
    record Taken(int good, int refused, boolean taken, List<String> problems) {}

    @Override
    public Integer call() {
        Path table = take;
        if (table == null && (commit || days != null || !columns.isEmpty())) {
            throw new Open.Stop(
                    ExitCode.INPUT, "--commit, --columns and --days are about a table to take in: --take FILE.");
        }
        if (table != null && (save != null || !words.isEmpty())) {
            throw new Open.Stop(ExitCode.INPUT, "Coins are taken in, or listed and saved: one at a time.");
        }
        return table == null ? list() : takeIn(table);
    }

    private int list() {
        try (Open.Bench bench = open.open(Store.Mode.READ, System.err)) {
            List<CabinetIndex.Entry> coins = new ArrayList<>();
            Listing listing = bench.desk().read(book -> {
                CabinetIndex index =
                        CabinetIndex.of(book.holdings(), book.album().lying(), bench.catalog());
                coins.addAll(index.search(new CabinetIndex.Query(null, words, null, false, CabinetIndex.Only.ANY)));
                ValueModel.Sum sum =
                        CabinetIndex.sum(coins, ValueModel.of(book.cabinet().prices()));
                return new Listing(
                        coins.size(),
                        CabinetIndex.face(coins, bench.catalog()),
                        sum.amount(),
                        sum.low(),
                        sum.high(),
                        sum.blank(),
                        CoinSheet.rows(book.holdings(), coins).stream()
                                .map(CabinetCommand::named)
                                .toList());
            });
            Path file = save;
            if (file != null) {
                return saved(file, listing);
            }
            if (json) {
                System.out.println(Json.of(listing));
                return ExitCode.OK.number();
            }
            coins.forEach(coin -> System.out.println(coin.ref() + "  " + coin.name() + "  "
                    + coin.description().state() + "  " + (coin.album().isEmpty() ? coin.place() : coin.album())));
            System.out.println(Count.of(listing.coins, "coin", "coins") + ", face value " + listing.face);
            if (sumIsKnown(listing)) {
                System.out.printf(
                        Locale.ROOT,
                        "value by your prices %,.2f (4 in 5: %,.2f to %,.2f), %d without a value%n",
                        listing.value,
                        listing.low,
                        listing.high,
                        listing.withoutValue);
            }
            return ExitCode.OK.number();
        }
    }

    private static boolean sumIsKnown(Listing listing) {
        return listing.withoutValue < listing.coins;
    }

    private static Map<String, String> named(List<String> row) {
        Map<String, String> named = new LinkedHashMap<>();
        for (int c = 0; c < CoinSheet.COLUMNS.size(); c++) {
            named.put(CoinSheet.COLUMNS.get(c), row.get(c));
        }
        return named;
    }

    private static int saved(Path file, Listing listing) {
        String name = file.toString().toLowerCase(Locale.ROOT);
        List<List<String>> rows =
                listing.rows.stream().map(row -> List.copyOf(row.values())).toList();
        try {
            if (name.endsWith(".json")) {
                java.nio.file.Files.writeString(file, Json.of(listing.rows) + "\n");
            } else if (name.endsWith(".csv") || name.endsWith(".xlsx")) {
                Tables.write(file, "coins", CoinSheet.COLUMNS, rows);
            } else {
                throw new Open.Stop(ExitCode.INPUT, "The file must end in .csv, .xlsx or .json.");
            }
        } catch (IOException e) {
            throw new Open.Stop(
                    ExitCode.STORE, file + " could not be written. Is the folder there, and is there room?");
        }
        System.out.println(Count.of(rows.size(), "coin", "coins") + " written to " + file);
        return ExitCode.OK.number();
    }

    private @Nullable DayStyle style() {
        String text = days;
        if (text == null) {
            return null;
        }
        return switch (text) {
            case "iso" -> DayStyle.ISO;
            case "month-first" -> DayStyle.MONTH_FIRST;
            case "day-first" -> DayStyle.DAY_FIRST;
            default ->
                throw new Open.Stop(
                        ExitCode.INPUT, "'" + text + "' is no style of days. Write iso, month-first or day-first.");
        };
    }

    private int takeIn(Path file) {
        Map<String, String> mapping = new LinkedHashMap<>();
        for (String part : columns.split(";")) {
            if (part.isBlank()) {
                continue;
            }
            String[] sides = part.split("=", 2);
            if (sides.length != 2) {
                throw new Open.Stop(
                        ExitCode.INPUT, "'" + part.strip() + "' is no pair of columns. Write: year=Date; mint=MM.");
            }
            mapping.put(sides[0].strip(), sides[1].strip());
        }
        List<List<String>> table = file.toString().toLowerCase(Locale.ROOT).endsWith(".json")
                ? JsonTable.read(file)
                : switch (Sheets.read(file)) {
                    case Sheets.Read.Unusable unusable -> throw new Open.Stop(ExitCode.INPUT, unusable.sentence());
                    case Sheets.Read.Rows rows ->
                        rows.rows().stream().map(SheetRow::cells).toList();
                };
        try (Open.Bench bench = open.open(Store.Mode.WRITE, System.err)) {
            LocalDate today = LocalDate.ofInstant(InstantSource.system().instant(), ZoneId.systemDefault());
            CoinSheet.Outcome outcome = CoinSheet.read(table, mapping, style(), today, bench.catalog());
            boolean usable = outcome.problems().isEmpty() && !outcome.coins().isEmpty();
            if (commit && usable) {
                Desk.Outcome kept = bench.desk()
                        .record(
                                0,
                                "cabinet --take " + file.getFileName(),
                                book -> CoinSheet.events(book.cabinet(), outcome.coins()));
                if (kept instanceof Desk.Outcome.Refused refused) {
                    throw new Open.Stop(ExitCode.INPUT, refused.refusal().toString());
                }
            }
            Taken taken = new Taken(
                    outcome.coins().size(),
                    outcome.problems().size(),
                    commit && usable,
                    outcome.problems().stream().map(Object::toString).toList());
            if (json) {
                System.out.println(Json.of(taken));
            } else {
                taken.problems.stream().limit(100).forEach(System.out::println);
                System.out.println(
                        taken.taken
                                ? Count.of(taken.good, "coin", "coins") + " taken in."
                                : usable
                                        ? Count.of(taken.good, "coin", "coins")
                                                + " can be taken in; add --commit to do it."
                                        : "Nothing was taken in: "
                                                + Count.of(taken.refused, "cell is wrong.", "cells are wrong."));
            }
            return usable ? ExitCode.OK.number() : ExitCode.INPUT.number();
        }
    }
}
