package org.rollwright.entry.sheet.take;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.rollwright.catalog.Catalog;

/// What all rows of a table together say of how its keeper writes. Used by one thread.
final class Customs {
    private final Lexicon words;
    private final Catalog catalog;
    private final Grid grid;
    private final Context context;

    Customs(Lexicon words, Catalog catalog, Grid grid, Context context) {
        this.words = words;
        this.catalog = catalog;
        this.grid = grid;
        this.context = context;
    }

    private List<Grid.Line> lines(TableFinder.Found table) {
        return grid.lines().subList(table.heading() + 1, table.behind());
    }

    CoinReader coinReader(TableFinder.Found table) {
        List<String> texts = new ArrayList<>();
        List<String> currencies = new ArrayList<>();
        List<Grid.Cell> days = new ArrayList<>();
        for (String field : List.of("paid", "paid-each", "paid-all", "worth")) {
            for (Column column : table.columns(field)) {
                if (!Money.currency(column.heading()).isEmpty()) {
                    for (int i = 0; i < 50; i++) {
                        currencies.add(Money.currency(column.heading()));
                    }
                }
                for (Grid.Line line : lines(table)) {
                    Grid.Cell cell = line.cell(column.index());
                    if (cell.isBlank()) {
                        continue;
                    }
                    if (cell.number() == null) {
                        texts.add(cell.text());
                    }
                    String of = Money.currency(
                            cell.number() == null ? cell.text() : cell.format().replaceAll("[\\[\\]\"_-]|409", " "));
                    if (!of.isEmpty()) {
                        currencies.add(of);
                    }
                }
            }
        }
        table.column("acquired").ifPresent(column -> lines(table).forEach(line -> days.add(line.cell(column.index()))));
        if (table.column("country").isEmpty()) {
            context.usualCountry = usualCountry(table);
        }
        String currency = currencies.stream()
                .distinct()
                .max((a, b) -> Long.compare(
                        currencies.stream().filter(a::equals).count(),
                        currencies.stream().filter(b::equals).count()))
                .orElse("");
        long signed = currencies.stream().filter(currency::equals).count();
        long priced = Stream.of("paid", "paid-each", "paid-all")
                .flatMap(field -> table.columns(field).stream())
                .flatMap(column -> lines(table).stream().map(line -> line.text(column.index())))
                .filter(text -> text.matches(".*[0-9].*"))
                .count();
        // a sign in a few cells is there because the others are in another currency
        boolean few = currencies.stream().distinct().count() > 1 && signed * 3 < priced;
        currency = few ? "" : currency;
        boolean said = !currency.isEmpty();
        if (!said) {
            currency = usualCurrency(table);
        }
        if (!said && !context.saidCurrency.isEmpty()) {
            currency = context.saidCurrency;
        }
        boolean american = said || context.usualCountry.equals("United States") || isMostlyAmerican(table);
        Days.Order weak =
                switch (currency) {
                    case "USD" -> american ? Days.Order.MONTH_FIRST : Days.Order.UNKNOWN;
                    case "EUR", "GBP", "CHF", "NLG", "DEM", "FRF" -> Days.Order.DAY_FIRST;
                    default -> Days.Order.UNKNOWN;
                };
        return new CoinReader(
                words,
                catalog,
                table,
                new CoinReader.Custom(
                        Numbers.manner(texts), Days.order(days, weak), currency, said, context.priceNote));
    }

    private boolean isMostlyAmerican(TableFinder.Found table) {
        List<String> countries = table.column("country").stream()
                .flatMap(column -> lines(table).stream().map(line -> line.text(column.index())))
                .filter(text -> !text.isEmpty())
                .toList();
        long american = countries.stream()
                .filter(text -> words.exact("country", text).orElse("").equals("United States"))
                .count();
        return american * 2 > countries.size();
    }

    private String usualCountry(TableFinder.Found table) {
        List<String> homes = new ArrayList<>();
        for (Grid.Line line : lines(table)) {
            for (String field : List.of("denomination", "coin", "kind")) {
                table.column(field)
                        .map(column -> Denominations.ofCoin(line.text(column.index()), "", words)
                                .country())
                        .filter(home -> !home.isEmpty())
                        .ifPresent(homes::add);
            }
        }
        return homes.stream()
                .distinct()
                .filter(home -> homes.stream().filter(home::equals).count() * 10 >= homes.size() * 7L)
                .findFirst()
                .orElse("");
    }

    /// The money of a keeper who writes no sign: by the language of the headings and the coins.
    private String usualCurrency(TableFinder.Found table) {
        Set<String> english = Set.of(
                "paid",
                "price",
                "cost",
                "grade",
                "condition",
                "worth",
                "value",
                "year",
                "qty",
                "date",
                "coin",
                "country",
                "notes",
                "where");
        long found = table.columns().stream()
                .map(column -> Words.key(column.heading()))
                .filter(english::contains)
                .count();
        if (context.sheetCountry.equals("Canada")) {
            return "CAD";
        }
        if (context.sheetCountry.equals("United Kingdom")) {
            return "GBP";
        }
        return found >= 2 ? "USD" : found == 0 ? "EUR" : "";
    }

    BoxReader boxReader(TableFinder.Found table, BankNames banks) {
        List<String> texts = new ArrayList<>();
        for (String field : List.of("amount", "grams")) {
            table.column(field)
                    .ifPresent(column -> lines(table).stream()
                            .map(line -> line.cell(column.index()))
                            .filter(cell -> cell.number() == null)
                            .forEach(cell -> texts.add(cell.text())));
        }
        List<Grid.Cell> days = new ArrayList<>();
        table.column("date").ifPresent(column -> lines(table).forEach(line -> days.add(line.cell(column.index()))));
        context.boxes |= table.columns().stream()
                .anyMatch(column -> Words.plain(column.heading()).matches(".*\\bbox(es)?\\b.*"));
        if (context.sheetDenomination.isEmpty() && table.column("denomination").isEmpty()) {
            // columns for wheats are only in a log of cents
            List<String> homes = table.columns("find").stream()
                    .map(column -> FindWords.home(column.kind()))
                    .filter(home -> !home.isEmpty())
                    .distinct()
                    .toList();
            context.tableDenomination = homes.size() == 1 ? homes.getFirst() : "";
        }
        boolean canadian = context.sheetCountry.equals("Canada");
        return new BoxReader(
                words,
                table,
                Numbers.manner(texts.stream()
                        .filter(text -> !text.matches(".*[0-9],[0-9]{3}.*"))
                        .toList()),
                banks,
                Days.order(days, canadian ? Days.Order.UNKNOWN : Days.Order.MONTH_FIRST),
                new Rolls(catalog),
                wordy(table));
    }

    /// Whether a part of the amounts are told in boxes or rolls.
    private boolean wordy(TableFinder.Found table) {
        List<String> amounts = table.column("amount").stream()
                .flatMap(column -> lines(table).stream().map(line -> line.text(column.index())))
                .filter(text -> !text.isEmpty())
                .toList();
        long told = amounts.stream()
                .filter(text -> BoxSize.sizeIn(text).matches(".*(box|roll).*"))
                .count();
        return told * 10 >= amounts.size() * 3L && told > 0;
    }
}
