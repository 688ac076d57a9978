package org.rollwright.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.rollwright.web.guide.LicenceTexts;

class HelpPageTest extends PageWithBench {
    @Test
    void a_question_mark_opens_help_on_every_place_and_stays_a_letter_in_a_text() {
        Page page = window.newPage();
        List<String> complaints = Browser.complaints(page);
        for (String place :
                List.of("/mat/1", "/boxes", "/albums", "/scope", "/scale", "/cabinet", "/till", "/odds", "/guide")) {
            page.navigate(bench.address + place);
            page.keyboard().press("?");
            page.locator("dialog[open]").waitFor();
            assertThat(page.locator("dialog").innerText()).as(place).contains("The whole page of the guide");
            page.keyboard().press("Escape");
            assertThat(page.locator("dialog[open]").count()).as(place).isZero();
        }
        page.navigate(bench.address + "/mat/1");
        page.locator("#line").fill("44");
        page.keyboard().press("?");
        assertThat(page.locator("dialog[open]").count()).isZero();
        assertThat(page.locator("#line").inputValue()).isEqualTo("44?");
        assertThat(complaints).isEmpty();
    }

    @Test
    void help_is_a_page_where_no_script_runs() {
        try (var plain = Browser.window(false, false, false)) {
            Page page = plain.newPage();
            page.navigate(bench.address + "/mat/1");
            page.locator("#help").click();
            assertThat(page.locator("h1").innerText()).isEqualTo("Help: The Mat");
        }
    }

    @Test
    void about_names_what_the_program_is_made_of() {
        Page page = window.newPage();
        page.navigate(bench.address + "/about");
        assertThat(page.locator("main").innerText()).contains("SQLite JDBC").contains("Apache");
        String texts = page.request().get(bench.address + "/about/licences.txt").text();
        assertThat(texts)
                .contains(
                        "MIT", "Apache License", "GNU LESSER GENERAL PUBLIC LICENSE", "Eclipse Public License - v 2.0")
                .contains("jackson-databind", "openhtmltopdf-pdfbox", "htmx.org")
                .doesNotContain("\ufffd\ufffd\ufffd");
        // each text once
        assertThat(texts.split("TERMS AND CONDITIONS FOR USE, REPRODUCTION, AND DISTRIBUTION", -1).length)
                .isLessThan(16);
        assertThat(page.request().get(bench.address + "/about/sbom.json").text())
                .contains("CycloneDX");
    }

    /// Licences that ask for their copyright line: it comes with the library's own text or stands in ours.
    @Test
    void every_short_licence_names_the_holder() throws IOException {
        String texts = LicenceTexts.all();
        Matcher library = Pattern.compile("(?m)^ *\\(([^)]*(?:MIT|BSD|ISC|Bouncy)[^)]*)\\).*\\([^:]+:([^:]+):")
                .matcher(Files.readString(Path.of("target/classes/META-INF/notices.txt")));
        int seen = 0;
        while (library.find()) {
            seen++;
            String name = Pattern.quote(library.group(2));
            assertThat(Pattern.compile("(?m)^" + name + "-[0-9].* \\(|^(?:.*, )?" + name + "(?:, .*)?: ")
                            .matcher(texts)
                            .find())
                    .as(library.group(2))
                    .isTrue();
        }
        assertThat(seen).isGreaterThan(15);
    }

    /// The whole of a hunt by keyboard alone: from the list of places to a find, a roll, an undo, and back.
    @Test
    void a_hunt_by_keyboard_alone() {
        Page page = window.newPage();
        page.navigate(bench.address + "/boxes");
        page.keyboard().press("Tab");
        assertThat(page.evaluate("document.activeElement.textContent")).isEqualTo("Skip to the content");
        for (int i = 0; i < 2; i++) {
            page.keyboard().press("Tab");
        }
        assertThat(page.evaluate("document.activeElement.textContent")).isEqualTo("Mat");
        page.keyboard().press("Enter");
        page.waitForURL("**/mat");
        int steps = 0;
        while (!String.valueOf(page.evaluate("document.activeElement.getAttribute('href')"))
                        .equals("/mat/1")
                && steps < 60) {
            page.keyboard().press("Tab");
            steps++;
        }
        page.keyboard().press("Enter");
        page.waitForURL("**/mat/1");
        page.locator("#line").waitFor();
        assertThat(page.evaluate("document.activeElement.id")).isEqualTo("line");
        page.keyboard().press("+");
        page.keyboard().type("44d");
        page.keyboard().press("Enter");
        page.locator(".last:has-text('1944-D')").first().waitFor();
        page.keyboard().press("<");
        page.locator(".last:has-text('1944-D')")
                .first()
                .waitFor(new com.microsoft.playwright.Locator.WaitForOptions()
                        .setState(com.microsoft.playwright.options.WaitForSelectorState.DETACHED));
        int finds = bench.bench.desk().read(book -> book.hunt().finds().size());
        assertThat(finds).isZero();
    }

    /// Forced colours, less motion and twice the size: nothing is lost or pushed out of the window.
    @Test
    void pages_bear_forced_colours_less_motion_and_double_size() {
        bench.typeAnEvening();
        Page page = window.newPage();
        page.emulateMedia(new Page.EmulateMediaOptions()
                .setForcedColors(com.microsoft.playwright.options.ForcedColors.ACTIVE)
                .setReducedMotion(com.microsoft.playwright.options.ReducedMotion.REDUCE));
        // 200 % on a window of 1280 by 1024 leaves 640 by 512 CSS pixels (WCAG 2.2, 1.4.4 and 1.4.10)
        page.setViewportSize(640, 512);
        for (String place :
                List.of("/mat/1", "/boxes/1", "/albums", "/scope", "/cabinet", "/till", "/odds", "/recap/1")) {
            page.navigate(bench.address + place);
            assertThat(page.evaluate("document.documentElement.scrollWidth <= innerWidth"))
                    .as(place)
                    .isEqualTo(true);
            assertThat(page.evaluate("document.getAnimations().filter(a => a.playState === 'running').length"))
                    .as(place)
                    .isEqualTo(0);
        }
        page.navigate(bench.address + "/mat/1");
        // the strip's rolls are told to a screen reader one by one
        assertThat(page.locator(".strip button").first().getAttribute("aria-label"))
                .startsWith("Roll 1,");
    }
}
