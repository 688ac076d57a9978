package org.rollwright.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import com.microsoft.playwright.Page;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.Test;
import org.rollwright.hunt.Disposition;
import org.rollwright.hunt.HuntId;

/// What becomes of the finds of a hunt, decided in groups with keys.
class DecidePageTest extends PageWithBench {
    private long open() {
        return bench.bench.desk().read(book -> book.hunt().undecided(new HuntId(1)));
    }

    private Disposition of(int ordinal) {
        return bench.bench
                .desk()
                .read(book ->
                        book.hunt().find(new HuntId(1), ordinal).orElseThrow().disposition());
    }

    @Test
    void seventy_coins_are_decided_with_a_dozen_keys_and_taken_back() {
        bench.album("Wheat cents", "series us-cent-lincoln-wheat; one per date and mint");
        // two alike: one hole is filled once
        bench.type("+ 44d", "44d", "51s", "1955 ddo xf40");
        for (int i = 0; i < 12; i++) {
            bench.type("+ x5 5" + (6 + i % 3) + "d");
        }
        bench.type("ca 1961", "1998", "+ x4 57d", "finish");
        Page page = window.newPage();
        page.navigate(bench.address + "/mat");
        page.locator("a[href='/mat/1/decide']").click();
        long all = open();
        Assertions.assertThat(all).isEqualTo(70);
        assertThat(page.locator(".decide-group").first()).isFocused();
        assertThat(page.locator(".decide-group").first()).containsText("44-D");
        assertThat(page.locator(".decide-group").first()).containsText("Fill a hole");
        // five alike are no coin for one hole: they are decided together elsewhere
        assertThat(page.locator(".decide-group").first()).not().containsText("5 ×");
        assertThat(page.locator("button[data-undo]")).hasCount(0);
        int keys = 0;
        // a coin of the first group is left out by unticking it
        page.locator(".decide-group").first().locator("input[value='3']").uncheck();
        keys += 2;
        page.locator(".decide-group").first().focus();
        page.keyboard().press("a");
        keys++;
        assertThat(page.locator("h1")).containsText("1 of 70");
        // the next page hears keys from when it has taken the focus
        assertThat(page.locator(".decide-group").first()).isFocused();
        Assertions.assertThat(of(1)).isEqualTo(Disposition.ALBUM);
        Assertions.assertThat(of(2)).isEqualTo(Disposition.OPEN);
        Assertions.assertThat(of(3)).isEqualTo(Disposition.OPEN);
        // taken back as one step
        page.keyboard().press("u");
        keys++;
        assertThat(page.locator("h1")).containsText("0 of 70");
        assertThat(page.locator(".decide-group").first()).isFocused();
        // nothing more was decided here: a further key takes back no find and no finish
        assertThat(page.locator("button[data-undo]")).hasCount(0);
        page.keyboard().press("u");
        boolean finished = bench.bench
                .desk()
                .read(book ->
                        book.hunt().hunt(new HuntId(1)).orElseThrow().finished().isPresent());
        Assertions.assertThat(finished).isTrue();
        for (int i = 0; i < 8 && open() > 0; i++) {
            int groups = page.locator(".decide-group").count();
            page.keyboard().press(i == 0 ? "a" : "k");
            keys++;
            if (groups > 1) {
                assertThat(page.locator(".decide-group")).hasCount(groups - 1);
                assertThat(page.locator(".decide-group").first()).isFocused();
            } else {
                page.locator("text=Everything of this hunt is decided").waitFor();
            }
        }
        Assertions.assertThat(open()).isZero();
        Assertions.assertThat(keys).isLessThanOrEqualTo(12);
        assertThat(page.locator("[role=status]").last()).containsText("decided");
    }

    /// What was accepted into an album is decided: it is neither counted nor offered again, nor swept up by `put all`.
    @Test
    void coins_that_lie_in_an_album_are_decided() {
        bench.album("Wheat cents", "series us-cent-lincoln-wheat; one per date and mint");
        bench.type("+ 44d vf20", "45 vf20", "1998", "finish");
        Page page = window.newPage();
        page.navigate(bench.address + "/albums/compare?hunt=1");
        page.locator("button[value=all]").first().click();
        page.navigate(bench.address + "/mat");
        assertThat(page.locator("a[href='/mat/1/decide']")).containsText("1 coin of");
        page.navigate(bench.address + "/mat/1/decide");
        assertThat(page.locator("h1")).containsText("2 of 3");
        assertThat(page.locator(".decide-group input[name=find]")).hasCount(1);
        bench.type("resume", "put all return");
        Assertions.assertThat(of(3)).isEqualTo(Disposition.RETURN);
        Assertions.assertThat(of(1)).isEqualTo(Disposition.OPEN);
    }

    /// Of three coins alike one lies in an album: giving all away would take it out of its hole.
    @Test
    void a_find_partly_in_an_album_is_parted_before_it_goes() {
        bench.album("Wheat cents", "series us-cent-lincoln-wheat; one per date and mint");
        bench.type("+ x3 44d vf20", "finish");
        Page page = window.newPage();
        page.navigate(bench.address + "/albums/compare?hunt=1");
        page.locator("button[value=all]").first().click();
        page.navigate(bench.address + "/mat/1/decide");
        assertThat(page.locator("h1")).containsText("1 of 3");
        assertThat(page.locator(".decide-group h2")).containsText("2 coins");
        page.locator(".decide-group button[value=return]").click();
        assertThat(page.locator(".problem")).containsText("1 of 3 coins lie in an album");
        assertThat(page.locator(".problem")).containsText("split f1 2");
        bench.type("resume", "split f1 2", "put all return");
        Assertions.assertThat(of(1)).isEqualTo(Disposition.OPEN);
        Assertions.assertThat(of(2)).isEqualTo(Disposition.RETURN);
        page.navigate(bench.address + "/albums/1");
        assertThat(page.locator(".hole.filled")).hasCount(1);
        // and what is decided is not decided over by a page that was open
        page.navigate(bench.address + "/mat/1/decide");
        assertThat(page.locator("main")).containsText("Everything of this hunt is decided");
    }

    @Test
    void nothing_ticked_and_no_such_find_are_said() {
        bench.type("+ 44d", "finish");
        Page page = window.newPage();
        page.navigate(bench.address + "/mat/1/decide");
        page.locator(".decide-group input[name=find]").uncheck();
        page.locator(".decide-group button").first().click();
        assertThat(page.locator(".problem")).containsText("No coin is ticked");
        Assertions.assertThat(open()).isOne();
        Assertions.assertThat(page.navigate(bench.address + "/mat/99/decide").status())
                .isEqualTo(404);
    }
}
