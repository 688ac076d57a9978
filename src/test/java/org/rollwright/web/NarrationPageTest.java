package org.rollwright.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.FilePayload;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.rollwright.entry.narration.Lesson;
import org.rollwright.hunt.HuntId;

/// From a caption file to an accepted hunt, in a real browser.
class NarrationPageTest extends PageWithBench {
    private static final String CAPTIONS = """
            WEBVTT

            00:00:01.000 --> 00:00:04.000
            Okay, roll one. There's a 1944, no mint mark.

            00:00:05.000 --> 00:00:09.000
            Roll two. Nothing. Roll three, here's a 1951 D.

            00:00:10.000 --> 00:00:14.000
            I have a 1909 S at home. And a 1957 D in the same roll. That makes three.

            00:00:15.000 --> 00:00:19.000
            Roll four. A nineteen forty-six S. Four wheats so far.
            """;

    private List<String> finds() {
        return bench.bench
                .desk()
                .read(book -> book.hunt().hunt(new HuntId(1)).orElseThrow().finds().stream()
                        .map(id -> book.hunt().find(id).orElseThrow())
                        .map(find -> find.facts().identity().dateAndMint() + " r" + find.roll())
                        .toList());
    }

    private static void choose(Page page, String name, String text) {
        page.locator("input[type=file]")
                .setInputFiles(new FilePayload(name, "text/vtt", text.getBytes(StandardCharsets.UTF_8)));
        page.getByText("Read them").click();
        page.waitForLoadState();
    }

    @Test
    void a_caption_file_becomes_an_accepted_hunt_with_two_corrections_and_one_undo() {
        Page page = window.newPage();
        List<String> complaints = Browser.complaints(page);
        page.navigate(bench.address + "/mat/1");
        page.getByText("From captions").click();
        choose(page, "hunt.vtt", CAPTIONS);
        assertThat(page.locator(".said-row")).hasCount(4);
        assertThat(page.locator("#ticked")).hasText("4");
        assertThat(page.locator(".captions")).containsText("I have a 1909 S at home");
        assertThat(finds()).as("nothing before acceptance").isEmpty();

        page.locator("[data-cue='0'] .say").focus();
        page.keyboard().press("End");
        page.keyboard().type(" f12");
        page.locator("[data-cue='3'] .say").fill("1946d");
        page.locator("[data-cue='3'] .tiny").last().fill("5");
        page.locator("[data-cue='1'] .say").focus();
        page.keyboard().press("Alt+x");
        assertThat(page.locator("#ticked")).hasText("3");
        page.keyboard().press("Control+Enter");

        assertThat(page.locator(".last-name")).containsText("1946-D");
        assertThat(finds()).containsExactly("1944 r1", "1957-D r3", "1946-D r5");
        int searched = bench.bench
                .desk()
                .read(book -> (int) book.hunt().boxes().stream().findFirst().orElseThrow().rolls().stream()
                        .filter(org.rollwright.hunt.Roll::searched)
                        .count());
        assertThat(searched)
                .as("rolls named in the recording, and the corrected one, but for the last, which is in hand still")
                .isEqualTo(4);
        page.locator("#line").focus();
        page.keyboard().press("<");
        assertThat(page.locator(".find")).hasCount(0);
        assertThat(finds()).isEmpty();
        assertThat(complaints).isEmpty();
    }

    /// A recording by an author who had seen neither decoder nor lists, with dates at its end that were found before.
    @Test
    void one_question_settles_whether_a_stretch_is_a_recap() throws java.io.IOException {
        String captions = java.nio.file.Files.readString(
                java.nio.file.Path.of("src/test/resources/narrations/strangers/p08.txt"));
        Page page = window.newPage();
        List<String> complaints = Browser.complaints(page);
        page.navigate(bench.address + "/mat/1/narration");
        choose(page, "stream.txt", captions);
        assertThat(page.getByText("a recap?")).isVisible();
        int[] rows = java.util.Arrays.stream(
                        page.locator("input[name=asked]").inputValue().split(","))
                .mapToInt(Integer::parseInt)
                .toArray();
        assertThat(rows.length).isGreaterThanOrEqualTo(3);
        int before = Integer.parseInt(page.locator("#ticked").innerText());

        page.getByText("No, they are new").click();
        page.waitForLoadState();
        for (int row : rows) {
            assertThat(page.locator("input[name=r" + row + "-keep]")).isChecked();
        }
        int all = Integer.parseInt(page.locator("#ticked").innerText());
        assertThat(all).isGreaterThan(before);
        assertThat(page.getByText("a recap?")).hasCount(0);

        page.navigate(bench.address + "/mat/1/narration");
        choose(page, "stream.txt", captions);
        page.getByText("Yes, leave them out").click();
        page.waitForLoadState();
        for (int row : rows) {
            assertThat(page.locator("input[name=r" + row + "-keep]")).not().isChecked();
        }
        assertThat(Integer.parseInt(page.locator("#ticked").innerText())).isLessThan(all);
        assertThat(page.locator(".said-row").first()).isVisible();
        assertThat(finds()).as("nothing before acceptance").isEmpty();
        assertThat(complaints).isEmpty();
    }

    @Test
    void a_wrong_row_is_named_and_nothing_is_lost_or_recorded() {
        Page page = window.newPage();
        page.navigate(bench.address + "/mat/1/narration");
        choose(page, "hunt.vtt", CAPTIONS);
        page.locator("[data-cue='3'] .say").fill("1922 nonsense");
        page.locator("[data-cue='0'] .say").fill("1945");
        page.getByText("Accept the ticked rows").click();
        assertThat(page.locator(".said-row.wrong")).hasCount(1);
        assertThat(page.locator(".said-row.wrong .say")).hasValue("1922 nonsense");
        assertThat(page.locator("[data-cue='0'] .say")).hasValue("1945");
        assertThat(page.locator(".captions")).containsText("I have a 1909 S at home");
        assertThat(finds()).isEmpty();
        assertThat(page.locator(".said-row.wrong .say")).isFocused();
        page.keyboard().press("Alt+n");
        assertThat(page.locator(".said-row")).hasCount(5);
    }

    @Test
    void a_file_that_is_no_captions_and_another_language_are_said_plainly() {
        Page page = window.newPage();
        page.navigate(bench.address + "/mat/1/narration");
        choose(page, "notes.txt", "just some notes without any time");
        assertThat(page.locator(".problem")).containsText("no captions with times");
        String german =
                "eins zwei drei vier so wir haben hier noch eine rolle und dann kommt die naechste muenze aus dem jahr ";
        choose(page, "de.vtt", "WEBVTT\n\n00:01.000 --> 00:09.000\n" + german.repeat(3) + "1944\n");
        assertThat(page.locator(".check")).containsText("do not seem to be in English");
        assertThat(page.locator(".said-row")).hasCount(0);
    }

    @Test
    void an_accepted_review_teaches_the_voice_which_can_be_seen_switched_off_and_forgotten() {
        Page page = window.newPage();
        List<String> complaints = Browser.complaints(page);
        page.navigate(bench.address + "/mat/1/narration");
        assertThat(page.locator("main")).containsText("Nothing of your voice is used");
        choose(page, "first.vtt", CAPTIONS);
        page.locator("[data-cue='3'] .say").fill("1946d");
        page.locator("[data-cue='1'] input[type=checkbox]").uncheck();
        page.locator("button[value=add]").click();
        page.waitForLoadState();
        page.locator(".said-row").last().locator(".say").fill("1909s");
        page.locator(".said-row").last().getByLabel("Time of row").fill("late");
        page.getByText("Accept the ticked rows").click();
        page.waitForLoadState();
        assertThat(page.locator(".problem").first()).containsText("'late' is no time");
        assertThat(finds()).isEmpty();
        page.locator(".said-row").last().getByLabel("Time of row").fill("0:10");
        page.getByText("Accept the ticked rows").click();
        page.waitForURL("**/mat/1");

        Lesson lesson = bench.bench.voice().shelf().lessons().getFirst().lesson();
        assertThat(lesson.file()).isEqualTo("first.vtt");
        assertThat(lesson.corrections()).isEqualTo(new Lesson.Corrections(2, 1, 1, 1));
        assertThat(lesson.finds())
                .extracting(find -> find.at() / 1000 + " " + find.year())
                .containsExactlyInAnyOrder("2 1944", "11 1957", "15 1946", "10 1909");
        assertThat(lesson.cues()).hasSize(4);
        assertThat(lesson.cues().get(1).start()).isEqualTo(5_000);
        assertThat(lesson.cues().get(1).end()).isEqualTo(9_000);

        page.navigate(bench.address + "/mat/1/narration");
        assertThat(page.locator("main")).containsText("Your voice is known from reviewed recordings: 1");
        page.getByText("What was learned").click();
        assertThat(page.locator("tbody")).containsText("first.vtt");
        page.getByText("Switch it off").click();
        assertThat(page.getByText("Switch it on")).isVisible();
        page.navigate(bench.address + "/mat/1/narration");
        choose(page, "second.vtt", CAPTIONS);
        assertThat(page.locator("input[name=learn]")).hasCount(0);
        page.getByText("Accept the ticked rows").click();
        page.waitForURL("**/mat/1");
        assertThat(bench.bench.voice().shelf().lessons())
                .as("switched off, nothing more is learned")
                .hasSize(1);

        page.navigate(bench.address + "/voice");
        page.getByLabel("Forget first.vtt").click();
        assertThat(page.locator("main")).containsText("None yet");
        assertThat(bench.bench.voice().shelf().lessons()).isEmpty();
        assertThat(complaints).isEmpty();
    }
}
