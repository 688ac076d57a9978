package org.rollwright.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.rollwright.cli.shell.ExitCode;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/// What a command does with words that a form cannot send: left out, said twice, of no list.
class DoTest {
    @TempDir
    Path folder;

    private Commands.Outcome run(String command, String... said) {
        List<String> args = new ArrayList<>(List.of(command, "--data", folder.toString()));
        args.addAll(List.of(said));
        return Commands.run(args.toArray(String[]::new));
    }

    private void done(String... said) {
        Commands.Outcome outcome = run("do", said);
        assertThat(outcome.err()).isEmpty();
        assertThat(outcome.status()).isZero();
    }

    private String refused(String... said) {
        Commands.Outcome outcome = run("do", said);
        assertThat(outcome.status()).isEqualTo(ExitCode.INPUT.number());
        assertThat(outcome.out()).isEmpty();
        return outcome.err();
    }

    private JsonNode box() {
        return JsonMapper.shared().readTree(run("box", "1", "--json").out());
    }

    private String journal() throws IOException {
        Path file = folder.resolve("journal.jsonl");
        Files.deleteIfExists(file);
        Commands.Outcome outcome = run("journal", "--save", file.toString());
        assertThat(outcome.status()).as(outcome.err()).isZero();
        return Files.readString(file);
    }

    @Test
    void what_is_not_said_of_a_box_stays() throws IOException {
        done("box", "denomination=cent", "bank=Hill Bank", "branch=Mill Lane", "pickedUp=2026-03-04", "note=torn");
        done("box-change", "box=1", "rolls=49", "note=");
        String last = journal().lines().toList().getLast();
        assertThat(last).contains("Hill Bank", "Mill Lane", "2026-03-04", "49").doesNotContain("torn");
    }

    @Test
    void a_box_that_is_none_begins_no_hunt() {
        done("box", "denomination=cent", "label=Box 12");
        assertThat(refused("hunt", "box=abc")).contains("abc");
        assertThat(refused("hunt", "box=1,abc")).contains("abc");
        done("hunt", "box=Box 12,1");
        assertThat(box().toString()).contains("Box 12");
    }

    /// A full box of cents holds 50 rolls of 50: 25 dollars (common practice; Federal Reserve banks pack cents so).
    @Test
    void a_box_said_by_number_and_by_label_goes_back_once() throws IOException {
        done("cash", "kind=DRAW", "amount=25.00");
        done("hunt", "denomination=cent", "label=Box 12");
        done("back", "box=1,Box 12", "where=Hill Bank", "counted=25.00", "paid=cash");
        assertThat(journal()).doesNotContain("short", "over").contains("in cash");
        assertThat(refused("back", "box=1", "where=Hill Bank")).contains("not here");
    }

    @Test
    void a_box_that_never_came_does_not_go_back() {
        done("box", "denomination=cent", "label=Box 12");
        assertThat(refused("back", "box=1", "where=Hill Bank", "paid=cash")).contains("not here");
    }

    @Test
    void a_word_of_no_list_is_refused() {
        assertThat(refused("branch", "bank=Hill Bank", "open=mon", "closed=false"))
                .contains("'false' is neither yes nor no");
        done("branch", "bank=Hill Bank", "open=mon", "closed=NO", "gives=Yes");
        assertThat(refused("metal", "metal=coper", "amount=4.20", "unit=lb")).contains("coper");
        assertThat(refused("cup", "name=copper", "alloy=gold", "step=1g")).contains("gold");
        assertThat(refused("cup", "name=copper", "step=1g")).contains("Alloy");
        assertThat(refused("accept", "do=all")).contains("proposed");
    }

    @Test
    void what_is_for_one_coin_is_not_done_for_two() {
        done("coin", "line=x2 1936 vf20");
        assertThat(refused("graded", "coin=own.1,own.2", "estimate=20", "cost=25"))
                .contains("Only one coin");
        assertThat(refused("coin-told", "coin=own.1,own.2", "line=1936 f12")).contains("Only one coin");
        assertThat(refused("prices", "coin=own.1,own.2", "price=f12 8")).contains("Only one coin");
    }

    @Test
    void a_script_may_say_a_field_twice_and_its_day_is_its_clock() throws IOException {
        Path script = Files.writeString(folder.resolve("lines.txt"), """
                @at 2026-03-01T18:00:00Z 30
                @coin x2 1936 vf20
                @place Box of flips
                @put ; coin own.1; coin own.2; to 1
                @prices ; coin own.1; price vf30 12.50; price f12 8
                @cash DRAW; amount 25
                """);
        Commands.Outcome outcome = run("mat", "--script", script.toString());
        assertThat(outcome.status()).as(outcome.err()).isZero();
        List<String> lines = journal().lines().toList();
        assertThat(lines.get(lines.size() - 3)).contains("own.1", "own.2");
        assertThat(lines.get(lines.size() - 2)).contains("12.5").contains("8");
        assertThat(lines.getLast()).contains("\"2026-03-01\"");
    }
}
