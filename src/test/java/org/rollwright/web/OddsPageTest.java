package org.rollwright.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.rollwright.album.AlbumEvent;
import org.rollwright.coin.Denomination;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.hunt.HuntId;
import org.rollwright.hunt.Watch;
import org.rollwright.journal.Event;

/// The odds in a real browser: sentences on the Mat while a box is searched, and the page of the whole history.
class OddsPageTest {
    /// Seven finished boxes of a bank, with the given wheat cents one to a roll.
    static void history(TestBench bench, int... found) {
        for (int b = 0; b < found.length; b++) {
            String label = "Old " + (b + 1);
            bench.bench.desk().recordAt(bench.bench.clock().instant(), "", book -> {
                HuntId hunt = book.hunt().nextHunt();
                return new org.rollwright.desk.Desk.Step(
                        hunt.number(),
                        new Event.Batch(List.of(
                                new HuntEvent.BoxAdded(
                                        book.hunt().nextBox(), Denomination.US_CENT, BoxDetails.plain(label, 50, 50)),
                                new HuntEvent.HuntStarted(
                                        hunt,
                                        label,
                                        List.of(book.hunt().nextBox()),
                                        List.of(new Watch("wheat", "series wheat"))))));
            });
            HuntId hunt = bench.bench
                    .desk()
                    .read(book -> new HuntId(book.hunt().nextHunt().number() - 1));
            for (int roll = 1; roll <= 50; roll++) {
                bench.bench.recorder().record(hunt, roll <= found[b] ? "+ " + (1940 + roll % 15) : "+");
            }
            bench.bench.recorder().record(hunt, "finish");
        }
    }

    @Test
    void the_mat_says_what_enders_and_pace_mean_against_the_hunters_own_history() {
        try (TestBench bench = new TestBench();
                BrowserContext window = Browser.window()) {
            history(bench, 3, 5, 2, 4, 6, 3, 4);
            Page page = window.newPage();
            List<String> complaints = Browser.complaints(page);
            page.navigate(bench.address + "/mat/1");
            page.locator("#line").fill("e 3/48");
            page.keyboard().press("Enter");
            assertThat(page.locator(".tally"))
                    .containsText("Enders: 3 of 48 match. Before the look 4 wheat were to be expected");
            page.keyboard().type("+");
            for (String line : List.of("44", "45", "46", "47", "48", "50")) {
                page.locator("#line").fill(line);
                page.keyboard().press("Enter");
                assertThat(page.locator("#line")).hasValue("");
                page.keyboard().press("+");
            }
            assertThat(page.locator(".tally")).containsText("Pace: 6 wheat in 6 rolls is at the");
            assertThat(page.locator(".tally")).containsText("The rest should give");
            assertThat(complaints).isEmpty();
        }
    }

    @Test
    void the_page_answers_with_sentences_tables_and_charts() {
        try (TestBench bench = new TestBench();
                BrowserContext window = Browser.window()) {
            history(bench, 3, 5, 2, 4, 30, 3, 4);
            bench.bench
                    .desk()
                    .record(
                            0,
                            "",
                            book -> new AlbumEvent.AlbumDefined(
                                    book.album().nextAlbum(), "Forties", "series wheat; years 1940-1949"));
            Page page = window.newPage();
            List<String> complaints = Browser.complaints(page);
            page.navigate(bench.address + "/odds");
            assertThat(page.locator("main")).containsText("51 wheat in 17,500 coins searched while watching");
            assertThat(page.locator("main")).containsText("Old 5: 30 wheat where");
            assertThat(page.locator("main")).containsText("empty holes. An even chance that all are filled takes");
            assertThat(page.locator("main")).containsText("Of 2 boxes, each predicted from those before it");
            assertThat(page.locator("#chart-series canvas")).isVisible();
            assertThat(page.locator("#chart-sources canvas")).isVisible();
            assertThat(page.locator("#chart-album-0 canvas")).isVisible();
            page.locator("input[name=cost]").fill("40");
            page.locator("input[name=prices]").fill("1941-S 4; 1941-P 1000000; nonsense");
            page.locator("section:has(#buy) button").click();
            assertThat(page.locator(".problem")).containsText("“nonsense” is no price");
            page.locator("input[name=prices]").fill("1941-S 4; 1941-P 1000000");
            page.locator("section:has(#buy) button").click();
            assertThat(page.locator("section:has(#buy) tbody tr").first()).containsText("1941-P");
            assertThat(page.locator("section:has(#buy) tbody tr").first()).containsText("hunt");
            assertThat(page.locator("section:has(#buy) tbody tr").last()).containsText("buy");
            complaints.removeIf(text -> text.contains("422"));
            assertThat(complaints).isEmpty();
        }
    }

    @Test
    void the_calculator_answers_and_names_the_field_at_fault() {
        try (TestBench bench = new TestBench();
                BrowserContext window = Browser.window()) {
            Page page = window.newPage();
            page.navigate(bench.address + "/odds/calc");
            page.locator("section:has(#calc-box) button").click();
            // reference/model_check_values.csv: mean 12.5, size 2.0: P(X >= 40) = 0.0172, 90 % from 1 to 31
            assertThat(page.locator("section:has(#calc-box)")).containsText("Nine boxes of ten give 1 to 31.");
            assertThat(page.locator("section:has(#calc-box)")).containsText("40 or more: 1.72 %");
            page.navigate(bench.address + "/odds/calc?model=box&mean=1e308&size=1e-308&observed=3");
            assertThat(page.locator("section:has(#calc-box) .problem"))
                    .containsText("“average per box” ('mean'): '1e308' is no number");
            page.navigate(bench.address + "/odds/calc?model=moon");
            assertThat(page.locator("main .problem")).containsText("no calculator 'moon'. There are rate, box,");
            page.navigate(bench.address + "/odds/calc");
            page.locator("section:has(#calc-enders) input[name=matching]").fill("49");
            page.locator("section:has(#calc-enders) button").click();
            assertThat(page.locator("section:has(#calc-enders) .problem"))
                    .containsText("“of them match” ('matching') is more");
            assertThat(page.locator("section:has(#calc-enders) input[name=matching]"))
                    .hasValue("49");
        }
    }

    @Test
    void an_empty_journal_says_what_to_do() {
        try (TestBench bench = new TestBench();
                BrowserContext window = Browser.window()) {
            Page page = window.newPage();
            page.navigate(bench.address + "/odds");
            assertThat(page.locator("main")).containsText("box was searched yet while watching for wheat");
        }
    }
}
