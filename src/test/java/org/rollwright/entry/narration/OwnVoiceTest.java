package org.rollwright.entry.narration;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.rollwright.catalog.CatalogFolder;

/// What a reviewed recording does for the next one of the same voice.
class OwnVoiceTest {
    private static final String OPENED = "src/test/resources/narrations/strangers-opened";
    private static final String KEPT = "src/test/resources/narrations/strangers-kept";

    private static Lesson lesson(Stranger one) {
        return new Lesson(
                Instant.parse("2026-03-01T10:00:00Z"),
                one.name(),
                one.cues(),
                one.denominations(),
                List.of(),
                one.rollsPerBox(),
                one.finds(),
                new Lesson.Corrections(0, 0, 0, 0));
    }

    private static Narration decode(Decoder decoder, Stranger one) {
        return decoder.decode(
                new Captions(one.cues(), "text", "UTF-8", List.of()),
                one.context(),
                one.denominations(),
                one.rollsPerBox());
    }

    private static int errors(Stranger.Count count) {
        return count.truth - count.found + count.wrong;
    }

    /// Twelve voices, two recordings each, by authors who had seen neither decoder nor lists; the weights have
    /// seen none of them. The first recording of each is taught as a review tells it, the second one held against
    /// its truth.
    @Test
    void the_second_recording_of_a_voice_is_read_better_when_the_first_was_reviewed() {
        Map<String, Stranger> firsts = new TreeMap<>();
        Stranger.folder(Path.of(OPENED)).forEach(one -> firsts.put(one.name().replaceAll("a$", ""), one));
        Stranger.Count before = new Stranger.Count();
        Stranger.Count after = new Stranger.Count();
        for (Stranger second : Stranger.folder(Path.of(KEPT))) {
            KeptLessons shelf = new KeptLessons();
            OwnVoice voice = new OwnVoice(Decoding.DECODER, CatalogFolder.catalog(), shelf);
            Stranger.Count plain = new Stranger.Count();
            plain.add(second, decode(voice.decoder(), second));
            before.add(second, decode(voice.decoder(), second));
            shelf.keep(lesson(
                    java.util.Objects.requireNonNull(firsts.get(second.name().replaceAll("b$", "")))));
            Stranger.Count taught = new Stranger.Count();
            taught.add(second, decode(voice.decoder(), second));
            after.add(second, decode(voice.decoder(), second));
            System.out.println(second.name() + " before: " + plain);
            System.out.println(second.name() + " after:  " + taught);
        }
        System.out.println("before: " + errors(before) + " errors, " + before);
        System.out.println("after:  " + errors(after) + " errors, " + after);
        assertThat(errors(after)).isLessThan(errors(before));
    }
}
