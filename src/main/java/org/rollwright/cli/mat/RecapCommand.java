package org.rollwright.cli.mat;

import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.rollwright.cabinet.ValueModel;
import org.rollwright.cli.shell.ExitCode;
import org.rollwright.cli.shell.Open;
import org.rollwright.desk.State;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.HuntId;
import org.rollwright.recap.Afterwards;
import org.rollwright.recap.Chapters;
import org.rollwright.recap.SeriesStory;
import org.rollwright.recap.Story;
import org.rollwright.recap.Worth;
import org.rollwright.store.Store;
import picocli.CommandLine;

/// Telling how a hunt went, as text.
@CommandLine.Command(
        name = "recap",
        description = "How a hunt went, as text to paste, or its chapters for a recording.",
        footer = {
            "",
            "Example: ./run recap 12          ./run recap 12 --chapters --first 1:35 --webvtt > chapters.vtt",
            "",
            "No bank, town or value is printed. Exit status: 0 printed, 2 no chapters can be made, 3 no such hunt, 5 there is no store."
        })
public final class RecapCommand implements Callable<Integer> {
    @CommandLine.Mixin
    private Open open = new Open();

    @CommandLine.Parameters(
            arity = "0..1",
            paramLabel = "HUNT",
            description = "Number of a hunt; the last one if left out.")
    private @Nullable Long hunt;

    @CommandLine.Option(names = "--short", description = "Two sentences only.")
    private boolean brief;

    @CommandLine.Option(names = "--series", description = "The whole series of the hunt's coins, in one paragraph.")
    private boolean series;

    @CommandLine.Option(names = "--chapters", description = "Print the chapters only.")
    private boolean chapters;

    @CommandLine.Option(
            names = "--first",
            paramLabel = "TIME",
            description = "Where the first roll opens in the recording (default: ${DEFAULT-VALUE}).",
            defaultValue = "0:00")
    private String first = "0:00";

    @CommandLine.Option(names = "--length", paramLabel = "TIME", description = "How long the recording lasts.")
    private @Nullable String length;

    @CommandLine.Option(names = "--webvtt", description = "Print the chapters as WebVTT.")
    private boolean webVtt;

    @Override
    public Integer call() {
        if (Stream.of(brief, series, chapters || webVtt).filter(asked -> asked).count() > 1) {
            throw new Open.Stop(ExitCode.INPUT, "Say --short, --series or --chapters: one at a time.");
        }
        Duration at = time(first);
        String end = length;
        @Nullable Duration lasts = end == null ? null : time(end);
        try (Open.Bench bench = open.open(Store.Mode.READ, System.err)) {
            String text = bench.desk().read(book -> text(book, bench, at, lasts));
            System.out.print(text.endsWith("\n") ? text : text + "\n");
            return ExitCode.OK.number();
        }
    }

    private static Duration time(String text) {
        return Chapters.parse(text)
                .orElseThrow(() -> new Open.Stop(ExitCode.INPUT, "'" + text + "' is no time. Write 1:35 or 1:02:03."));
    }

    private String text(State book, Open.Bench bench, Duration at, @Nullable Duration lasts) {
        Long number = hunt;
        Hunt found = (number == null
                        ? book.hunt().hunts().stream().reduce((a, b) -> b)
                        : number < 1 ? Optional.<Hunt>empty() : book.hunt().hunt(new HuntId(number)))
                .orElseThrow(() -> new Open.Stop(
                        ExitCode.NOTHING,
                        number == null ? "There is no hunt yet." : "There is no hunt " + number + "."));
        Worth worth = new Worth(
                bench.catalog(),
                book.cabinet(),
                ValueModel.of(book.cabinet().prices()),
                book.scale().metalPrices(),
                book.scope(),
                bench.setting().varieties().book(book.scope()));
        Story story = Story.of(book.hunt(), found, worth);
        if (series) {
            return found.boxes().stream()
                    .findFirst()
                    .flatMap(book.hunt()::box)
                    .map(box -> SeriesStory.of(book.hunt(), worth, box.denomination())
                            .text())
                    .orElse("The hunt has no box.");
        }
        if (brief) {
            return story.shortText();
        }
        Chapters.Result result = Chapters.of(book.hunt(), found, bench.catalog(), at, lasts);
        if (chapters || webVtt) {
            return switch (result) {
                case Chapters.Result.Made made ->
                    webVtt ? made.chapters().webVtt(lasts) : made.chapters().text();
                case Chapters.Result.Refused refused ->
                    throw new Open.Stop(ExitCode.INPUT, refused.flaw().toString());
            };
        }
        return story.longText(
                Afterwards.of(book.album(), book.holdings(), found, bench.catalog()),
                result instanceof Chapters.Result.Made made ? Optional.of(made.chapters()) : Optional.empty());
    }
}
