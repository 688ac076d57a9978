package org.rollwright.cli.books;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.rollwright.calc.Calculator;
import org.rollwright.calc.Calculators;
import org.rollwright.calc.Field;
import org.rollwright.calc.Said;
import org.rollwright.cli.shell.ExitCode;
import org.rollwright.cli.shell.Json;
import org.rollwright.cli.shell.Open;
import org.rollwright.text.Texts;
import picocli.CommandLine;

/// The models by themselves, for anyone with numbers in hand.
@CommandLine.Command(
        name = "calc",
        description = "Compute one model from numbers in hand: JSON on standard input, JSON on standard output.")
public final class CalcCommand implements Callable<Integer> {
    /// The names, for the help.
    static final class Names implements Iterable<String> {
        @Override
        public Iterator<String> iterator() {
            return Calculators.ALL.stream().map(Calculator::name).iterator();
        }
    }

    @CommandLine.Parameters(
            paramLabel = "NAME",
            arity = "0..1",
            completionCandidates = Names.class,
            description = "${COMPLETION-CANDIDATES}; without it, what there is.")
    private @Nullable String name;

    @CommandLine.Option(names = "--json", description = "Print what there is as JSON.")
    private boolean json;

    /// What a script is told of a calculator.
    record Told(String name, String question, List<ToldField> fields) {}

    /// What a script is told of a field.
    record ToldField(String key, String label, String example, boolean needed) {}

    @CommandLine.Spec
    void spec(CommandLine.Model.CommandSpec spec) {
        List<String> lines = new ArrayList<>(List.of("What each takes, by an example:"));
        for (Calculator one : Calculators.ALL) {
            lines.addAll(
                    List.of("", "@|bold " + one.name() + "|@  " + one.question().get(), "  " + one.example(false)));
            if (!one.example(true).isEmpty()) {
                lines.add("  or ask otherwise: " + one.example(true));
            }
        }
        lines.addAll(List.of(
                "",
                "A row may also name its numbers, {\"shape\":2,\"rate\":50000}, and a text may hold what the field of",
                "the page would: \"0 1 0 2\".",
                "",
                "Example: ./run calc box < numbers.json",
                "",
                "Exit status: 0 computed, 2 the input is not usable; the sentence names the key."));
        spec.usageMessage()
                .footer(lines.stream().map(line -> line.replace("%", "%%")).toArray(String[]::new));
    }

    @Override
    public Integer call() throws IOException {
        String wanted = name;
        if (wanted == null) {
            list();
            return ExitCode.OK.number();
        }
        Calculator calculator = Calculators.named(wanted)
                .orElseThrow(() -> new Open.Stop(
                        ExitCode.INPUT, Calculators.unknown(wanted).toString()));
        Said said = Said.json(System.in.readAllBytes())
                .orElseThrow(() -> new Open.Stop(
                        ExitCode.INPUT,
                        "The input is no JSON object. " + Texts.command() + " calc --help shows what each one takes."));
        return switch (calculator.compute(said)) {
            case Calculator.Outcome.Computed computed -> {
                System.out.println(Json.of(computed.answer().values()));
                yield ExitCode.OK.number();
            }
            case Calculator.Outcome.Refused refused ->
                throw new Open.Stop(ExitCode.INPUT, refused.why().toString());
        };
    }

    private void list() {
        if (json) {
            System.out.println(Json.of(Map.of(
                    "calculators",
                    Calculators.ALL.stream()
                            .map(one -> new Told(
                                    one.name(),
                                    one.question().get(),
                                    one.fields().stream()
                                            .map(field -> new ToldField(
                                                    field.key(),
                                                    field.label().get(),
                                                    field.example(),
                                                    field.use() == Field.Use.NEEDED))
                                            .toList()))
                            .toList())));
            return;
        }
        for (Calculator one : Calculators.ALL) {
            System.out.printf("%-12s %s%n", one.name(), one.question().get());
        }
    }
}
