package org.rollwright.entry.narration;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/// Caption files. The examples of WebVTT follow W3C, "WebVTT: The Web Video Text Tracks Format", sections 1 and
/// 4.
class CaptionsTest {
    private static Captions good(String text) {
        Captions.Read read = Captions.read(text.getBytes(StandardCharsets.UTF_8));
        assertThat(read).isInstanceOf(Captions.Read.Good.class);
        return ((Captions.Read.Good) read).captions();
    }

    private static String refused(byte[] bytes) {
        Captions.Read read = Captions.read(bytes);
        assertThat(read).isInstanceOf(Captions.Read.Unusable.class);
        return ((Captions.Read.Unusable) read).sentence();
    }

    @Test
    void webvtt_with_notes_styles_identifiers_settings_and_markup() {
        Captions captions = good("""
                WEBVTT - a hunt

                STYLE
                ::cue { color: white }

                NOTE a remark

                intro
                00:01.000 --> 00:04.000 align:start position:10%
                <v Me>Roll <c.yellow>one</c> &amp; <00:00:02.000>nothing

                01:00:05.500 --> 01:00:09.250
                Roll two.
                Two lines.
                """);
        assertThat(captions.form()).isEqualTo("WebVTT");
        assertThat(captions.cues())
                .containsExactly(
                        new Cue(1_000, 4_000, "Roll one & nothing"),
                        new Cue(3_605_500, 3_609_250, "Roll two.\nTwo lines."));
    }

    @Test
    void srt_and_text_with_times() {
        assertThat(
                        good("1\r\n00:00:01,500 --> 00:00:03,000\r\nRoll one.\r\n\r\n2\r\n00:00:04,000 --> 00:00:05,000\r\n44 D\r\n")
                                .cues())
                .containsExactly(new Cue(1_500, 3_000, "Roll one."), new Cue(4_000, 5_000, "44 D"));
        assertThat(good("[0:05] Roll one.\nand more\n[1:02:03] 44 D").cues())
                .containsExactly(
                        new Cue(5_000, 3_723_000, "Roll one.\nand more"), new Cue(3_723_000, 3_729_000, "44 D"));
        assertThat(good("0:05 Roll one.\n0:09\n44 D").cues()).hasSize(2);
    }

    @Test
    void rolling_captions_of_a_machine_are_read_once() {
        assertThat(good("""
                                WEBVTT

                                00:01.000 --> 00:03.000
                                okay so next roll

                                00:03.000 --> 00:05.000
                                okay so next roll
                                there's a wheat 1944 d

                                00:05.000 --> 00:07.000
                                there's a wheat 1944 d
                                roll three
                                """).cues())
                .extracting(Cue::text)
                .containsExactly("okay so next roll", "there's a wheat 1944 d", "roll three");
    }

    @Test
    void unordered_overlapping_and_broken_cues_are_put_right_and_said() {
        Captions captions = good(
                "WEBVTT\n\n00:05.000 --> 00:09.000\nb\n\n00:01.000 --> 00:06.000\na\n\n00:09.000 --> 00:02.000\nc\n");
        assertThat(captions.cues()).extracting(Cue::text).containsExactly("a", "b");
        assertThat(captions.remarks())
                .anyMatch(remark -> remark.contains("sorted"))
                .anyMatch(remark -> remark.contains("1 caption has no usable time"));
    }

    @Test
    void encodings_are_told_or_assumed_and_said() {
        byte[] western = "[0:01] caf\u00e9, roll one".getBytes(Charset.forName("windows-1252"));
        Captions captions = ((Captions.Read.Good) Captions.read(western)).captions();
        assertThat(captions.cues().getFirst().text()).isEqualTo("caf\u00e9, roll one");
        assertThat(captions.encoding()).isEqualTo("Windows-1252 (assumed)");
        assertThat(captions.remarks()).anyMatch(remark -> remark.contains("Windows-1252 was assumed"));
        byte[] wide = "\uFEFF[0:01] roll one".getBytes(StandardCharsets.UTF_16LE);
        assertThat(((Captions.Read.Good) Captions.read(wide)).captions().encoding())
                .isEqualTo("UTF-16");
    }

    @Test
    void what_is_no_captions_is_refused_with_a_sentence() {
        assertThat(refused("hello".getBytes(StandardCharsets.UTF_8))).contains("no captions with times");
        assertThat(refused(new byte[0])).contains("no captions");
        assertThat(refused(new byte[] {(byte) 0x89, 'P', 'N', 'G', 0, 0, 0})).contains("no text");
    }

    @ParameterizedTest
    @CsvSource({
        "'nineteen thirty six d', 1936, D",
        "'nineteen oh nine s', 1909, S",
        "'a thirty-six from denver', 1936, D",
        "'19 36 d', 1936, D",
        "'$19.36 d', 1936, D",
        "'1936-D', 1936, D",
        "'a 36 no mint mark', 1936, ''",
        "'nineteen forty', 1940, ''",
        "'1944 from san francisco', 1944, S",
    })
    void dates_are_heard_however_they_are_captioned(String said, int year, String code) {
        Annotated narration = Annotated.parse("wheat", "[0:01] Roll one. Here's " + said + ". Okay.");
        List<Mention.Coin> coins = Decoding.DECODER
                .listen(
                        narration.cues(),
                        narration.context(),
                        List.of(narration.context().denomination()),
                        50)
                .mentions()
                .stream()
                .filter(Mention.Coin.class::isInstance)
                .map(Mention.Coin.class::cast)
                .toList();
        assertThat(coins).singleElement().satisfies(coin -> {
            assertThat(coin.year()).isEqualTo(year);
            assertThat(coin.code()).isEqualTo(code);
        });
    }

    @Property(tries = 300)
    void any_shuffled_cut_or_scrambled_file_ends_in_a_report(
            @ForAll @IntRange(max = 5_000) int seed, @ForAll @IntRange(max = 4) int how, @ForAll long chance) {
        Random random = new Random(chance);
        Annotated narration = NarrationMaker.make(seed, true, 1);
        String text = narration.vtt();
        byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
        switch (how) {
            case 0 -> {
                List<String> lines = new ArrayList<>(text.lines().toList());
                Collections.shuffle(lines, random);
                bytes = String.join("\n", lines).getBytes(StandardCharsets.UTF_8);
            }
            case 1 -> bytes = Arrays.copyOf(bytes, random.nextInt(bytes.length));
            case 2 -> {
                for (int i = 0; i < bytes.length / 20; i++) {
                    bytes[random.nextInt(bytes.length)] = (byte) random.nextInt(256);
                }
            }
            case 3 -> {
                List<String> words = new ArrayList<>(Arrays.asList(text.split("(?<= )")));
                Collections.shuffle(words, random);
                bytes = String.join("", words).getBytes(StandardCharsets.UTF_8);
            }
            default -> random.nextBytes(bytes);
        }
        if (Captions.read(bytes) instanceof Captions.Read.Good good) {
            Narration decoded = Decoding.DECODER.decode(good.captions(), narration.context(), 50);
            assertThat(decoded.finds())
                    .allSatisfy(find -> assertThat(find.probability()).isBetween(0.0, 1.0));
            assertThat(Decoding.DECODER.decode(good.captions(), narration.context(), 50))
                    .isEqualTo(decoded);
        }
    }
}
