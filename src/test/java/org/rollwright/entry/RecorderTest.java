package org.rollwright.entry;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.coin.Denomination;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.Desk;
import org.rollwright.hunt.Event;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.HuntId;
import org.rollwright.hunt.Logbook;
import org.rollwright.hunt.MemoryJournal;
import org.rollwright.hunt.Roll;
import org.rollwright.hunt.Watch;

/// The lines of the guide, and what stands in the record after each.
class RecorderTest {
    private static final HuntId HUNT = new HuntId(1);

    private Desk desk;
    private Recorder recorder;

    @BeforeEach
    void two_boxes_of_cents() {
        desk = new Desk(new MemoryJournal(), () -> Instant.parse("2026-03-01T19:00:00Z"), new Logbook());
        recorder = new Recorder(desk, CatalogFolder.catalog(), () -> Instant.parse("2026-03-01T19:00:00Z"));
        desk.record(
                1,
                "",
                book -> new Event.Batch(List.of(
                        new Event.BoxAdded(new BoxId(1), Denomination.US_CENT, BoxDetails.plain("Box 1", 3, 50)),
                        new Event.BoxAdded(new BoxId(2), Denomination.US_CENT, BoxDetails.plain("Box 2", 3, 50)),
                        new Event.HuntStarted(
                                HUNT,
                                "Two boxes",
                                List.of(new BoxId(1), new BoxId(2)),
                                List.of(new Watch("wheat", "series wheat"))))));
    }

    private void type(String... lines) {
        for (String line : lines) {
            assertThat(recorder.record(HUNT, line)).as(line).isInstanceOf(Recorder.Outcome.Recorded.class);
        }
    }

    private void refused(String line, String words) {
        assertThat(recorder.record(HUNT, line))
                .as(line)
                .isInstanceOfSatisfying(
                        Recorder.Outcome.Refused.class,
                        refused -> assertThat(refused.refusal().wrong()).containsIgnoringCase(words));
    }

    private Hunt hunt() {
        return desk.read(book -> book.hunt(HUNT).orElseThrow());
    }

    private Box box(int number) {
        return desk.read(book -> book.box(new BoxId(number)).orElseThrow());
    }

    private Roll roll(int number) {
        return box(1).rolls().values().stream()
                .filter(roll -> roll.number() == number)
                .findFirst()
                .orElseThrow();
    }

    private List<Find> finds() {
        return desk.read(book -> book.hunt(HUNT).orElseThrow().finds().stream()
                .map(id -> book.find(id).orElseThrow())
                .toList());
    }

    @Test
    void the_next_roll_behind_the_last_is_the_first_of_the_next_box() {
        type("+");
        assertThat(hunt().roll()).isEqualTo(1);
        type("+", "+");
        assertThat(hunt().roll()).isEqualTo(3);
        type("+");
        assertThat(hunt().box().orElseThrow()).isEqualTo(new BoxId(2));
        assertThat(hunt().roll()).isEqualTo(1);
        type("b1", "r2");
        assertThat(hunt().box().orElseThrow()).isEqualTo(new BoxId(1));
        assertThat(hunt().roll()).isEqualTo(2);
        type("b2 r3");
        assertThat(hunt().roll()).isEqualTo(3);
    }

    @Test
    void several_finds_of_a_line_are_one_step() {
        type("+ 39s, 41, x2 56d");
        assertThat(finds()).extracting(Find::count).containsExactly(1, 1, 2);
        assertThat(finds()).extracting(Find::roll).containsOnly(1);
        assertThat(finds()).extracting(Find::ordinal).containsExactly(1, 2, 3);
        type("<");
        assertThat(finds()).isEmpty();
        assertThat(hunt().roll()).isZero();
        type(">");
        assertThat(finds()).hasSize(3);
    }

    @Test
    void a_counted_roll_a_skipped_one_and_what_is_seen_at_the_ends() {
        type(
                "e 3/6",
                "+",
                "r1 49",
                "r2 44d",
                "skip r3",
                "w 1899.4g \"copper pile\"",
                "! reading the date",
                "\"damp box\"");
        assertThat(roll(1).counted()).isEqualTo(49);
        assertThat(roll(3).left()).isTrue();
        assertThat(box(1).enders().getFirst()).isEqualTo(new Box.Enders(3, 6));
        assertThat(box(1).weights().getFirst().mass().grams()).isEqualTo(1899.4);
        assertThat(box(1).weights().getFirst().what()).isEqualTo("copper pile");
        assertThat(finds())
                .singleElement()
                .satisfies(find -> assertThat(find.roll()).isEqualTo(2));
    }

    @Test
    void second_thoughts_change_the_find_meant() {
        type("+ 44d", "x3 45", "fix f1 44s vf30", "split f2 1");
        assertThat(finds()).hasSize(3);
        assertThat(finds().getFirst().facts().identity().dateAndMint()).isEqualTo("1944-S");
        assertThat(finds().stream().mapToInt(Find::count).sum()).isEqualTo(4);
        type("move f1 b2 r2");
        assertThat(finds().getFirst().box()).isEqualTo(new BoxId(2));
        assertThat(finds().getFirst().roll()).isEqualTo(2);
        type("drop f1");
        assertThat(finds()).hasSize(2);
        refused("drop f1", "f1");
        refused("fix f99 44d", "f99");
        refused("b7", "box");
        refused("r9", "roll");
    }

    @Test
    void a_finished_hunt_goes_on_only_when_told() {
        type("+ 44d", "finish");
        assertThat(hunt().finished().isPresent()).isTrue();
        type("resume");
        assertThat(hunt().finished().isPresent()).isFalse();
        type("45");
        assertThat(finds()).hasSize(2);
    }

    @Test
    void what_is_not_clear_is_asked_and_nothing_is_recorded() {
        assertThat(recorder.record(HUNT, "zzz")).isInstanceOf(Recorder.Outcome.NotClear.class);
        assertThat(recorder.record(new HuntId(9), "44d")).isNotInstanceOf(Recorder.Outcome.Recorded.class);
        for (String empty : List.of("\"", "\"\"", "note", "note \" \"")) {
            assertThat(recorder.record(HUNT, empty))
                    .as(empty)
                    .isInstanceOfSatisfying(
                            Recorder.Outcome.NotClear.class,
                            notClear ->
                                    assertThat(notClear.reading()).asString().contains("The note is empty."));
        }
        assertThat(finds()).isEmpty();
        assertThat(desk.read(Logbook::last)).isEqualTo(1);
    }
}
