package org.rollwright.cli.books;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.Series;
import org.rollwright.cli.shell.ExitCode;
import org.rollwright.cli.shell.Json;
import org.rollwright.cli.shell.Open;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.entry.Command;
import org.rollwright.entry.EntryContext;
import org.rollwright.entry.EntryParser;
import org.rollwright.entry.Reading;
import picocli.CommandLine;

/// What the catalogue knows.
@CommandLine.Command(
        name = "catalog",
        description = "Print the number of issues per series, or what is known of a coin.",
        footer = {
            "",
            "Example: ./run catalog 36d        ./run catalog --denomination dime 64",
            "",
            "Exit status: 0 printed, 2 the coin is not clear, 3 there is no such coin."
        })
public final class CatalogCommand implements Callable<Integer> {
    @CommandLine.Mixin
    private Open open = new Open();

    @CommandLine.Parameters(arity = "0..*", paramLabel = "COIN", description = "A coin as on the entry line.")
    private List<String> coin = List.of();

    @CommandLine.Option(
            names = "--denomination",
            paramLabel = "WORD",
            description = "What a bare date belongs to (default: ${DEFAULT-VALUE}).",
            defaultValue = "cent")
    private String denomination = "cent";

    @CommandLine.Option(names = "--json", description = "Print JSON.")
    private boolean json;

    /// One series.
    record SeriesCount(
            String series,
            String name,
            int issues,
            int circulation,
            int collectorOnly,
            @Nullable Integer from,
            @Nullable Integer to) {}

    /// All of them.
    record Counts(int issues, List<SeriesCount> series) {}

    /// One issue.
    record IssueJson(
            String coin,
            String series,
            String kind,
            String design,
            String metal,
            String alloy,
            String composition,
            double grams,
            @Nullable Double toleranceGrams,
            double diameterMillimetres,
            boolean magnetic,
            boolean collectorOnly,
            @Nullable Long mintage,
            String rarity,
            String check,
            String note,
            String source) {}

    @Override
    public Integer call() {
        Catalog catalog = open.catalog(System.err);
        return coin.isEmpty() ? counts(catalog) : coin(catalog);
    }

    private int counts(Catalog catalog) {
        List<SeriesCount> counts = new ArrayList<>();
        for (Series series : catalog.series()) {
            List<Issue> issues = catalog.issues().stream()
                    .filter(issue -> issue.series().id().equals(series.id()))
                    .toList();
            int collector = (int) issues.stream().filter(Issue::collectorOnly).count();
            counts.add(new SeriesCount(
                    series.id(),
                    series.name(),
                    issues.size(),
                    issues.size() - collector,
                    collector,
                    issues.isEmpty()
                            ? null
                            : issues.stream().mapToInt(Issue::year).min().getAsInt(),
                    issues.isEmpty()
                            ? null
                            : issues.stream().mapToInt(Issue::year).max().getAsInt()));
        }
        Counts all = new Counts(catalog.issues().size(), counts);
        if (json) {
            System.out.println(Json.of(all));
        } else {
            counts.forEach(row -> System.out.printf(
                    Locale.ROOT,
                    "%5d  %s-%s  %s%n",
                    row.issues,
                    row.from == null ? "?" : row.from.toString(),
                    row.to == null ? "?" : row.to.toString(),
                    row.name));
            System.out.printf(Locale.ROOT, "%5d  issues in all%n", all.issues);
        }
        return ExitCode.OK.number();
    }

    private int coin(Catalog catalog) {
        Denomination box = catalog.denominationByWord(Country.US, denomination)
                .map(DenominationFacts::denomination)
                .orElseThrow(() -> new Open.Stop(
                        ExitCode.INPUT,
                        "'" + denomination + "' is no denomination. Write cent, nickel, dime and so on."));
        EntryContext context = new EntryContext(
                catalog,
                box,
                List.of(),
                java.time.Year.now(java.time.ZoneOffset.UTC).getValue());
        String line = String.join(" ", coin);
        Reading reading = EntryParser.parse(line, context);
        List<Issue> issues =
                switch (reading) {
                    case Reading.Clear clear
                    when clear.commands().getFirst() instanceof Command.Found found ->
                        catalog.lookup(found.draft().facts().identity());
                    case Reading.Clear clear ->
                        throw new Open.Stop(ExitCode.INPUT, "'" + line + "' is no coin. Write for example 36d.");
                    case Reading.Empty empty ->
                        throw new Open.Stop(ExitCode.INPUT, "No coin was named. Write for example 36d.");
                    case Reading.Problem problem -> throw new Open.Stop(ExitCode.INPUT, problem.toString());
                    case Reading.Choose choose ->
                        throw new Open.Stop(
                                ExitCode.INPUT,
                                choose.question() + " Write one of: "
                                        + String.join(
                                                ", ",
                                                choose.options().stream()
                                                        .map(Reading.Option::line)
                                                        .toList()));
                };
        if (issues.isEmpty()) {
            throw new Open.Stop(ExitCode.NOTHING, "The catalogue has nothing on '" + line + "'.");
        }
        List<IssueJson> known = issues.stream().map(CatalogCommand::issue).toList();
        if (json) {
            System.out.println(Json.of(known));
        } else {
            known.forEach(CatalogCommand::print);
        }
        return ExitCode.OK.number();
    }

    private static IssueJson issue(Issue issue) {
        var tolerance = issue.alloy().tolerance();
        return new IssueJson(
                issue.identity().toString(),
                issue.series().name(),
                issue.identity().kind(),
                issue.identity().design(),
                issue.alloy().metal().word(),
                issue.alloy().name(),
                issue.alloy().composition(),
                issue.alloy().weight().grams(),
                tolerance == null ? null : (Double) tolerance.grams(),
                issue.alloy().diameter().millimetres(),
                issue.alloy().magnetic(),
                issue.collectorOnly(),
                issue.mintage(),
                issue.rarity().word(),
                issue.check(),
                issue.note(),
                issue.source());
    }

    private static void print(IssueJson issue) {
        System.out.println(issue.coin + (issue.collectorOnly ? "  (struck for collectors only)" : ""));
        System.out.println("  " + issue.series + (issue.rarity.isEmpty() ? "" : ", " + issue.rarity));
        System.out.printf(
                Locale.ROOT,
                "  %s (%s), %.3f g%s, %.2f mm%s%n",
                issue.metal,
                issue.composition,
                issue.grams,
                issue.toleranceGrams == null ? "" : String.format(Locale.ROOT, " ± %.3f g", issue.toleranceGrams),
                issue.diameterMillimetres,
                issue.magnetic ? ", magnetic" : "");
        if (issue.mintage != null) {
            System.out.printf(Locale.ROOT, "  mintage %,d (%s)%n", issue.mintage, issue.source);
        }
        if (!issue.check.isEmpty()) {
            System.out.println("  look: " + issue.check);
        }
        if (!issue.note.isEmpty()) {
            System.out.println("  " + issue.note);
        }
    }
}
