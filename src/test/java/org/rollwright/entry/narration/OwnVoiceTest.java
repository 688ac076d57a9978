package org.rollwright.entry.narration;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.coin.Denomination;

/// What a reviewed recording does for the next one of the same voice.
class OwnVoiceTest {
    private static final String OPENED = "src/test/resources/narrations/strangers-opened";
    private static final String KEPT = "src/test/resources/narrations/strangers-kept";
    private static final String PAIRS = "src/test/resources/narrations/strangers-pairs";

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

    /// Voices, two recordings each, by authors who had seen neither decoder nor lists; the weights have seen none of
    /// them. The first recording of each is taught as a review tells it, the second one held against its truth.
    private static void hold(
            List<Stranger> firsts, List<Stranger> seconds, Stranger.Count before, Stranger.Count after) {
        Map<String, Stranger> first = new TreeMap<>();
        firsts.forEach(one -> first.put(voice(one), one));
        for (Stranger second : seconds) {
            KeptLessons shelf = new KeptLessons();
            OwnVoice voice = new OwnVoice(Decoding.DECODER, CatalogFolder.catalog(), shelf);
            Narration plain = decode(voice.decoder(), second);
            shelf.keep(lesson(Objects.requireNonNull(first.get(voice(second)))));
            before.add(second, plain);
            after.add(second, decode(voice.decoder(), second));
        }
    }

    private static String voice(Stranger one) {
        return one.name().substring(0, one.name().length() - 1);
    }

    private static List<Stranger> ending(String letter, List<Stranger> all) {
        return all.stream().filter(one -> one.name().endsWith(letter)).toList();
    }

    /// Opened for the first time, each once, with what the decoder could then: the first twelve pairs 118 errors
    /// before and 94 after learning, the other twelve 95 and 69.
    @Test
    void the_second_recording_of_a_voice_is_read_better_when_the_first_was_reviewed() {
        Stranger.Count before = new Stranger.Count();
        Stranger.Count after = new Stranger.Count();
        hold(Stranger.folder(Path.of(OPENED)), Stranger.folder(Path.of(KEPT)), before, after);
        List<Stranger> pairs = Stranger.folder(Path.of(PAIRS));
        hold(ending("a", pairs), ending("b", pairs), before, after);
        System.out.println("24 voices, before: " + errors(before) + " errors, " + before);
        System.out.println("24 voices, after:  " + errors(after) + " errors, " + after);
        assertThat(errors(after)).isLessThan((int) (0.72 * errors(before)));
        assertThat((after.sure - after.sureWrong) / (double) after.sure).isGreaterThan(0.93);
    }

    @Test
    void a_voice_that_is_switched_off_or_forgotten_is_not_used() {
        Stranger first = Stranger.folder(Path.of(PAIRS)).getFirst();
        KeptLessons shelf = new KeptLessons();
        OwnVoice voice = new OwnVoice(Decoding.DECODER, CatalogFolder.catalog(), shelf);
        shelf.keep(lesson(first));
        assertThat(voice.decoder()).isNotSameAs(voice.shipped());
        assertThat(voice.decoder()).as("learned once").isSameAs(voice.decoder());
        assertThat(voice.traits()).isNotEmpty();
        shelf.turn(false);
        assertThat(voice.decoder()).isSameAs(voice.shipped());
        shelf.turn(true);
        shelf.forget(shelf.lessons().getFirst().name());
        assertThat(voice.decoder()).isSameAs(voice.shipped());
        assertThat(decode(voice.decoder(), first)).isEqualTo(decode(Decoding.DECODER, first));
    }

    @Test
    void a_find_added_without_its_time_is_looked_for_in_its_roll() {
        List<Cue> cues = List.of(
                new Cue(0, 4_000, "Roll one. There's a 1944. Roll two, a 1951."),
                new Cue(4_000, 9_000, "Roll three. And a 1944 again."));
        Listening heard = Decoding.DECODER.listen(
                cues, Stranger.folder(Path.of(PAIRS)).getFirst().context(), List.of(Denomination.US_CENT), 50);
        Taught taught = Taught.of(heard, List.of(new Lesson.Find(-1, 1, 3, 1944, 1)));
        List<Integer> found = new ArrayList<>();
        for (int m = 0; m < taught.labels().length; m++) {
            if (taught.labels()[m] == 0) {
                found.add(heard.words().get(heard.mentions().get(m).word()).cue());
            }
        }
        assertThat(found).containsExactly(1);
    }
}
