package org.rollwright.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.BoundingBox;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.rollwright.hunt.Disposition;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.HuntId;

/// A week with a finger: a box is ordered, picked up, opened, searched with the keys on the screen, decided and
/// returned, with nothing in hand but a phone, or a tablet lying on the bench.
class WeekTest {
    private static Locator.GetByTextOptions exactly() {
        return new Locator.GetByTextOptions().setExact(true);
    }

    /// Taps what is large enough for a finger (24 by 24: WCAG 2.2, success criterion 2.5.8) and in the window.
    private static void tap(Page page, Locator what) {
        what.scrollIntoViewIfNeeded();
        BoundingBox box = what.boundingBox();
        assertThat(box.width).as("%s", what).isGreaterThanOrEqualTo(24);
        assertThat(box.height).as("%s", what).isGreaterThanOrEqualTo(24);
        assertThat(box.x).as("%s", what).isGreaterThanOrEqualTo(0);
        assertThat(box.x + box.width).as("%s", what).isLessThanOrEqualTo(page.viewportSize().width);
        what.tap();
    }

    private static void go(Page page, String place) {
        tap(page, page.locator("nav a[href='" + place + "']").first());
        page.waitForURL("**" + place);
        stands(page);
    }

    /// Nothing moved while the page opened, and none of it is wider than the window.
    private static void stands(Page page) {
        page.waitForLoadState();
        assertThat((String) page.evaluate("steady.moved()")).as(page.url()).isEmpty();
        assertThat((Integer)
                        page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth"))
                .as(page.url())
                .isZero();
        assertThat(page.locator(".problem").count()).as(page.url()).isZero();
    }

    @ParameterizedTest
    @CsvSource({"390, 844", "1024, 768"})
    void a_box_is_ordered_searched_decided_and_returned(int width, int height) {
        try (TestBench bench = new TestBench(InstantSource.fixed(Instant.parse("2026-03-02T19:00:00Z")));
                BrowserContext window = Browser.sized(width, height, 1, true)) {
            window.addInitScript(SteadyPagesTest.WATCH);
            bench.album("Wheat cents", "series us-cent-lincoln-wheat; one per date and mint");
            Page page = window.newPage();
            List<String> complaints = Browser.complaints(page);

            // Monday: a branch, an order, and the box that came
            page.navigate(bench.address + "/till");
            tap(page, page.locator("main a[href='/till/branches']"));
            page.waitForURL("**/till/branches");
            stands(page);
            Locator branch = page.locator("form[action='/till/branches']");
            branch.locator("input[name=bank]").fill("Hill Bank");
            tap(page, branch.locator("button[type=submit]"));
            assertThat(page.locator("main table")).containsText("Hill Bank");
            page.navigate(bench.address + "/boxes");
            tap(page, page.locator("main a[href='/boxes/orders']"));
            page.waitForURL("**/boxes/orders");
            stands(page);
            Locator order = page.locator("form[action='/boxes/orders']");
            order.locator("input[name=where]").fill("Hill Bank");
            order.locator("select[name=denomination]").selectOption("US cent");
            tap(page, order.locator("button[type=submit]"));
            page.locator("form[action='/boxes/orders/end']").waitFor();
            stands(page);
            tap(page, page.locator("form[action='/boxes/orders/end'] button"));
            assertThat(page.locator("form[action='/boxes/orders/end']")).hasCount(0);
            stands(page);

            // the evening: it waits, and is opened
            go(page, "/mat");
            Locator start = page.locator("form:has(select[name=form])");
            tap(page, start.locator("label:has(input[name=box])"));
            assertThat(start.locator("input[name=box]")).isChecked();
            tap(page, start.locator("label:has(input[value=wheat])"));
            tap(page, start.locator("button[type=submit]"));
            assertThat(page.locator("#keypad")).isVisible();
            stands(page);

            // searched with the keys on the screen; a hand that types moves nothing
            keys(page, "roll +", "3", "9", "s", "Enter");
            assertThat(page.locator(".last-name")).containsText("1939-S");
            keys(page, "4", "4", "d", "grade", "vf20", "Enter");
            assertThat(page.locator(".last-name")).containsText("1944-D VF20");
            keys(page, "roll +", "x2", "5", "7", "Enter");
            assertThat(page.locator(".last-name")).containsText("1957");
            keys(page, "5", "1", "Enter");
            assertThat(page.locator(".last-name")).containsText("1951");
            keys(page, "undo");
            assertThat(page.locator(".last-name")).containsText("1957");
            assertThat(page.locator(".roll-now")).containsText("2");

            tap(page, page.locator(".finds a[href$='/finish']"));
            page.waitForURL("**/finish");
            stands(page);
            tap(page, page.locator("form[action$='/finish'] button"));
            page.waitForURL("**/albums/compare**");
            stands(page);

            // what becomes of the coins
            go(page, "/mat");
            tap(page, page.locator("main a[href='/mat/1/decide']"));
            page.waitForURL("**/decide");
            for (int groups = page.locator(".decide-group").count(); groups > 0; groups--) {
                stands(page);
                assertThat(page.locator(".decide-group")).hasCount(groups);
                tap(page, page.locator(".decide-group").first().locator("button[data-key=k]"));
                assertThat(page.locator(".decide-group")).hasCount(groups - 1);
            }
            List<Disposition> became = bench.bench
                    .desk()
                    .read(book -> book.hunt().hunt(new HuntId(1)).orElseThrow().finds().stream()
                            .map(id -> book.hunt().find(id).orElseThrow())
                            .map(Find::disposition)
                            .toList());
            assertThat(became).containsExactly(Disposition.KEEP, Disposition.KEEP, Disposition.KEEP);

            // and the rest goes back: 2,500 coins but for four
            go(page, "/till");
            Locator back = page.locator("form[action='/till/return']");
            tap(page, back.locator("label:has(input[name=box])"));
            back.locator("input[name=where]").fill("Hill Bank");
            back.locator("select[name=paid]").selectOption("cash");
            tap(page, back.locator("button[type=submit]"));
            page.locator("form[action='/till/return']")
                    .waitFor(new Locator.WaitForOptions()
                            .setState(com.microsoft.playwright.options.WaitForSelectorState.DETACHED));
            stands(page);
            assertThat(page.locator(".figures")).containsText("24.96");
            assertThat(complaints).isEmpty();
        }
    }

    /// Taps keys one after the other; each stays where it was.
    private static void keys(Page page, String... keys) {
        for (String key : keys) {
            Locator enter = page.locator("#keypad button.wide");
            BoundingBox before = enter.boundingBox();
            Locator button = page.locator("#keypad button").getByText(key, exactly());
            tap(page, button);
            BoundingBox after = enter.boundingBox();
            assertThat(after.y).as(key).isEqualTo(before.y);
            assertThat(after.x).as(key).isEqualTo(before.x);
        }
    }
}
