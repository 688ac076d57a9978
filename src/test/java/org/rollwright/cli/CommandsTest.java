package org.rollwright.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.rollwright.cli.serve.Pages;
import org.rollwright.cli.shell.ExitCode;
import org.rollwright.store.Store;
import org.rollwright.text.Texts;
import picocli.CommandLine;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class CommandsTest {
    @TempDir
    private Path folder;

    private Commands.Outcome run(String command, String... args) {
        List<String> all = new java.util.ArrayList<>(List.of(command, "--data", folder.toString()));
        all.addAll(List.of(args));
        return Commands.run(all.toArray(String[]::new));
    }

    private Path script(String... lines) throws IOException {
        return Files.write(folder.resolve("script.txt"), List.of(lines));
    }

    @Test
    void every_command_has_help_with_an_example_and_its_exit_status() {
        CommandLine line = RootCommand.commandLine((work, port) -> new Pages.Started.NoPort(port, port));
        line.getSubcommands().forEach((name, command) -> {
            if (command.getCommandSpec().usageMessage().hidden()) {
                return;
            }
            String help = command.getUsageMessage(CommandLine.Help.Ansi.OFF);
            assertThat(help)
                    .as(name)
                    .contains("Example:")
                    .contains("Exit status")
                    .contains(name.equals("calc") ? "standard input" : "--data");
            command.getCommandSpec()
                    .options()
                    .forEach(option -> assertThat(option.description())
                            .as(name + " " + option.longestName())
                            .isNotEmpty());
        });
        assertThat(line.getUsageMessage(CommandLine.Help.Ansi.OFF))
                .contains("--demo")
                .contains("Exit status:");
    }

    @Test
    void every_command_stands_in_the_guide() throws IOException {
        String guide = Files.readString(Path.of("docs/guide/commands.md"));
        RootCommand.commandLine((work, port) -> new Pages.Started.NoPort(port, port))
                .getSubcommands()
                .forEach((name, command) -> {
                    boolean told = command.getCommandSpec().usageMessage().hidden() || name.equals("serve");
                    assertThat(told || guide.contains("`./run " + name + "`"))
                            .as(name)
                            .isTrue();
                });
        for (ExitCode code : ExitCode.values()) {
            assertThat(guide).contains("| " + code.number() + " | " + code.meaning() + " |");
        }
    }

    @Test
    void a_script_is_recorded_and_acknowledged_line_by_line() throws IOException {
        Commands.Outcome outcome = run(
                "mat",
                "--box",
                "Box 9",
                "--watch",
                "wheat",
                "--script",
                script("+", "39s vf20", "x2 44d", "+").toString());
        assertThat(outcome.status()).isZero();
        assertThat(outcome.out().lines()).containsExactly("ok 1 2 +", "ok 2 3 39s vf20", "ok 3 4 x2 44d", "ok 4 5 +");
        Commands.Outcome report = run("box", "Box 9", "--json");
        JsonNode box = JsonMapper.shared().readTree(report.out());
        assertThat(box.get("found").asInt()).isEqualTo(3);
        assertThat(box.get("coinsSearched").asInt()).isEqualTo(50);
        assertThat(run("box").out()).contains("Box 9");
        assertThat(run("box", "Box 10").status()).isEqualTo(ExitCode.NOTHING.number());
    }

    @Test
    void a_refused_line_stops_the_script_and_says_where() throws IOException {
        Commands.Outcome outcome = run(
                "mat",
                "--box",
                "Box 9",
                "--watch",
                "wheat",
                "--script",
                script("+", "22", "44").toString());
        assertThat(outcome.status()).isEqualTo(ExitCode.INPUT.number());
        assertThat(outcome.err()).contains("line 2:").contains("1922").contains("1922d");
        assertThat(outcome.out().lines()).hasSize(1);
    }

    @Test
    void options_of_a_new_box_are_not_passed_over_without_one() throws IOException {
        String lines = script("+").toString();
        for (String option : List.of("--watch=silver", "--denomination=dime", "--rolls=3", "--coins=7", "--form=jar")) {
            Commands.Outcome outcome = run("mat", option, "--script", lines);
            assertThat(outcome.status()).as(option).isEqualTo(ExitCode.INPUT.number());
            assertThat(outcome.err())
                    .contains(option.substring(0, option.indexOf('=')) + " is about a new box, and none is begun.");
        }
        assertThat(run("mat", "--script", lines).err()).contains("No hunt is named yet. Start one with --box");
    }

    @Test
    void what_does_not_go_together_is_said() {
        assertThat(run("recap", "x").err()).contains("'x' is no whole number.").doesNotContain("long");
        assertThat(run("serve", "--port", "abc").err()).contains("'abc' is no whole number.");
        assertThat(run("serve", "--port", "9".repeat(12)).err()).contains("is too large.");
        assertThat(run("album", "--accept").err()).contains("--accept goes with --compare");
        assertThat(run("album", "Wheat", "--compare").err()).contains("leave the name out");
        assertThat(run("cabinet", "--commit").err()).contains("--take FILE");
        assertThat(run("cabinet", "tube", "--take", "x.csv").err()).contains("one at a time");
        assertThat(run("recap", "--short", "--series").err()).contains("one at a time");
    }

    @Test
    void an_installed_tool_is_called_by_its_own_name() {
        Texts.calledBy("rollwright");
        try {
            assertThat(Commands.run("--help").out()
                            + Commands.run("box", "--help").out())
                    .contains("Usage: rollwright", "rollwright box \"Box 12\"")
                    .doesNotContain("./run");
            assertThat(run("box", "--nonsense").err()).contains("rollwright box --help tells what is possible.");
            assertThat(run("check").out()).contains("rollwright backup --data ").doesNotContain("./run");
        } finally {
            Texts.calledBy("./run");
        }
        assertThat(Commands.run("box", "--help").out()).contains("./run box");
    }

    @Test
    void options_before_the_command_are_handed_on_or_refused() throws IOException {
        run("mat", "--box", "Box 9", "--script", script("39s").toString());
        assertThat(Commands.run("--data", folder.toString(), "box").out()).contains("Box 9");
        assertThat(Commands.run("--data", folder.resolve("none").toString(), "box", "--data", folder.toString())
                        .out())
                .as("what is said behind the command counts")
                .contains("Box 9");
        assertThat(Commands.run("--data", folder.resolve("none").toString(), "box")
                        .err())
                .contains("There is no store in " + folder.resolve("none"));
        Commands.Outcome port = Commands.run("--port", "7999", "box");
        assertThat(port.status()).isEqualTo(ExitCode.INPUT.number());
        assertThat(port.err()).contains("'--port' cannot stand before 'box'");
        assertThat(Commands.run("--data", folder.toString(), "calc", "rate").err())
                .contains("'--data' cannot stand before 'calc'");
    }

    @Test
    void bad_input_is_one_clear_sentence_each() throws IOException {
        record Bad(String line, String says) {}
        for (Bad bad : List.of(
                new Bad("2x9q", "not a word"),
                new Bad("1922", "without a mint mark"),
                new Bad("r51", "over the box"),
                new Bad("w -3g", "negative"),
                new Bad("e 9/3", "impossible"),
                new Bad("drop f99", "no find f99"),
                new Bad("b7", "no box 7"),
                new Bad("watch blue", "nothing I can watch for"))) {
            Path data = Files.createTempDirectory(folder, "bad");
            Path file = Files.write(data.resolve("s.txt"), List.of("+", bad.line));
            Commands.Outcome outcome = Commands.run(
                    "mat", "--data", data.toString(), "--box", "B", "--watch", "wheat", "--script", file.toString());
            assertThat(outcome.status()).as(bad.line).isEqualTo(2);
            assertThat(outcome.err())
                    .as(bad.line)
                    .contains(bad.says)
                    .doesNotContain("Exception")
                    .doesNotContain("\tat ");
        }
    }

    @Test
    void a_store_held_by_another_process_is_said_with_who_holds_it() throws IOException {
        Store.Opening opening = Store.open(folder, Store.Mode.WRITE, InstantSource.system());
        try (Store held = ((Store.Opening.Opened) opening).store()) {
            held.serving("http://127.0.0.1:7300/");
            Commands.Outcome outcome =
                    run("mat", "--box", "B", "--script", script("+").toString());
            assertThat(outcome.status()).isEqualTo(ExitCode.BUSY.number());
            assertThat(outcome.err()).contains("already open").contains("7300");
            assertThat(run("box").status()).as("reports work beside it").isZero();
        }
    }

    @Test
    void a_store_of_a_newer_version_is_refused_with_a_sentence() throws IOException {
        Store.Opening opening = Store.open(folder, Store.Mode.WRITE, InstantSource.system());
        ((Store.Opening.Opened) opening).store().close();
        org.jdbi.v3.core.Jdbi.create("jdbc:sqlite:" + folder.resolve("rollwright.db"))
                .useHandle(handle -> handle.execute("pragma user_version = 99"));
        Commands.Outcome outcome =
                run("mat", "--box", "B", "--script", script("+").toString());
        assertThat(outcome.status()).isEqualTo(ExitCode.STORE.number());
        assertThat(outcome.err()).contains("newer version").contains("nothing was changed");
    }

    @Test
    void the_catalogue_is_counted_and_asked() {
        JsonNode counts = JsonMapper.shared().readTree(run("catalog", "--json").out());
        assertThat(counts.get("series").size()).isGreaterThan(30);
        assertThat(counts.get("issues").asInt()).isGreaterThan(2_500);
        assertThat(run("catalog", "36d").out()).contains("1936-D").contains("3.110 g");
        assertThat(run("catalog", "1922").status()).isEqualTo(2);
    }

    @Test
    void albums_are_compared_and_accepted_by_command() throws IOException {
        assertThat(run(
                                "mat",
                                "--script",
                                script(
                                                "@album Wheat: series wheat",
                                                "@hunt Box 1; watch wheat",
                                                "+ 44d g4",
                                                "+ 44d vf30",
                                                "39s")
                                        .toString())
                        .status())
                .isZero();
        Commands.Outcome look = run("album", "--compare");
        assertThat(look.out())
                .contains("2 additions, 0 upgrades")
                .contains("1944-D VF30")
                .contains("Nothing was changed");
        assertThat(run("album", "--compare", "--accept").out()).contains("Accepted");
        assertThat(run("album", "--compare").out()).contains("0 additions, 0 upgrades");
        JsonNode album =
                JsonMapper.shared().readTree(run("album", "Wheat", "--json").out());
        assertThat(album.get("filled").asInt()).isEqualTo(2);
    }

    @Test
    void earlier_boxes_are_imported_all_or_none() throws IOException {
        Path sheet = Files.writeString(folder.resolve("old.csv"), """
                Box,Date,Bank,Wheats,Canadian
                41,2024-03-01,Example Bank,9,4
                42,2024-03-08,Example Bank,zwei,3
                43,2024-03-15,Example Bank,11,
                """);
        Commands.Outcome tried = run("import", sheet.toString());
        assertThat(tried.status()).isEqualTo(ExitCode.INPUT.number());
        assertThat(tried.out())
                .contains("line 3: REFUSED, column Wheats")
                .contains("'zwei'")
                .contains("2 rows good, 1 refused");
        assertThat(run("import", sheet.toString(), "--commit").out()).contains("Nothing was imported");
        assertThat(run("box").out()).isEmpty();
        assertThat(run("import", sheet.toString(), "--commit", "--leave-out-refused")
                        .out())
                .contains("Imported as one step");
        JsonNode boxes = JsonMapper.shared().readTree(run("box", "--json").out());
        assertThat(boxes.size()).isEqualTo(2);
        assertThat(boxes.get(0).get("found").asInt()).isEqualTo(13);
        assertThat(boxes.get(0).get("coinsSearched").asInt()).isEqualTo(2_500);
        assertThat(run("import", sheet.toString(), "--leave-out-refused").out())
                .contains("there is already a box called 41");
    }

    @Test
    void the_demo_series_is_recorded_without_a_refusal() {
        Commands.Outcome outcome = run("mat", "--script", "demo/series.txt", "--json");
        assertThat(outcome.err()).isEmpty();
        assertThat(outcome.status()).isZero();
        assertThat(JsonMapper.shared().readTree(outcome.out()).get("hunts").size())
                .isGreaterThan(40);
    }

    @Test
    void a_narration_is_printed_and_recorded_above_a_probability() throws IOException {
        Path captions = folder.resolve("hunt.vtt");
        Files.writeString(captions, """
                WEBVTT

                00:01.000 --> 00:05.000
                Roll one. There's a 1936 D. That makes one.

                00:06.000 --> 00:09.000
                Roll two. I was hoping for a 1914 D. Two pounds three ounces of copper.
                """);
        Commands.Outcome printed = Commands.run("narrate", captions.toString(), "--watch", "wheat", "--json");
        assertThat(printed.err()).isEmpty();
        JsonNode report = JsonMapper.shared().readTree(printed.out());
        JsonNode find = report.get("finds").get(0);
        assertThat(report.get("finds").size()).isOne();
        assertThat(find.get("at").asString()).isEqualTo("0:00:02");
        assertThat(find.get("roll").asInt()).isOne();
        assertThat(find.get("box").asInt()).isOne();
        assertThat(find.get("country").asString()).isEqualTo("US");
        assertThat(find.get("denomination").asString()).isEqualTo("cent");
        assertThat(find.get("year").asInt()).isEqualTo(1936);
        assertThat(find.get("mint").asString()).isEqualTo("D");
        assertThat(find.get("variety").isNull()).isTrue();
        assertThat(report.get("totals").get("spoken").asInt()).isOne();
        assertThat(report.get("weights").get(0).get("grams").asDouble()).isCloseTo(992.2, within(0.1));
        String data = folder.resolve("narrated").toString();
        Commands.Outcome recorded = Commands.run(
                "narrate",
                captions.toString(),
                "--data",
                data,
                "--watch",
                "wheat",
                "--accept-above",
                "0.8",
                "--box",
                "Box 9",
                "--json");
        assertThat(JsonMapper.shared().readTree(recorded.out()).get("recorded").asInt())
                .isOne();
        JsonNode box = JsonMapper.shared()
                .readTree(Commands.run("box", "1", "--data", data, "--json").out());
        assertThat(box.toString()).contains("1936");
        assertThat(Commands.run("narrate", folder.resolve("none.vtt").toString())
                        .status())
                .isEqualTo(2);
        assertThat(Commands.run("narrate", captions.toString(), "--accept-above", "2")
                        .err())
                .contains("from 0 to 1");
    }
}
