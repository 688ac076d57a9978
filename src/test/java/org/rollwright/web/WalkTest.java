package org.rollwright.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import org.junit.jupiter.api.Test;

/// A short random walk over every form; `bench/walk` goes a hundred thousand steps.
class WalkTest {
    @Test
    void after_a_walk_with_undo_the_journal_folded_anew_prints_every_page_the_same()
            throws IOException, InterruptedException {
        Walk.Sum sum = Walk.walk(400, 20_261_127, 400, 1);
        System.out.println(sum);
        assertThat(sum.differences).isEmpty();
        assertThat(sum.undone).isPositive();
        assertThat(sum.redone).isPositive();
        assertThat(sum.posts).containsKeys("mat", "narration", "boxes", "albums", "scope", "photographs");
        assertThat(sum.posts).containsKeys("scale", "cabinet", "till", "settings");
        assertThat(sum.refused).isLessThan(sum.all() / 2);
    }
}
