package org.rollwright.desk;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.LongRange;
import org.rollwright.coin.Denomination;
import org.rollwright.hunt.FindId;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.journal.Event;

class DeskPropertyTest {
    @Property(tries = 400)
    void the_state_is_the_fold_of_what_still_counts(@ForAll @LongRange(max = 1L << 40) long seed) {
        MemoryJournal journal = new MemoryJournal();
        Desk desk = Histories.history(journal, new Random(seed), 150);
        String now = desk.read(StateText::of);
        State again = new Desk(journal, () -> Histories.START, State.EMPTY).state();
        assertThat(StateText.of(again))
                .as("seed %d: replay of every entry", seed)
                .isEqualTo(now);
        assertThat(StateText.of(Desk.fold(journal)))
                .as("seed %d: fold of the entries that count", seed)
                .isEqualTo(now);
    }

    @Property(tries = 300)
    void undoing_everything_and_redoing_it_leads_back(@ForAll @LongRange(max = 1L << 40) long seed) {
        MemoryJournal journal = new MemoryJournal();
        Desk desk = Histories.history(journal, new Random(seed), 80);
        String before = desk.read(StateText::of);
        int steps = 0;
        while (desk.undo(1, "") instanceof Desk.Outcome.Kept) {
            steps++;
        }
        for (int i = 0; i < steps; i++) {
            assertThat(desk.redo(1, "")).as("seed %d", seed).isInstanceOf(Desk.Outcome.Kept.class);
        }
        if (steps > 0) {
            assertThat(desk.read(StateText::of)).as("seed %d", seed).isEqualTo(before);
        }
    }

    @Property(tries = 200)
    void what_is_refused_leaves_no_trace(@ForAll @LongRange(max = 1L << 40) long seed) {
        MemoryJournal journal = new MemoryJournal();
        Random random = new Random(seed);
        Desk desk = Histories.history(journal, random, 60);
        String before = desk.read(StateText::of);
        long last = journal.last();
        Desk.Outcome outcome = desk.recordAt(
                Histories.START,
                "",
                book -> new Desk.Step(
                        0,
                        new Event.Batch(List.of(
                                new HuntEvent.BoxAdded(book.hunt().nextBox(), Denomination.US_CENT, Histories.box()),
                                new HuntEvent.FindDeleted(new FindId(99_999))))));
        assertThat(outcome).isInstanceOf(Desk.Outcome.Refused.class);
        assertThat(journal.last()).isEqualTo(last);
        assertThat(desk.read(StateText::of)).isEqualTo(before);
    }
}
