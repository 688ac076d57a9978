package org.rollwright.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.FilePayload;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.rollwright.scope.AttributionNote;
import org.rollwright.scope.picture.PaintedCoin;

/// The Scope in a browser, by keyboard and mouse.
class ScopePageTest extends PageWithBench {
    private Page page() {
        return window.newPage();
    }

    private static FilePayload file(String name, byte[] png) {
        return new FilePayload(name, "image/png", png);
    }

    private void keep(Page page, FilePayload file, String caption) {
        page.navigate(bench.address + "/scope");
        page.locator(".photo-form input[type=file]").setInputFiles(file);
        page.locator(".photo-form input[name=caption]").fill(caption);
        page.locator(".photo-form button[type=submit]").click();
        page.waitForURL(Pattern.compile(".*/scope/photo/.*"));
    }

    /// Clicks a point given in pixels of the photograph.
    private static void click(Page page, double x, double y) {
        page.evaluate("""
                ([x, y]) => {
                  const c = document.getElementById('stage'), r = c.getBoundingClientRect(), k = c.width / c.clientWidth;
                  const s = Math.min(c.width / 1000, c.height / 1000);
                  const at = { clientX: r.left + ((x + .5) * s + (c.width - 1000 * s) / 2) / k,
                               clientY: r.top + ((y + .5) * s + (c.height - 1000 * s) / 2) / k,
                               pointerId: 1, bubbles: true, isPrimary: true };
                  const make = (type) => { const e = new PointerEvent(type, at);
                    Object.defineProperty(e, 'offsetX', { value: at.clientX - r.left });
                    Object.defineProperty(e, 'offsetY', { value: at.clientY - r.top }); return e; };
                  c.setPointerCapture = () => {};
                  c.dispatchEvent(make('pointerdown')); c.dispatchEvent(make('pointerup'));
                }
                """, List.of(x, y));
    }

    @Test
    void a_photograph_is_outlined_and_six_pairs_give_the_motion_and_a_drawing() {
        Page page = page();
        List<String> complaints = Browser.complaints(page);
        PaintedCoin.Second second = new PaintedCoin.Second(-2, 0, 0);
        keep(page, file("doubled.png", PaintedCoin.png(PaintedCoin.paint(second))), "obverse, doubled");
        String[] outline =
                page.locator("#bench-photo").getAttribute("data-outline").split(" ");
        assertThat(Double.parseDouble(outline[0])).isBetween(497.0, 503.0);
        assertThat(Double.parseDouble(outline[2])).isBetween(415.0, 425.0);
        page.locator("#diameter").selectOption("19.05");
        for (double[] corner : PaintedCoin.corners().subList(0, 6)) {
            double[] to = second.of(corner);
            click(page, corner[0], corner[1]);
            click(page, to[0], to[1]);
        }
        page.locator("#result h2").waitFor();
        assertThat(page.locator("#result h2").innerText()).isEqualTo("Motion: rotation");
        assertThat(page.locator("#result").innerText())
                .containsPattern("turned (1\\.9|2\\.0)\\d?° .* counter-clockwise")
                .contains("thousandths of an inch")
                .contains("AICc");
        assertThat(page.locator("#result").getAttribute("data-drawing")).startsWith("rotation");
        page.locator("select[name=shelf]").selectOption("no");
        page.locator("select[name=wider]").selectOption("yes");
        page.locator("text=More speaks for a doubled die").waitFor();
        // undo takes the last point back
        page.locator("#stage").focus();
        page.keyboard().press("u");
        page.keyboard().press("u");
        page.locator("text=5 pairs set").waitFor();
        assertThat(complaints).isEmpty();
    }

    @Test
    void points_can_be_set_without_a_mouse() {
        Page page = page();
        keep(page, file("coin.png", PaintedCoin.png(PaintedCoin.paint(null))), "");
        page.locator("#stage").focus();
        page.keyboard().press("m");
        page.keyboard().press("ArrowRight");
        page.keyboard().press("Enter");
        for (int i = 0; i < 3; i++) {
            page.keyboard().press("Shift+ArrowUp");
        }
        page.keyboard().press("Enter");
        page.locator("#diameter").selectOption("19.05");
        page.locator("text=N of the first").waitFor();
    }

    @Test
    void two_photographs_are_laid_over_each_other_and_blink() {
        Page page = page();
        List<String> complaints = Browser.complaints(page);
        var coin = PaintedCoin.paint(null);
        keep(page, file("one.png", PaintedCoin.png(coin)), "before");
        keep(page, file("two.png", PaintedCoin.png(PaintedCoin.turned(coin, 37, 0.9))), "after");
        page.locator("a:has(img[alt*='before'])").click();
        page.waitForURL(Pattern.compile(".*/scope/compare.*"));
        assertThat(page.locator(".verdict").innerText()).startsWith("The same side of the same design");
        assertThat(page.content()).containsPattern("turned by 3[67]\\.\\d\\d° counter-clockwise");
        page.keyboard().press("b");
        page.waitForCondition(() -> Boolean.TRUE.equals(
                page.evaluate("document.getElementById('overlay-box').classList.contains('other')")));
        page.keyboard().press("d");
        assertThat(page.evaluate("getComputedStyle(document.querySelector('.frame-two')).mixBlendMode"))
                .isEqualTo("difference");
        page.keyboard().press("s");
        page.keyboard().press("w");
        page.locator("#wipe").fill("20");
        assertThat(page.evaluate("getComputedStyle(document.querySelector('.frame-two')).clipPath")
                        .toString())
                .contains("20%");
        assertThat(complaints).isEmpty();
    }

    @Test
    void a_prompt_leads_to_an_attribution_whose_verdict_is_kept_with_the_find() {
        Page page = page();
        List<String> complaints = Browser.complaints(page);
        page.navigate(bench.address + "/mat/1");
        page.locator("#line").fill("43d");
        page.keyboard().press("Enter");
        page.locator(".prompts").waitFor();
        assertThat(page.locator(".prompts li").first().innerText()).contains("boldly doubled D");
        page.keyboard().press("*");
        page.waitForURL(bench.address + "/scope/find/1/1");
        // answers by keys: yes to what belongs to the variety, no to what belongs to strike doubling
        for (int i = 0; i < 20 && page.locator(".question").count() > 0; i++) {
            String question = page.locator(".question").innerText();
            boolean strike = question.contains("flat low shelf")
                    || question.contains("thinner, not thicker")
                    || question.contains("doubled the same way")
                    || question.contains("smear")
                    || question.contains("softness")
                    || question.contains("magnet")
                    || question.contains("2.98")
                    || question.contains("copper colour")
                    || question.contains("bar stands")
                    || question.contains("straight tail");
            String before = page.url();
            page.keyboard().press(strike ? "n" : "y");
            page.waitForURL(url -> !url.equals(before));
        }

        assertThat(page.locator(".verdict").first().innerText())
                .matches("(Probable|Matched): 1943-D boldly doubled D.*");
        page.locator("input[name=note]").fill("north-east of the first");
        page.locator("#keep").click();
        page.waitForURL(Pattern.compile(".*/mat/1"));
        Locator row = page.locator("#f1");
        assertThat(row.innerText()).containsPattern("(probable|matched): 1943-D boldly doubled D");
        AttributionNote note = bench.bench
                .desk()
                .<List<AttributionNote>>read(
                        book -> List.copyOf(book.scope().attributions().values()))
                .getFirst();
        assertThat(note.path()).hasSizeGreaterThan(4);
        // undo on the Mat takes the verdict back
        page.locator("#line:focus").waitFor();
        page.keyboard().press("<");
        page.waitForCondition(() -> !page.locator("#f1").innerText().contains("boldly doubled D,")
                && !page.locator("#f1 .tag.look").isVisible());
        assertThat(complaints).isEmpty();
    }

    @Test
    void checked_none_of_them_is_a_trial_for_each_variety() {
        bench.type("72");
        bench.type("-");
        assertThat(bench.bench.desk().<Integer>read(book -> book.hunt().checks().size()))
                .isGreaterThanOrEqualTo(2);
        Page page = page();
        page.navigate(bench.address + "/scope?q=1972");
        assertThat(page.locator("tr:has-text('1972 strongly doubled obverse') td")
                        .last()
                        .innerText())
                .isEqualTo("1");
    }

    @Test
    void a_renamed_program_is_refused_with_a_sentence() {
        Page page = page();
        page.navigate(bench.address + "/scope");
        page.locator(".photo-form input[type=file]")
                .setInputFiles(new FilePayload(
                        "coin.jpg",
                        "image/jpeg",
                        ("MZ" + "x".repeat(200)).getBytes(java.nio.charset.StandardCharsets.US_ASCII)));
        page.locator(".photo-form button[type=submit]").click();
        page.locator(".problem").waitFor();
        assertThat(page.locator(".problem").innerText()).contains("coin.jpg: This is a program, not a photograph.");
        assertThat(bench.bench
                        .desk()
                        .<Integer>read(book -> book.scope().photos().size()))
                .isZero();
    }

    @Test
    void a_variety_is_added_changed_and_taken_out_on_the_page_and_by_csv() {
        Page page = page();
        page.navigate(bench.address + "/scope/new");
        page.locator("input[name=name]").fill("1958 die chip in the 8");
        page.locator("input[name=years]").fill("1958");
        page.locator("input[name=type]").fill("die break");
        page.locator("input[name=where]").fill("last figure of the date");
        page.locator("textarea[name=markers]").fill("the lower loop is filled");
        page.locator("form.form button[type=submit]").click();
        page.locator(".problem").waitFor();
        assertThat(page.locator(".problem").innerText()).startsWith("markers:").contains("[90/2 10s fine]");
        assertThat(page.locator("input[name=name]").inputValue()).isEqualTo("1958 die chip in the 8");
        page.locator("textarea[name=markers]").fill("the lower loop is filled [95/2 5s]");
        page.locator("form.form button[type=submit]").click();
        page.waitForURL(Pattern.compile(".*/scope/variety/cent-1958-die-chip-in-the-8"));
        bench.type("58");
        assertThat(bench.bench
                        .desk()
                        .<List<String>>read(book -> bench.bench
                                .varieties()
                                .keys(
                                        book.scope(),
                                        book.hunt(),
                                        book.hunt()
                                                .finds()
                                                .iterator()
                                                .next()
                                                .facts()
                                                .identity())))
                .contains("cent-1958-die-chip-in-the-8");
        String csv = page.request().get(bench.address + "/scope/varieties.csv").text();
        assertThat(csv).contains("cent-1958-die-chip-in-the-8").contains("cross_references");
        page.navigate(bench.address + "/scope");
        page.locator("input[name=file]")
                .setInputFiles(new FilePayload(
                        "mine.csv",
                        "text/csv",
                        csv.replace("die break,last figure", "die chip,last figure")
                                .getBytes(java.nio.charset.StandardCharsets.UTF_8)));
        page.locator("text=Take them").click();
        page.waitForURL(bench.address + "/scope");
        assertThat(bench.bench
                        .desk()
                        .<Integer>read(book -> book.scope().varieties().size()))
                .isEqualTo(1);
        page.navigate(bench.address + "/scope/variety/cent-1958-die-chip-in-the-8");
        assertThat(page.content()).contains("die chip");
        page.locator("text=Take this variety out").click();
        page.waitForURL(bench.address + "/scope");
        assertThat(bench.bench
                        .desk()
                        .<Integer>read(book -> book.scope().varieties().size()))
                .isZero();
    }

    /// The spot is shown by an outline and an arrow beside colour, and told in words to who listens.
    @Test
    void where_to_look_is_drawn_on_a_variety_and_in_every_question_of_an_attribution() {
        Page page = page();
        List<String> complaints = Browser.complaints(page);
        page.navigate(bench.address + "/scope/variety/cent-1994-doubled-columns");
        Locator figure = page.locator(".look figure");
        assertThat(figure.count()).isEqualTo(1);
        assertThat(figure.locator("figcaption").textContent())
                .contains("Reverse: right bays of the building", "Memorial building with twelve columns");
        assertThat(figure.locator("svg").getAttribute("aria-hidden")).isEqualTo("true");
        assertThat(figure.locator(".zone-line").getAttribute("stroke-dasharray"))
                .isNotEmpty();
        assertThat(figure.locator(".zone-arrow").count()).isEqualTo(1);
        page.setViewportSize(360, 700);
        assertThat((Integer) page.evaluate("document.documentElement.scrollWidth"))
                .isLessThanOrEqualTo(360);
        page.navigate(bench.address + "/scope/variety/dollar-plain-edge");
        assertThat(page.locator(".look").textContent()).contains("The edge");
        assertThat(complaints).isEmpty();
    }
}
