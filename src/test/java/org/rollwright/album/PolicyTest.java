package org.rollwright.album;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Colour;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;
import org.rollwright.coin.Strike;

class PolicyTest {
    private static CoinDescription coin(
            @Nullable Integer grade, @Nullable String details, @Nullable Colour colour, String note) {
        return new CoinDescription(
                Identity.of(Denomination.US_CENT, 1944, Mint.D),
                grade == null ? null : new Grade(grade),
                details,
                colour,
                Strike.BUSINESS,
                List.of(),
                List.of(),
                note,
                List.of());
    }

    private static Policy.Verdict compare(CoinDescription a, CoinDescription b) {
        return Policy.usual().compare(a, b);
    }

    @Test
    void sound_comes_before_grade_and_grade_before_colour() {
        assertThat(compare(coin(4, null, null, ""), coin(40, "cleaned", null, "")))
                .isEqualTo(new Policy.Verdict.Better("sound against cleaned"));
        assertThat(compare(coin(30, null, null, ""), coin(12, null, Colour.RD, "")))
                .isEqualTo(new Policy.Verdict.Better("VF30 over F12"));
        assertThat(compare(coin(63, null, Colour.RD, ""), coin(63, null, Colour.BN, "")))
                .isEqualTo(new Policy.Verdict.Better("RD over BN"));
        assertThat(compare(coin(63, null, Colour.RD, "eye 2"), coin(63, null, Colour.RD, "eye 4")))
                .isInstanceOf(Policy.Verdict.Worse.class);
    }

    @Test
    void a_coin_without_a_grade_is_looked_at_not_moved() {
        assertThat(compare(coin(null, null, null, ""), coin(12, null, null, "")))
                .isInstanceOf(Policy.Verdict.Look.class);
        assertThat(compare(coin(12, null, null, ""), coin(null, null, null, "")))
                .isInstanceOf(Policy.Verdict.Look.class);
        assertThat(compare(coin(null, null, null, ""), coin(null, null, null, "")))
                .isEqualTo(new Policy.Verdict.Same());
    }

    @Provide
    Arbitrary<Policy> policies() {
        return Combinators.combine(
                        Arbitraries.shuffle(Policy.Criterion.values()),
                        Arbitraries.integers().between(1, 4),
                        Arbitraries.shuffle(Colour.values()))
                .as((criteria, count, colours) -> {
                    List<Policy.Criterion> some = criteria.subList(0, count);
                    boolean says = some.contains(Policy.Criterion.COLOUR);
                    return new Policy(some, says ? colours : Policy.usual().colours());
                });
    }

    @Property
    void printing_a_policy_and_reading_it_gives_the_same_policy(@ForAll("policies") Policy policy) {
        assertThat(Policy.parse(policy.text())).isEqualTo(new Policy.Parsed.Good(policy));
    }

    @Provide
    Arbitrary<CoinDescription> coins() {
        return Combinators.combine(
                        Arbitraries.of(4, 12, 30, 63).injectNull(0.2),
                        Arbitraries.of("bent").injectNull(0.6),
                        Arbitraries.of(Colour.class).injectNull(0.3),
                        Arbitraries.of("", "eye 1", "an eye 5"))
                .as(PolicyTest::coin);
    }

    @Property
    void better_one_way_is_worse_the_other(
            @ForAll("policies") Policy policy, @ForAll("coins") CoinDescription a, @ForAll("coins") CoinDescription b) {
        Policy.Verdict there = policy.compare(a, b);
        Policy.Verdict back = policy.compare(b, a);
        assertThat(there instanceof Policy.Verdict.Better).isEqualTo(back instanceof Policy.Verdict.Worse);
        assertThat(there instanceof Policy.Verdict.Same).isEqualTo(back instanceof Policy.Verdict.Same);
    }

    @Test
    void a_policy_that_cannot_be_read_says_what_would_be_right() {
        assertThat(Policy.parse("grade, beauty")).isInstanceOf(Policy.Parsed.Bad.class);
        assertThat(Policy.parse("grade, grade")).isInstanceOf(Policy.Parsed.Bad.class);
        assertThat(Policy.parse("colour rd rd bn")).isInstanceOf(Policy.Parsed.Bad.class);
        assertThat(Policy.parse("")).isEqualTo(new Policy.Parsed.Good(Policy.usual()));
    }
}
