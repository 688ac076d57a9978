package org.rollwright.entry.narration;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;
import org.rollwright.entry.EntryContext;

/// What is understood of a few words, before anything is weighed. The turns of speech were heard from narrators who
/// knew nothing of the decoder.
class SpokenTest {
    private static final Denomination DIME = new Denomination(Country.CANADA, "dime");
    private static final Denomination NICKEL = new Denomination(Country.CANADA, "nickel");

    private static List<String> coins(String words, Denomination... boxes) {
        List<Denomination> homes = boxes.length == 0 ? List.of(Denomination.US_CENT) : List.of(boxes);
        EntryContext context = new EntryContext(CatalogFolder.catalog(), homes.getFirst(), List.of(), 2026);
        Listening heard = Decoding.DECODER.listen(List.of(new Cue(0, 20_000, words)), context, homes, 50);
        return heard.mentions().stream()
                .map(Cues::coin)
                .filter(Objects::nonNull)
                .filter(coin -> coin.year() != null)
                .map(coin -> coin.denomination() + " " + coin.year() + coin.code()
                        + (coin.count() > 1 ? " x" + coin.count() : ""))
                .toList();
    }

    @Test
    void dates_are_heard_as_people_say_them() {
        assertThat(coins("that's nineteen and forty four, plain")).contains("US cent 1944");
        assertThat(coins("we got three fifty eights d in there")).contains("US cent 1958D x3");
        assertThat(coins("this is forty ate d here")).contains("US cent 1948D");
        assertThat(coins("and a 5 3 d on top")).contains("US cent 1953D");
        assertThat(coins("I've got two 62's")).contains("US cent 1962 x2");
    }

    @Test
    void a_mint_may_stand_before_its_date() {
        assertThat(coins("here is a Denver, nineteen fifty")).contains("US cent 1950D");
        assertThat(coins("a 57 d. 58 is next")).contains("US cent 1957D", "US cent 1958");
    }

    @Test
    void strays_are_told_by_country_and_denomination() {
        assertThat(coins("oh a new penny, that's British, 1971")).contains("GB penny 1971");
        assertThat(coins("there's a dime in here. 2001")).contains("US dime 2001");
        assertThat(coins("a canadian dime, 1984")).contains("CA dime 1984");
        assertThat(coins("roll 5 is a dime roll. 1951 d")).contains("US cent 1951D");
    }

    @Test
    void coins_of_other_countries_are_what_they_say() {
        assertThat(coins("it's from Mexico. Five centavos, 1973")).contains("MX 5-centavos 1973");
        assertThat(coins("from Jamaica, twenty-five cents, 1993")).contains("JM 25-cents 1993");
        assertThat(coins("Canada sixty four, and a wheat behind it fifty eight d"))
                .as("no coin of Canada's bears a D")
                .contains("US cent 1958D");
    }

    @Test
    void a_letter_tells_the_century() {
        assertThat(coins("here is an oh nine d")).as("there is no 1909-D").contains("US cent 2009D");
        assertThat(coins("here is an oh nine s")).contains("US cent 1909S");
    }

    @Test
    void figures_said_one_by_one_are_dates_where_the_voice_does_so_all_the_time() {
        String spelled = "5 7 d, that's one. 6 2 blank. 4 1 blank, two. 7 9, 8 1, 5 6 d. 4 3 silver, three. 3 8";
        assertThat(coins(spelled)).contains("US cent 1943", "US cent 1938", "US cent 1979", "US cent 1981");
        assertThat(coins("rolls 4 5 nothing, 6 7 nothing")).isEmpty();
    }

    @Test
    void so_many_of_them_said_behind_a_date_is_a_count() {
        assertThat(coins("a 58 d, hang on, there's six of them all alike")).contains("US cent 1958D x6");
    }

    /// Dates and mints of what is proposed, whatever its probability.
    private static List<String> proposed(String words, Denomination box) {
        EntryContext context = new EntryContext(CatalogFolder.catalog(), box, List.of(), 2026);
        Captions captions = new Captions(List.of(new Cue(0, 20_000, words)), "text", "UTF-8", List.of());
        return Decoding.DECODER.decode(captions, context, 50).dates().stream()
                .map(Narration.Proposed::line)
                .toList();
    }

    @Test
    void a_mint_that_is_asked_for_or_denied_is_not_told() {
        assertThat(proposed(
                        "Roll two. I have a wheat, it's a 1950. Is it a D? No, plain. Keeper one.",
                        Denomination.US_CENT))
                .containsExactly("1950");
        assertThat(proposed(
                        "Roll two. I have a wheat, it's a 1950. Please be a D. No D. Keeper one.",
                        Denomination.US_CENT))
                .containsExactly("1950");
        assertThat(proposed("Roll two. I have a wheat, it's a 1950. It's a D! Keeper one.", Denomination.US_CENT))
                .containsExactly("1950d");
    }

    /// 1938-D is Buffalo and Jefferson, of 1909 three kinds of cent were struck (mint reports): the one that
    /// is named, or else the one of which most were struck.
    @Test
    void a_date_of_several_designs_is_proposed_all_the_same() {
        Denomination nickel = new Denomination(Country.US, "nickel");
        assertThat(proposed("Roll two. Ooh, a buffalo, it's a 1938 D. Keeper one.", nickel))
                .containsExactly("1938d buffalo");
        assertThat(proposed(
                        "Roll two. Keeper, it's an old wheat, a 1909, plain. That's one wheat.", Denomination.US_CENT))
                .containsExactly("1909 wheat-ears");
    }

    @Test
    void other_meanings_take_what_the_find_leaves_and_totals_stand_beside_what_was_said() {
        EntryContext context = new EntryContext(CatalogFolder.catalog(), Denomination.US_CENT, List.of(), 2026);
        String words =
                "Roll one. A wheat, 1944 D. Roll two. A wheat, 1951. Roll three. A 1957 D. That makes four wheats.";
        Captions captions = new Captions(List.of(new Cue(0, 20_000, words)), "text", "UTF-8", List.of());
        Narration narration = Decoding.DECODER.decode(captions, context, 50);
        assertThat(narration.finds()).hasSize(3).allSatisfy(find -> {
            double others = find.otherwise().stream()
                    .mapToDouble(Narration.Share::weight)
                    .sum();
            assertThat(find.probability() + others).isLessThanOrEqualTo(1.0001);
        });
        assertThat(narration.totals()).anySatisfy(total -> {
            assertThat(total.kind()).isEqualTo(Narration.Kind.WHEAT);
            assertThat(total.finds()).isEqualTo(3);
            assertThat(total.spoken()).isEqualTo(4);
            assertThat(total.agrees()).isFalse();
        });
    }

    @Test
    void the_box_in_hand_says_what_a_date_is() {
        assertThat(coins("Box one. Roll one. A 1959. Roll fifty, a 1960. Box two. Roll one. A 1966.", NICKEL, DIME))
                .containsExactly("CA nickel 1959", "CA nickel 1960", "CA dime 1966");
    }

    private static List<String> said(String text, int year) {
        List<Word> words = Word.of(List.of(new Cue(0, 20_000, text)));
        return new Qualities(words, Decoding.PHRASES).of(0, words.size(), year);
    }

    @Test
    void a_variety_is_what_is_decided_and_not_what_is_looked_for() {
        assertThat(said("Look at that gap. That is a wide AM, keeper one.", 1998))
                .containsExactly("wideam");
        assertThat(said("Let me check it for the wide AM.", 1998)).isEmpty();
        assertThat(said("Is it a doubled die? No.", 1955)).isEmpty();
        assertThat(said("no doubled die, back it goes", 1972)).isEmpty();
        assertThat(said("It's the doubled die reverse!", 1983)).containsExactly("ddr");
        assertThat(said("with the maple leaf on it", 1951))
                .as("a leaf of 1947 only")
                .isEmpty();
    }

    private static Narration.Proposed find(int seconds, int year, double probability) {
        Identity identity = new Identity(Denomination.US_CENT, year, Mint.NONE, "", "");
        return new Narration.Proposed(
                seconds * 1000L, 1, 1, identity, 1, List.of(), year + "", probability, year + "", 0, List.of());
    }

    @Test
    void the_stretch_that_repeats_earlier_dates_and_is_most_in_doubt_is_asked_about() {
        List<Narration.Proposed> finds = List.of(
                find(10, 1941, 0.99),
                find(60, 1942, 0.99),
                find(120, 1944, 0.99),
                find(300, 1941, 0.6),
                find(304, 1942, 0.6),
                find(309, 1944, 0.5),
                find(600, 1950, 0.9));
        Recaps.Question question = Recaps.mostUnsettled(finds).orElseThrow();
        assertThat(question.finds()).containsExactly(3, 4, 5);
        assertThat(question.from()).isEqualTo(300_000);
        assertThat(question.to()).isEqualTo(309_000);
        assertThat(Recaps.mostUnsettled(finds.subList(0, 5)))
                .as("two repeated dates happen by chance")
                .isEmpty();
    }
}
