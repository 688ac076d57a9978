package org.rollwright.catalog;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Mint;

/// Kinds of a date, settled by the quickest look.
class KindsTest {
    private static final Catalog CATALOG = CatalogFolder.catalog();
    private static final Denomination CENT = Denomination.US_CENT;

    /// What one answers who has the coin in hand.
    private static String answer(Kinds kinds, Kinds.Question question, Issue coin) {
        return question.choices().stream()
                .map(Kinds.Choice::key)
                .filter(key -> kinds.answered(question.id(), key).left().contains(coin))
                .findFirst()
                .orElseThrow(() -> new AssertionError(coin.identity() + " has no answer to " + question.text()));
    }

    private record Course(List<String> asked, List<Issue> left) {}

    private static Course settle(Issue coin) {
        Kinds kinds = Kinds.of(CATALOG, coin.identity().denomination(), coin.year(), null);
        List<String> asked = new ArrayList<>();
        for (Optional<Kinds.Question> next = kinds.next(); next.isPresent(); next = kinds.next()) {
            asked.add(next.get().id());
            kinds = kinds.answered(next.get().id(), answer(kinds, next.get(), coin));
        }
        return new Course(asked, kinds.left());
    }

    @Test
    void the_seven_cents_of_1982_are_settled_by_weight_date_and_mint_in_that_order() {
        Set<Issue> settled = new HashSet<>();
        for (Issue coin : CATALOG.ofYear(CENT, 1982)) {
            if (!coin.collectorOnly()) {
                Course course = settle(coin);
                assertThat(course.left()).as(coin.identity().toString()).containsExactly(coin);
                assertThat(course.asked()).containsExactly("weight", "date", "mint");
                assertThat(coin.identity().kind()).as("no ordinary coin").isNotEmpty();
                settled.add(coin);
            }
        }
        assertThat(settled).hasSize(7);
    }

    /// With the mint mark told, as the entry line tells it, a 1982 cent takes two looks.
    @Test
    void a_mint_mark_that_was_told_is_not_asked() {
        Kinds kinds = Kinds.of(CATALOG, CENT, 1982, new Mint("D"));
        assertThat(kinds.next().orElseThrow().id()).isEqualTo("weight");
        kinds = kinds.answered("weight", "2.5");
        assertThat(kinds.next().orElseThrow().id()).isEqualTo("date");
        kinds = kinds.answered("date", "small date");
        assertThat(kinds.next()).isEmpty();
        assertThat(kinds.left()).hasSize(1);
    }

    /// A copper cent of 1982-D with the small date is none of the catalogue's kinds; two are known, from memory.
    @Test
    void answers_that_fit_no_coin_leave_none() {
        Kinds kinds = Kinds.of(CATALOG, CENT, 1982, null)
                .answered("weight", "3.11")
                .answered("date", "small date")
                .answered("mint", "D");
        assertThat(kinds.left()).isEmpty();
        assertThat(kinds.next()).isEmpty();
    }

    @Test
    void every_kind_that_can_be_told_is_settled_in_at_most_four_answers() {
        Set<String> open = new HashSet<>();
        for (Issue coin : CATALOG.issues()) {
            Denomination denomination = coin.identity().denomination();
            if (coin.collectorOnly() || !Kinds.several(CATALOG, denomination, coin.year())) {
                continue;
            }
            Course course = settle(coin);
            assertThat(course.left()).as(coin.identity().toString()).contains(coin);
            assertThat(course.asked()).as(coin.identity().toString()).hasSizeLessThanOrEqualTo(4);
            if (course.left().size() > 1) {
                open.add(denomination + " " + coin.year());
            }
        }
        // both were struck on planchets of one weight (common practice): neither eye nor scale tells them
        assertThat(open).containsExactlyInAnyOrder("CA dime 1967", "CA quarter 1967");
    }

    @Test
    void the_four_reverses_of_2009_take_one_look_and_the_mint_mark() {
        Kinds kinds = Kinds.of(CATALOG, CENT, 2009, null);
        Kinds.Question first = kinds.next().orElseThrow();
        assertThat(first.id()).isEqualTo("design");
        assertThat(first.choices()).hasSize(4);
        assertThat(kinds.answered("design", "presidency").next().orElseThrow().id())
                .isEqualTo("mint");
    }

    @Test
    void canadian_cents_of_the_2000s_are_told_by_magnet_then_by_mark() {
        Kinds kinds = Kinds.of(CATALOG, new Denomination(new Country("CA"), "cent"), 2006, null);
        assertThat(kinds.next().orElseThrow().id()).isEqualTo("magnet");
        kinds = kinds.answered("magnet", "yes");
        assertThat(kinds.next().orElseThrow().id()).isEqualTo("mint");
        assertThat(kinds.answered("mint", "P").left()).hasSize(1);
    }

    @Test
    void answers_may_be_begun_and_come_all_at_once() {
        Kinds.Weigher weigher = (grams, alloys) -> alloys.stream()
                .filter(alloy -> Math.abs(alloy.weight().grams() - grams) < 0.2)
                .toList();
        Kinds kinds = Kinds.of(CATALOG, CENT, 1982, null);
        Kinds settled = kinds.following(Map.of("weight", "2.51", "date", "small", "mint", "d"), weigher);
        assertThat(settled.left()).hasSize(1);
        assertThat(settled.left().getFirst().identity().shortName()).contains("1982-D", "zinc small date");
        assertThat(kinds.following(Map.of("weight", "9"), weigher).said()).isEmpty();
        assertThat(kinds.following(Map.of("weight", "?", "date", "medium"), weigher)
                        .said())
                .containsOnlyKeys("weight");
    }

    @Test
    void who_cannot_tell_is_asked_the_next_question() {
        Kinds kinds = Kinds.of(CATALOG, CENT, 1982, null).answered("weight", Kinds.CANNOT_TELL);
        assertThat(kinds.left()).hasSize(7);
        assertThat(kinds.next().orElseThrow().id()).isEqualTo("date");
        assertThat(kinds.answered("date", "blue").said()).doesNotContainKey("date");
    }

    @Test
    void every_look_is_at_a_zone_its_coins_have() {
        for (Issue coin : CATALOG.issues()) {
            for (KindLook look : CATALOG.kindLooks(coin.identity().denomination(), coin.year())) {
                // of a date with two designs a look may be at one of them
                boolean mine = look.answers().stream()
                        .anyMatch(answer -> !answer.kind().equals(KindLook.OTHER) && look.shows(coin, answer));
                if (mine) {
                    assertThat(look.looks())
                            .as(coin.identity() + " " + look.id())
                            .allMatch(spot -> CATALOG.zones().has(coin, spot));
                }
            }
        }
    }
}
