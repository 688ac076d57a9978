package org.rollwright.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/// A stranger's sheet from the file to the record, by the command.
class TakeTest {
    @TempDir
    private Path data;

    private Commands.Outcome run(String... args) {
        List<String> all = new ArrayList<>(List.of(args));
        all.addAll(List.of("--data", data.toString()));
        return Commands.run(all.toArray(String[]::new));
    }

    private static JsonNode json(String text) {
        return new JsonMapper().readTree(text);
    }

    @Test
    void what_is_shown_without_a_question_is_what_is_recorded() throws IOException {
        String file = "src/test/resources/sheets/stacked-coins.xlsx";
        JsonNode shown = json(run("take", file, "--as", "coins", "--json").out());
        int coins = 0;
        for (JsonNode row : shown.get("rows")) {
            if (row.get("what").asString().equals("coin") && row.get("asks").isEmpty()) {
                coins += Integer.parseInt(row.get("quantity").asString());
            }
        }
        assertThat(run("cabinet").out()).doesNotContain("Safe");
        JsonNode taken =
                json(run("take", file, "--as", "coins", "--commit", "--json").out());
        assertThat(taken.get("recorded").asInt()).isEqualTo(coins).isPositive();
        assertThat(json(run("cabinet", "--json").out()).get("coins").asInt()).isEqualTo(coins);
    }

    @Test
    void questions_are_answered_or_the_row_is_left_by_name() throws IOException {
        Path sheet = data.resolve("log.csv");
        Files.writeString(sheet, """
                Date,Bank,Coin,Rolls,Wheats,Goodies
                2020-01-05,Tern Bank,pennies,50,12,1
                2020-01-12,Tern Bank,pennies,50,lots,2
                2020-01-19,Tern Bank,mixed,4,,
                TOTAL,,,104,12,
                """);
        Commands.Outcome wrong = run("take", sheet.toString(), "--as", "boxes", "--answer", "4 pate=1");
        assertThat(wrong.status()).isEqualTo(2);
        assertThat(wrong.err()).contains("4 pate");
        Commands.Outcome ran = run(
                "take",
                sheet.toString(),
                "--as",
                "boxes",
                "--answer",
                "3 finds=wheat:31",
                "--heading",
                "Goodies=find:foreign",
                "--commit");
        assertThat(ran.status()).isZero();
        assertThat(ran.out()).contains("row 4 is left").contains("2 rows recorded");
        JsonNode again =
                json(run("take", sheet.toString(), "--as", "boxes", "--json").out());
        assertThat(again.get("rows").get(1).get("finds").asString()).isEqualTo("wheat:12;foreign:1");
    }

    @Test
    void what_is_no_sheet_is_refused_in_a_sentence() throws IOException {
        Path none = Files.write(data.resolve("picture.bin"), new byte[] {1, 2, 3, 0, 0, 9});
        for (String[] args : new String[][] {
            {"take", none.toString(), "--as", "coins"},
            {"take", data.resolve("nowhere.csv").toString(), "--as", "coins"},
            {"take", Files.writeString(data.resolve("empty.csv"), "").toString(), "--as", "boxes"},
            {"take", none.toString()},
            {"take", none.toString(), "--as", "stamps"}
        }) {
            Commands.Outcome ran = run(args);
            assertThat(ran.status()).isEqualTo(2);
            assertThat(ran.err()).isNotBlank().doesNotContain("Exception");
        }
    }

    @Test
    void a_sheet_taken_twice_is_recorded_once() throws IOException {
        Path sheet = data.resolve("log.csv");
        Files.writeString(sheet, """
                Date,Bank,Bought,Wheats
                2020-01-05,Tern Bank,1 box,12
                2020-01-12,Tern Bank,10 rolls,3
                """);
        String[] take = {"take", sheet.toString(), "--as", "boxes", "--answer", "* denomination=1 cent"};
        String[] record = {"take", sheet.toString(), "--as", "boxes", "--answer", "* denomination=1 cent", "--commit"};
        assertThat(run(record).out()).contains("2 rows recorded");
        assertThat(run(take).err()).contains("2 rows are in the record already");
        Commands.Outcome second = run(record);
        assertThat(second.status()).isEqualTo(2);
        assertThat(second.out()).contains("row 2 is left: It is in the record already.");
        String[] again = {
            "take", sheet.toString(), "--as", "boxes", "--answer", "* denomination=1 cent", "--commit", "--again"
        };
        assertThat(run(again).out()).contains("2 rows recorded");
        String coins = "src/test/resources/sheets/stacked-coins.xlsx";
        assertThat(run("take", coins, "--as", "coins", "--commit").status()).isZero();
        assertThat(run("take", coins, "--as", "coins", "--commit").out()).contains("0 rows recorded");
    }
}
