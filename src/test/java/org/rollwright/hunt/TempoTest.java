package org.rollwright.hunt;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.rollwright.coin.Denomination;
import org.rollwright.journal.Entry;

/// Rolls an hour, against sums worked out by hand.
class TempoTest {
    private static final Instant EVENING = Instant.parse("2026-03-01T19:00:00Z");

    /// A box of 50 rolls of which one is opened at each of these seconds.
    private static Box opened(long... seconds) {
        BoxId box = new BoxId(1);
        HuntId hunt = new HuntId(1);
        HuntBook book = after(
                HuntBook.EMPTY,
                new HuntEvent.BoxAdded(box, Denomination.US_CENT, BoxDetails.plain("Box 1", 50, 50)),
                0,
                0);
        book = after(book, new HuntEvent.HuntStarted(hunt, "Evening", List.of(box), List.of()), 1, 0);
        int roll = 0;
        for (long at : seconds) {
            roll++;
            book = after(book, new HuntEvent.RollOpened(hunt, box, roll), 1, at);
        }
        return book.known(box);
    }

    private static HuntBook after(HuntBook book, HuntEvent event, long scope, long second) {
        return book.apply(event, new Entry(1, EVENING.plusSeconds(second), scope, "", event));
    }

    @Test
    void rolls_an_hour_leave_pauses_out() {
        // 120 s, 180 s, a pause of an hour, 150 s: three rolls in 450 s are 24 an hour; 45 more take 45 x 150 s
        Tempo tempo = Tempo.of(opened(0, 120, 300, 3900, 4050)).orElseThrow();
        assertThat(tempo.rollsAnHour()).isEqualTo(24, within(1e-9));
        assertThat(tempo.left()).isEqualTo(Duration.ofSeconds(45 * 150));
    }

    @Test
    void too_few_rolls_and_lines_of_a_script_tell_nothing() {
        assertThat(Tempo.of(opened())).isEmpty();
        assertThat(Tempo.of(opened(0, 100, 200))).isEmpty();
        assertThat(Tempo.of(opened(0, 1, 2, 3, 4, 5))).isEmpty();
        assertThat(Tempo.of(opened(0, 4000, 8000, 12000, 16000))).isEmpty();
    }

    @Test
    void a_box_opened_whole_has_nothing_left() {
        long[] all = new long[50];
        for (int i = 0; i < all.length; i++) {
            all[i] = i * 100L;
        }
        Tempo tempo = Tempo.of(opened(all)).orElseThrow();
        assertThat(tempo.rollsAnHour()).isEqualTo(36, within(1e-9));
        assertThat(tempo.left()).isEqualTo(Duration.ZERO);
    }
}
