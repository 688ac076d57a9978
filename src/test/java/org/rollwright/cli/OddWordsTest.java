package org.rollwright.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.rollwright.calc.Calculators;
import org.rollwright.calc.Field;
import org.rollwright.cli.serve.Pages;
import org.rollwright.cli.shell.ExitCode;
import picocli.CommandLine;

/// Numbers and words that nobody means, in every place of a command line or a script that takes one: each is
/// answered with a sentence, and no name from within the program reaches a person.
class OddWordsTest {
    private static final List<String> ODD = List.of(
            "CASX",
            "12.345",
            "-0",
            "-1",
            "1e9",
            "1e99999999",
            "1e-99999999",
            "NaN",
            "Infinity",
            "0x1p3",
            "1d",
            "99999999999",
            "9999999999999999999",
            "1,234.5",
            "١٢",
            "１２",
            "½",
            "+999999999-01-01",
            "-999999999-12-31",
            "9999-12-31",
            "2026-02-30",
            "+1000000000-12-31T23:59:59Z",
            "2026-03-01T19:00:00Z",
            "=1+1",
            "{}",
            "%s",
            "\\",
            "'\"",
            "\u0000",
            "\u001B[2J",
            "\uD83E\uDE99",
            "x".repeat(5_000));

    /// Directives and entry lines with one part left open.
    private static final List<String> LINES = List.of(
            "@hunt Odd; denomination ?",
            "@hunt ?; rolls 50",
            "@hunt Odd; boxes ?",
            "@hunt Odd; rolls ?",
            "@hunt Odd; coins ?",
            "@hunt Odd; form ?",
            "@hunt Odd; watch ?",
            "@hunt Odd; bank ?; branch ?; wrap ?; stamp ?; sisters ?; to ?; note ?",
            "@hunt Odd; ordered ?",
            "@hunt Odd; picked ?",
            "@hunt Odd; returned ?",
            "@at ?",
            "@at 2026-03-01T19:00:00Z ?",
            "@album ?: series wheat",
            "@album Odd: ?",
            "@opening ? wheat 1 10 1",
            "@opening cent ? 1 10 1",
            "@opening cent wheat ? 10 1",
            "@opening cent wheat 1 ? 1",
            "@opening cent wheat 1 10 ?",
            "@branch ?; branch Mill Lane",
            "@branch Odd; days ?",
            "@branch Odd; does ?",
            "@branch Odd; lead ?",
            "@branch Odd; fee ?",
            "@branch Odd; percent ?",
            "@branch Odd; km ?",
            "@branch Odd; way ?",
            "@branch Odd; note ?",
            "@cash ? CASH; amount 1; day 2026-03-01",
            "@cash OUTSIDE ?; amount 1; day 2026-03-01",
            "@cash OUTSIDE CASH; amount ?; day 2026-03-01",
            "@cash OUTSIDE CASH; amount 1; day ?",
            "@cash OUTSIDE CASH; amount 1; day 2026-03-01; currency ?",
            "@cash OUTSIDE CASH; amount 1; day 2026-03-01; where ?; what ?",
            "@cash ?",
            "@back ?; day 2026-03-01",
            "@back Odd; day ?",
            "@order ?; coins cent; boxes 1; day 2026-03-01; due 2026-03-04",
            "@order Odd; coins ?; boxes 1; day 2026-03-01; due 2026-03-04",
            "@order Odd; coins cent; boxes ?; day 2026-03-01; due 2026-03-04",
            "@order Odd; coins cent; boxes 1; day ?; due 2026-03-04",
            "@order Odd; coins cent; boxes 1; day 2026-03-01; due ?",
            "@spent ?; day 2026-03-01; minutes 1",
            "@spent BANK; day ?; minutes 1",
            "@spent BANK; day 2026-03-01; minutes ?",
            "@spent BANK; day 2026-03-01; km ?",
            "@spent BANK; day 2026-03-01; fuel ?",
            "@?",
            "?",
            "39s ?",
            "39s x?",
            "39s vf?",
            "1939-? ",
            "+?",
            "+ ?",
            "r?",
            "r?=49",
            "r3=?",
            "b?",
            "f?",
            "f1 ?",
            "f1 > r?",
            "f1 /?",
            "e ?/9",
            "e 1/?",
            "w ?g",
            "w ?",
            "note ?",
            "mark ?",
            "watch ?",
            "unwatch ?",
            "checked ?");

    private static final Pattern FROM_WITHIN = Pattern.compile(
            "org\\.rollwright|\\bjava\\.|No enum constant|For input string|[Cc]haracter .* is neither a decimal"
                    + "|Optional\\[|Optional\\.empty|@[0-9a-f]{6,8}\\b|\\bnull\\b|Exception|mistake of the tool"
                    + "|\\b[A-Z]{2,}_[A-Z_]+\\b|\\b(?:Reading|Outcome|Refusal|Problem|CoinRef|BoxId)\\[");

    @TempDir
    private Path folder;

    private final List<String> faults = new ArrayList<>();

    private void look(String what, Commands.Outcome outcome, boolean json) {
        String said = (outcome.out() + "\n" + outcome.err())
                .lines()
                .filter(line -> !(json && line.contains(": null")))
                .reduce("", (a, b) -> a + "\n" + b);
        if (outcome.status() == ExitCode.BUG.number()
                || FROM_WITHIN.matcher(said).find()) {
            String shown = FROM_WITHIN
                    .matcher(said)
                    .results()
                    .map(found ->
                            said.substring(Math.max(0, found.start() - 60), Math.min(said.length(), found.end() + 60)))
                    .findFirst()
                    .orElse("");
            faults.add(
                    what.substring(0, Math.min(80, what.length())) + " -> " + outcome.status() + " " + shown.strip());
        }
    }

    private Commands.Outcome run(String... args) {
        return Commands.run(args);
    }

    @Test
    void no_line_of_a_script_is_answered_with_a_fault_or_a_name_from_within() throws IOException {
        List<String> script = new ArrayList<>(List.of("@hunt First; rolls 50; watch wheat", "39s", "44"));
        for (String line : LINES) {
            for (String odd : ODD) {
                script.add(line.replace("?", odd));
            }
        }
        // a seeded mixture besides: two parts odd at once
        Random random = new Random(20_260_301);
        for (int i = 0; i < 400; i++) {
            String line = LINES.get(random.nextInt(LINES.size()));
            script.add(line.replaceFirst(
                            "\\?", java.util.regex.Matcher.quoteReplacement(ODD.get(random.nextInt(ODD.size()))))
                    + "; note " + ODD.get(random.nextInt(ODD.size())));
        }
        for (String line : script) {
            // one by one as well as together, so that the fault is named
            assertThat(line.lines().count()).as(line).isLessThanOrEqualTo(1);
        }
        Path file = Files.write(folder.resolve("odd.txt"), script);
        String data = folder.resolve("data").toString();
        Commands.Outcome all = run("mat", "--data", data, "--script", file.toString(), "--keep-going");
        assertThat(all.status()).as(all.err()).isEqualTo(ExitCode.INPUT.number());
        long answered = all.out().lines().filter(line -> line.startsWith("ok ")).count()
                + all.err().lines().filter(line -> line.startsWith("line ")).count();
        assertThat(answered)
                .as("every line is answered")
                .isEqualTo(script.stream().filter(line -> !line.isBlank()).count());
        all.err().lines().filter(FROM_WITHIN.asPredicate()).forEach(faults::add);
        // what was taken can be shown by every command
        for (List<String> shown : List.of(
                List.of("till"),
                List.of("till", "--statement"),
                List.of("till", "--json"),
                List.of("odds"),
                List.of("odds", "--json"),
                List.of("box", "--json"),
                List.of("album"),
                List.of("album", "--json"),
                List.of("recap", "1"),
                List.of("cabinet"),
                List.of("cabinet", "--json"),
                List.of("check"))) {
            List<String> args = new ArrayList<>(shown);
            args.addAll(1, List.of("--data", data));
            look(String.join(" ", shown), run(args.toArray(String[]::new)), shown.contains("--json"));
        }
        assertThat(faults).isEmpty();
    }

    @Test
    void no_option_is_answered_with_a_fault_or_a_name_from_within() throws IOException {
        String data = folder.resolve("data").toString();
        Path file = Files.writeString(folder.resolve("s.txt"), "39s\n");
        run("mat", "--data", data, "--box", "First", "--watch", "wheat", "--script", file.toString());
        Set<String> left = Set.of("serve", "warm-up", "restore", "backup", "journal", "calc");
        InputStream keyboard = System.in;
        System.setIn(new ByteArrayInputStream(new byte[0]));
        try {
            RootCommand.commandLine((work, port) -> new Pages.Started.NoPort(port, port))
                    .getSubcommands()
                    .forEach((name, command) -> {
                        if (left.contains(name)) {
                            return;
                        }
                        for (String odd : ODD.subList(0, ODD.size() - 1)) {
                            if (odd.indexOf('\u0000') >= 0) {
                                continue;
                            }
                            for (CommandLine.Model.OptionSpec option :
                                    command.getCommandSpec().options()) {
                                boolean file1 = option.paramLabel().matches("(?i)FILE|FOLDER|DIR");
                                if (option.arity().max() > 0 && !file1) {
                                    look(
                                            name + " " + option.longestName() + " " + odd,
                                            run(name, "--data", data, option.longestName() + "=" + odd),
                                            false);
                                }
                            }
                            look(name + " " + odd, run(name, "--data", data, odd), false);
                        }
                    });
        } finally {
            System.setIn(keyboard);
        }
        assertThat(faults).isEmpty();
    }

    @Test
    void no_model_is_answered_with_a_fault_or_a_name_from_within() {
        InputStream keyboard = System.in;
        try {
            List<String> models = new ArrayList<>(List.of("CASX"));
            Calculators.ALL.forEach(one -> models.add(one.name()));
            for (String model : models) {
                for (String value : List.of(
                        "\"CASX\"",
                        "12.345",
                        "-0",
                        "1e9",
                        "1e309",
                        "1e99999999",
                        "9999999999999999999",
                        "null",
                        "true",
                        "[]",
                        "{}",
                        "[\"CASX\"]",
                        "[null]",
                        "[[1]]",
                        "[1e99999999]",
                        "[-1,2]")) {
                    for (String json : List.of(value, everywhere(value))) {
                        System.setIn(new ByteArrayInputStream(json.getBytes(StandardCharsets.UTF_8)));
                        Commands.Outcome outcome = run("calc", model);
                        // a refusal quotes what was typed, and "null" is a word of JSON
                        Commands.Outcome said = new Commands.Outcome(
                                outcome.status(),
                                outcome.out(),
                                outcome.err().replaceAll("'[^']*\\bnull\\b[^']*'", ""));
                        look("calc " + model + " " + json, said, outcome.out().startsWith("{"));
                    }
                }
            }
        } finally {
            System.setIn(keyboard);
        }
        assertThat(faults).isEmpty();
    }

    /// Every key of every model with the same odd value.
    private static String everywhere(String value) {
        StringBuilder json = new StringBuilder("{");
        for (String key : Calculators.ALL.stream()
                .flatMap(one -> one.fields().stream())
                .map(Field::key)
                .distinct()
                .toList()) {
            json.append(json.length() > 1 ? "," : "")
                    .append('"')
                    .append(key)
                    .append("\":")
                    .append(value);
        }
        return json.append("}").toString();
    }
}
