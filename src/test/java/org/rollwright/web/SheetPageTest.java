package org.rollwright.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.FilePayload;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.rollwright.cabinet.CabinetEvent;
import org.rollwright.cabinet.CabinetNote;
import org.rollwright.cabinet.Leaving;
import org.rollwright.journal.Word;

/// Taking in a sheet on its page. The sheet is our own invention.
class SheetPageTest extends PageWithBench {
    private static final String COINS = """
            Denomination;Year;Mint;Grade;Qty;Paid;Goodies;Notes
            cent;1910;S;VF 20;1;4.50;x;
            dime;1942;D;Fine;2;;;
            quarter;13/25/2021;;BU;1;;;
            quarter;1938;D;VG;1;;;
            TOTAL;;;;5;;;
            """;

    @Test
    void every_row_is_shown_answered_and_recorded_once() {
        Page page = window.newPage();
        List<String> complaints = Browser.complaints(page);
        page.navigate(bench.address + "/sheets?as=coins");
        page.locator("input[name=file]")
                .setInputFiles(new FilePayload("coins.csv", "text/csv", COINS.getBytes(StandardCharsets.UTF_8)));
        page.locator("main form button[type=submit]").click();
        assertThat(page.locator("h1")).containsText("coins.csv");
        assertThat(page.locator(".taken-row")).hasCount(6);
        assertThat(page.locator(".taken-row.ready")).hasCount(2);
        assertThat(page.locator(".taken-row.ready").first()).containsText("1910");
        assertThat(page.locator(".taken-row.asks")).hasCount(2);
        assertThat(page.locator("tr.unread")).containsText("Goodies");
        long before = bench.bench.desk().state().holdings().coins().size();
        assertThat(before).as("nothing is recorded by looking").isZero();

        page.locator(".taken-row.asks input[name*=':year']").fill("2021");
        page.locator("button[value=again]").first().click();
        assertThat(page.locator(".taken-row.ready")).hasCount(3);
        // the answer stays on the page, and a second look loses nothing
        assertThat(page.locator("input[name*=':year']")).hasValue("2021");
        page.locator("button[value=again]").first().click();
        assertThat(page.locator(".taken-row.ready")).hasCount(3);
        page.locator("button[value=record]").first().click();
        assertThat(page.locator("h1")).containsText("3 rows recorded");
        assertThat(page.locator("main")).containsText("Not recorded");
        assertThat(bench.bench.desk().state().holdings().coins().stream()
                        .map(coin -> coin.description().identity().dateAndMint()))
                .as("a guess is no answer: no quarter of 1938 bears a D")
                .containsExactlyInAnyOrder("1910-S", "1942-D", "1942-D", "2021");

        // once more: what stands in the record is left, unless it is taken all the same
        page.navigate(bench.address + "/sheets?as=coins");
        page.locator("textarea[name=pasted]").fill(COINS);
        page.locator("main form button[type=submit]").click();
        assertThat(page.locator(".taken-row.ready")).hasCount(0);
        assertThat(page.locator(".taken-row input[value=take]").first()).isVisible(); // of a row that asks
        page.locator(".taken-row input[value=again]").first().check();
        page.locator("button[value=again]").last().click();
        assertThat(page.locator(".taken-row.ready")).hasCount(1);
        // the same form sent twice records once
        String form = page.evaluate(
                        "new URLSearchParams(new FormData(document.querySelector('.sheet-form'))).toString()")
                .toString();
        page.locator("button[value=record]").first().click();
        assertThat(page.locator("h1")).containsText("1 row recorded");
        page.evaluate(
                "form => fetch('/sheets/rows', {method: 'POST', body: form + '&do=record',"
                        + " headers: {'Content-Type': 'application/x-www-form-urlencoded'}}).then(a => a.text())",
                form);
        assertThat(bench.bench.desk().state().holdings().coins()).hasSize(5);

        // one of two alike is sold: the sheet taken again brings nothing back
        bench.bench
                .desk()
                .record(
                        0,
                        "",
                        book -> new CabinetEvent.CoinsLeft(
                                List.of(book.holdings().coins().stream()
                                        .filter(coin -> coin.description()
                                                .identity()
                                                .dateAndMint()
                                                .equals("1942-D"))
                                        .findFirst()
                                        .orElseThrow()
                                        .ref()),
                                new CabinetNote.Gone(Word.of(Leaving.SOLD), null, "", LocalDate.of(2026, 3, 1))));
        page.navigate(bench.address + "/sheets?as=coins");
        page.locator("textarea[name=pasted]").fill(COINS);
        page.locator("main form button[type=submit]").click();
        assertThat(page.locator(".taken-row.ready")).hasCount(0);
        assertThat(complaints).isEmpty();
    }

    @Test
    void a_file_that_is_no_sheet_is_refused_with_a_sentence_and_pasted_rows_are_read() {
        Page page = window.newPage();
        page.navigate(bench.address + "/sheets");
        page.locator("main form button[type=submit]").click();
        assertThat(page.locator(".problem")).containsText("No sheet");
        page.locator("input[name=file]")
                .setInputFiles(new FilePayload("picture.xlsx", "application/octet-stream", new byte[] {1, 2, 3, 0, 5}));
        page.locator("main form button[type=submit]").click();
        assertThat(page.locator(".problem")).isVisible();
        page.locator("textarea[name=pasted]")
                .fill("Date\tBank\tDenom\tBoxes\tWheats\n2021-03-01\tHarbour Savings\tcents\t1\t17\n");
        page.locator("main form button[type=submit]").click();
        assertThat(page.locator(".taken-row").nth(1)).containsText("17");
        assertThat(page.locator(".taken-row").nth(1)).containsText("Harbour Savings");
    }
}
