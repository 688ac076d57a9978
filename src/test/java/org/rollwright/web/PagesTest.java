package org.rollwright.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.deque.html.axecore.playwright.AxeBuilder;
import com.deque.html.axecore.results.Rule;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.rollwright.scope.picture.PaintedCoin;

/// Every page in both themes and at both widths: no serious fault by axe-core's rules (WCAG 2.0 to 2.2 A and
/// AA), nothing wider than the window, nothing asked of another computer, no script error.
class PagesTest {
    private static TestBench bench = new TestBench();

    @BeforeAll
    static void fill() {
        bench.typeAnEvening();
        bench.type("watch everything");
        bench.photograph(PaintedCoin.paint(new PaintedCoin.Second(2, 0, 0)), "one");
        bench.photograph(PaintedCoin.turned(PaintedCoin.paint(null), 20, 0.9), "two");
        bench.album("Wheat cents", "series wheat; years 1934-1958");
        bench.album("One of each design", "denomination cent; country US; one per design");
    }

    @AfterAll
    static void close() {
        bench.close();
    }

    @ParameterizedTest
    @CsvSource({"false, false", "false, true", "true, false", "true, true"})
    void every_page_is_usable_by_everyone(boolean phone, boolean dark) {
        // the rules look at colours and structure: each theme once is enough, and takes half the time
        boolean axe = phone == dark;
        List<String> faults = new ArrayList<>();
        try (BrowserContext window = Browser.window(phone, dark, true)) {
            Page page = window.newPage();
            List<String> complaints = Browser.complaints(page);
            for (String path : AllPages.PAGES) {
                page.navigate(bench.address + path);
                faults(page, path, axe, faults);
            }
            for (String path : List.of(
                    "/scope/photo/" + bench.photographs().getFirst(),
                    "/scope/compare?a=" + String.join("&b=", bench.photographs()))) {
                page.navigate(bench.address + path);
                faults(page, path, axe, faults);
            }
            page.navigate(bench.address + "/mat/1");
            page.locator("#line").fill("19");
            assertThat(page.locator("#preview")).containsText("2019");
            faults(page, "/mat/1 asking for a year", axe, faults);
            page.locator("#line").fill("nonsense");
            page.keyboard().press("Enter");
            assertThat(page.locator("#preview")).containsText("nonsense");
            faults(page, "/mat/1 with a refused line", axe, faults);
            complaints.removeIf(text -> text.contains("404"));
            faults.addAll(complaints);
        }
        assertThat(faults).isEmpty();
    }

    private static void faults(Page page, String where, boolean byAxe, List<String> faults) {
        List<Rule> violations = byAxe
                ? new AxeBuilder(page)
                        .withTags(List.of("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"))
                        .analyze()
                        .getViolations()
                : List.of();
        for (Rule rule : violations) {
            if (List.of("serious", "critical").contains(rule.getImpact())) {
                rule.getNodes().stream()
                        .limit(3)
                        .forEach(node -> faults.add(where + ": " + rule.getId() + " at " + node.getTarget() + " "
                                + node.getFailureSummary()));
            }
        }
        Object wider = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth");
        if (((Number) wider).intValue() > 0) {
            faults.add(where + ": " + wider + " pixels wider than the window");
        }
    }
}
