package org.rollwright.web;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import java.nio.file.Path;
import java.util.List;

/// Takes the guide's pictures of the real tool: bench/pictures.
final class Pictures {
    private static final Path FOLDER = Path.of("docs/guide/pictures");

    private Pictures() {}

    public static void main(String[] args) {
        try (TestBench bench = new TestBench();
                BrowserContext window = Browser.window(false, false, true)) {
            bench.album("Wheat cents of the forties", "series wheat; years 1940-1949; one per date and mint");
            bench.typeAnEvening();
            bench.type("+ 44d vf30, 49s", "+", "+ 47 xf40");
            Page page = window.newPage();
            page.setViewportSize(1100, 760);
            shot(page, bench.address + "/mat", "start.png");
            page.navigate(bench.address + "/mat/1");
            page.locator("#line").fill("45s vf20");
            page.waitForTimeout(600);
            page.screenshot(new Page.ScreenshotOptions().setPath(FOLDER.resolve("mat.png")));
            shot(page, bench.address + "/albums/compare", "compare.png");
            page.locator("form[method=post] button[type=submit]").first().click();
            page.waitForLoadState();
            shot(page, bench.address + "/albums/1", "album.png");
            shot(page, bench.address + "/recap/1", "recap.png");
        }
        System.out.println("pictures: " + List.of("start", "mat", "compare", "album", "recap"));
        System.exit(0);
    }

    private static void shot(Page page, String address, String name) {
        page.navigate(address);
        page.waitForTimeout(300);
        page.screenshot(new Page.ScreenshotOptions().setPath(FOLDER.resolve(name)));
    }
}
