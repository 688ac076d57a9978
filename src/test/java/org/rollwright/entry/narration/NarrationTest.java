package org.rollwright.entry.narration;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/// The hand-written narrations: those looked at while building, and those held out.
class NarrationTest {
    private static final int GENERATED = Integer.getInteger("rollwright.narrations", 150);

    @Test
    void generated_narrations_with_caption_errors_are_decoded() {
        Score all = new Score();
        for (Annotated narration : NarrationMaker.many(9_000_000, GENERATED, true, 1)) {
            all.add(narration, Decoding.decode(narration));
        }
        System.out.println("generated: " + all);
        if (Boolean.getBoolean("rollwright.faults")) {
            all.faults.stream().limit(60).forEach(System.out::println);
        }
        assertThat(all.rightShare()).isGreaterThanOrEqualTo(0.95);
        assertThat(all.falsePerHundred()).isLessThanOrEqualTo(3);
        assertThat(all.rollShare()).isGreaterThanOrEqualTo(0.95);
        int sure = 0;
        int right = 0;
        for (double[] one : all.sureAndRight) {
            sure += one[0] >= 0.95 ? 1 : 0;
            right += one[0] >= 0.95 && one[1] > 0 ? 1 : 0;
        }
        System.out.println("called 0.95 or more: " + sure + ", right " + right);
        assertThat(right / (double) sure).isGreaterThanOrEqualTo(0.95);
    }

    @ParameterizedTest
    @ValueSource(strings = {"tuned", "held-out"})
    void dates_mints_and_rolls_are_right(String folder) {
        List<Annotated> narrations = Annotated.folder(folder);
        Score all = new Score();
        for (Annotated narration : narrations) {
            Score score = new Score();
            score.add(narration, Decoding.decode(narration));
            System.out.println(narration.name() + ": " + score);
            all.add(narration, Decoding.decode(narration));
        }
        System.out.println(folder + ": " + all);
        all.faults.forEach(System.out::println);
        assertThat(all.rightShare()).isGreaterThanOrEqualTo(0.97);
        assertThat(all.falsePerHundred()).isLessThanOrEqualTo(1);
        assertThat(all.rollShare()).isGreaterThanOrEqualTo(0.97);
    }
}
