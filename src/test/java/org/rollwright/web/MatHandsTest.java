package org.rollwright.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.BoundingBox;
import java.util.List;
import org.junit.jupiter.api.Test;

/// Hands on the Mat: nothing under a thumb moves while one types, and no key goes lost.
class MatHandsTest extends PageWithBench {
    /// Adds up every shift of the layout, those right behind a key included, which the browser's own sum leaves out
    /// (Layout Instability, W3C draft community group report).
    private static final String WATCH_SHIFTS = """
            window.shifts = 0; window.shifted = [];
            new PerformanceObserver(list => list.getEntries().forEach(one => {
              window.shifts += one.value;
              one.sources.forEach(source => window.shifted.push((source.node ? source.node.nodeName + '.' + source.node.className : '?')
                + ' ' + JSON.stringify(source.previousRect) + ' -> ' + JSON.stringify(source.currentRect)));
            })).observe({type: 'layout-shift', buffered: false});
            """;

    private static double shifts(Page page) {
        page.waitForTimeout(150);
        return ((Number) page.evaluate("window.shifts")).doubleValue();
    }

    private void typeAnEvening(Page page) {
        for (String line : List.of(
                "+",
                "39s",
                "36d vf30 rpm \"a long note that takes its room\"",
                "43 claened",
                "19",
                "1955 ddo",
                "44d, 45s, x2 46")) {
            for (int i = 0; i < line.length(); i++) {
                char key = line.charAt(i);
                page.keyboard().press(key == ' ' ? "Space" : String.valueOf(key));
                page.waitForTimeout(25);
            }
            page.waitForTimeout(120);
            if (!line.equals("+")) {
                page.keyboard().press("Enter");
            }
            page.waitForTimeout(180);
            page.keyboard().press("Escape");
            page.keyboard().press("Escape");
        }
    }

    @Test
    void nothing_moves_while_one_types_at_any_width_or_zoom() {
        bench.type("watch everything");
        int[][] sizes = {{390, 844}, {768, 1024}, {1024, 768}, {1440, 900}};
        for (int[] size : sizes) {
            for (double zoom : size[0] == 1440 ? new double[] {1, 2} : new double[] {1}) {
                try (BrowserContext window = Browser.sized(size[0], size[1], zoom)) {
                    Page page = window.newPage();
                    page.navigate(bench.address + "/mat/1");
                    assertThat(page.locator("#line")).isFocused();
                    page.waitForTimeout(300);
                    page.evaluate(WATCH_SHIFTS);
                    typeAnEvening(page);
                    assertThat(shifts(page))
                            .as("%d wide, zoom %.0f: %s", size[0], zoom, page.evaluate("window.shifted.slice(0, 4)"))
                            .isZero();
                }
            }
        }
    }

    @Test
    void the_keys_of_a_phone_stay_where_they_are_and_in_reach() {
        try (BrowserContext phone = Browser.window(true, false, true)) {
            Page page = phone.newPage();
            page.navigate(bench.address + "/mat/1");
            Locator nine = page.locator("#keypad button.digit").getByText("9", exactly());
            BoundingBox before = nine.boundingBox();
            page.evaluate(WATCH_SHIFTS);
            for (String key : List.of(
                    "3", "9", "s", "Enter", "4", "4", "d", "Enter", "ca", "6", "7", "Enter", "2", "2", "Enter")) {
                page.locator("#keypad button").getByText(key, exactly()).tap();
                page.waitForTimeout(120);
                assertThat(nine.boundingBox().y).as(key).isEqualTo(before.y);
            }
            assertThat(before.y + before.height).as("in reach of a thumb").isGreaterThan(844 * 0.6);
            assertThat(shifts(page))
                    .as("%s", page.evaluate("window.shifted.slice(0, 4)"))
                    .isZero();
            assertThat(page.locator(".finds .head")).containsText("3 logged");
            // the refused one is selected: the next takes its place
            page.locator("#keypad button").getByText("4", exactly()).tap();
            assertThat(page.locator("#line")).hasValue("4");
            page.locator("#keypad button").getByText("1", exactly()).tap();
            page.locator("#keypad button").getByText("grade", exactly()).tap();
            page.locator("#keypad button").getByText("vf20", exactly()).tap();
            assertThat(page.locator("#line")).hasValue("41 vf20");
            page.locator("#keypad button").getByText("Enter", exactly()).tap();
            assertThat(page.locator(".finds .head")).containsText("4 logged");
            for (Locator button : page.locator("#keypad button").all()) {
                assertThat(button.boundingBox().width).isGreaterThan(43);
                assertThat(button.boundingBox().height).isGreaterThan(43);
            }
        }
    }

    private static Locator.GetByTextOptions exactly() {
        return new Locator.GetByTextOptions().setExact(true);
    }

    @Test
    void the_next_key_is_typed_whatever_was_touched_before() {
        Page page = window.newPage();
        page.navigate(bench.address + "/mat/1");
        assertThat(page.locator("#line")).isFocused();
        page.keyboard().type("36d");
        page.keyboard().press("Enter");
        assertThat(page.locator(".last-name")).containsText("1936-D");

        page.locator(".finds h2").click();
        page.keyboard().type("4");
        assertThat(page.locator("#line")).hasValue("4");
        page.keyboard().press("Escape");

        page.locator(".edit summary").first().click();
        page.keyboard().type("4");
        assertThat(page.locator("#line")).hasValue("4");
        page.keyboard().press("Escape");

        page.locator("#theme").click();
        page.keyboard().type("55");
        assertThat(page.locator("#line")).hasValue("55");
        page.keyboard().press("Escape");

        // help stands beside the Mat; the line stays in hand
        page.keyboard().press("?");
        assertThat(page.locator("dialog.help-dialog")).isVisible();
        page.keyboard().type("37");
        assertThat(page.locator("#line")).hasValue("37");
        page.keyboard().press("Enter");
        assertThat(page.locator(".last-name")).containsText("1937");
        page.keyboard().press("Escape");
        assertThat(page.locator("dialog.help-dialog")).isHidden();

        // to the microscope and back
        page.keyboard().type("55");
        page.keyboard().press("Enter");
        assertThat(page.locator(".last-name")).containsText("1955");
        page.keyboard().press("*");
        assertThat(page.locator("#attribution")).isVisible();
        page.waitForLoadState();
        page.keyboard().press("Escape");
        assertThat(page.locator("#line")).isFocused();
        page.keyboard().press("*");
        assertThat(page.locator("#attribution")).isVisible();
        page.waitForLoadState();
        page.keyboard().press("n");
        page.waitForURL(url -> url.contains("a="));
        page.keyboard().press("k");
        assertThat(page.locator("#line")).isFocused();
        page.waitForLoadState();
        page.keyboard().type("38");
        assertThat(page.locator("#line")).hasValue("38");
    }

    /// The field has the focus before the page's script hears a key.
    @Test
    void what_is_pressed_before_the_script_is_there_counts() {
        bench.type("36d");
        Page page = window.newPage();
        page.route("**/assets/bench.js", route -> {
            page.locator("#line").evaluate("line => { line.value = '<'; }");
            route.resume();
        });
        page.navigate(bench.address + "/mat/1");
        assertThat(page.locator(".find")).hasCount(0);
        assertThat(page.locator("#line")).hasValue("");
    }

    @Test
    void what_became_of_a_line_is_seen_and_sounds_are_asked_for() {
        Page page = window.newPage();
        page.navigate(bench.address + "/mat/1");
        page.locator("#sounds").click();
        assertThat(page.locator("#sounds")).hasAttribute("aria-pressed", "true");
        assertThat(page.locator("#line")).isFocused();
        page.keyboard().type("39s");
        page.keyboard().press("Enter");
        assertThat(page.locator("#entry.told-recorded, #entry.told-fills")).isVisible();
        page.keyboard().type("22");
        page.keyboard().press("Enter");
        assertThat(page.locator("#entry.told-refused")).isVisible();
    }

    @Test
    void the_last_set_up_begins_again_with_one_key() {
        bench.type("finish");
        Page page = window.newPage();
        page.navigate(bench.address + "/mat");
        assertThat(page.locator(".today button")).isFocused();
        page.keyboard().press("Enter");
        assertThat(page.locator("#line")).isFocused();
        assertThat(page.locator(".watching")).containsText("wheat");
        assertThat(page.locator(".box-name")).hasText("Box 14");
        // a hunt under way is gone on with, with one key as well
        page.navigate(bench.address + "/mat");
        assertThat(page.locator(".card a.button")).isFocused();
        page.keyboard().press("Enter");
        assertThat(page.locator("#line")).isFocused();
    }

    @Test
    void a_box_that_waits_is_opened_and_not_a_second_new_one() {
        bench.type("finish");
        bench.bench
                .desk()
                .record(
                        0,
                        "",
                        book -> new org.rollwright.hunt.HuntEvent.BoxAdded(
                                book.hunt().nextBox(),
                                org.rollwright.coin.Denomination.US_CENT,
                                org.rollwright.hunt.BoxDetails.plain("Box 77", 50, 50)));
        Page page = window.newPage();
        page.navigate(bench.address + "/mat");
        assertThat(page.locator(".today button").first()).hasText("Open Box 77");
        assertThat(page.locator(".today button").first()).isFocused();
        page.keyboard().press("Enter");
        assertThat(page.locator(".box-name")).hasText("Box 77");
        org.assertj.core.api.Assertions.assertThat(
                        bench.bench.desk().state().hunt().boxes())
                .hasSize(3);
    }
}
