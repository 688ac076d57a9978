package org.rollwright.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.data.Offset.offset;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import org.junit.jupiter.api.Test;

/// The strip of rolls of a box: bars by the sum, and on a phone as a whole.
class RollStripTest extends PageWithBench {
    /// Twelve finds in the first roll, three in the second, one in the third, none in the fourth: a quarter and a
    /// twelfth of the longest bar. The fifth roll was six coins short.
    @Test
    void bars_are_as_long_as_finds_are_many() {
        bench.type("+ x12 44", "+ x3 45", "+ 46", "+", "+", "r5 44", "+");
        Page page = window.newPage();
        page.navigate(bench.address + "/boxes/1");
        double full = bar(page, 1);
        assertThat(full).isGreaterThan(40);
        assertThat(bar(page, 2) / full).isCloseTo(3 / 12.0, offset(0.02));
        assertThat(bar(page, 3) / full).isCloseTo(1 / 12.0, offset(0.02));
        assertThat(bar(page, 4)).isZero();
        assertThat(page.locator(".rollstrip li").nth(4).locator(".off").innerText())
                .isEqualTo("-6");
        page.navigate(bench.address + "/recap/1/card.svg");
        assertThat(page.content())
                .contains("height=\"46\"")
                .contains("height=\"12\"")
                .contains("height=\"4\"");
    }

    private static double bar(Page page, int roll) {
        return ((Number) page.locator(".rollstrip li")
                        .nth(roll - 1)
                        .locator("rect")
                        .evaluate("bar => bar.getBoundingClientRect().height"))
                .doubleValue();
    }

    /// Every roll lies within the window's 390 pixels, and what is off is written in letters of 12 pixels or more that
    /// nothing cuts.
    @Test
    void the_whole_strip_is_seen_on_a_phone() {
        bench.type("+ x12 44", "+", "r2 44", "+");
        try (BrowserContext phone = Browser.window(true, false, true)) {
            Page page = phone.newPage();
            page.navigate(bench.address + "/boxes/1");
            assertThat(page.locator(".rollstrip li").count()).isEqualTo(50);
            assertThat(page.evaluate("""
                    () => [...document.querySelectorAll('.rollstrip li')].every(roll => {
                      const box = roll.getBoundingClientRect();
                      return box.left >= 0 && box.right <= innerWidth;
                    })""")).isEqualTo(true);
            assertThat(page.evaluate("""
                    () => [...document.querySelectorAll('.rollstrip .off, .rollstrip .n')].every(text =>
                      parseFloat(getComputedStyle(text).fontSize) >= 12 && text.scrollWidth <= text.clientWidth + 1)""")).isEqualTo(true);
        }
    }
}
