package org.rollwright.desk;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.LongRange;

class DeskPropertyTest {
    @Property(tries = 400)
    void the_state_is_the_fold_of_what_still_counts(@ForAll @LongRange(max = 1L << 40) long seed) {
        MemoryJournal journal = new MemoryJournal();
        Desk desk = Histories.history(journal, new Random(seed), 150);
        String now = desk.read(EveryPart::of);
        State again = new Desk(journal, () -> Histories.START, State.EMPTY).state();
        assertThat(EveryPart.of(again))
                .as("seed %d: replay of every entry", seed)
                .isEqualTo(now);
        assertThat(EveryPart.of(Desk.fold(journal)))
                .as("seed %d: fold of the entries that count", seed)
                .isEqualTo(now);
    }

    @Property(tries = 300)
    void undoing_everything_and_redoing_it_leads_back(@ForAll @LongRange(max = 1L << 40) long seed) {
        MemoryJournal journal = new MemoryJournal();
        Desk desk = Histories.history(journal, new Random(seed), 80);
        String before = desk.read(StateText::whole).replaceAll(" last .*", "");
        int steps = 0;
        while (desk.undo(1, "") instanceof Desk.Outcome.Kept) {
            steps++;
        }
        for (int i = 0; i < steps; i++) {
            assertThat(desk.redo(1, "")).as("seed %d", seed).isInstanceOf(Desk.Outcome.Kept.class);
        }
        if (steps > 0) {
            assertThat(desk.read(StateText::whole).replaceAll(" last .*", ""))
                    .as("seed %d", seed)
                    .isEqualTo(before);
        }
    }
}
