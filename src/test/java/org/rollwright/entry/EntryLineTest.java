package org.rollwright.entry;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.Selection;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Colour;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;
import org.rollwright.coin.Strike;
import org.rollwright.hunt.Disposition;

class EntryLineTest {
    private static final Catalog CATALOG = CatalogFolder.catalog();

    static EntryContext watching(String denomination, String... watches) {
        List<Selection> selections = new ArrayList<>();
        for (String watch : watches) {
            selections.add(CATALOG.watchByWord(watch).orElseThrow().selection());
        }
        return new EntryContext(CATALOG, new Denomination(Country.US, denomination), selections, 2026);
    }

    private static CoinDescription find(String line, EntryContext context) {
        Reading reading = EntryParser.parse(line, context);
        assertThat(reading).as(line).isInstanceOf(Reading.Clear.class);
        Command command = ((Reading.Clear) reading).commands().getFirst();
        assertThat(command).isInstanceOf(Command.Found.class);
        return ((Command.Found) command).draft().facts();
    }

    private static Command only(String line) {
        Reading reading = EntryParser.parse(line, watching("cent", "wheat"));
        assertThat(reading).as(line).isInstanceOf(Reading.Clear.class);
        assertThat(((Reading.Clear) reading).commands()).hasSize(1);
        return ((Reading.Clear) reading).commands().getFirst();
    }

    private static Reading.Problem problem(String line) {
        return problem(line, watching("cent", "wheat"));
    }

    private static Reading.Problem problem(String line, EntryContext context) {
        Reading reading = EntryParser.parse(line, context);
        assertThat(reading).as(line).isInstanceOf(Reading.Problem.class);
        return (Reading.Problem) reading;
    }

    @ParameterizedTest
    @CsvSource({
        "39s, 1939, S",
        "44 d, 1944, D",
        "1944-D, 1944, D",
        "'''44D', 1944, D",
        "\u201944d, 1944, D",
        "36, 1936, P",
        "36p, 1936, P",
        "36 denver, 1936, D",
        "14d, 1914, D",
    })
    void a_date_may_be_written_in_any_habit(String line, int year, String mint) {
        CoinDescription facts = find(line, watching("cent", "wheat"));
        assertThat(facts.identity().year()).isEqualTo(year);
        assertThat(facts.identity().mint()).isEqualTo(new Mint(mint));
    }

    /// Words of the trade, common practice, in the order people say them.
    @ParameterizedTest
    @CsvSource({
        "99 wide am, 1999, P, '', wide am",
        "92d close am, 1992, D, '', close am",
        "44 cull, 1944, P, cull, ''",
        "cull 44, 1944, P, cull, ''",
        "64 green, 1964, P, verdigris, ''",
        "wheat 44, 1944, P, '', ''",
        "wheat 1944d, 1944, D, '', ''",
        "44 plain, 1944, P, '', ''",
        "indian 1898, 1898, P, '', ''",
        "ihc 1898, 1898, P, '', ''",
    })
    void words_of_the_trade_are_understood(String line, int year, String mint, String details, String variety) {
        CoinDescription facts = find(line, watching("cent"));
        assertThat(facts.identity().year()).isEqualTo(year);
        assertThat(facts.identity().mint()).isEqualTo(new Mint(mint));
        assertThat(String.valueOf(facts.details())).isEqualTo(details.isEmpty() ? "null" : details);
        assertThat(String.join(",", facts.varieties())).isEqualTo(variety);
    }

    @Test
    void what_is_seen_of_a_coin_may_stand_before_its_date() {
        assertThat(find("44 toned", watching("cent")).note()).isEqualTo("toned");
        assertThat(find("22 no d", watching("cent")).identity()).hasToString("US cent 1922-D wheat ears no d");
        assertThat(find("silver dime 64", watching("cent"))
                        .identity()
                        .denomination()
                        .key())
                .isEqualTo("dime");
        assertThat(find("mercury 44", watching("cent"))
                        .identity()
                        .denomination()
                        .key())
                .isEqualTo("dime");
        assertThat(find("2 euro 2002", watching("cent")).identity().denomination())
                .hasToString("XE 2-euro");
        assertThat(find("mexico 20 centavos 1975", watching("cent"))
                        .identity()
                        .denomination()
                        .key())
                .isEqualTo("20-centavo");
        assertThat(problem("20 centavos 1975").wrong()).contains("several countries");
    }

    /// 2.5 g is the weight of zinc cents, 3.11 g that of copper ones (31 U.S.C. 5112; the Mint's specifications).
    @Test
    void a_weight_tells_the_metal_of_a_1982_cent() {
        for (String[] one : new String[][] {{"82 2.5g", "zinc"}, {"82 2.5 g", "zinc"}, {"82d 3.1g large", "copper"}}) {
            Reading reading = EntryParser.parse(one[0], watching("cent"));
            String said =
                    reading instanceof Reading.Choose choose ? choose.options().toString() : reading.toString();
            assertThat(said).as(one[0]).contains(one[1]).doesNotContain(one[1].equals("zinc") ? "copper" : "zinc");
        }
    }

    @Test
    void a_weight_tells_the_century_as_well() {
        // cents of 1882 weighed 3.11 g (act of 22 April 1864); a zinc one of 1982 weighs 2.5 g
        Reading reading = EntryParser.parse("82 2.5g", watching("cent", "indian"));
        assertThat(reading.toString()).contains("1982").doesNotContain("1882");
    }

    /// Nickels of 1968 to 1970 were struck at Denver and San Francisco alone (the Mint's production figures).
    @Test
    void a_date_without_its_mint_is_no_coin_of_the_century_before() {
        for (String year : List.of("68", "69", "70")) {
            assertThat(problem(year, watching("nickel")).right())
                    .as(year)
                    .contains("19" + year + "d")
                    .contains("19" + year + "s");
        }
        assertThat(find("68 shield", watching("nickel")).identity().year()).isEqualTo(1868);
        assertThat(find("1868", watching("nickel")).identity().year()).isEqualTo(1868);
    }

    @Test
    void a_guess_that_begins_otherwise_is_not_offered() {
        for (String word : List.of("44 toneed", "44 bolded", "44 dosed")) {
            assertThat(problem(word).right()).as(word).doesNotContain("holed").doesNotContain("closed");
        }
        assertThat(problem("44 corodded").right()).contains("corroded");
    }

    @Test
    void nineteen_is_1919_when_only_wheat_cents_are_watched() {
        assertThat(find("19", watching("cent", "wheat")).identity().year()).isEqualTo(1919);
    }

    @Test
    void nineteen_asks_when_2019_is_possible_too() {
        for (EntryContext context : List.of(watching("cent"), watching("cent", "everything"))) {
            Reading reading = EntryParser.parse("19", context);
            assertThat(reading).isInstanceOf(Reading.Choose.class);
            List<Reading.Option> options = ((Reading.Choose) reading).options();
            assertThat(options).extracting(Reading.Option::line).containsExactly("1919", "2019");
            options.forEach(option ->
                    assertThat(EntryParser.parse(option.line(), context)).isInstanceOf(Reading.Clear.class));
        }
    }

    @Test
    void a_choice_keeps_the_rest_of_the_line() {
        Reading reading = EntryParser.parse("x2 19d vf20 \"in, the tray\"", watching("cent"));
        assertThat(((Reading.Choose) reading).options())
                .extracting(Reading.Option::line)
                .containsExactly("x2 1919d vf20 \"in, the tray\"", "x2 2019d vf20 \"in, the tray\"");
    }

    @Test
    void years_before_1900_need_the_series_or_four_digits_and_are_asked_when_watched_for() {
        assertThat(find("67", watching("cent", "copper")).identity().year()).isEqualTo(1967);
        // a doubled 1995 is typed into a box searched for Indians as well
        for (String line : List.of("95", "95 ddo", "98 vf20")) {
            Reading reading = EntryParser.parse(line, watching("cent", "wheat", "indian", "copper"));
            assertThat(reading).as(line).isInstanceOf(Reading.Choose.class);
            assertThat(reading.toString()).as(line).contains("18" + line.substring(0, 2), "19" + line.substring(0, 2));
        }
        assertThat(find("95 indian", watching("cent", "indian")).identity().year())
                .isEqualTo(1895);
        assertThat(find("87d", watching("cent", "indian")).identity().year()).isEqualTo(1987);
        assertThat(find("1867", watching("cent", "copper")).identity().year()).isEqualTo(1867);
    }

    @Test
    void sixty_four_in_a_box_of_dimes_is_silver() {
        CoinDescription facts = find("64", watching("dime"));
        assertThat(CATALOG.lookup(facts.identity()))
                .allSatisfy(issue -> assertThat(issue.alloy().metal()).isEqualTo(org.rollwright.coin.Metal.SILVER));
    }

    @Test
    void grade_colour_variety_and_note_follow_in_any_order() {
        CoinDescription facts = find("36d bn \"notch, under the D\" rpm vf30", watching("cent", "wheat"));
        assertThat(facts.grade()).isEqualTo(new Grade(30));
        assertThat(facts.colour()).isEqualTo(Colour.BN);
        assertThat(facts.varieties()).containsExactly("rpm");
        assertThat(facts.note()).isEqualTo("notch, under the D");
        CoinDescription joined = find("55 ms64rd", watching("cent", "wheat"));
        assertThat(joined.grade()).isEqualTo(new Grade(64));
        assertThat(joined.colour()).isEqualTo(Colour.RD);
        CoinDescription proof = find("50 pf65", watching("cent", "wheat"));
        assertThat(proof.strike()).isEqualTo(Strike.PROOF);
        assertThat(proof.grade()).isEqualTo(new Grade(65));
    }

    @Test
    void other_countries_and_denominations_may_stray_in() {
        CoinDescription canadian = find("ca 67", watching("cent", "wheat"));
        assertThat(canadian.identity().denomination()).isEqualTo(new Denomination(Country.CANADA, "cent"));
        assertThat(canadian.identity().year()).isEqualTo(1967);
        for (String line : List.of("dime 64", "64 dime")) {
            assertThat(find(line, watching("cent", "wheat")).identity().denomination())
                    .isEqualTo(new Denomination(Country.US, "dime"));
        }
        // names of a coin that one country alone has need no country before them; common practice
        for (String line : List.of("loonie 1987", "1987 loonie", "ca dollar 1987", "87 loonie vf20")) {
            Identity loon = find(line, watching("cent", "wheat")).identity();
            assertThat(loon.denomination()).as(line).isEqualTo(new Denomination(Country.CANADA, "dollar"));
            assertThat(loon.year()).as(line).isEqualTo(1987);
        }
        assertThat(find("toonie 2012 steel", watching("cent", "wheat"))
                        .identity()
                        .kind())
                .isEqualTo("steel");
        assertThat(find("ca half 1965", watching("cent", "wheat")).identity().denomination())
                .isEqualTo(new Denomination(Country.CANADA, "half"));
        CoinDescription british = find("gb 1p 1988", watching("cent", "wheat"));
        assertThat(british.identity().denomination()).isEqualTo(new Denomination(new Country("GB"), "1p"));
        assertThat(find("bm 1970", watching("cent")).identity().denomination().country())
                .isEqualTo(new Country("BM"));
    }

    @Test
    void what_cannot_be_read_is_said_to_be_unreadable() {
        assertThat(find("nd", watching("cent", "wheat")).identity().year()).isNull();
        assertThat(find("nd s", watching("cent", "wheat")).identity().mint()).isEqualTo(Mint.S);
        CoinDescription noMint = find("36?", watching("cent", "wheat"));
        assertThat(noMint.identity().mint()).isNull();
        assertThat(noMint.identity().year()).isEqualTo(1936);
    }

    @Test
    void kinds_of_a_date_are_told_by_their_words_or_left_open() {
        assertThat(find("82d", watching("cent", "copper")).identity().kind()).isEmpty();
        assertThat(find("82d copper", watching("cent", "copper")).identity().kind())
                .isEqualTo("copper large date");
        assertThat(find("82 zinc small", watching("cent", "copper")).identity().kind())
                .isEqualTo("zinc small date");
        assertThat(EntryParser.parse("82 copper", watching("cent", "copper"))).isInstanceOf(Reading.Choose.class);
        assertThat(find("09s vdb", watching("cent", "wheat")).identity().kind()).isEqualTo("vdb");
        assertThat(find("09s", watching("cent", "wheat")).identity().kind()).isEmpty();
        assertThat(find("1864 bronze ender", watching("cent", "wheat"))
                        .identity()
                        .kind())
                .as("a whole name goes before a part of bronze L")
                .isEqualTo("bronze");
        assertThat(find("dime 2015 proof", watching("cent", "wheat")).strike())
                .as("a trade word is no part of reverse proof")
                .isEqualTo(Strike.PROOF);
        assertThat(find("70s small", watching("cent", "copper")).identity().kind())
                .isEqualTo("small date");
    }

    @Test
    void two_series_of_one_date_are_told_apart_by_the_watch_or_asked() {
        EntryContext both = watching("cent", "wheat", "indian");
        assertThat(EntryParser.parse("1909", both)).isInstanceOf(Reading.Choose.class);
        ((Reading.Choose) EntryParser.parse("1909", both))
                .options()
                .forEach(option ->
                        assertThat(EntryParser.parse(option.line(), both)).isInstanceOf(Reading.Clear.class));
        assertThat(CATALOG.lookup(find("09", watching("cent", "wheat")).identity()))
                .allSatisfy(issue -> assertThat(issue.series().id()).isEqualTo("us-cent-lincoln-wheat"));
    }

    @Test
    void several_finds_stand_in_one_line_by_commas() {
        Reading reading = EntryParser.parse("39s, 41, x2 56d", watching("cent", "wheat"));
        assertThat(((Reading.Clear) reading).commands()).hasSize(3);
        assertThat(((Command.Found) ((Reading.Clear) reading).commands().get(2))
                        .draft()
                        .count())
                .isEqualTo(2);
    }

    @Test
    void commands_are_read() {
        assertThat(only("+")).isEqualTo(new Command.NextRoll());
        assertThat(only("r17")).isEqualTo(new Command.GoToRoll(17, null));
        assertThat(only("r17 49")).isEqualTo(new Command.GoToRoll(17, 49));
        assertThat(only("e 3/48")).isEqualTo(new Command.SawEnders(3, 48));
        assertThat(only("<")).isEqualTo(new Command.Undo());
        assertThat(only("! here, at last")).isEqualTo(new Command.Mark("here, at last"));
        assertThat(only("-")).isEqualTo(new Command.Checked(null, List.of()));
        assertThat(only("f12 - ddo")).isEqualTo(new Command.Checked(12, List.of("ddo")));
        assertThat(only("move f12 b2 r5")).isEqualTo(new Command.Move(12, 2, 5));
        assertThat(only("split f12 2")).isEqualTo(new Command.Split(12, 2));
        assertThat(only("watch copper")).isInstanceOf(Command.WatchFor.class);
        assertThat(only("\"damp box\"")).isEqualTo(new Command.Note("damp box"));
    }

    @Test
    void weights_are_taken_in_grams_and_in_pounds_and_ounces() {
        // 1 lb = 453.59237 g and 1 oz = 1/16 lb exactly (international yard and pound agreement, 1959).
        assertThat(((Command.Weigh) only("w 3lb 4oz")).mass().grams())
                .isEqualTo(3.25 * 453.59237, org.assertj.core.data.Offset.offset(1e-9));
        assertThat(((Command.Weigh) only("w 1899.4g")).mass().grams()).isEqualTo(1899.4);
        assertThat(problem("w -3g").wrong()).contains("negative");
        assertThat(((Command.Weigh) only("w 1472")).mass().grams())
                .as("scales of a bench show grams")
                .isEqualTo(1472);
    }

    @Test
    void an_impossible_mint_is_refused_with_what_was_struck() {
        // Only Denver struck cents in 1922 (common practice; mintage table row 1922-D).
        Reading.Problem problem = problem("22");
        assertThat(problem.wrong()).contains("1922").contains("without a mint mark");
        assertThat(problem.right()).contains("1922d");
        assertThat(problem.position()).isZero();
        assertThat(problem.length()).isEqualTo(2);
    }

    @Test
    void a_problem_says_where_and_what_would_be_right() {
        Reading.Problem typo = problem("36d claened");
        assertThat(typo.position()).isEqualTo(4);
        assertThat(typo.length()).isEqualTo(7);
        assertThat(typo.right()).contains("cleaned");
        assertThat(problem("hello").wrong()).contains("hello");
        assertThat(problem("x0 44").wrong()).contains("0 coins");
        assertThat(problem("2031").wrong()).contains("future");
        assertThat(problem("1, 2").wrong()).contains("no date");
        assertThat(problem("watch weat").right()).contains("wheat");
        assertThat(problem("36q").wrong()).contains("mint");
    }

    /// Thousands of coins: what chance misses in a run of drawn ones, this does not.
    @Test
    void every_coin_of_the_catalogue_is_written_so_that_it_is_read_again() {
        List<String> wrong = new ArrayList<>();
        for (String watch : List.of("wheat", "everything")) {
            EntryContext context = watching("cent", watch);
            for (Issue issue : CATALOG.issues()) {
                Command.FindDraft coin =
                        new Command.FindDraft(CoinDescription.plain(issue.identity()), 1, false, Disposition.OPEN);
                String line = FindText.print(coin, CATALOG, context.denomination());
                Reading reading = EntryParser.parse(line, context);
                if (!reading.equals(new Reading.Clear(List.of(new Command.Found(coin))))) {
                    wrong.add(line + " -> " + reading);
                }
            }
        }
        assertThat(wrong).isEmpty();
    }
}
