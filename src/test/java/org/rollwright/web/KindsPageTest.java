package org.rollwright.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import java.util.List;
import org.junit.jupiter.api.Test;

/// Kinds of a date in a browser.
class KindsPageTest extends PageWithBench {
    private void date(Page page, String year, String mint) {
        page.navigate(bench.address + "/scope/kinds");
        page.locator("input[name=year]").fill(year);
        page.locator("input[name=of]").fill(mint);
        page.locator("main form button").first().click();
    }

    private static void answer(Page page, String words) {
        page.locator(".kind-answers a", new Page.LocatorOptions().setHasText(words))
                .click();
    }

    @Test
    void a_cent_of_1982_is_settled_in_three_answers_by_weight_date_and_mint() {
        Page page = window.newPage();
        List<String> complaints = Browser.complaints(page);
        date(page, "1982", "");
        assertThat(page.locator("#ask")).containsText("weigh");
        page.locator("input[name=weight]").fill("2.47");
        page.keyboard().press("Enter");
        page.locator("#ask:has-text('date')").waitFor();
        assertThat(page.locator("#kinds figure svg .zone-arrow").count()).isEqualTo(1);
        assertThat(page.locator("#kinds figcaption")).containsText("Obverse: date");
        answer(page, "stands clear of the rim");
        assertThat(page.locator("#ask")).containsText("mint mark");
        answer(page, "D");
        assertThat(page.locator(".verdict")).hasText("1982-D zinc small date");
        assertThat(page.locator("#kinds .path li").count()).isEqualTo(3);
        assertThat(page.locator("main").textContent()).doesNotContain("ordinary coin");
        assertThat(complaints).isEmpty();
    }

    @Test
    void a_mint_mark_that_was_told_leaves_two_answers_and_a_rarity_is_named() {
        Page page = window.newPage();
        date(page, "1982", "D");
        page.locator("input[name=weight]").fill("3.10");
        page.keyboard().press("Enter");
        answer(page, "stands clear of the rim");
        assertThat(page.locator("#ask")).containsText("No coin of the catalogue");
        assertThat(page.locator("#rarities + ul")).containsText("1982-D copper, small date");
    }

    @Test
    void the_reverses_of_2009_are_shown() {
        Page page = window.newPage();
        date(page, "2009", "P");
        assertThat(page.locator(".kind-answers .kind-picture svg")).hasCount(4);
        answer(page, "presidency");
        assertThat(page.locator(".verdict")).hasText("2009 presidency");
    }

    @Test
    void a_weight_of_no_coin_and_a_date_of_none_are_told() {
        Page page = window.newPage();
        date(page, "1982", "");
        page.locator("input[name=weight]").fill("9.9");
        page.keyboard().press("Enter");
        assertThat(page.locator(".problem")).containsText("9.9 g");
        assertThat(page.locator(".problem")).containsText("2.51");
        page.navigate(bench.address + "/scope/kinds?year=1700");
        assertThat(page.locator(".problem")).containsText("1700");
    }

    @Test
    void where_one_mint_has_kinds_the_mark_is_asked_first_and_back_takes_an_answer_back() {
        Page page = window.newPage();
        page.navigate(bench.address + "/scope/kinds?coin=US-cent&year=1970");
        assertThat(page.locator("#ask").textContent())
                .as("only San Francisco has two")
                .contains("mint mark");
        answer(page, "S");
        assertThat(page.locator("#ask")).containsText("7 of the date");
        page.goBack();
        assertThat(page.locator("#ask")).containsText("mint mark");
    }
}
