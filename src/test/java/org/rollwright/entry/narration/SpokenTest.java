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
