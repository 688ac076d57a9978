package org.rollwright.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.List;
import org.junit.jupiter.api.Test;

class TillPageTest extends PageWithBench {
    private static void book(Page page, String kind, String amount, String where) {
        page.locator("select[name=kind]").selectOption(kind);
        page.locator("form[action='/till'] input[name=amount]").fill(amount);
        page.locator("form[action='/till'] input[name=where]").fill(where);
        page.locator("form[action='/till'] input[name=day]").fill("2026-03-02");
        page.locator("form[action='/till'][method=post] button").click();
        page.waitForLoadState();
    }

    private static String figures(Page page) {
        return page.locator(".figures").innerText().replaceAll("\\s+", " ");
    }

    /// Two boxes of 25.00. Of the first 11 rolls were opened: 9 finds stay and roll 5 was one short, so 5.50 −
    /// 0.09 − 0.01 = 5.40 is to go back, and 19.50 lies in rolls not opened; the second box was not opened.
    @Test
    void an_evening_s_boxes_enter_the_books_and_go_back_counted() {
        bench.typeAnEvening();
        bench.type("finish");
        Page page = window.newPage();
        List<String> complaints = Browser.complaints(page);
        page.navigate(bench.address + "/till");
        assertThat(figures(page)).contains("50.00 drawn from outside").contains("0.01 short");
        String kept = page.locator(".figure:has-text('kept') b").innerText();
        assertThat(kept).isEqualTo("0.09");
        book(page, "CASHED", "2525.00", "Hill Bank");
        assertThat(page.locator(".problem").innerText())
                .startsWith("Only 5.40 is to be returned on 2026-03-02; 2525.00 cannot leave it.");
        assertThat(page.locator("form[action='/till'] input[name=amount]").inputValue())
                .isEqualTo("2525.00");
        page.locator("input[name=box]").first().check();
        page.locator("form[action='/till/return'] input[name=where]").fill("Mill Bank");
        page.locator("input[name=counted]").fill("24.80");
        page.locator("input[name=fee]").fill("1.00");
        page.locator("select[name=paid]").selectOption("cash");
        page.locator("text=They went back").click();
        page.waitForLoadState();
        assertThat(page.locator(".problem").count()).isZero();
        assertThat(figures(page))
                .contains("23.80 cash in hand")
                .contains("1.00 fees")
                .contains("25.00 in boxes");
        page.locator("text=Undo the last change").click();
        page.waitForLoadState();
        assertThat(figures(page)).contains("0.00 cash in hand").contains("0.00 fees");
        assertThat(complaints.stream().filter(one -> !one.contains("422")).toList())
                .isEmpty();
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

    /// 2026-03-01, the bench's day, is a Sunday.
    @Test
    void a_branch_an_order_and_a_round() throws Exception {
        Page page = window.newPage();
        List<String> complaints = Browser.complaints(page);
        page.navigate(bench.address + "/till/branches");
        page.locator("input[name=bank]").fill("Hill Bank");
        page.locator("input[name=lead]").fill("2");
        page.locator("input[name=road]").fill("3 mi");
        page.locator("select[name=bearing]").selectOption("NE");
        page.locator("text=Write it down").click();
        page.waitForLoadState();
        assertThat(page.locator("table").innerText()).contains("Hill Bank").contains("4.8 km (3.0 mi) NE");
        page.navigate(bench.address + "/boxes/orders");
        assertThat(page.locator(".alert").innerText())
                .contains("have not been struck for circulation since November 2025");
        page.locator("form[action='/boxes/orders'] input[name=boxes]").fill("2");
        page.locator("form[action='/boxes/orders'] input[name=where]").fill("Hill Bank");
        page.locator("form[action='/boxes/orders'] input[name=due]").fill("2026-03-07");
        page.locator("text=Note the order").click();
        page.waitForLoadState();
        assertThat(page.locator(".problem").innerText())
                .isEqualTo(
                        "Hill Bank does not open on Saturdays; 2026-03-07 is one. Choose another day, or correct its days on its page.");
        page.locator("form[action='/boxes/orders'] input[name=due]").fill("");
        page.locator("text=Note the order").click();
        page.waitForLoadState();
        assertThat(page.locator(".card").innerText()).contains("2 boxes of US cents", "due 3 Mar 2026", "on its way");
        String calendar = fetch("/boxes/orders.ics");
        assertThat(calendar).contains("DTSTART;VALUE=DATE:20260303").contains("Pick up 2 boxes of US cents");
        page.navigate(bench.address + "/till/round");
        assertThat(page.locator("h3:has(.chip)").innerText()).contains("Tuesday, 3 Mar 2026");
        assertThat(fetch("/till/round.ics?day=2026-03-03")).contains("Bank round\\, 1 call");
        page.locator("input[name=allowed]").fill("lots");
        page.locator("main button").click();
        page.waitForLoadState();
        assertThat(page.locator(".problem").innerText()).contains("'lots' is no distance. Write 12 km or 7.5 mi.");
        page.navigate(bench.address + "/boxes/orders");
        page.locator("text=They came").click();
        page.waitForLoadState();
        page.locator("summary:has-text('order that is over')").click();
        assertThat(page.locator("table").first().innerText()).contains("2 of 2 came 1 Mar 2026");
        page.navigate(bench.address + "/boxes");
        assertThat(page.locator("main").innerText()).contains("Box 4");
        page.navigate(bench.address + "/till/time");
        page.locator("input[name=minutes]").fill("45");
        page.locator("input[name=fuel]").fill("3.1");
        page.locator("text=Note it").click();
        page.waitForLoadState();
        assertThat(figures(page)).contains("0:45 at banks").contains("3.10 for fuel");
        assertThat(complaints.stream().filter(one -> !one.contains("422")).toList())
                .isEmpty();
    }

    private String fetch(String path) throws Exception {
        HttpResponse<String> answer = HttpClient.newHttpClient()
                .send(
                        HttpRequest.newBuilder(URI.create(bench.address + path)).build(),
                        HttpResponse.BodyHandlers.ofString());
        assertThat(answer.statusCode()).isEqualTo(200);
        return answer.body();
    }
}
