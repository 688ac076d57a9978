package org.rollwright.entry;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.desk.Desk;
import org.rollwright.desk.MemoryJournal;
import org.rollwright.desk.State;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.Disposition;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.hunt.HuntId;
import org.rollwright.hunt.Roll;
import org.rollwright.hunt.Watch;
import org.rollwright.journal.Entry;
import org.rollwright.journal.Event;

/// The lines of the guide, and what stands in the record after each.
class RecorderTest {
    private static final HuntId HUNT = new HuntId(1);
    private static final Denomination DIME = new Denomination(Country.US, "dime");

    private MemoryJournal journal;
    private Desk desk;
    private Recorder recorder;

    @BeforeEach
    void two_boxes_of_cents() {
        journal = new MemoryJournal();
        desk = new Desk(journal, () -> Instant.parse("2026-03-01T19:00:00Z"), State.EMPTY);
        recorder = new Recorder(desk, CatalogFolder.catalog(), () -> Instant.parse("2026-03-01T19:00:00Z"));
        desk.record(
                1,
                "",
                book -> new Event.Batch(List.of(
                        new HuntEvent.BoxAdded(new BoxId(1), Denomination.US_CENT, BoxDetails.plain("Box 1", 3, 50)),
                        new HuntEvent.BoxAdded(new BoxId(2), Denomination.US_CENT, BoxDetails.plain("Box 2", 3, 50)),
                        new HuntEvent.HuntStarted(
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
        return desk.read(book -> book.hunt().hunt(HUNT).orElseThrow());
    }

    private Box box(int number) {
        return desk.read(book -> book.hunt().box(new BoxId(number)).orElseThrow());
    }

    private Roll roll(int number) {
        return box(1).rolls().stream()
                .filter(roll -> roll.number() == number)
                .findFirst()
                .orElseThrow();
    }

    private List<Find> finds() {
        return desk.read(book -> book.hunt().hunt(HUNT).orElseThrow().finds().stream()
                .map(id -> book.hunt().find(id).orElseThrow())
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
    void a_find_typed_into_a_roll_that_was_skipped_is_asked_about() {
        type("+ 44d", "+", "skip");
        refused("45", "roll 2 was skipped");
        refused("x2 46d vf20", "roll 2 was skipped");
        assertThat(finds()).hasSize(1);
        type("+ 45");
        assertThat(finds().getLast().roll()).isEqualTo(3);
        // taken up after all, with its coins counted
        type("r2 50", "46");
        assertThat(roll(2).left()).isFalse();
        assertThat(finds().getLast().roll()).isEqualTo(2);
        refused("skip, 47", "roll 2 was skipped");
        type("skip, r2 47");
        assertThat(finds().getLast().roll()).isEqualTo(2);
        // a coin at its end was seen without opening it, and nothing is moved into it
        type("skip", "48 ender");
        refused("move f1 r2", "roll 2 was skipped");
        type("move f1 r1");
    }

    @Test
    void where_a_find_would_lie_is_said_when_no_roll_is_open_or_it_was_skipped() {
        assertThat(withoutRoll()).contains("no roll");
        type("+");
        assertThat(withoutRoll()).isEmpty();
        type("skip");
        assertThat(withoutRoll()).contains("Roll 1 was skipped").contains("r1");
        type("r1");
        assertThat(withoutRoll()).isEmpty();
    }

    private String withoutRoll() {
        return desk.read(book -> Recorder.withoutRoll(book, hunt()));
    }

    @Test
    void several_finds_are_decided_by_one_line_and_one_step() {
        type("+ 44d, 45, 46, 47, 48", "put f2-f3 f5 return");
        assertThat(finds())
                .extracting(Find::disposition)
                .containsExactly(
                        Disposition.OPEN, Disposition.RETURN, Disposition.RETURN, Disposition.OPEN, Disposition.RETURN);
        type("put all keep");
        assertThat(finds())
                .extracting(Find::disposition)
                .containsExactly(
                        Disposition.KEEP, Disposition.RETURN, Disposition.RETURN, Disposition.KEEP, Disposition.RETURN);
        refused("put all sell", "everything of this hunt is decided");
        // it speaks of what stood there before the line
        refused("put f1 album, put all return", "put all");
        refused("49, put all keep", "put all");
        type("<");
        assertThat(finds()).extracting(Find::disposition).contains(Disposition.OPEN);
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
        assertThat(desk.read(State::last)).isEqualTo(1);
    }

    private Event recorded(String line) {
        return ((Recorder.Outcome.Recorded) recorder.record(HUNT, line)).event();
    }

    private List<Event> events(String line) {
        Event event = recorded(line);
        return event instanceof Event.Batch batch ? batch.events() : List.of(event);
    }

    @Test
    void a_count_of_the_roll_in_hand_does_not_open_it_again() {
        assertThat(events("r1 49"))
                .containsExactly(
                        new HuntEvent.RollOpened(HUNT, new BoxId(1), 1),
                        new HuntEvent.RollCounted(new BoxId(1), 1, 49));
        assertThat(events("r1 48")).containsExactly(new HuntEvent.RollCounted(new BoxId(1), 1, 48));
        assertThat(events("r1")).containsExactly(new HuntEvent.RollOpened(HUNT, new BoxId(1), 1));
    }

    @Test
    void a_place_that_is_not_there_is_refused_with_those_that_are() {
        type("+ 44d");
        for (String line : List.of("b3", "move f1 b3 r1")) {
            assertThat(recorder.record(HUNT, line))
                    .as(line)
                    .isInstanceOfSatisfying(
                            Recorder.Outcome.Refused.class,
                            refused -> assertThat(refused.refusal().right()).isEqualTo("Its boxes are b1 to b2."));
        }
        type("r0");
        assertThat(hunt().roll()).as("no roll in particular").isZero();
        type("r1");
        refused("r4", "roll 4");
        refused("move f1 r4", "roll 4");
        refused("+, r3, +, +, +, +", "roll");
        assertThat(hunt().roll()).isEqualTo(1);
        desk.record(
                2,
                "",
                book -> new Event.Batch(List.of(
                        new HuntEvent.BoxAdded(new BoxId(3), DIME, BoxDetails.plain("Box 3", 50, 50)),
                        new HuntEvent.HuntStarted(new HuntId(2), "One box", List.of(new BoxId(3)), List.of()))));
        assertThat(recorder.record(new HuntId(2), "b2"))
                .isInstanceOfSatisfying(
                        Recorder.Outcome.Refused.class,
                        refused -> assertThat(refused.refusal().right()).isEqualTo("It has one box, b1."));
        assertThat(recorder.record(new HuntId(2), "+ 64"))
                .as("a hunt of dimes reads dimes")
                .isInstanceOf(Recorder.Outcome.Recorded.class);
        assertThat(desk.read(book -> book.hunt().find(new HuntId(2), 1).orElseThrow())
                        .facts()
                        .identity()
                        .denomination())
                .isEqualTo(DIME);
        assertThat(box(3).rolls()).hasSize(1);
    }

    @Test
    void going_back_to_a_box_takes_up_its_last_roll() {
        type("+", "+ 44d", "b2", "+ 45d");
        assertThat(finds().getLast().box()).isEqualTo(new BoxId(2));
        assertThat(finds().getLast().roll())
                .as("a box begins with its first roll")
                .isEqualTo(2);
        type("b1 46");
        assertThat(finds().getLast().roll()).isEqualTo(2);
        assertThat(finds().getLast().box()).isEqualTo(new BoxId(1));
    }

    @Test
    void only_the_last_roll_leads_into_the_next_box() {
        type("r2", "+");
        assertThat(hunt().box().orElseThrow()).isEqualTo(new BoxId(1));
        assertThat(hunt().roll()).isEqualTo(3);
        refused("r4", "roll 4");
        type("+", "r3");
        assertThat(hunt().box().orElseThrow()).isEqualTo(new BoxId(2));
        refused("+", "roll 4");
    }

    @Test
    void a_fix_keeps_what_becomes_of_the_find_unless_it_says_otherwise() {
        type("+ 44d keep");
        assertThat(events("fix f1 44s keep")).hasSize(1);
        assertThat(events("fix f1 44s album")).hasSize(2);
        assertThat(finds().getFirst().disposition()).isEqualTo(Disposition.ALBUM);
        type("put f1 sell");
        assertThat(finds().getFirst().disposition()).isEqualTo(Disposition.SELL);
    }

    @Test
    void two_finds_split_in_one_line_get_two_numbers() {
        type("+ x3 44, x3 45", "split f1 1, split f2 2");
        assertThat(finds()).extracting(Find::ordinal).containsExactly(1, 2, 3, 4);
        assertThat(finds()).extracting(Find::count).containsExactly(2, 1, 1, 2);
    }

    @Test
    void a_coin_is_checked_for_what_the_list_names_or_for_what_is_said() {
        refused("-", "no find yet");
        type("+ 44d, 45");
        assertThat(events("-"))
                .containsExactly(new HuntEvent.Checked(HUNT, finds().getLast().id(), "all on the prompt"));
        assertThat(events("f1 - ddo rpm"))
                .containsExactly(
                        new HuntEvent.Checked(HUNT, finds().getFirst().id(), "ddo"),
                        new HuntEvent.Checked(HUNT, finds().getFirst().id(), "rpm"));
        refused("f9 -", "f9");
        Recorder knowing = new Recorder(
                desk,
                CatalogFolder.catalog(),
                () -> Instant.parse("2026-03-01T19:00:00Z"),
                (book, identity) -> identity.year() != null && identity.year() == 1944
                        ? List.of("first variety", "second variety")
                        : List.of());
        assertThat(((Event.Batch) ((Recorder.Outcome.Recorded) knowing.record(HUNT, "46, f1 -")).event()).events())
                .extracting(event -> event instanceof HuntEvent.Checked checked ? checked.variety() : "find")
                .containsExactly("find", "first variety", "second variety");
        assertThat(((HuntEvent.Checked) ((Recorder.Outcome.Recorded) knowing.record(HUNT, "-")).event()).variety())
                .isEqualTo("all on the prompt");
    }

    @Test
    void a_finished_hunt_takes_notes_and_second_thoughts_but_no_finds() {
        type("+ 44d", "finish");
        for (String line : List.of("45", "+", "r2", "b2", "watch copper", "unwatch wheat")) {
            refused(line, "finished");
        }
        type("\"looked again\"", "fix f1 44s", "put f1 keep", "! seen", "w 10g", "resume, 45", "watch copper");
        assertThat(hunt().watches()).extracting(Watch::name).containsExactly("wheat", "copper");
        type("unwatch wheat");
        assertThat(hunt().watches()).extracting(Watch::name).containsExactly("copper");
    }

    @Test
    void undo_stands_alone() {
        refused("44, undo", "undo");
        refused("redo, 44", "redo");
    }

    @Test
    void what_was_told_of_a_skipped_roll_takes_it_up() {
        type("+", "skip");
        Instant then = Instant.parse("2026-02-28T18:00:00Z");
        assertThat(recorder.recordTogether(HUNT, "a recording", List.of(new Recorder.Told(then, 1, 1, "44d"))))
                .isInstanceOf(Recorder.Together.Recorded.class);
        assertThat(roll(1).left()).isFalse();
        assertThat(finds()).extracting(Find::roll).containsExactly(1);
    }

    @Test
    void what_was_told_elsewhere_is_one_step_in_order_of_place_or_nothing() {
        Instant then = Instant.parse("2026-02-28T18:00:00Z");
        List<Recorder.Told> told = List.of(
                new Recorder.Told(then, 1, 1, "44d"),
                new Recorder.Told(then.plusSeconds(60), 1, 2, ""),
                new Recorder.Told(then.plusSeconds(90), 1, 2, "45, 46"),
                new Recorder.Told(then.plusSeconds(100), 2, 2, "47"),
                new Recorder.Told(then.plusSeconds(120), 2, 0, "w 12g"));
        assertThat(recorder.recordTogether(HUNT, "a recording", told)).isEqualTo(new Recorder.Together.Recorded(2));
        assertThat(finds()).extracting(Find::roll).containsExactly(1, 2, 2, 2);
        assertThat(finds()).extracting(find -> find.box().number()).containsExactly(1L, 1L, 1L, 2L);
        assertThat(finds())
                .extracting(Find::at)
                .containsExactly(then, then.plusSeconds(90), then.plusSeconds(90), then.plusSeconds(100));
        assertThat(box(1).rolls()).as("each roll was opened once").hasSize(2);
        assertThat(box(2).weights()).hasSize(1);
        List<Entry> entries = new ArrayList<>();
        journal.read(1, entries::add);
        Event.Batch batch = (Event.Batch) entries.getFirst().event();
        assertThat(batch.events().stream().filter(event -> event instanceof HuntEvent.RollOpened))
                .hasSize(3);
        type("<");
        assertThat(finds()).isEmpty();
    }

    @Test
    void what_was_told_elsewhere_and_cannot_be_taken_names_its_row() {
        Instant then = Instant.parse("2026-02-28T18:00:00Z");
        Recorder.Told good = new Recorder.Told(then, 1, 1, "44d");
        assertThat(wrong(good, new Recorder.Told(then, 1, 1, "zzz")))
                .isEqualTo(new Recorder.Together.Wrong(
                        1,
                        "'zzz' is not a word I know.",
                        "Begin a find with its date, such as 39s; or type ? for help."));
        assertThat(wrong(good, good, new Recorder.Told(then, 1, 1, "82 copper")))
                .isEqualTo(new Recorder.Together.Wrong(
                        2,
                        "Which one is it?",
                        "Write one of: 1982 memorial copper large date, 1982 memorial copper small date."));
        assertThat(wrong(new Recorder.Told(then, 1, 1, "finish")))
                .isEqualTo(new Recorder.Together.Wrong(
                        0, "Only finds and weights can stand here.", "Write a find such as 39s."));
        assertThat(wrong(good, new Recorder.Told(then, 7, 1, "45")))
                .isEqualTo(new Recorder.Together.Wrong(1, "This hunt has no box 7.", "Its boxes are b1 to b2."));
        assertThat(wrong(good, new Recorder.Told(then, 0, 1, "45")))
                .isEqualTo(new Recorder.Together.Wrong(1, "This hunt has no box 0.", "Its boxes are b1 to b2."));
        assertThat(wrong(good, new Recorder.Told(then, 1, 9, "45")).row()).isEqualTo(-1);
        assertThat(((Recorder.Together.Wrong) recorder.recordTogether(new HuntId(9), "", List.of(good))).wrong())
                .contains("hunt");
        assertThat(finds()).isEmpty();
    }

    private Recorder.Together.Wrong wrong(Recorder.Told... told) {
        return (Recorder.Together.Wrong) recorder.recordTogether(HUNT, "a recording", List.of(told));
    }

    @Test
    void a_hunt_before_its_first_roll_reads_the_coins_of_its_first_box() {
        EntryContext context = desk.read(book -> recorder.context(book, hunt()));
        assertThat(context.denomination()).isEqualTo(Denomination.US_CENT);
        assertThat(context.thisYear()).isEqualTo(2026);
        assertThat(context.watches()).hasSize(1);
        assertThat(recorder.context(DIME, List.of(new Watch("own", "no rule at all")))
                        .watches())
                .isEmpty();
    }
}
