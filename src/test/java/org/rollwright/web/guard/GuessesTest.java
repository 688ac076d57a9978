package org.rollwright.web.guard;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.Test;

/// How long those wait who try wrong words.
class GuessesTest {
    private final AtomicReference<Instant> now = new AtomicReference<>(Instant.parse("2026-03-01T19:00:00Z"));
    private final Guesses guesses = new Guesses(now::get);

    private void pass(Duration time) {
        now.updateAndGet(before -> before.plus(time));
    }

    /// A day of trying as fast as is let, from one address.
    @Test
    void one_address_gets_few_words_looked_at_in_a_day() {
        Instant end = now.get().plus(Duration.ofDays(1));
        int looked = 0;
        while (now.get().isBefore(end)) {
            if (guesses.wait("192.168.1.9").isZero()) {
                guesses.wrong("192.168.1.9", "word" + looked);
                looked++;
            }
            pass(Duration.ofSeconds(1));
        }
        assertThat(looked).isLessThan(320);
    }

    /// Every address of a network in turn: the limit of all together holds them.
    @Test
    void many_addresses_together_get_no_more_than_one_word_in_two_seconds() {
        int looked = 0;
        for (int second = 0; second < 600; second++) {
            for (int i = 0; i < 100; i++) {
                String address = "10.0." + (second % 256) + "." + i;
                if (guesses.wait(address).isZero()) {
                    guesses.wrong(address, "word" + looked);
                    looked++;
                }
            }
            pass(Duration.ofSeconds(1));
        }
        assertThat(looked).isBetween(300, Guesses.FREE_TOGETHER + 301);
    }

    @Test
    void not_every_address_there_is_is_remembered() {
        for (int i = 0; i < 10_000; i++) {
            guesses.wrong("10.0." + i / 256 + "." + i % 256, "word");
        }
        assertThat(guesses.addresses()).isEqualTo(Guesses.MOST_ADDRESSES);
    }

    @Test
    void waits_grow_and_end() {
        List<Long> waits = new ArrayList<>();
        for (int i = 0; i < 20; i++) {
            Duration wait = guesses.wrong("a", "word" + i);
            waits.add(wait.toSeconds());
            pass(wait);
            assertThat(guesses.wait("a")).isZero();
        }
        assertThat(waits)
                .startsWith(0L, 0L, 0L, 0L, 2L, 4L, 8L, 16L, 32L, 64L, 128L, 256L, 300L)
                .endsWith(300L);
    }

    /// An open page of an earlier start asks on with the cookie it has.
    @Test
    void the_same_wrong_word_counts_once() {
        for (int i = 0; i < 1_000; i++) {
            assertThat(guesses.wrong("a", "yesterday")).isZero();
        }
        assertThat(guesses.wait("a")).isZero();
        assertThat(guesses.summary()).isEmpty();
    }

    @Test
    void a_clock_set_back_lengthens_no_wait() {
        for (int i = 0; i < 8; i++) {
            guesses.wrong("a", "word" + i);
        }
        Duration wait = guesses.wait("a");
        pass(Duration.ofDays(-400));
        assertThat(guesses.wait("a")).isLessThanOrEqualTo(wait);
        pass(wait);
        assertThat(guesses.wait("a")).isZero();
    }

    /// Of many tries the person at the computer hears some times, not each time.
    @Test
    void the_person_at_the_computer_is_told_but_not_flooded() {
        List<String> told = new ArrayList<>();
        guesses.tell(told::add);
        for (int i = 0; i < 5_000; i++) {
            guesses.wrong("10.0.0." + i % 7, "word" + i);
        }
        assertThat(told).hasSize(4);
        assertThat(told.getLast()).contains("1000").contains("10.0.0.");
    }

    @Test
    void the_stubborn_are_heard_again_a_second_later() {
        for (int i = 0; i < Guesses.STUBBORN + Guesses.HELD_BACK; i++) {
            assertThat(guesses.looksAt("a")).isTrue();
            guesses.wrong("a", "word" + i);
        }
        assertThat(guesses.looksAt("a")).isFalse();
        assertThat(guesses.looksAt("b")).as("others are").isTrue();
        pass(Duration.ofSeconds(1));
        assertThat(guesses.looksAt("a")).isTrue();
    }
}
