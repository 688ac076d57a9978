package org.rollwright.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import java.util.List;
import org.junit.jupiter.api.Test;

class TillPageTest extends PageWithBench {
    private static void book(Page page, String kind, String amount, String where) {
        page.locator("select[name=kind]").selectOption(kind);
        page.locator("input[name=amount]").fill(amount);
        page.locator("input[name=where]").fill(where);
        page.locator("form[action='/till'] button").click();
        page.waitForLoadState();
    }

    @Test
    void an_evening_s_cash_adds_up_and_more_than_is_held_cannot_go_back() {
        Page page = window.newPage();
        List<String> complaints = Browser.complaints(page);
        page.navigate(bench.address + "/till");
        book(page, "DRAW", "30", "Hill Bank");
        book(page, "BOUGHT", "25.00", "Hill Bank");
        book(page, "FEE", "1.50", "");
        book(page, "KEPT", "0.14", "");
        book(page, "SHORT", "0.01", "");
        book(page, "ASIDE", "24.85", "");
        book(page, "RETURNED", "25.00", "Hill Bank");
        assertThat(page.locator(".problem").innerText())
                .isEqualTo(
                        "Only 24.85 is to be returned; 25.00 cannot leave it. Check the amount, or book first what brought the rest there.");
        assertThat(page.locator("input[name=amount]").inputValue()).isEqualTo("25.00");
        book(page, "RETURNED", "24.85", "Hill Bank");
        String figures = page.locator(".figures").innerText();
        assertThat(figures).contains("5.15").contains("3.50").contains("0.14").contains("1.50");
        assertThat(page.locator(".alert").innerText()).contains("Boxes come from Hill Bank, and coins go back there");
        page.locator("text=Undo the last change").click();
        page.waitForLoadState();
        assertThat(page.locator(".figures").innerText()).contains("24.85");
        assertThat(complaints).isEmpty();
    }

    @Test
    void large_cash_is_shown_with_a_plain_note_and_no_advice() {
        Page page = window.newPage();
        page.navigate(bench.address + "/till");
        book(page, "DRAW", "10500", "");
        String note = page.locator(".alert").innerText();
        assertThat(note).contains("10500.00").contains("routine").contains("31 USC 5324");
        assertThat(note.toLowerCase(java.util.Locale.ROOT))
                .doesNotContain("split")
                .doesNotContain("another day");
    }
}
