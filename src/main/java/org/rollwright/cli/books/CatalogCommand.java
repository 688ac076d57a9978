package org.rollwright.cli.books;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.Series;
import org.rollwright.catalog.SourceCount;
import org.rollwright.catalog.SourceKind;
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
        description = "Print the number of issues per series, what they stand on, or what is known of a coin.",
        footer = {
            "",
            "Example: ./run catalog 36d        ./run catalog --denomination dime 64        ./run catalog --sources",
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

    @CommandLine.Option(names = "--sources", description = "Print how many rows stand on which kind of source.")
    private boolean sources;

    /// What the rows stand on.
    record SourceCounts(SourceCount all, SourceCount since1909, List<SourceCount> series) {}

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
            String source,
            String sourceKind,
            String mintageSource,
            String mintageKind,
            String mintageIs,
            String otherMintage) {}

    @Override
    public Integer call() {
        Catalog catalog = open.catalog(System.err);
        if (sources) {
            return sources(catalog);
        }
        return coin.isEmpty() ? counts(catalog) : coin(catalog);
    }

    private int sources(Catalog catalog) {
        SourceCounts counts = new SourceCounts(
                SourceCount.sum(catalog, issue -> true),
                SourceCount.sum(catalog, issue -> issue.year() >= 1909),
                SourceCount.bySeries(catalog));
        if (json) {
            System.out.println(Json.of(counts));
            return ExitCode.OK.number();
        }
        System.out.println("       rows that exist by             rows with a mintage by          other");
        System.out.println(" rows  offic encyc  list total memory  offic encyc  list total memory figure  series");
        counts.series.forEach(count -> print(count, count.series()));
        print(counts.all, "in all");
        print(counts.since1909, "since 1909");
        System.out.printf(
                Locale.ROOT,
                "From memory alone %.1f %% of all rows, %.1f %% since 1909; a mintage for %.1f %% since 1909.%n",
                100 * counts.all.fromMemory(),
                100 * counts.since1909.fromMemory(),
                100.0 * counts.since1909.withMintage() / Math.max(1, counts.since1909.rows()));
        counts.all
                .inexact()
                .forEach((precision, rows) ->
                        System.out.printf(Locale.ROOT, "%5d  mintages: %s%n", rows, precision.word()));
        return ExitCode.OK.number();
    }

    private static void print(SourceCount count, String name) {
        StringBuilder line = new StringBuilder(String.format(Locale.ROOT, "%5d ", count.rows()));
        for (Map<SourceKind, Integer> kinds : List.of(count.exist(), count.mintages())) {
            line.append(String.format(
                    Locale.ROOT,
                    " %5d %5d %5d %5d  %5d",
                    kinds.get(SourceKind.OFFICIAL),
                    kinds.get(SourceKind.ENCYCLOPAEDIA),
                    kinds.getOrDefault(SourceKind.LIST, 0) + kinds.getOrDefault(SourceKind.OTHER, 0),
                    kinds.get(SourceKind.TOTAL),
                    kinds.get(SourceKind.MEMORY)));
        }
        System.out.println(line.append(String.format(Locale.ROOT, "  %5d  %s", count.disputed(), name)));
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
                issue.source(),
                issue.evidence().kind().word(),
                issue.evidence().mintageSource(),
                issue.mintage() == null ? "" : issue.evidence().mintageKind().word(),
                issue.evidence().precision().word(),
                issue.evidence().otherMintage());
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
            System.out.printf(
                    Locale.ROOT,
                    "  mintage %,d%s (%s)%n",
                    issue.mintage,
                    issue.mintageIs.isEmpty() ? "" : ", " + issue.mintageIs,
                    issue.mintageSource);
            if (!issue.otherMintage.isEmpty()) {
                System.out.println("  but " + issue.otherMintage);
            }
        }
        if (!issue.check.isEmpty()) {
            System.out.println("  look: " + issue.check);
        }
        if (!issue.note.isEmpty()) {
            System.out.println("  " + issue.note);
        }
    }
}
