package org.rollwright.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.rollwright.text.Texts;
import org.rollwright.web.shell.Manner;

/// The first evening of the guide, done in French from the choice of the language to the album. What is typed and what
/// is recorded is the same as in English.
class FrenchEveningTest extends PageWithBench {
    private final Page page = window.newPage();

    @AfterEach
    void english_again() {
        Texts.use(Locale.ENGLISH);
        Manner.use(Manner.PLAIN);
    }

    private void choose(String language) {
        page.navigate(bench.address + "/settings");
        page.locator("select[name=language]").selectOption(language);
        page.locator("form[action='/settings'] button").click();
    }

    @Test
    void the_first_evening() {
        List<String> complaints = Browser.complaints(page);
        choose("fr-CA");
        assertThat(page.locator("html")).hasAttribute("lang", "fr-CA");
        assertThat(page.locator("h1")).hasText("Réglages");
        assertThat(bench.bench.settings().read()).containsEntry("language", "fr-CA");

        page.navigate(bench.address + "/guide");
        assertThat(page.locator("article h1")).hasText("La première soirée");
        assertThat(page.locator("article")).hasAttribute("lang", "fr-CA");
        page.locator("article a[href='keeping.md']").click();
        assertThat(page.locator("article")).hasAttribute("lang", "en");
        assertThat(page.locator("main")).containsText("Cette page du guide n’est encore qu’en anglais.");

        page.navigate(bench.address + "/albums");
        page.locator("input[name=name]:visible").fill("Mes cents");
        page.locator("[name=rule]:visible").fill("series wheat; years 1930-1940");
        page.locator("form.form button").click();
        assertThat(page.locator("main")).containsText("Mes cents");

        page.navigate(bench.address + "/mat");
        page.locator("select[name=denomination]").selectOption("US cent");
        page.locator(".form input[name=label]").first().fill("Boîte 77");
        page.locator("input[type=checkbox][value=wheat]").check();
        page.locator(".form button[type=submit]").click();
        assertThat(page.locator(".box-name")).hasText("Boîte 77");
        assertThat(page.locator(".watching")).containsText("guetté");

        page.keyboard().press("+");
        assertThat(page.locator(".roll-now")).hasText("rouleau 1 sur 50");
        page.keyboard().type("39s");
        assertThat(page.locator("main")).containsText("Remplit une case");
        page.keyboard().press("Enter");
        assertThat(page.locator(".last-name")).containsText("1939-S");
        page.keyboard().press("+");
        page.keyboard().type("zzz");
        page.keyboard().press("Enter");
        assertThat(page.locator("main")).containsText("«\u00A0zzz\u00A0» n’est pas un mot que je connais.");
        page.locator("#line").fill("");
        page.keyboard().press("<");
        assertThat(page.locator(".roll-now")).hasText("rouleau 1 sur 50");

        String hunt = page.url().replaceAll(".*/mat/(\\d+).*", "$1");
        page.navigate(bench.address + "/mat/" + hunt + "/finish");
        assertThat(page.locator("h1")).hasText("Terminer cette chasse?");
        page.locator("form[action$='/finish'] button").click();
        assertThat(page.locator("h1")).hasText("Comparer aux albums");
        assertThat(page.locator("main")).containsText("1 ajout, 0 mise à niveau");
        page.locator("button[value=all]").click();
        page.navigate(bench.address + "/recap/" + hunt);
        assertThat(page.locator("h1")).containsText("Bilan de");

        page.navigate(bench.address + "/till");
        page.locator("select[name=kind]").selectOption("DRAW");
        page.locator("form[action='/till'] input[name=amount]").fill("1 250,50 $");
        page.locator("form[action='/till'] input[name=day]").fill("2026-03-01");
        page.locator("form[action='/till'] button").click();
        assertThat(page.locator("main").innerText()).contains("1\u00A0250,50\u00A0$\u00A0US", "1 mars 2026");

        choose("en");
        assertThat(page.locator("html")).hasAttribute("lang", "en");
        assertThat(page.locator("h1")).hasText("Settings");
        assertThat(complaints).isEmpty();
    }

    @Test
    void a_language_that_is_not_there_is_refused() {
        choose("fr-CA");
        String answer = page.request()
                .post(
                        bench.address + "/settings",
                        com.microsoft.playwright.options.RequestOptions.create()
                                .setForm(com.microsoft.playwright.options.FormData.create()
                                        .set("language", "xx")
                                        .set("region", "")
                                        .set("weights", "BOTH")
                                        .set("roads", "BOTH")))
                .text();
        assertThat(answer).contains("Choisissez parmi ce qui est dans la liste.");
        assertThat(bench.bench.settings().read()).containsEntry("language", "fr-CA");
    }
}
