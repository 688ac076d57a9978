package org.rollwright.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import java.util.List;
import org.junit.jupiter.api.Test;

/// From a rule typed in the page to coins in holes, and back.
class AlbumPageTest extends PageWithBench {
    private long filled() {
        return bench.bench.desk().read(book -> (long) book.album().albums().stream()
                .mapToInt(album -> album.holes().size())
                .sum());
    }

    @Test
    void an_album_is_made_compared_accepted_in_part_and_the_acceptance_undone() {
        bench.type("+ 39s vf20", "44 g6", "44 xf40");
        Page page = window.newPage();
        List<String> complaints = Browser.complaints(page);
        page.navigate(bench.address + "/albums");
        page.locator("input[name=name]:not([type=hidden])").fill("War years");
        page.locator("textarea[name=rule]").fill("series wheat; yers 1939-1945");
        page.locator("form.form button").click();
        assertThat(page.locator(".problem").first()).containsText("yers");
        assertThat(page.locator("textarea[name=rule]")).hasValue("series wheat; yers 1939-1945");
        page.locator("textarea[name=rule]").fill("series wheat; years 1939-1945");
        page.locator("form.form button").click();
        assertThat(page.locator("main")).containsText("War years");
        assertThat(filled()).isZero();

        page.navigate(bench.address + "/albums/compare");
        assertThat(page.locator(".moves li").first()).containsText("1939-S");
        assertThat(page.locator("ul.moves").first().locator("li")).hasCount(2);
        assertThat(page.locator("main")).containsText("XF40");
        page.locator("ul.moves input[type=checkbox]").first().uncheck();
        page.getByText("Accept the ticked ones").click();
        assertThat(page.locator("h1")).hasText("Albums");
        assertThat(filled()).isEqualTo(1);
        page.navigate(bench.address + "/albums/compare");
        assertThat(page.locator("ul.moves").first().locator("li")).hasCount(1);

        page.navigate(bench.address + "/albums/1");
        assertThat(page.locator(".hole.filled")).hasCount(1);
        assertThat(page.locator(".hole.filled")).containsText("XF40");
        assertThat(page.locator(".hole.filled")).containsText("Box 12, roll 1");
        page.navigate(bench.address + "/albums");
        page.getByText("Undo").first().click();
        assertThat(page.locator("main")).containsText("War years");
        assertThat(filled()).isZero();
        assertThat(complaints).isEmpty();
    }

    /// A hundred holes of an album that is owned already, with a second a key, in three minutes.
    @Test
    void an_album_owned_already_is_entered_by_looking_at_it() {
        bench.bench
                .desk()
                .record(
                        0,
                        "",
                        book -> new org.rollwright.album.AlbumEvent.AlbumDefined(
                                book.album().nextAlbum(),
                                "Wheat cents",
                                "series us-cent-lincoln-wheat; one per date and mint"));
        long album = bench.bench.desk().state().album().albums().stream()
                .mapToLong(one -> one.id().number())
                .max()
                .orElseThrow();
        Page page = window.newPage();
        List<String> complaints = Browser.complaints(page);
        page.navigate(bench.address + "/albums/" + album);
        int keys = 0;
        // what is wrong is said, and stays to be put right
        page.locator("details.owned summary").click();
        page.locator("#look-in input[name=holes]").fill("10, 1965");
        page.locator("#look-in input[name=grade]").fill("q9");
        page.locator("button[value=owned]").click();
        com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat(page.locator(".problem"))
                .containsText("q9");
        com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat(page.locator("#look-in input[name=holes]"))
                .hasValue("10, 1965");
        page.navigate(bench.address + "/albums/" + album);
        // the first five holes but one, by arrows and space
        page.locator(".holes input[type=checkbox]").first().focus();
        for (String key :
                List.of("Space", "ArrowRight", "Space", "ArrowRight", "ArrowRight", "Space", "ArrowRight", "Space")) {
            page.keyboard().press(key);
            keys++;
        }
        com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat(page.locator("#ticked-holes"))
                .hasText("4 holes");
        // the rest of a hundred in words
        String list = "1918-1958";
        page.locator("#look-in details.owned > summary").press("Enter");
        keys++;
        page.locator("#look-in input[name=holes]").fill(list);
        com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat(page.locator("#holes-meant"))
                .containsText("empty holes: 1918-P");
        page.locator("#look-in input[name=grade]").fill("f12");
        page.locator("#look-in input[name=grade]").press("Enter");
        keys += list.length() + 3 + 2;
        page.locator(".hole.filled").first().waitFor();
        int filled = page.locator(".hole.filled").count();
        assertThat(filled).isGreaterThan(100);
        assertThat(keys).as("keys, a second each").isLessThan(180);
        assertThat(bench.bench.desk().state().holdings().coins()).hasSizeGreaterThanOrEqualTo(filled);
        assertThat(page.locator(".hole.filled .state").first().innerText()).contains("F12");
        bench.bench.desk().undo(0, "<");
        page.navigate(bench.address + "/albums/" + album);
        assertThat(page.locator(".hole.filled").count()).as("one step").isZero();
        assertThat(complaints).isEmpty();
    }
}
