package org.rollwright.entry.sheet.take;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;

/// Sheets of strangers. The sheets in `src/test/resources/sheets` are our own invention; [SheetScore] compares any
/// others with the truth about them.
class TakingTest {
    private static final Path SHEETS = Path.of("src/test/resources/sheets");

    private static Taking.Read read(byte[] bytes, As as) throws IOException {
        return SheetScore.taking().read(bytes, as, Map.of());
    }

    private static Taken taken(As as, String... lines) throws IOException {
        Taking.Read read = read(String.join("\n", lines).getBytes(StandardCharsets.UTF_8), as);
        assertThat(read).isInstanceOf(Taking.Read.Good.class);
        return ((Taking.Read.Good) read).taken();
    }

    @Test
    void no_row_of_our_sheets_is_taken_wrongly_and_none_is_lost() throws IOException {
        List<SheetScore.Score> scores = SheetScore.of(SHEETS);
        assertThat(scores).hasSize(5);
        for (SheetScore.Score score : scores) {
            assertThat(score.differences()).as(score.toString()).isEmpty();
            assertThat(score.right()).isGreaterThan(5);
        }
    }

    @Test
    void denominations_are_read_and_never_become_cents_by_themselves() throws IOException {
        Taken coins = taken(
                As.COINS,
                "Denomination,Year,Grade",
                "nickel,1939,F",
                "half,1963,VF 20",
                "$1,1922,XF",
                ",1950,G",
                "dime,1946,BU");
        assertThat(coins.rows().subList(1, 4))
                .extracting(row -> row.field("denomination"))
                .containsExactly("5 cents", "50 cents", "1 dollar");
        assertThat(coins.rows().get(4).field("denomination")).isEmpty();
        assertThat(coins.rows().get(4).asks()).isNotEmpty();
        Taken boxes = taken(
                As.BOXES,
                "Date,Bank,Coin,Rolls,Silver",
                "2020-01-05,Tern Bank,dimes,50,1",
                "2020-01-12,Tern Bank,half dollars,25,4");
        assertThat(boxes.ready()).extracting(row -> row.field("coins")).containsExactly("2500", "500");
    }

    @Test
    void a_day_that_may_be_two_is_asked_about_and_one_that_cannot_is_not() throws IOException {
        Taken euro = taken(
                As.COINS,
                "Pays;Valeur;Année;Prix;Acheté le",
                "France;5 F;1960;4,50 €;03/04/2012",
                "France;1 F;1961;1,00 €;13/04/2012");
        assertThat(euro.ready()).extracting(row -> row.field("acquired")).containsExactly("2012-04-03", "2012-04-13");
        Taken plain = taken(
                As.COINS,
                "Country,Coin,Year,Bought",
                "Canada,cent,1940,3/4/2012",
                "Canada,cent,1941,2012-04-13",
                "Canada,cent,1942,May 2012");
        assertThat(plain.asked()).extracting(TakenRow::row).containsExactly(2L);
        assertThat(plain.ready()).extracting(row -> row.field("acquired")).containsExactly("2012-04-13", "2012-05");
    }

    @Test
    void what_nothing_tells_the_meaning_of_is_named() throws IOException {
        Taken coins = taken(As.COINS, "Coin,Year,Zorp", "wheat penny,1944,7");
        assertThat(coins.tables().getFirst().columns().get(2).field()).isEqualTo("unread");
        assertThat(coins.ready().getFirst().leftOut().getFirst())
                .contains("Zorp")
                .contains("7");
    }

    @Test
    void answers_fill_fields_and_end_questions() throws IOException {
        Taken asked = taken(
                As.COINS, "Coin,Year,Qty,Paid", "wheat penny,1944,3,$5", "wheat penny,1945,1,$1", "penny,1958 S,1,$1");
        assertThat(asked.asked()).extracting(TakenRow::row).containsExactly(2L, 4L);
        List<Taken.Answer> answers = List.of(
                Taken.Answer.parse("2 paid=15").orElseThrow(),
                Taken.Answer.parse("4 skip").orElseThrow());
        Taken answered = asked.with(answers);
        assertThat(answered.asked()).isEmpty();
        assertThat(answered.ready()).extracting(row -> row.field("paid")).containsExactly("15", "1");
        assertThat(asked.astray(List.of(new Taken.Answer("", 9, "paid", "1"), new Taken.Answer("", 2, "pate", "1"))))
                .hasSize(2);
        assertThat(Taken.Answer.parse("paid=15")).isEmpty();
    }

    @Test
    void a_heading_means_what_the_hunter_says() throws IOException {
        byte[] sheet =
                "Date,Bank,Coin,Rolls,Goodies\n2020-01-05,Tern Bank,pennies,50,3\n".getBytes(StandardCharsets.UTF_8);
        Taking.Read read = SheetScore.taking().read(sheet, As.BOXES, Map.of("goodies", "find:wheat"));
        assertThat(((Taking.Read.Good) read).taken().ready().getFirst().field("finds"))
                .isEqualTo("wheat:3");
    }

    @Test
    void whatever_the_bytes_are_there_is_an_answer() throws IOException {
        assertThat(read(new byte[0], As.COINS)).isInstanceOf(Taking.Read.Unusable.class);
        assertThat(read("no table at all\n".getBytes(StandardCharsets.UTF_8), As.COINS))
                .isInstanceOf(Taking.Read.Unusable.class);
        Random random = new Random(20261127);
        for (String name : List.of("ragged-boxes.csv", "french-coins.csv", "stacked-coins.xlsx", "penny-boxes.xlsx")) {
            byte[] sound = Files.readAllBytes(SHEETS.resolve(name));
            for (int i = 0; i < 60; i++) {
                byte[] damaged = sound.clone();
                for (int k = 0; k <= i / 6; k++) {
                    damaged[random.nextInt(damaged.length)] = (byte) random.nextInt(256);
                }
                assertThat(read(damaged, i % 2 == 0 ? As.COINS : As.BOXES))
                        .as(name + " " + i)
                        .isNotNull();
            }
        }
        byte[] noise = new byte[4_000];
        random.nextBytes(noise);
        assertThat(read(noise, As.BOXES)).isInstanceOf(Taking.Read.Unusable.class);
    }
}
