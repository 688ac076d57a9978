package org.rollwright.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.HuntId;

/// The Mat in a real browser, by keyboard.
class MatPageTest extends PageWithBench {
    private Page mat() {
        Page page = window.newPage();
        page.navigate(bench.address + "/mat/1");
        assertThat(page.locator("#line")).isFocused();
        return page;
    }

    private List<Find> finds() {
        return bench.bench.desk().read(book -> {
            Hunt hunt = book.hunt().hunt(new HuntId(1)).orElseThrow();
            return hunt.finds().stream()
                    .map(id -> book.hunt().find(id).orElseThrow())
                    .toList();
        });
    }

    private int roll() {
        return bench.bench
                .desk()
                .read(book -> book.hunt().hunt(new HuntId(1)).orElseThrow().roll());
    }

    /// Presses keys one by one and counts them.
    private static int press(Page page, String... keys) {
        for (String key : keys) {
            page.keyboard().press(key);
        }
        return keys.length;
    }

    @Test
    void the_commonest_find_costs_four_keys_and_a_roll_change_one() {
        Page page = mat();
        List<String> complaints = Browser.complaints(page);
        assertThat(press(page, "+")).isEqualTo(1);
        assertThat(page.locator(".roll-now")).hasText("roll 1 of 50");
        int keys = press(page, "3", "9", "s", "Enter");
        assertThat(keys).isLessThanOrEqualTo(4);
        assertThat(page.locator(".last-name")).containsText("1939-S");
        assertThat(finds()).hasSize(1);
        assertThat(finds().getFirst().roll()).isEqualTo(1);
        assertThat(roll()).isEqualTo(1);
        assertThat(page.locator("#line")).hasValue("");
        assertThat(page.locator("#line")).isFocused();
        assertThat(complaints).isEmpty();
    }

    @Test
    void the_line_shows_what_it_will_record_while_it_is_typed() {
        Page page = mat();
        press(page, "4", "3");
        assertThat(page.locator("#preview")).containsText("1943");
        assertThat(page.locator("#preview")).containsText("steel");
        page.keyboard().type(" claened");
        assertThat(page.locator("#preview")).containsText("Did you mean cleaned?");
        assertThat(finds()).isEmpty();
    }

    @Test
    void a_refused_line_comes_back_and_nothing_is_recorded() {
        Page page = mat();
        page.keyboard().type("22");
        press(page, "Enter");
        assertThat(page.locator("#preview .problem")).containsText("1922");
        assertThat(page.locator("#line")).hasValue("22");
        // it is selected: what is typed next takes its place
        page.keyboard().type("22d");
        assertThat(page.locator("#line")).hasValue("22d");
        press(page, "Enter");
        assertThat(page.locator(".last-name")).containsText("1922-D");
    }

    @Test
    void lines_typed_faster_than_the_server_answers_arrive_in_order() {
        Page page = mat();
        press(page, "+");
        for (String line : List.of("36", "37d", "38s", "39", "40d", "41s", "42", "44d", "45s", "46")) {
            page.keyboard().type(line);
            press(page, "Enter");
        }
        assertThat(page.locator(".finds .head")).containsText("10 logged");
        assertThat(finds())
                .extracting(find -> find.facts().identity().dateAndMint())
                .containsExactly(
                        "1936", "1937-D", "1938-S", "1939", "1940-D", "1941-S", "1942", "1944-D", "1945-S", "1946");
    }

    @Test
    void an_ambiguous_date_is_chosen_by_one_digit_key() {
        bench.type("watch everything");
        Page page = mat();
        page.keyboard().type("19");
        press(page, "Enter");
        assertThat(page.locator(".option").first()).isFocused();
        press(page, "2");
        assertThat(page.locator(".last-name")).containsText("2019");
        assertThat(page.locator("#line")).isFocused();
    }

    @Test
    void undo_redo_and_checked_are_one_key_each() {
        Page page = mat();
        page.keyboard().type("36d");
        press(page, "Enter");
        assertThat(page.locator(".last-name")).containsText("1936-D");
        press(page, "<");
        assertThat(page.locator(".last.empty")).isVisible();
        press(page, ">");
        assertThat(page.locator(".last-name")).containsText("1936-D");
        press(page, "-");
        assertThat(page.locator("#line")).hasValue("");
        page.waitForCondition(() -> bench.bench
                        .desk()
                        .read(book -> book.hunt()
                                .hunt(new HuntId(1))
                                .orElseThrow()
                                .trials()
                                .size())
                == 1);
    }

    @Test
    void a_find_is_edited_moved_split_and_struck_out_in_its_row() {
        bench.type("+", "x3 36d", "41");
        Page page = mat();
        page.locator("#f1 summary").click();
        page.locator("#f1 input[name=what]").fill("x3 1936d vf20");
        page.locator("#f1 input[name=roll]").fill("7");
        page.locator("#f1 button[value=save]").click();
        assertThat(page.locator("#f1")).containsText("VF20");
        assertThat(page.locator("#f1 .at")).containsText("r7");
        page.locator("#f1 summary").click();
        page.locator("#f1 button[value=split]").click();
        assertThat(page.locator("#f3")).containsText("1936-D");
        page.locator("#f2 summary").click();
        page.locator("#f2 button[value=drop]").click();
        assertThat(page.locator("#f2")).hasCount(0);
        assertThat(finds()).extracting(Find::count).containsExactly(2, 1);
    }

    @Test
    void a_find_logged_between_the_printing_of_a_page_and_its_connection_is_shown() {
        Page page = window.newPage();
        page.route("**/live", route -> {
            assertThat(bench.bench.recorder().record(new HuntId(1), "44d"))
                    .isInstanceOf(org.rollwright.entry.Recorder.Outcome.Recorded.class);
            route.resume();
        });
        page.navigate(bench.address + "/mat/1");
        assertThat(page.locator(".last-name")).containsText("1944-D");
    }

    @Test
    void a_second_open_page_follows_and_misses_nothing() {
        Page first = mat();
        Page second = mat();
        first.bringToFront();
        first.focus("#line");
        first.keyboard().type("44s");
        press(first, "Enter");
        assertThat(second.locator(".last-name")).containsText("1944-S");
        bench.type("x2 51d");
        assertThat(second.locator(".last-name")).containsText("1951-D");
        assertThat(first.locator(".last-name")).containsText("1951-D");
    }

    @Test
    void everything_works_with_scripts_switched_off() {
        try (BrowserContext plain = Browser.window(false, false, false)) {
            Page page = plain.newPage();
            page.navigate(bench.address + "/mat/1");
            page.locator("#line").fill("39s");
            page.locator(".enter").click();
            assertThat(page.locator(".last-name")).containsText("1939-S");
            page.locator("#line").fill("nonsense");
            page.locator(".enter").click();
            assertThat(page.locator(".problem")).containsText("nonsense");
            assertThat(page.locator("#line")).hasValue("nonsense");
            bench.type("watch everything");
            page.locator("#line").fill("19");
            page.locator(".enter").click();
            page.locator(".option").first().click();
            assertThat(page.locator(".last-name")).containsText("1919");
        }
    }

    @Test
    void big_keys_appear_where_a_finger_points() {
        try (BrowserContext phone = Browser.window(true, false, true)) {
            Page page = phone.newPage();
            page.navigate(bench.address + "/mat/1");
            page.locator("#keypad button", new Page.LocatorOptions().setHasText("roll +"))
                    .tap();
            assertThat(page.locator(".roll-now")).hasText("roll 1 of 50");
            for (String key : List.of("3", "9", "s", "Enter")) {
                page.locator("#keypad")
                        .getByText(key, new com.microsoft.playwright.Locator.GetByTextOptions().setExact(true))
                        .tap();
            }
            assertThat(page.locator(".last-name")).containsText("1939-S");
        }
    }

    @Test
    void a_hunt_is_started_from_the_form_by_keyboard() {
        Page page = window.newPage();
        page.navigate(bench.address + "/mat");
        page.locator("select[name=denomination]").selectOption("US cent");
        page.locator(".form input[name=label]").first().fill("Box 77");
        page.locator("input[type=checkbox][value=wheat]").check();
        page.locator(".form input[name=label]").first().press("Enter");
        assertThat(page.locator(".box-name")).hasText("Box 77");
        assertThat(page.locator(".watching")).containsText("wheat");
        page.navigate(bench.address + "/mat");
        page.locator(".form input[name=count]").first().fill("none");
        page.locator(".form input[name=label]").first().fill("Kept words");
        page.locator(".form button[type=submit]").click();
        assertThat(page.locator(".problem")).containsText("none");
        assertThat(page.locator(".form input[name=label]").first()).hasValue("Kept words");
    }
}
