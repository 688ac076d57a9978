package org.rollwright.recap;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.coin.Denomination;
import org.rollwright.desk.Desk;
import org.rollwright.desk.MemoryJournal;
import org.rollwright.desk.State;
import org.rollwright.entry.Recorder;
import org.rollwright.entry.narration.Captions;
import org.rollwright.entry.narration.Cue;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.hunt.HuntId;
import org.rollwright.hunt.Watch;
import org.rollwright.journal.Event;

class ChaptersTest {
    private static final Instant START = Instant.parse("2026-03-01T19:00:00Z");
    private Desk desk = new Desk(new MemoryJournal(), () -> START, State.EMPTY);
    private Recorder recorder = new Recorder(desk, CatalogFolder.catalog(), () -> START);

    ChaptersTest() {
        begin();
    }

    private void begin() {
        desk = new Desk(new MemoryJournal(), () -> START, State.EMPTY);
        recorder = new Recorder(desk, CatalogFolder.catalog(), () -> START);
        desk.record(
                1,
                "",
                book -> new Event.Batch(List.of(
                        new HuntEvent.BoxAdded(new BoxId(1), Denomination.US_CENT, BoxDetails.plain("Box 1", 50, 50)),
                        new HuntEvent.HuntStarted(
                                new HuntId(1),
                                "Evening",
                                List.of(new BoxId(1)),
                                List.of(new Watch("wheat", "series wheat"))))));
    }

    private void at(int seconds, String line) {
        assertThat(recorder.recordAt(START.plusSeconds(seconds), new HuntId(1), line))
                .isInstanceOf(Recorder.Outcome.Recorded.class);
    }

    private Chapters.Result made(String first) {
        return desk.read(book -> Chapters.of(
                book.hunt(),
                book.hunt().hunt(new HuntId(1)).orElseThrow(),
                CatalogFolder.catalog(),
                Chapters.parse(first).orElseThrow(),
                null));
    }

    private Chapters good(String first) {
        assertThat(made(first)).isInstanceOf(Chapters.Result.Made.class);
        return ((Chapters.Result.Made) made(first)).chapters();
    }

    private static String wrong(Chapters.Result result) {
        assertThat(result).isInstanceOf(Chapters.Result.Refused.class);
        return ((Chapters.Result.Refused) result).flaw().wrong();
    }

    @Test
    void the_first_moment_is_put_where_it_is_heard_and_a_mark_goes_before_a_roll() {
        at(0, "+");
        at(70, "+");
        at(74, "! second roll & <look>");
        at(200, "09s f12");
        at(300, "+");
        Chapters chapters = good("1:35");
        assertThat(chapters.text())
                .isEqualTo("0:00 Start\n1:35 Roll 1\n2:49 second roll & <look>\n4:55 1909-S wheat ears\n6:35 Roll 3\n");
        assertThat(chapters.dropped()).isEqualTo(1);
    }

    @Test
    void what_cannot_be_is_said_plainly() {
        assertThat(wrong(made("0:00"))).contains("Nothing with a time");
        at(0, "+");
        at(4, "+");
        assertThat(wrong(made("-0:05"))).contains("cannot lie before the recording begins");
        assertThat(wrong(made("0:01"))).contains("sites ask for three");
        assertThat(Chapters.parse("1:2:3:4")).isEmpty();
        assertThat(Chapters.parse("soon")).isEmpty();
    }

    /// The rules sites ask for (common practice), and a WebVTT parser that gives the same chapters back.
    @Property(tries = 100)
    void chapters_keep_the_rules_and_survive_their_own_file(@ForAll long seed) {
        begin();
        Random random = new Random(seed);
        int second = 0;
        for (int i = 0; i < 40; i++) {
            second += random.nextInt(40);
            at(
                    second,
                    random.nextInt(3) == 0
                            ? String.valueOf(1941 + i)
                            : random.nextInt(6) == 0 ? "! see --> this " + i : "+");
        }
        Duration first = Duration.ofSeconds(random.nextInt(500));
        Chapters.Result result = desk.read(book -> Chapters.of(
                book.hunt(), book.hunt().hunt(new HuntId(1)).orElseThrow(), CatalogFolder.catalog(), first, null));
        if (!(result instanceof Chapters.Result.Made made)) {
            return;
        }
        List<Chapters.Chapter> chapters = made.chapters().chapters();
        assertThat(chapters.size()).isGreaterThanOrEqualTo(3);
        assertThat(chapters.getFirst().at()).isZero();
        for (int i = 1; i < chapters.size(); i++) {
            assertThat(chapters.get(i).at().minus(chapters.get(i - 1).at())).isGreaterThanOrEqualTo(Chapters.LEAST);
        }
        Captions.Read read =
                Captions.read(made.chapters().webVtt(null).getBytes(java.nio.charset.StandardCharsets.UTF_8));
        assertThat(read).isInstanceOf(Captions.Read.Good.class);
        List<Cue> cues = ((Captions.Read.Good) read).captions().cues();
        assertThat(cues).hasSameSizeAs(chapters);
        for (int i = 0; i < cues.size(); i++) {
            assertThat(cues.get(i).start()).isEqualTo(chapters.get(i).at().toMillis());
        }
    }

    /// The log edited after the recording: chapters follow it, and what was not touched stays where it was.
    @Test
    void chapters_follow_an_edited_log() {
        at(0, "+");
        at(70, "09s f12");
        at(200, "14d");
        at(300, "+");
        assertThat(good("1:00").text())
                .isEqualTo("0:00 Start\n1:00 Roll 1\n2:10 1909-S wheat ears\n4:20 1914-D\n6:00 Roll 2\n");
        assertThat(desk.record(1, "", book -> new HuntEvent.FindDeleted(new org.rollwright.hunt.FindId(2))))
                .isInstanceOf(Desk.Outcome.Kept.class);
        at(320, "! the end");
        assertThat(good("1:00").text())
                .isEqualTo("0:00 Start\n1:00 Roll 1\n2:10 1909-S wheat ears\n6:00 Roll 2\n6:20 the end\n");
        desk.undo(1, "<");
        desk.undo(1, "<");
        assertThat(good("1:00").text())
                .isEqualTo("0:00 Start\n1:00 Roll 1\n2:10 1909-S wheat ears\n4:20 1914-D\n6:00 Roll 2\n");
    }

    /// The rules of American time zones since 2007: clocks go forward on the second Sunday of March and back on
    /// the first Sunday of November (15 USC 260a).
    @Test
    void the_clock_on_the_wall_may_skip_an_hour_or_show_it_twice() {
        Instant first = Instant.parse("2026-03-08T09:00:00Z");
        assertThat(Chapters.began("2026-03-08 02:30", "America/Chicago", first))
                .asString()
                .contains("02:30 on 2026-03-08 never was in America/Chicago: clocks went from 02:00 to 03:00.");
        assertThat(Chapters.began("2026-03-08 03:30", "America/Chicago", first))
                .isEqualTo(new Chapters.Began.At(Instant.parse("2026-03-08T08:30:00Z")));
        assertThat(Chapters.began("2026-03-08 03:30", "Mars/Olympus", first))
                .asString()
                .contains("'Mars/Olympus' is no time zone known here.");
        assertThat(Chapters.began("yesterday", "UTC", first)).asString().contains("is no day and time");
        // 01:30 came twice: at 06:30 and at 07:30 UTC
        assertThat(Chapters.began("2026-11-01 01:30", "America/Chicago", Instant.parse("2026-11-01T08:00:00Z")))
                .isEqualTo(new Chapters.Began.At(Instant.parse("2026-11-01T07:30:00Z")));
        assertThat(Chapters.began("2026-11-01 01:30", "America/Chicago", Instant.parse("2026-11-01T07:00:00Z")))
                .isEqualTo(new Chapters.Began.At(Instant.parse("2026-11-01T06:30:00Z")));
    }
}
