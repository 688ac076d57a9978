package org.rollwright.entry.sheet.take;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

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

    @Test
    void a_description_in_one_cell_is_read_to_its_last_word() throws IOException {
        Taken coins = taken(
                As.COINS,
                "Coin,Qty,Where,Paid",
                "\"1965 Canada dollar, large beads, pointed 5\",1,tin,$12",
                "\"1909 S VDB cent VG8, cleaned\",1,safe,$600",
                "Kennedy half 1964 D AU x3,,tin,face",
                "2004 D Wisconsin quarter extra leaf high,1,tin,",
                "\"1972 cent, looks like a moon\",1,tin,",
                "1953 Great Britain crown,1,tin,",
                "need 1912-S,,,");
        assertThat(coins.asked()).isEmpty();
        assertThat(coins.ready())
                .extracting(row -> row.field("denomination"), row -> row.field("kind"), row -> row.field("variety"))
                .containsExactly(
                        tuple("1 dollar", "", "large beads, pointed 5"),
                        tuple("1 cent", "", "VDB"),
                        tuple("50 cents", "Kennedy", ""),
                        tuple("25 cents", "Wisconsin", "extra leaf high"),
                        tuple("1 cent", "", ""),
                        tuple("1 crown", "", ""));
        assertThat(coins.ready().get(1).field("grade")).isEqualTo("VG 8");
        assertThat(coins.ready().get(1).field("details")).isEqualTo("cleaned");
        assertThat(coins.ready().get(2).field("quantity")).isEqualTo("3");
        assertThat(coins.ready().get(4).field("note")).contains("moon");
        assertThat(coins.rows().getLast().leftOut()).isNotEmpty();
    }

    @Test
    void months_head_sections_and_banks_have_their_first_name() throws IOException {
        Taken boxes = taken(
                As.BOXES,
                "Hunt log",
                "Date\tBank\tBought\tFound\tNotes",
                "--- JAN 2022 ---",
                "1/8\tLarch Hollow Bank & Trust\t$25 pennies\t11 wheats, 2 Canadian",
                "1/15\tLHBT\thalf box dimes\tskunk",
                "\t\tJan: 1 penny bx, 11 wheats",
                "--- FEB ---",
                "2/5\tLarch Hollow\t1 bx\t3 war\tnickels I guess",
                "2/12\tLHBT\t$300 halves, 20 rolls\t40+ silver",
                "2/19\tLHBT\t500 coins halves\tnothing",
                "2/26\tLHBT\t2 boxes + 5 rolls nickels\t?");
        assertThat(boxes.ready())
                .extracting(row -> row.field("date"), row -> row.field("bank"), row -> row.field("coins"))
                .containsExactly(
                        tuple("2022-01-08", "Larch Hollow Bank & Trust", "2500"),
                        tuple("2022-01-15", "Larch Hollow Bank & Trust", "1250"),
                        tuple("2022-02-19", "Larch Hollow Bank & Trust", "500"));
        assertThat(boxes.asked()).extracting(TakenRow::row).containsExactly(8L, 9L, 11L);
        assertThat(boxes.rows().get(5).what()).isEqualTo("total");
    }

    @Test
    void logs_in_other_languages_count_the_same_things() throws IOException {
        Taken boxes = taken(
                As.BOXES,
                "Registro de cajas de pennies 2021",
                "Fecha;Banco;Rollos;Trigo;Indias;Cobre (kg)",
                "05/01/2021;Banco del Olmo;50;12;0;1,25",
                "19/01/2021;B. del Olmo;media caja;4;0;0,6",
                "Total;;75;16;0;");
        assertThat(boxes.ready())
                .extracting(
                        row -> row.field("bank"),
                        row -> row.field("coins"),
                        row -> row.field("finds"),
                        row -> row.field("grams"))
                .containsExactly(
                        tuple("Banco del Olmo", "2500", "wheat:12;Indian head:0", "1250"),
                        tuple("Banco del Olmo", "1250", "wheat:4;Indian head:0", "600"));
        Taken french =
                taken(As.BOXES, "Date,Banque,Pièce,Rouleaux,Argent", "2022-01-12,Caisse du Gué,25 cents,demi-boîte,2");
        assertThat(french.ready().getFirst().field("denomination")).isEqualTo("25 cents");
        assertThat(french.ready().getFirst().field("coins")).isEqualTo("1000");
    }

    @Test
    void what_many_rows_ask_is_asked_and_answered_once() throws IOException {
        byte[] sheet = """
                Date,Bank,Bought,Silver
                2020-01-04,Tern Bank,1 box,1
                2020-01-11,Tern Bank,10 rolls,0
                """.getBytes(StandardCharsets.UTF_8);
        Taken asked = taken(As.BOXES, new String(sheet, StandardCharsets.UTF_8));
        assertThat(asked.questions()).hasSize(1);
        Taken.Question question = asked.questions().getFirst();
        assertThat(question.rows()).containsExactly(2L, 3L);
        Taken.Answer all = Taken.Answer.parse("* denomination=10 cents").orElseThrow();
        assertThat(asked.astray(List.of(all))).isEmpty();
        Taking.Read read = SheetScore.taking()
                .read(sheet, As.BOXES, new Taking.Said(Map.of(), Map.of("denomination", "10 cents"), ""));
        Taken answered = ((Taking.Read.Good) read).taken();
        assertThat(answered.ready()).extracting(row -> row.field("coins")).containsExactly("2500", "500");
        assertThat(answered.with(List.of(all)).asked()).isEmpty();
        Taking.Read named =
                SheetScore.taking().read(sheet, As.BOXES, new Taking.Said(Map.of(), Map.of(), "dimes_2020.csv"));
        assertThat(((Taking.Read.Good) named).taken().asked()).isEmpty();
    }

    @Test
    void a_file_that_is_something_else_is_named_as_that() throws IOException {
        assertThat(read(
                                "PK\u0003\u0004zzzzzzzzzzzzzzzzzzzzzzzzzzmimetypeapplication/vnd.oasis.opendocument.spreadsheet"
                                        .getBytes(StandardCharsets.ISO_8859_1),
                                As.BOXES)
                        .toString())
                .contains("ODS");
        assertThat(read("%PDF-1.7 1 0 obj".getBytes(StandardCharsets.ISO_8859_1), As.BOXES)
                        .toString())
                .contains("PDF");
        byte[] old = new byte[600];
        System.arraycopy(
                new byte[] {(byte) 0xD0, (byte) 0xCF, 0x11, (byte) 0xE0, (byte) 0xA1, (byte) 0xB1, 0x1A, (byte) 0xE1},
                0,
                old,
                0,
                8);
        assertThat(read(old, As.COINS).toString()).contains("XLS");
        assertThat(read("<html><table><tr><td>Coin".getBytes(StandardCharsets.UTF_8), As.COINS)
                        .toString())
                .contains("page");
    }

    /// A hunter who had not seen the reader wrote these rows; two of them were taken wrongly before.
    @Test
    void several_boxes_of_one_row_are_asked_about_and_a_box_is_no_total() throws IOException {
        Taken taken = taken(
                As.BOXES,
                "date bought,what,how much,wheats,remarks",
                "May 3 2019,pennies x2,100 rolls,41 total,Harbour bank - two boxes not split",
                "5/17/19,pennies,$25,19,Harbour bank",
                "TOTAL,,,60,");
        assertThat(taken.rows()).extracting(TakenRow::what).containsExactly("heading", "box", "box", "total");
        assertThat(taken.rows().get(1).asks()).hasSize(1);
        assertThat(taken.rows().get(1).leftOut()).anyMatch(text -> text.contains("41 total"));
        assertThat(taken.rows().get(2).asks()).isEmpty();
        assertThat(taken.rows().get(2).fields()).containsEntry("date", "2019-05-17");
    }

    @Test
    void a_title_in_any_case_names_the_country_and_a_year_before_the_word_makes_a_total() throws IOException {
        for (String title : List.of("Cdn pennies", "CDN pennies", "Canadian pennies")) {
            Taken taken = taken(As.BOXES, title, "", "Date,Bank,Wheats,Rolls", "2021-03-01,Harbour,17,50");
            assertThat(taken.rows().stream().filter(row -> row.what().equals("box")))
                    .as(title)
                    .singleElement()
                    .satisfies(row -> assertThat(row.more()).containsEntry("country", "Canada"));
        }
        Taken summed =
                taken(As.BOXES, "Box,Bank,Rolls,Wheats", "1,Harbour,50,17", "2,Harbour,50,19", "2019 total,,100,36");
        assertThat(summed.rows()).extracting(TakenRow::what).containsExactly("heading", "box", "box", "total");
    }
}
