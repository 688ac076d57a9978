package org.rollwright.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.FilePayload;
import com.microsoft.playwright.options.LoadState;
import com.microsoft.playwright.options.WaitUntilState;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;
import org.rollwright.scope.picture.PaintedCoin;

/// Nothing moves under a thumb, on any page: not while it opens, not while one types or ticks, and not when
/// another window records something.
///
/// Two measures stand side by side. The browser's own adds up what moved within the window from one picture to
/// the next, those right behind a key included (Layout Instability, W3C draft community group report). It sees
/// nothing below the fold, and nothing of what a script changed before the first picture was painted; so where
/// things stand is compared as well: as the page was read against when all of it is there, and before typing
/// against after it. What folds out because someone pressed a fold is not counted; folds are opened before.
class SteadyPagesTest {
    static final String WATCH = read("pages/steady.js");

    /// How wide the window is; 720 with two device pixels each is 1440 at 200 %.
    private record Size(String name, int width, int height, double zoom, boolean touch) {}

    private static final List<Size> SIZES = List.of(
            new Size("390", 390, 844, 1, true),
            new Size("768", 768, 1024, 1, true),
            new Size("1024", 1024, 768, 1, false),
            new Size("1440", 1440, 900, 1, false),
            new Size("1440 at 200 %", 1440, 900, 2, false));

    private static final String CAPTIONS = """
            WEBVTT

            00:00:01.000 --> 00:00:04.000
            Okay, roll one. There's a 1944, no mint mark.

            00:00:05.000 --> 00:00:09.000
            Roll two. Nothing. Roll three, here's a 1951 D.
            """;

    private static final String COINS = """
            Denomination;Year;Mint;Grade;Qty;Paid;Goodies;Notes
            cent;1910;S;VF 20;1;4.50;x;
            quarter;13/25/2021;;BU;1;;;
            """;

    private static String read(String name) {
        try {
            return Files.readString(Path.of("src/test/resources").resolve(name));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static void fill(TestBench bench) {
        bench.typeAnEvening();
        bench.photograph(PaintedCoin.paint(new PaintedCoin.Second(2, 0, 0)), "one");
        bench.photograph(PaintedCoin.turned(PaintedCoin.paint(null), 20, 0.9), "two");
        bench.album("Wheat cents", "series wheat; years 1934-1958");
        bench.album("One of each design", "denomination cent; country US; one per design");
        OddsPageTest.history(bench, 3, 5, 2, 4, 30, 3, 4);
        try (BrowserContext window = Browser.window()) {
            Page page = window.newPage();
            page.navigate(bench.address + "/cabinet/coin/f1.1");
            page.locator("textarea[name=pasted]").fill("vf30 12.50\nxf40 20\nau50 31");
            page.locator("form[action$=prices] button").click();
            page.waitForLoadState();
        }
    }

    /// Every page, by its name, and how to come to it.
    private static Map<String, Consumer<Page>> pages(TestBench bench) {
        Map<String, Consumer<Page>> pages = new LinkedHashMap<>();
        List<String> paths = new ArrayList<>(AllPages.PAGES);
        String photo = bench.photographs().getFirst();
        paths.addAll(List.of(
                "/mat/1/decide",
                "/voice",
                "/scope/photo/" + photo,
                "/scope/compare?a=" + String.join("&b=", bench.photographs()),
                "/recap/1/overlay"));
        for (String path : paths) {
            pages.put(
                    path.replace(photo, "one"),
                    page -> page.navigate(
                            bench.address + path, new Page.NavigateOptions().setWaitUntil(WaitUntilState.COMMIT)));
        }
        pages.put("a narration read", page -> {
            page.navigate(bench.address + "/mat/1/narration");
            page.locator("input[type=file]").setInputFiles(file("hunt.vtt", CAPTIONS));
            page.locator("form:has(input[type=file]) button[type=submit]").click();
        });
        pages.put("a sheet read", page -> {
            page.navigate(bench.address + "/sheets?as=coins");
            page.locator("input[name=file]").setInputFiles(file("coins.csv", COINS));
            page.locator("main form button[type=submit]").click();
        });
        return pages;
    }

    private static FilePayload file(String name, String text) {
        return new FilePayload(name, "text/plain", text.getBytes(StandardCharsets.UTF_8));
    }

    /// Has every window do something at the same time, and collects what moved.
    private static void together(List<Page> open, String deed, String where, String when, List<String> faults) {
        open.forEach(page -> page.evaluate("void (window.done = steady." + deed + "())"));
        for (int i = 0; i < open.size(); i++) {
            String moved = (String) open.get(i).evaluate("window.done");
            if (!moved.isEmpty()) {
                faults.add(String.join(" | ", where, SIZES.get(i).name(), when, moved));
            }
        }
    }

    @Test
    void nothing_moves_on_any_page() {
        List<String> faults = new ArrayList<>();
        List<BrowserContext> windows = new ArrayList<>();
        try (TestBench bench = new TestBench()) {
            fill(bench);
            List<Page> open = new ArrayList<>();
            for (Size size : SIZES) {
                BrowserContext window = Browser.sized(size.width(), size.height(), size.zoom(), size.touch());
                windows.add(window);
                window.addInitScript(WATCH);
                open.add(window.newPage());
            }
            int finds = 0;
            for (Map.Entry<String, Consumer<Page>> one : pages(bench).entrySet()) {
                String name = one.getKey();
                open.forEach(one.getValue());
                open.forEach(page -> page.waitForLoadState(LoadState.LOAD));
                together(open, "moved", name, "opening", faults);
                together(open, "use", name, "typing", faults);
                // somebody at another window
                bench.type("+ 5" + finds++ % 9 + "d vf20 \"found at another window\"");
                if (name.startsWith("/albums")) {
                    bench.album("Another " + finds, "series wheat; years 1940-1949");
                }
                if (name.equals("/mat/1")) {
                    open.forEach(page -> assertThat(page.locator(".last-name")).containsText("VF20"));
                }
                open.getFirst().waitForTimeout(60);
                together(open, "moved", name, "a live update", faults);
            }
        } finally {
            windows.forEach(BrowserContext::close);
        }
        assertThat(faults).isEmpty();
    }

    @Test
    void what_moves_would_be_seen() {
        try (TestBench bench = new TestBench();
                BrowserContext window = Browser.sized(1024, 768, 1)) {
            window.addInitScript(WATCH);
            Page page = window.newPage();
            page.navigate(bench.address + "/albums");
            assertThat((String) page.evaluate("steady.moved()")).isEmpty();
            page.evaluate("document.querySelector('h1').insertAdjacentHTML('beforebegin', '<p>Late</p>')");
            assertThat((String) page.evaluate("steady.moved()"))
                    .contains("layout-shift")
                    .contains("h1");
            // below the fold, where the browser's own measure sees nothing
            page.evaluate("document.querySelector('main').style.paddingBottom = '5000px'");
            assertThat((String) page.evaluate("steady.moved()"))
                    .doesNotContain("layout-shift")
                    .contains("footer");
        }
    }
}
