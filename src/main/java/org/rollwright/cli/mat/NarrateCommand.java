package org.rollwright.cli.mat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.catalog.Selection;
import org.rollwright.cli.shell.Count;
import org.rollwright.cli.shell.ExitCode;
import org.rollwright.cli.shell.Json;
import org.rollwright.cli.shell.Open;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.entry.EntryContext;
import org.rollwright.entry.Recorder;
import org.rollwright.entry.narration.Acceptance;
import org.rollwright.entry.narration.Captions;
import org.rollwright.entry.narration.Decoder;
import org.rollwright.entry.narration.Narration;
import org.rollwright.entry.narration.OwnVoice;
import org.rollwright.entry.narration.Recaps;
import org.rollwright.hunt.HuntId;
import org.rollwright.store.Settings;
import org.rollwright.store.Store;
import picocli.CommandLine;

/// What the captions of a filmed hunt tell.
@CommandLine.Command(
        name = "narrate",
        description = "Propose a log from the captions of a filmed hunt (WebVTT, SRT, or text with [m:ss]).",
        footer = {
            "",
            "Example: ./run narrate hunt.vtt --watch wheat",
            "         ./run narrate hunt.vtt --watch wheat --accept-above 0.9 --box \"Box 12\"",
            "",
            "Nothing is recorded without --accept-above; the Mat's review page shows every find beside its words.",
            "Exit status: 0 printed, 2 the file or an option was not usable, 3 no such hunt, 4 the store is in use."
        })
public final class NarrateCommand implements Callable<Integer> {
    @CommandLine.Mixin
    private Open open = new Open();

    @CommandLine.Parameters(paramLabel = "FILE", description = "The captions.")
    private @Nullable Path file;

    @CommandLine.Option(
            names = "--denomination",
            paramLabel = "WORDS",
            description = {
                "What the boxes hold: cent, nickel, ca cent ... (default: ${DEFAULT-VALUE}).",
                "Box by box with commas between: ca nickel,ca dime."
            },
            defaultValue = "cent")
    private String denomination = "cent";

    @CommandLine.Option(
            names = "--watch",
            paramLabel = "NAMES",
            description = "What was watched for, by commas: wheat,copper.")
    private String watch = "";

    @CommandLine.Option(
            names = "--rolls",
            paramLabel = "N",
            description = "Rolls in a full box (default: ${DEFAULT-VALUE}).",
            defaultValue = "50")
    private int rolls = 50;

    @CommandLine.Option(
            names = "--accept-above",
            paramLabel = "P",
            description = "Record the finds at least this probable, 0 to 1, with --hunt or --box.")
    private @Nullable Double acceptAbove;

    @CommandLine.Option(names = "--hunt", paramLabel = "N", description = "Record into hunt number N.")
    private @Nullable Long hunt;

    @CommandLine.Option(names = "--box", paramLabel = "NAME", description = "Record into a new hunt on a new box.")
    private @Nullable String box;

    @CommandLine.Option(
            names = "--shipped",
            description = "Decode as shipped, without what was learned of your voice (see ./run voice).")
    private boolean shipped;

    @CommandLine.Option(names = "--json", description = "Print JSON.")
    private boolean json;

    /// One proposed find.
    record FindJson(
            String at,
            int roll,
            int box,
            String country,
            String denomination,
            @Nullable Integer year,
            @Nullable String mint,
            int count,
            @Nullable String variety,
            @Nullable String note,
            double probability,
            String words,
            Map<String, Double> otherwise) {}

    /// What the finds of a box or a kind come to, and what was said.
    ///
    /// @param through whether it is the count from the first box on
    record TotalJson(
            @Nullable Integer box,
            boolean through,
            @Nullable String kind,
            int finds,
            @Nullable Integer spoken) {}

    /// A weight read aloud.
    record WeightJson(String at, double grams, String words) {}

    /// The last running count and what the finds come to there.
    record TotalsJson(@Nullable Integer spoken, int decoded) {}

    /// Where they differ.
    record ConflictJson(String at, int spoken, int decoded, String words) {}

    /// A stretch that may be a recap of earlier finds: yes or no settles so many of its dates.
    record RecapJson(String from, String to, int dates) {}

    /// What is printed.
    record Report(
            List<FindJson> finds,
            List<FindJson> left,
            @Nullable RecapJson recap,
            List<WeightJson> weights,
            TotalsJson totals,
            List<TotalJson> byBoxAndKind,
            List<ConflictJson> conflicts,
            List<String> remarks,
            @Nullable Integer recorded) {}

    @Override
    public Integer call() throws IOException {
        Path wanted = file;
        if (wanted == null || !Files.isRegularFile(wanted)) {
            throw new Open.Stop(ExitCode.INPUT, "There is no file " + wanted + ".");
        }
        if (rolls < 1 || rolls > 500) {
            throw new Open.Stop(ExitCode.INPUT, "A box has 1 to 500 rolls, not " + rolls + ".");
        }
        Double above = acceptAbove;
        if (above != null && !(above >= 0 && above <= 1)) {
            throw new Open.Stop(ExitCode.INPUT, "--accept-above is a probability from 0 to 1, not " + above + ".");
        }
        if (above != null && hunt == null && box == null) {
            throw new Open.Stop(ExitCode.INPUT, "Say where to record: --hunt N, or --box NAME for a new one.");
        }
        if (hunt != null && box != null) {
            throw new Open.Stop(ExitCode.INPUT, "Say --hunt N, or --box NAME for a new one, not both.");
        }
        Captions captions =
                switch (Captions.read(Files.readAllBytes(wanted))) {
                    case Captions.Read.Unusable unusable -> throw new Open.Stop(ExitCode.INPUT, unusable.sentence());
                    case Captions.Read.Good good -> good.captions();
                };
        if (above == null) {
            Catalog catalog = open.catalog(System.err);
            List<Denomination> boxes = boxes(catalog);
            EntryContext context = context(catalog, boxes.getFirst());
            print(decoder(catalog).decode(captions, context, boxes, rolls), null);
            return ExitCode.OK.number();
        }
        try (Open.Bench bench = open.open(Store.Mode.WRITE, System.err)) {
            HuntId into = hunt(bench);
            EntryContext context = bench.desk()
                    .read(book -> bench.recorder()
                            .context(book, book.hunt().hunt(into).orElseThrow()));
            List<Denomination> boxes = hunt == null
                    ? boxes(bench.catalog())
                    : bench.desk()
                            .read(book -> bench.recorder()
                                    .denominations(book, book.hunt().hunt(into).orElseThrow()));
            Narration narration = decoder(bench.catalog()).decode(captions, context, boxes, rolls);
            print(narration, accept(bench, into, narration, above));
            return ExitCode.OK.number();
        }
    }

    private Decoder decoder(Catalog catalog) {
        OwnVoice voice = open.voice(catalog, new Settings(open.folder()));
        return shipped ? voice.shipped() : voice.decoder();
    }

    private HuntId hunt(Open.Bench bench) {
        Long number = hunt;
        if (number != null) {
            boolean there = number >= 1
                    && bench.desk()
                            .read(book -> book.hunt().hunt(new HuntId(number)).isPresent());
            if (!there) {
                throw new Open.Stop(ExitCode.NOTHING, "There is no hunt " + number + ".");
            }
            return new HuntId(number);
        }
        Script runner = new Script(bench, null);
        Map<String, String> details = new LinkedHashMap<>();
        if (denomination.contains(",")) {
            throw new Open.Stop(
                    ExitCode.INPUT,
                    "--box starts a hunt on one box; for boxes of several denominations start the hunt first, and say"
                            + " --hunt N.");
        }
        details.put("denomination", denomination);
        details.put("watch", watch);
        details.put("rolls", Integer.toString(rolls));
        Script.Line started = runner.start(0, "--box", String.valueOf(box).replace(',', ' '), details);
        if (!started.recorded()) {
            throw new Open.Stop(ExitCode.INPUT, started.wrong() + " " + started.right());
        }
        return runner.started().getFirst();
    }

    private int accept(Open.Bench bench, HuntId into, Narration narration, double above) {
        List<Acceptance.Row> accepted = new ArrayList<>();
        int finds = 0;
        for (int i = 0; i < narration.finds().size(); i++) {
            Narration.Proposed find = narration.finds().get(i);
            if (find.probability() >= above) {
                accepted.add(new Acceptance.Row(i, find.box(), find.roll(), find.at(), find.line()));
                finds += find.count();
            }
        }
        List<Acceptance.Searched> rolls = narration.rolls().stream()
                .map(visit -> new Acceptance.Searched(visit.box(), visit.roll()))
                .toList();
        if (accepted.isEmpty() && rolls.isEmpty()) {
            return 0;
        }
        Acceptance acceptance = Acceptance.of(accepted, rolls, Instant.now());
        return switch (bench.recorder().recordTogether(into, "narrate " + file, acceptance.told())) {
            case Recorder.Together.Recorded recorded -> finds;
            case Recorder.Together.Wrong wrong ->
                throw new Open.Stop(ExitCode.INPUT, wrong.wrong() + " " + wrong.right() + " Nothing was recorded.");
        };
    }

    /// What the boxes hold, in their order.
    private List<Denomination> boxes(Catalog catalog) {
        List<Denomination> boxes = new ArrayList<>();
        for (String one : denomination.split(",", -1)) {
            Optional<DenominationFacts> facts = catalog.denominationByName(one.strip());
            if (facts.isEmpty()) {
                throw new Open.Stop(
                        ExitCode.INPUT,
                        "'" + one.strip()
                                + "' is no denomination. Write cent, nickel, dime, quarter, half, or ca cent.");
            }
            boxes.add(facts.get().denomination());
        }
        return boxes;
    }

    private EntryContext context(Catalog catalog, Denomination first) {
        List<Selection> watches = new ArrayList<>();
        for (String name : watch.split(",")) {
            String word = name.strip().toLowerCase(Locale.ROOT);
            if (!word.isEmpty()) {
                String rule =
                        catalog.watchByWord(word).map(known -> known.rule()).orElse(word);
                if (!(Selection.parse(rule) instanceof Selection.Parsed.Good good)) {
                    throw new Open.Stop(
                            ExitCode.INPUT,
                            "'" + name.strip()
                                    + "' is nothing the catalogue can watch for. Write a name such as wheat, or a"
                                    + " rule such as metal silver.");
                }
                watches.add(good.selection());
            }
        }
        int year = Instant.now().atOffset(java.time.ZoneOffset.UTC).getYear();
        return new EntryContext(catalog, first, watches, year);
    }

    private void print(Narration narration, @Nullable Integer recorded) {
        List<FindJson> finds =
                narration.finds().stream().map(NarrateCommand::json).toList();
        Optional<RecapJson> recap = Recaps.mostUnsettled(narration)
                .map(one -> new RecapJson(
                        Captions.clock(one.from()),
                        Captions.clock(one.to()),
                        one.finds().size()));
        if (json) {
            System.out.println(Json.of(new Report(
                    finds,
                    narration.left().stream().map(NarrateCommand::json).toList(),
                    recap.orElse(null),
                    narration.weights().stream()
                            .map(one -> new WeightJson(
                                    Captions.clock(one.at()), one.mass().grams(), one.words()))
                            .toList(),
                    new TotalsJson(narration.spokenTotal(), narration.decodedTotal()),
                    narration.totals().stream()
                            .map(one -> new TotalJson(
                                    one.box() == 0 ? null : one.box(),
                                    one.through(),
                                    kind(one),
                                    one.finds(),
                                    one.spoken()))
                            .toList(),
                    narration.conflicts().stream()
                            .map(one -> new ConflictJson(
                                    Captions.clock(one.at()), one.spoken(), one.decoded(), one.words()))
                            .toList(),
                    narration.remarks(),
                    recorded)));
            return;
        }
        narration.remarks().forEach(System.err::println);
        narration.finds().forEach(NarrateCommand::print);
        if (!narration.left().isEmpty()) {
            System.out.println("Perhaps also, and not recorded:");
            narration.left().forEach(NarrateCommand::print);
        }
        recap.ifPresent(one -> System.out.println("Is " + one.from() + " to " + one.to() + " a recap? "
                + Count.of(one.dates(), "date", "dates") + " there, most of them found before."));
        narration
                .weights()
                .forEach(one -> System.out.printf(
                        Locale.ROOT,
                        "%s  weight %.0f g  %s%n",
                        Captions.clock(one.at()),
                        one.mass().grams(),
                        one.words()));
        narration
                .totals()
                .forEach(one -> System.out.println((one.through()
                                ? "Up to box " + one.box()
                                : one.box() > 0 ? "Box " + one.box() : "Of the kind " + kind(one))
                        + ": " + Count.of(one.finds(), "coin", "coins")
                        + (one.spoken() == null ? "" : "; you say " + one.spoken() + " at " + Captions.clock(one.at()))
                        + (one.agrees() ? "." : ", which does not agree.")));
        narration.conflicts().forEach(System.out::println);
        int coins =
                narration.finds().stream().mapToInt(Narration.Proposed::count).sum();
        String spoken = narration.spokenTotal() == null
                ? ""
                : "; the last count spoken is " + narration.spokenTotal() + ", the finds come to "
                        + narration.decodedTotal() + " there";
        System.out.println(Count.of(coins, "coin", "coins") + " proposed" + spoken + ". "
                + (recorded == null
                        ? "Nothing was recorded; --accept-above says from which probability on."
                        : recorded + " recorded as one step."));
    }

    private static void print(Narration.Proposed find) {
        System.out.printf(
                Locale.ROOT,
                "%s  b%d r%-3d %-14s %3.0f %%  %s%n",
                Captions.clock(find.at()),
                find.box(),
                find.roll(),
                find.line(),
                100 * find.probability(),
                find.words());
    }

    private static @Nullable String kind(Narration.Total total) {
        Narration.Kind kind = total.kind();
        return kind == null ? null : kind.name().toLowerCase(Locale.ROOT);
    }

    private static double rounded(double share) {
        return Math.round(share * 1000) / 1000.0;
    }

    private static Map<String, Double> otherwise(Narration.Proposed find) {
        Map<String, Double> all = new LinkedHashMap<>();
        find.otherwise()
                .forEach(share -> all.put(
                        share.meaning().name().toLowerCase(Locale.ROOT).replace('_', ' '), rounded(share.weight())));
        return all;
    }

    private static FindJson json(Narration.Proposed find) {
        Identity identity = find.identity();
        List<String> varieties = new ArrayList<>(find.extras());
        return new FindJson(
                Captions.clock(find.at()),
                find.roll(),
                find.box(),
                identity.denomination().country().code(),
                Decoder.denomination(identity),
                identity.year(),
                Decoder.letter(identity),
                find.count(),
                varieties.isEmpty() ? null : String.join(" ", varieties),
                null,
                rounded(find.probability()),
                find.words(),
                otherwise(find));
    }
}
