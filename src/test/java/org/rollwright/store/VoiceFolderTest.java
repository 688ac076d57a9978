package org.rollwright.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.entry.narration.Cue;
import org.rollwright.entry.narration.Lesson;
import org.rollwright.entry.narration.OwnVoice;
import org.rollwright.entry.narration.VoiceShelf;

/// The lessons of a voice on disk.
class VoiceFolderTest {
    private static final Instant DAY = Instant.parse("2026-03-01T10:00:00Z");

    @TempDir
    private Path data;

    private VoiceFolder shelf() {
        return new VoiceFolder(data, new Settings(data));
    }

    private static Lesson lesson(Instant at, String file) {
        return new Lesson(
                at,
                file,
                List.of(new Cue(1_000, 4_000, "roll one. there's a 1944,\nplain")),
                List.of(Denomination.US_CENT, new Denomination(Country.CANADA, "dime")),
                List.of("series us-cent-lincoln-wheat"),
                50,
                List.of(new Lesson.Find(2_000, 1, 1, 1944, 1), new Lesson.Find(-1, 2, 0, null, 12)),
                new Lesson.Corrections(1, 2, 3, 4));
    }

    @Test
    void what_is_kept_is_read_again_to_the_last_field() throws IOException {
        Lesson kept = lesson(DAY, "a \"hunt\".vtt");
        shelf().keep(kept);
        assertThat(shelf().lessons()).extracting(VoiceShelf.Kept::lesson).containsExactly(kept);
    }

    @Test
    void lessons_of_one_instant_do_not_replace_each_other_and_the_oldest_go() throws IOException {
        for (int i = 0; i < OwnVoice.MOST + 3; i++) {
            shelf().keep(lesson(DAY, i + ".vtt"));
        }
        assertThat(shelf().lessons())
                .hasSize(OwnVoice.MOST)
                .extracting(one -> one.lesson().file())
                .startsWith("3.vtt")
                .endsWith((OwnVoice.MOST + 2) + ".vtt");
    }

    @Test
    void a_damaged_file_is_passed_over_and_left_alone() throws IOException {
        shelf().keep(lesson(DAY, "a.vtt"));
        shelf().keep(lesson(DAY.plusSeconds(1), "b.vtt"));
        Path first = files().getFirst();
        byte[] whole = Files.readAllBytes(first);
        for (int cut = 0; cut < whole.length; cut += 7) {
            Files.write(first, java.util.Arrays.copyOf(whole, cut));
            assertThat(shelf().lessons()).extracting(one -> one.lesson().file()).containsExactly("b.vtt");
        }
        assertThat(first).exists();
    }

    @Test
    void forgotten_is_forgotten_and_only_lessons_can_be() throws IOException {
        Files.writeString(data.resolve("settings.json"), "mine");
        shelf().keep(lesson(DAY, "a.vtt"));
        String name = shelf().lessons().getFirst().name();
        shelf().forget("../settings");
        shelf().forget("no such");
        assertThat(shelf().lessons()).hasSize(1);
        shelf().forget(name);
        assertThat(shelf().lessons()).isEmpty();
        assertThat(files()).isEmpty();
        assertThat(data.resolve("settings.json")).exists();
    }

    @Test
    void the_switch_is_remembered_and_leaves_other_settings_alone() throws IOException {
        Settings settings = new Settings(data);
        settings.backups(data.resolve("elsewhere"));
        assertThat(shelf().isOn()).isTrue();
        shelf().turn(false);
        assertThat(shelf().isOn()).isFalse();
        assertThat(settings.named()).isPresent();
        assertThat(settings.changedFromOutside()).isFalse();
        shelf().turn(true);
        assertThat(shelf().isOn()).isTrue();
    }

    private List<Path> files() throws IOException {
        try (Stream<Path> all = Files.list(data.resolve(VoiceFolder.FOLDER))) {
            return all.sorted().toList();
        }
    }
}
