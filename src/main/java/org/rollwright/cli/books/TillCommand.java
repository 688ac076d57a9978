package org.rollwright.cli.books;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.joda.money.CurrencyUnit;
import org.joda.money.IllegalCurrencyException;
import org.jspecify.annotations.Nullable;
import org.rollwright.action.Setting;
import org.rollwright.cli.shell.ExitCode;
import org.rollwright.cli.shell.Json;
import org.rollwright.cli.shell.Open;
import org.rollwright.coin.Distance;
import org.rollwright.coin.Refusal;
import org.rollwright.store.Store;
import org.rollwright.till.Account;
import org.rollwright.till.CalendarFile;
import org.rollwright.till.Ledger;
import org.rollwright.till.Trip;
import picocli.CommandLine;

/// Where the face value is.
@CommandLine.Command(
        name = "till",
        description = "Where every coin's face value is: the balances and the statement.",
        footer = {
            "",
            "Example: ./run till          ./run till --statement          ./run till --orders orders.ics",
            "         ./run till --round '60 km'",
            "",
            "Boxes, finds, short rolls and returns enter the books by themselves; they add up to the cent.",
            "Exit status: 0 printed, 2 no such currency, 5 there is no store or the file could not be written."
        })
public final class TillCommand implements Callable<Integer> {
    @CommandLine.Mixin
    private Open open = new Open();

    @CommandLine.Option(
            names = "--currency",
            paramLabel = "CODE",
            description = "Books in USD, CAD ... (default: ${DEFAULT-VALUE}).",
            defaultValue = "USD")
    private String currency = "USD";

    @CommandLine.Option(names = "--statement", description = "Print every movement, day by day.")
    private boolean statement;

    @CommandLine.Option(
            names = "--orders",
            paramLabel = "FILE",
            description = "Write the open orders as a calendar file.")
    private @Nullable Path orders;

    @CommandLine.Option(
            names = "--round",
            arity = "0..1",
            fallbackValue = "",
            paramLabel = "ROAD",
            description = "Print the best bank round of each of the next days, no longer than 60 km or 40 mi.")
    private @Nullable String round;

    @CommandLine.Option(names = "--json", description = "Print JSON.")
    private boolean json;

    /// The books as JSON.
    record Books(
            String currency, Map<String, String> balances, String sum, List<Line> movements, List<String> leftOut) {}

    /// A movement as JSON.
    record Line(String day, String from, String to, String amount, String what, String where) {}

    @Override
    public Integer call() {
        CurrencyUnit unit;
        try {
            unit = CurrencyUnit.of(currency.toUpperCase(Locale.ROOT));
        } catch (IllegalCurrencyException e) {
            throw new Open.Stop(
                    ExitCode.INPUT, "'" + currency + "' is no currency. Write USD, CAD or another ISO 4217 code.");
        }
        try (Open.Bench bench = open.open(Store.Mode.READ, System.err)) {
            Ledger ledger = bench.desk()
                    .read(book ->
                            Ledger.of(book.till(), book.holdings(), bench.catalog(), unit, ZoneId.systemDefault()));
            String road = round;
            if (road != null) {
                round(bench, ledger, road);
            } else if (json) {
                System.out.println(Json.of(books(ledger, unit)));
            } else {
                print(ledger, unit);
            }
            Path file = orders;
            if (file != null) {
                String text = bench.desk()
                        .read(book -> CalendarFile.of(
                                CalendarFile.orders(
                                        book.till().orders(),
                                        order -> order.denomination().toString() + "s"),
                                InstantSource.system().instant()));
                write(file, text);
            }
            return ExitCode.OK.number();
        }
    }

    /// A day's round as JSON.
    record Day(String day, double kilometres, double worth, boolean best, List<String> calls) {}

    private void round(Open.Bench bench, Ledger ledger, String road) {
        Setting setting = bench.setting();
        double allowed = road.isBlank()
                ? Trip.ANY_ROAD
                : Distance.kilometres(road, setting.milesMeant())
                        .orElseThrow(() -> new Open.Stop(
                                ExitCode.INPUT,
                                "'" + Refusal.quote(road) + "' is no distance. Write 12 km or 7.5 mi."));
        Trip.Manner plain = new Trip.Manner() {
            @Override
            public String amount(BigDecimal amount) {
                return amount.toPlainString();
            }

            @Override
            public String day(LocalDate day) {
                return day.toString();
            }
        };
        Trip trip =
                bench.desk().read(known -> Trip.plan(known.till(), ledger, setting.today(), Map.of(), allowed, plain));
        List<Day> days = trip.rounds().stream()
                .filter(one -> !one.calls().isEmpty())
                .map(one -> new Day(
                        one.day().toString(),
                        Math.round(10 * one.kilometres()) / 10.0,
                        one.worth(),
                        one.equals(trip.best()),
                        one.calls().stream()
                                .map(call -> call.branch().name() + ": " + String.join("; ", call.why()))
                                .toList()))
                .toList();
        if (json) {
            System.out.println(Json.of(days));
            return;
        }
        if (days.isEmpty()) {
            System.out.println("There is nothing to do at a bank in the next " + Trip.DAYS + " days.");
        }
        days.forEach(day -> {
            System.out.printf(
                    Locale.ROOT,
                    "%s  %.1f km, %.2f points%s%n",
                    day.day,
                    day.kilometres,
                    day.worth,
                    day.best ? ", the best" : "");
            day.calls.forEach(call -> System.out.println("    " + call));
        });
    }

    private static void write(Path file, String text) {
        try {
            Files.writeString(file, text);
        } catch (IOException e) {
            throw new Open.Stop(ExitCode.STORE, "The file " + file + " could not be written.");
        }
    }

    private static Books books(Ledger ledger, CurrencyUnit unit) {
        Map<String, String> balances = new LinkedHashMap<>();
        for (Account account : Account.values()) {
            balances.put(account.words(), amount(ledger, account));
        }
        return new Books(
                unit.getCode(),
                balances,
                ledger.sum().toPlainString(),
                ledger.movements().stream()
                        .map(move -> new Line(
                                move.day().toString(),
                                move.from().words(),
                                move.to().words(),
                                move.amount().toPlainString(),
                                move.what(),
                                move.where()))
                        .toList(),
                ledger.leftOut().stream().map(TillCommand::sentence).toList());
    }

    private static String amount(Ledger ledger, Account account) {
        return (account == Account.OUTSIDE ? ledger.balance(account).negate() : ledger.balance(account))
                .toPlainString();
    }

    private static String sentence(Ledger.LeftOut one) {
        return one.movement().amount().toPlainString() + " on " + one.movement().day() + " ("
                + one.movement().what() + "): " + one.why().wrong();
    }

    private void print(Ledger ledger, CurrencyUnit unit) {
        if (statement) {
            ledger.movements()
                    .forEach(move -> System.out.printf(
                            Locale.ROOT,
                            "%s %12s  %-20s -> %-20s  %s%s%n",
                            move.day(),
                            move.amount().toPlainString(),
                            move.from().words(),
                            move.to().words(),
                            move.what(),
                            move.where().isBlank() ? "" : ", " + move.where()));
            System.out.println();
        }
        for (Account account : Account.values()) {
            System.out.printf(Locale.ROOT, "%12s %s  %s%n", amount(ledger, account), unit.getCode(), account.words());
        }
        System.out.println("Drawn from outside less all the others: "
                + ledger.sum().negate().toPlainString());
        ledger.leftOut().forEach(one -> System.out.println("Left out: " + sentence(one)));
    }
}
