package org.rollwright.web;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import com.microsoft.playwright.options.ColorScheme;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/// One Chromium for all browser tests of a run; it ends with the test JVM.
final class Browser {
    /// How many milliseconds a page may take on a busy machine; nothing waits this long that is there.
    private static final int PATIENCE = 15_000;

    private static final com.microsoft.playwright.Browser CHROMIUM = launch();

    private Browser() {}

    /// Where the browser is: ./test says it, and Debian puts it in the usual place.
    private static String executable() {
        return Optional.ofNullable(System.getenv("ROLLWRIGHT_BROWSER"))
                .filter(path -> !path.isBlank())
                .orElse("/usr/bin/chromium");
    }

    private static com.microsoft.playwright.Browser launch() {
        Playwright playwright = Playwright.create(
                new Playwright.CreateOptions().setEnv(Map.of("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1")));
        return playwright
                .chromium()
                .launch(new BrowserType.LaunchOptions()
                        .setExecutablePath(Path.of(executable()))
                        .setArgs(List.of(
                                "--no-sandbox",
                                "--disable-gpu",
                                "--disable-quic",
                                "--no-first-run",
                                "--disable-background-networking",
                                "--disable-component-update",
                                "--disable-sync")));
    }

    /// A fresh window.
    ///
    /// @param phone 390 pixels wide with touch, otherwise 1440 wide
    static BrowserContext window(boolean phone, boolean dark, boolean scripts) {
        BrowserContext window = CHROMIUM.newContext(new com.microsoft.playwright.Browser.NewContextOptions()
                .setViewportSize(phone ? 390 : 1440, phone ? 844 : 900)
                .setHasTouch(phone)
                .setIsMobile(phone)
                .setJavaScriptEnabled(scripts)
                .setColorScheme(dark ? ColorScheme.DARK : ColorScheme.LIGHT));
        window.setDefaultTimeout(PATIENCE);
        PlaywrightAssertions.setDefaultAssertionTimeout(PATIENCE);
        return window;
    }

    /// A window of a size, without touch.
    ///
    /// @param zoom as a browser zooms: 2 is 200 %
    static BrowserContext sized(int width, int height, double zoom) {
        return sized(width, height, zoom, false);
    }

    /// @param touch whether a finger is the pointer, as on a phone or a tablet
    static BrowserContext sized(int width, int height, double zoom, boolean touch) {
        BrowserContext window = CHROMIUM.newContext(new com.microsoft.playwright.Browser.NewContextOptions()
                .setViewportSize((int) (width / zoom), (int) (height / zoom))
                .setHasTouch(touch)
                .setIsMobile(touch)
                .setDeviceScaleFactor(zoom));
        window.setDefaultTimeout(PATIENCE);
        PlaywrightAssertions.setDefaultAssertionTimeout(PATIENCE);
        return window;
    }

    static BrowserContext window() {
        return window(false, false, true);
    }

    /// Collects what the page complains about and every request that leaves this computer.
    static List<String> complaints(Page page) {
        List<String> complaints = new ArrayList<>();
        page.onPageError(error -> complaints.add("script: " + error));
        page.onConsoleMessage(message -> {
            if (message.type().equals("error") && !message.text().contains("422")) {
                complaints.add("console: " + message.text());
            }
        });
        page.onRequest(request -> {
            if (!request.url().startsWith("http://127.0.0.1:") && !request.url().startsWith("data:")) {
                complaints.add("asked for " + request.url());
            }
        });
        return complaints;
    }
}
