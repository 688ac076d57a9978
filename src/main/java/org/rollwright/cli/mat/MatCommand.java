package org.rollwright.cli.mat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintStream;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.rollwright.cli.shell.Count;
import org.rollwright.cli.shell.ExitCode;
import org.rollwright.cli.shell.Json;
import org.rollwright.cli.shell.Open;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.HuntId;
import org.rollwright.store.Store;
import picocli.CommandLine;

/// Records entry lines from a file or the keyboard.
@CommandLine.Command(
        name = "mat",
        description = "Record entry lines, from a file or from the keyboard.",
        footer = {
            "",
            "Example: ./run mat --box \"Box 12\" --watch wheat,copper --script lines.txt",
            "",
            "Lines are those of the Mat: + is the next roll, 39s a 1939-S. Each line is durable before it is",
            "acknowledged on standard output. In a file, # begins a comment, and @hunt, @at, @album, @accept and",
            "@opening set the scene (see docs/guide/entry-line.md and demo/series.txt).",
            "Exit status: 0 all recorded, 2 a line was refused, 3 no such hunt, 4 the store is in use, 5 not saved."
        })
public final class MatCommand implements Callable<Integer> {
    /// Options that tell of a new box and its hunt.
    private static final List<String> OF_A_NEW_BOX =
            List.of("--denomination", "--rolls", "--form", "--coins", "--watch");

    @CommandLine.Spec
    private CommandLine.Model.@Nullable CommandSpec spec;

    @CommandLine.Mixin
    private Open open = new Open();

    @CommandLine.Option(names = "--box", paramLabel = "NAME", description = "Start a hunt on a new box of this name.")
    private @Nullable String box;

    @CommandLine.Option(names = "--hunt", paramLabel = "N", description = "Go on with hunt number N.")
    private @Nullable Long hunt;

    @CommandLine.Option(
            names = "--denomination",
            paramLabel = "WORD",
            description = "Denomination of the new box: cent, nickel, ca cent ... (default: ${DEFAULT-VALUE}).",
            defaultValue = "cent")
    private String denomination = "cent";

    @CommandLine.Option(
            names = "--rolls",
            paramLabel = "N",
            description = "Rolls in the new box; a full box's number if left out.")
    private @Nullable Integer rolls;

    @CommandLine.Option(
            names = "--form",
            paramLabel = "FORM",
            description = "box, rolls, bag or jar (default: ${DEFAULT-VALUE}).",
            defaultValue = "box")
    private String form = "box";

    @CommandLine.Option(names = "--coins", paramLabel = "N", description = "Loose coins, for a bag or jar.")
    private @Nullable Integer coins;

    @CommandLine.Option(
            names = "--watch",
            paramLabel = "NAMES",
            description = "What is watched for, by commas: wheat,copper.")
    private String watch = "";

    @CommandLine.Option(
            names = "--script",
            paramLabel = "FILE",
            description = "File of lines; - or none for the keyboard.")
    private @Nullable String script;

    @CommandLine.Option(names = "--keep-going", description = "Go on behind a line that is refused.")
    private boolean keepGoing;

    @CommandLine.Option(names = "--json", description = "Print the hunts worked on, box by box, as JSON at the end.")
    private boolean json;

    /// What is printed at the end.
    record Result(int recorded, List<Refused> refused, List<HuntJson> hunts) {}

    /// A line that was not recorded.
    record Refused(int line, String text, String wrong, String right) {}

    /// A hunt and its boxes.
    record HuntJson(long hunt, String name, int found, List<BoxJson> boxes) {}

    @Override
    public Integer call() throws IOException {
        refuseIdleOptions();
        try (Open.Bench bench = open.open(Store.Mode.WRITE, System.err)) {
            Long wanted = hunt;
            HuntId going = wanted == null || wanted < 1 ? null : new HuntId(wanted);
            boolean there = going == null
                    || bench.desk().read(book -> book.hunt().hunt(going)).isPresent();
            if (!there || (wanted != null && wanted < 1)) {
                throw new Open.Stop(
                        ExitCode.NOTHING,
                        "There is no hunt " + wanted + ". Leave --hunt out and use --box to start one.");
            }
            Script runner = new Script(bench, going);
            List<HuntId> worked = new ArrayList<>();
            if (going != null) {
                worked.add(going);
            }
            if (box != null) {
                Script.Line started = runner.start(0, "--box", box, details());
                if (!started.recorded()) {
                    throw new Open.Stop(ExitCode.INPUT, started.wrong() + " " + started.right());
                }
            }
            List<Refused> refused = new ArrayList<>();
            int[] recorded = new int[1];
            PrintStream out = System.out;
            run(runner, line -> {
                if (line.recorded()) {
                    recorded[0]++;
                    if (!json) {
                        out.println("ok " + line.number() + " " + line.seq() + " " + line.text());
                        out.flush();
                    }
                } else {
                    refused.add(new Refused(line.number(), line.text(), line.wrong(), line.right()));
                    System.err.println("line " + line.number() + ": " + line.wrong() + " " + line.right());
                }
            });
            worked.addAll(runner.started());
            if (json) {
                out.println(Json.of(new Result(recorded[0], refused, hunts(bench, worked))));
            }
            if (!refused.isEmpty() && !json) {
                System.err.println(Count.of(recorded[0], "line", "lines") + " recorded; "
                        + (keepGoing || fromKeyboard()
                                ? refused.size() + " refused."
                                : "stopped at the refused line."));
            }
            return refused.isEmpty() ? ExitCode.OK.number() : ExitCode.INPUT.number();
        }
    }

    private Map<String, String> details() {
        Map<String, String> values = new LinkedHashMap<>();
        values.put("denomination", denomination);
        values.put("form", form);
        values.put("watch", watch);
        if (rolls != null) {
            values.put("rolls", rolls.toString());
        }
        if (coins != null) {
            values.put("coins", coins.toString());
        }
        String label = box;
        if (label != null) {
            values.put("boxes", label.replace(',', ' '));
        }
        return values;
    }

    /// What was asked for must not be passed over in silence.
    private void refuseIdleOptions() {
        if (box != null || spec == null) {
            return;
        }
        CommandLine.ParseResult parsed = spec.commandLine().getParseResult();
        for (String option : OF_A_NEW_BOX) {
            if (parsed.hasMatchedOption(option)) {
                throw new Open.Stop(
                        ExitCode.INPUT,
                        option + " is about a new box, and none is begun. Name it with --box, or leave " + option
                                + " out.");
            }
        }
    }

    private boolean fromKeyboard() {
        return script == null || script.equals("-");
    }

    private void run(Script runner, java.util.function.Consumer<Script.Line> told) throws IOException {
        String file = script;
        if (file != null && !fromKeyboard()) {
            runner.run(lines(Path.of(file)), keepGoing, told);
            return;
        }
        BufferedReader keyboard = new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8));
        runner.run(() -> keyboard.lines().iterator(), true, told);
    }

    private static List<String> lines(Path file) throws IOException {
        try {
            return Files.readAllLines(file, StandardCharsets.UTF_8);
        } catch (NoSuchFileException e) {
            throw new Open.Stop(ExitCode.INPUT, "There is no file " + file + ".");
        } catch (CharacterCodingException e) {
            throw new Open.Stop(ExitCode.INPUT, "The file " + file + " is not in UTF-8. Save it in that encoding.");
        }
    }

    private static List<HuntJson> hunts(Open.Bench bench, List<HuntId> worked) {
        return bench.desk().read(book -> {
            List<HuntJson> hunts = new ArrayList<>();
            for (HuntId id : worked.stream().distinct().toList()) {
                Hunt known = book.hunt().hunt(id).orElseThrow();
                hunts.add(new HuntJson(
                        id.number(),
                        known.name(),
                        known.foundCoins(),
                        known.boxes().stream()
                                .map(boxId ->
                                        BoxJson.of(book, book.hunt().box(boxId).orElseThrow(), bench.catalog()))
                                .toList()));
            }
            return hunts;
        });
    }
}
