package org.rollwright.cli.books;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.rollwright.album.AlbumShelves;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.WatchName;
import org.rollwright.cli.shell.ExitCode;
import org.rollwright.cli.shell.Json;
import org.rollwright.cli.shell.Open;
import org.rollwright.hunt.Watch;
import org.rollwright.odds.History;
import org.rollwright.odds.OddsReport;
import org.rollwright.store.Store;
import picocli.CommandLine;

/// What the hunter's own history says of yields and forecasts.
@CommandLine.Command(
        name = "odds",
        description = "What a box gives, whether one was unusual, and when the albums will be full.",
        footer = {
            "",
            "Example: ./run odds --watch wheat          ./run odds --denomination nickel --watch silver --json",
            "",
            "Only rolls opened while the target was watched for count. Every number has its interval.",
            "Exit status: 0 printed, 2 the target is not clear, 5 there is no store."
        })
public final class OddsCommand implements Callable<Integer> {
    @CommandLine.Mixin
    private Open open = new Open();

    @CommandLine.Option(
            names = "--denomination",
            paramLabel = "WORD",
            description = "Boxes of cent, nickel, ca cent ... (default: ${DEFAULT-VALUE}).",
            defaultValue = "cent")
    private String denomination = "cent";

    @CommandLine.Option(
            names = "--watch",
            paramLabel = "NAME",
            description = "What was watched for (default: ${DEFAULT-VALUE}).",
            defaultValue = "wheat")
    private String watch = "wheat";

    @CommandLine.Option(names = "--json", description = "Print JSON.")
    private boolean json;

    @Override
    public Integer call() {
        try (Open.Bench bench = open.open(Store.Mode.READ, System.err)) {
            Optional<DenominationFacts> facts = bench.catalog().denominationByName(denomination);
            if (facts.isEmpty()) {
                throw new Open.Stop(
                        ExitCode.INPUT,
                        "'" + denomination
                                + "' is no denomination. Write cent, nickel, dime, quarter, half, or ca cent.");
            }
            Watch target = target(bench);
            long perBox = facts.get().coinsPerBox();
            OddsReport report = bench.desk().read(book -> {
                List<OddsReport.Wanted> wanted = new ArrayList<>();
                new AlbumShelves(bench.catalog(), facts.get().denomination().country())
                        .states(book.album(), book.holdings())
                        .forEach(state -> {
                            Map<String, List<Issue>> empty =
                                    state.emptyHoles(facts.get().denomination());
                            if (!empty.isEmpty()) {
                                wanted.add(new OddsReport.Wanted(state.name(), empty));
                            }
                        });
                History history =
                        History.of(book.hunt(), bench.catalog(), facts.get().denomination(), target, perBox);
                return OddsReport.of(book.hunt(), book.scope(), bench.catalog(), history, perBox, wanted);
            });
            print(report);
            return ExitCode.OK.number();
        }
    }

    private Watch target(Open.Bench bench) {
        Optional<Watch> used = bench.desk()
                .read(book -> book.hunt().hunts().stream()
                        .flatMap(hunt -> hunt.watches().stream())
                        .filter(one -> one.name().equalsIgnoreCase(watch))
                        .findFirst());
        if (used.isPresent()) {
            return used.get();
        }
        Optional<WatchName> known = bench.catalog().watchByWord(watch.toLowerCase(Locale.ROOT));
        if (known.isEmpty()) {
            throw new Open.Stop(
                    ExitCode.INPUT,
                    "'" + watch
                            + "' was never watched for, and the catalogue has no such name. Write wheat, for example.");
        }
        return new Watch(known.get().name(), known.get().rule());
    }

    private void print(OddsReport report) {
        if (json) {
            System.out.println(Json.of(report));
            return;
        }
        System.out.println(report.target() + " in boxes of " + report.denomination());
        System.out.println(report.yieldSentence());
        System.out.println(report.next().sentence());
        System.out.println(report.compareSentence());
        report.sources()
                .forEach(line -> System.out.printf(
                        Locale.ROOT,
                        "  %-40s %4d boxes  %5.1f per box  (%.1f to %.1f, 9 in 10)%n",
                        line.source(),
                        line.boxes(),
                        line.mean(),
                        line.ninety().low(),
                        line.ninety().high()));
        report.unusual().forEach(line -> System.out.println("  " + line.label() + ": " + line.sentence()));
        System.out.println(report.sisterSentence());
        System.out.println(report.enderSentence());
        System.out.println(report.dueSentence());
        System.out.println(report.trendSentence());
        System.out.println(report.issueSentence());
        report.albums().forEach(album -> System.out.println("  " + album.album() + ": " + album.sentence()));
        report.varieties().forEach(one -> System.out.println("  " + one.sentence()));
        System.out.println(report.honesty().sentence());
    }
}
