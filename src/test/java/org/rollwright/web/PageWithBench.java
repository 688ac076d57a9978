package org.rollwright.web;

import com.microsoft.playwright.BrowserContext;
import org.junit.jupiter.api.AfterEach;

/// A bench and a browser window of its own for every test.
abstract class PageWithBench {
    final TestBench bench = new TestBench();
    final BrowserContext window = Browser.window();

    @AfterEach
    void close() {
        window.close();
        bench.close();
    }
}
