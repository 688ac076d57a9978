package org.rollwright.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/// Scale and Cabinet in a browser.
class CabinetPageTest extends PageWithBench {
    @Test
    void two_boxes_are_weighed_into_one_cup() {
        Page page = window.newPage();
        List<String> complaints = Browser.complaints(page);
        page.navigate(bench.address + "/scale");
        page.locator("form[action='/scale/cup'] input[name=name]").fill("copper");
        page.locator("form[action='/scale/cup'] input[name=tare]").fill("112g");
        page.locator("form[action='/scale/cup'] input[name=step]").fill("1g");
        page.locator("form[action='/scale/cup'] button").click();
        for (String[] reading : new String[][] {{"Box 12", "1.612kg"}, {"Box 13", "3140g"}}) {
            page.locator("form[action='/scale/reading'] input[name=what]").fill(reading[0]);
            page.locator("form[action='/scale/reading'] input[name=weight]").fill(reading[1]);
            page.locator("form[action='/scale/reading'] button").click();
            page.locator("td:has-text('" + reading[0] + "')").waitFor();
        }
        String table = page.locator("table.sheet").first().innerText();
        assertThat(table).contains("485 coins").contains("494 coins").contains("9 in 10");
        // a lighter cup is refused with a sentence
        page.locator("form[action='/scale/reading'] input[name=what]").fill("Box 14");
        page.locator("form[action='/scale/reading'] input[name=weight]").fill("2kg");
        page.locator("form[action='/scale/reading'] button").click();
        assertThat(page.locator(".problem").innerText()).contains("became lighter by 1140.0 g");
        page.locator("form:has(input[value=single]) input[name=year]").fill("1982");
        page.locator("form:has(input[value=single]) input[name=weight]").fill("3.08g");
        page.locator("form:has(input[value=single]) button").click();
        page.locator("text=brass (copper): 3.08 g lies within").waitFor();
        assertThat(page.content()).contains("copper large date");
        assertThat(complaints).isEmpty();
    }

    @Test
    void a_find_goes_into_a_tube_gets_prices_a_grading_decision_and_a_label() {
        bench.type("31s ms64 rb", "36d vf30");
        Page page = window.newPage();
        List<String> complaints = Browser.complaints(page);
        page.navigate(bench.address + "/cabinet");
        page.locator("form[action='/cabinet/place'] input[name=name]").fill("tube 12");
        page.locator("form[action='/cabinet/place'] input[name=capacity]").fill("1");
        page.locator("form[action='/cabinet/place'] button").click();
        page.navigate(bench.address + "/cabinet?q=31s");
        assertThat(page.content()).contains("Asked for coins like: US cent 1931-S");
        assertThat(page.locator("#coins tbody tr").count()).isEqualTo(1);
        page.locator("input[name=coin]").check();
        page.locator("form#coins select[name=to]")
                .selectOption(new com.microsoft.playwright.options.SelectOption().setLabel("tube 12"));
        page.locator("button[value=put]").click();
        page.navigate(bench.address + "/cabinet?q=tube+12");
        assertThat(page.locator("#coins tbody tr").count()).isEqualTo(1);
        // the tube is full
        page.navigate(bench.address + "/cabinet?q=36d");
        page.locator("input[name=coin]").check();
        page.locator("form#coins select[name=to]")
                .selectOption(new com.microsoft.playwright.options.SelectOption().setLabel("tube 12"));
        page.locator("button[value=put]").click();
        assertThat(page.locator(".problem").innerText()).contains("tube 12 holds 1 coins and has 1");
        page.navigate(bench.address + "/cabinet/coin/f1.1");
        page.locator("input[name='p63-RB']").fill("24");
        page.locator("input[name='p65-RB']").fill("95");
        page.locator("input[name='p58']").fill("0");
        page.locator("text=Keep prices").click();
        assertThat(page.locator(".problem").innerText()).contains("is zero, which values nothing");
        page.navigate(bench.address + "/cabinet/coin/f1.1");
        page.locator("input[name='p63-RB']").fill("24");
        page.locator("textarea[name=pasted]").fill("ms65 rb 95\nms66 rb 180");
        page.locator("text=Keep prices").click();
        page.waitForURL(Pattern.compile(".*#prices"));
        assertThat(page.locator("p:has-text('Value:')").first().innerText()).contains("≈");
        page.locator("form:has(input[name=shared]) input[name=estimate]").fill("64.2");
        page.locator("form:has(input[name=shared]) button").click();
        assertThat(page.locator("#grading ~ .verdict").innerText())
                .contains("Chance to come out ahead")
                .contains("of fees");
        // a typed price is exact
        page.locator("input[name='p64-RB']").fill("41.50");
        page.locator("text=Keep prices").click();
        page.waitForURL(Pattern.compile(".*#prices"));
        assertThat(page.locator("p:has-text('Value:')").first().innerText()).isEqualTo("Value: 41.50");
        assertThat(complaints).isEmpty();
    }

    @Test
    void a_bought_coin_is_added_found_and_sold() {
        Page page = window.newPage();
        page.navigate(bench.address + "/cabinet");
        page.locator("form[action='/cabinet/add'] [name=line]").fill("09s vdb f12 nonsense");
        page.locator("form[action='/cabinet/add'] button").click();
        page.locator(".problem").waitFor();
        assertThat(page.locator("form[action='/cabinet/add'] [name=line]").inputValue())
                .isEqualTo("09s vdb f12 nonsense");
        page.locator("form[action='/cabinet/add'] [name=line]").fill("1909s vdb f12");
        page.locator("form[action='/cabinet/add'] input[name=from]").fill("the club");
        page.locator("form[action='/cabinet/add'] input[name=price]").fill("610.00");
        page.locator("form[action='/cabinet/add'] button").click();
        page.locator("a:has-text('1909-S')").click();
        page.waitForURL(Pattern.compile(".*/cabinet/coin/own.1"));
        assertThat(page.content()).contains("bought from the club").contains("610.00");
        page.navigate(bench.address + "/cabinet");
        page.locator("input[name=coin]").check();
        page.locator("form#coins input[name=price]").fill("700");
        page.locator("button[value=left]").click();
        page.locator("text=Nothing is owned yet").waitFor();
        page.locator("text=Undo the last change").click();
        page.locator("a:has-text('1909-S')").waitFor();
    }

    /// Three lines, the second of a year that is none: two coins are owned, the second line stays for another try,
    /// and the next coins can be typed at once.
    @Test
    void coins_owned_before_come_line_by_line_and_a_wrong_one_refuses_only_itself() {
        Page page = window.newPage();
        page.navigate(bench.address + "/cabinet");
        page.locator("form[action='/cabinet/add'] select[name=how]").selectOption("owned");
        page.locator("form[action='/cabinet/add'] input[name=from]").fill("an aunt");
        page.locator("form[action='/cabinet/add'] [name=line]").fill("1936d vf20\n19366 f12\n1941 xf40");
        page.locator("form[action='/cabinet/add'] button").click();
        page.locator(".problem").first().waitFor();
        assertThat(page.locator(".problem").allInnerTexts().toString())
                .contains("2 lines were taken.")
                .contains("Line 2, \"19366 f12\"");
        assertThat(page.locator("#coins tbody tr").count()).isEqualTo(2);
        assertThat(page.locator("form[action='/cabinet/add'] [name=line]").inputValue())
                .isEqualTo("19366 f12");
        page.locator("form[action='/cabinet/add'] [name=line]").fill("1936 f12");
        page.locator("form[action='/cabinet/add'] button").click();
        page.locator("[role=status]:has-text('1 line was taken.')").waitFor();
        assertThat(page.locator("#coins tbody tr").count()).isEqualTo(3);
        assertThat(page.evaluate("() => document.activeElement.name")).isEqualTo("line");
        assertThat(page.locator("form[action='/cabinet/add'] select[name=how]").inputValue())
                .isEqualTo("owned");
        assertThat(page.locator("form[action='/cabinet/add'] input[name=from]").inputValue())
                .isEqualTo("an aunt");
        assertThat(page.locator("form[action='/cabinet/add'] [name=line]").inputValue())
                .isEmpty();
    }

    /// Filters, order and pages work without a script, and the address says them all.
    @Test
    void a_long_list_is_narrowed_ordered_and_leafed_through_without_a_script() {
        for (int n = 0; n < 70; n++) {
            bench.type("x1 " + (1940 + n % 10) + " f12");
        }
        bench.type("dime 1964d", "1909s vdb f12");
        try (com.microsoft.playwright.BrowserContext plain = Browser.window(false, false, false)) {
            Page page = plain.newPage();
            page.navigate(bench.address + "/cabinet");
            assertThat(page.locator("#coins tbody tr").count()).isEqualTo(60);
            page.locator("a[rel=next]").click();
            assertThat(page.locator("#coins tbody tr").count()).isEqualTo(12);
            assertThat(page.locator("main").innerText()).contains("Coins 61 to 72 of 72");
            page.locator("select[name=order]").selectOption("date");
            page.locator("form[role=search] button").first().click();
            assertThat(page.locator("#coins tbody tr").first().innerText()).contains("1909-S");
            page.locator("summary:has-text('Narrow')").click();
            page.locator("select[name=metal]").selectOption("silver");
            page.locator("select[name=graded]").selectOption("ungraded");
            page.locator("form[role=search] button").last().click();
            assertThat(page.locator("#coins tbody tr").count()).isEqualTo(1);
            assertThat(page.url())
                    .contains("metal=silver")
                    .contains("graded=ungraded")
                    .contains("order=date");
            assertThat(page.locator("a[href*='coins.csv']").getAttribute("href"))
                    .contains("metal=silver");
        }
    }

    @Test
    void a_photographed_coin_shows_its_picture_in_the_list() {
        bench.type("44d", "45");
        bench.photograph(new java.awt.image.BufferedImage(64, 64, java.awt.image.BufferedImage.TYPE_INT_RGB), "");
        String photo = bench.photographs().getFirst();
        bench.bench
                .desk()
                .record(
                        1,
                        "",
                        book -> new org.rollwright.scope.ScopeEvent.PhotoKept(
                                photo,
                                64,
                                64,
                                org.rollwright.scope.PhotoSubject.find(new org.rollwright.hunt.FindId(1)),
                                ""));
        Page page = window.newPage();
        page.navigate(bench.address + "/cabinet");
        assertThat(page.locator("#coins tbody img").count()).isEqualTo(1);
        assertThat(page.locator("#coins tbody img").evaluate("image => image.naturalWidth > 0"))
                .isEqualTo(true);
    }
}
