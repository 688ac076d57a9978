package org.rollwright.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import java.io.IOException;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.HuntId;
import org.rollwright.web.shell.Manner;

/// Two windows on one record: none overwrites the other without a word.
class TwoTabsTest {
    private static final Pattern FIELD = Pattern.compile("<(input|textarea|select)\\b([^>]*)>([^<]*)");

    private final TestBench bench = new TestBench();
    private final HttpClient client = HttpClient.newHttpClient();

    @AfterEach
    void close() {
        client.close();
        bench.close();
    }

    private static String attribute(String tag, String name) {
        Matcher matcher = Pattern.compile("\\b" + name + "=\"([^\"]*)\"").matcher(tag);
        return matcher.find()
                ? matcher.group(1).replace("&#39;", "'").replace("&#34;", "\"").replace("&amp;", "&")
                : "";
    }

    private static String chosen(String options) {
        Matcher option = Pattern.compile("<option\\b([^>]*\\bselected\\b[^>]*)>([^<]*)")
                .matcher(options.substring(0, options.indexOf("</select>")));
        return !option.find()
                ? ""
                : option.group(1).contains("value=") ? attribute(option.group(1), "value") : option.group(2);
    }

    private String get(String path) throws IOException, InterruptedException {
        return client.send(
                        HttpRequest.newBuilder(URI.create(bench.address + path)).build(),
                        HttpResponse.BodyHandlers.ofString())
                .body();
    }

    /// The fields of the first form with an action that holds a field or button of a name, as printed.
    private Map<String, String> form(String page, String action, String holds)
            throws IOException, InterruptedException {
        Matcher form = Pattern.compile(
                        "<form[^>]*action=\"" + Pattern.quote(action) + "\"[^>]*>(.*?)</form>", Pattern.DOTALL)
                .matcher(get(page));
        while (form.find()) {
            if (form.group(1).contains(holds)) {
                Map<String, String> fields = new LinkedHashMap<>();
                Matcher field = FIELD.matcher(form.group(1));
                while (field.find()) {
                    boolean unticked = field.group(2).contains("checkbox")
                            && !field.group(2).contains(" checked");
                    String value =
                            switch (field.group(1)) {
                                case "textarea" -> field.group(3);
                                case "select" -> chosen(form.group(1).substring(field.end()));
                                default -> attribute(field.group(2), "value");
                            };
                    if (!unticked) {
                        fields.put(attribute(field.group(2), "name"), value);
                    }
                }
                return fields;
            }
        }
        throw new AssertionError("no form " + action + " with " + holds + " on " + page);
    }

    private HttpResponse<String> post(String path, Map<String, String> fields)
            throws IOException, InterruptedException {
        StringBuilder body = new StringBuilder();
        fields.forEach((name, value) -> body.append(body.isEmpty() ? "" : "&")
                .append(name)
                .append('=')
                .append(URLEncoder.encode(value, StandardCharsets.UTF_8)));
        return client.send(
                HttpRequest.newBuilder(URI.create(bench.address + path))
                        .header("Content-Type", "application/x-www-form-urlencoded")
                        .POST(HttpRequest.BodyPublishers.ofString(body.toString()))
                        .build(),
                HttpResponse.BodyHandlers.ofString());
    }

    /// Two tabs open the same form; the first saves one thing, the second another.
    private void conflict(String page, String action, String field, String first, String second)
            throws IOException, InterruptedException {
        Map<String, String> one = form(page, action, "name=\"" + field + "\"");
        Map<String, String> two = new LinkedHashMap<>(one);
        one.put(field, first);
        two.put(field, second);
        assertThat(post(action, one).statusCode()).as(action + " first").isEqualTo(303);
        long last = bench.journal.last();
        HttpResponse<String> answer = post(action, two);
        assertThat(answer.statusCode()).as(action + " second").isEqualTo(409);
        assertThat(bench.journal.last()).as(action).isEqualTo(last);
        assertThat(answer.body())
                .as(action)
                .contains(second)
                .contains("There now:")
                .contains("Nothing was saved");
    }

    @Test
    void a_box_changed_in_another_window_is_shown_and_overwritten_only_on_purpose()
            throws IOException, InterruptedException {
        Map<String, String> one = form("/boxes/1", "/boxes/1", "label");
        Map<String, String> two = new LinkedHashMap<>(one);
        one.put("note", "from the phone");
        two.put("bank", "Quarry");
        assertThat(post("/boxes/1", one).statusCode()).isEqualTo(303);
        HttpResponse<String> answer = post("/boxes/1", two);
        assertThat(answer.statusCode()).isEqualTo(409);
        assertThat(answer.body())
                .contains("from the phone")
                .contains("value=\"Quarry\"")
                .contains("1 Mar 2026");
        assertThat(bench.bench
                        .desk()
                        .<String>read(book -> book.hunt()
                                .box(new BoxId(1))
                                .orElseThrow()
                                .details()
                                .note()))
                .isEqualTo("from the phone");
        // the form that came back knows what it showed: saved again, it is saved
        Matcher mark = Pattern.compile("name=\"seen\" value=\"([^\"]*)\"").matcher(answer.body());
        assertThat(mark.find()).isTrue();
        two.put("seen", mark.group(1));
        assertThat(post("/boxes/1", two).statusCode()).isEqualTo(303);
        // and sent twice it is recorded once
        long last = bench.journal.last();
        assertThat(post("/boxes/1", two).statusCode()).isEqualTo(303);
        assertThat(bench.journal.last()).isEqualTo(last);
    }

    @Test
    void entries_about_anything_else_stand_in_no_ones_way() throws IOException, InterruptedException {
        Map<String, String> one = form("/boxes/1", "/boxes/1", "label");
        bench.type("+ 44d", "+ 39s");
        assertThat(post("/boxes/2", form("/boxes/2", "/boxes/2", "label")).statusCode())
                .isEqualTo(303);
        one.put("note", "late");
        assertThat(post("/boxes/1", one).statusCode()).isEqualTo(303);
    }

    @Test
    void every_other_form_that_changes_something_notices_as_well() throws IOException, InterruptedException {
        bench.type("+ 44d vf20", "+ 39s");
        post("/albums", Map.of("name", "Wheat", "rule", "series wheat"));
        post("/till/branches", Map.of("bank", "Quarry", "gives", "yes", "open", "MONDAY", "lead", "1"));
        conflict("/mat/1", "/mat/1/change", "roll", "5", "7");
        conflict("/albums/1", "/albums/1", "rule", "series wheat; years 1930-1939", "series wheat; years 1940-1949");
        conflict("/albums", "/albums/policy", "policy", "grade, sound", "sound, grade");
        conflict("/cabinet/coin/f1.1", "/cabinet/coin/f1.1", "line", "44d xf40", "44d f12");
        conflict("/cabinet/coin/f1.1", "/cabinet/coin/f1.1/prices", "p20", "5.00", "6.00");
        post("/cabinet/coin/f1.1/submission", Map.of("estimate", "64.2", "outcome", "", "cost", "30.00"));
        conflict("/cabinet/coin/f1.1", "/cabinet/coin/f1.1/submission", "outcome", "64", "58");
        conflict("/till/branches?edit=Quarry", "/till/branches", "note", "closed at noon", "ask for Ann");
        String variety = "/scope/variety/cent-1972-strongly-doubled-obverse";
        conflict(variety, variety, "note", "seen twice", "seen once");
    }

    @Test
    void what_another_window_changed_is_not_struck_out_or_given_up_unseen() throws IOException, InterruptedException {
        bench.type("+ 44d");
        Map<String, String> row = form("/mat/1", "/mat/1/change", "what");
        bench.type("fix f1 44s vf20");
        row.put("do", "drop");
        assertThat(post("/mat/1/change", row).statusCode()).isEqualTo(409);
        assertThat(bench.bench.desk().<Integer>read(book -> book.hunt().finds().size()))
                .isEqualTo(1);
        post("/albums", Map.of("name", "Wheat", "rule", "series wheat"));
        Map<String, String> album = form("/albums/1", "/albums/1", "rule");
        album.put("do", "remove");
        post("/albums/1", Map.of("do", "save", "name", "Wheat", "rule", "series wheat; years 1930-1939"));
        assertThat(post("/albums/1", album).statusCode()).isEqualTo(409);
    }

    @Test
    void settings_chosen_in_another_window_are_shown() throws IOException, InterruptedException {
        Map<String, String> one = form("/settings", "/settings", "region");
        Map<String, String> two = new LinkedHashMap<>(one);
        one.putAll(Map.of("region", "US", "weights", "grams", "roads", "both"));
        two.putAll(Map.of("region", "GB", "weights", "both", "roads", "both"));
        assertThat(post("/settings", one).statusCode()).isEqualTo(303);
        assertThat(post("/settings", two).statusCode()).isEqualTo(409);
        Manner.use(Manner.PLAIN);
    }

    @Test
    void undo_on_an_old_page_takes_back_nothing_that_page_did_not_show() throws IOException, InterruptedException {
        post("/albums", Map.of("name", "Wheat", "rule", "series wheat"));
        Map<String, String> old = form("/albums", "/albums/undo", "button");
        post("/albums", Map.of("name", "Lincoln", "rule", "series wheat"));
        assertThat(post("/albums/undo", old).statusCode()).isEqualTo(422);
        assertThat(bench.bench
                        .desk()
                        .<Integer>read(book -> book.album().albums().size()))
                .isEqualTo(2);
        // the page that came with the refusal shows it: now it is meant
        Map<String, String> now = form("/albums", "/albums/undo", "button");
        assertThat(post("/albums/undo", now).statusCode()).isEqualTo(303);
        // pressed twice, it takes back one
        assertThat(post("/albums/undo", now).statusCode()).isEqualTo(422);
        assertThat(bench.bench
                        .desk()
                        .<Integer>read(book -> book.album().albums().size()))
                .isEqualTo(1);
        // and the entry line of the plain page
        bench.type("+ 44d");
        Map<String, String> line = form("/mat/1", "/mat/1/line", "line");
        bench.type("39s");
        line.put("line", "<");
        assertThat(post("/mat/1/line", line).statusCode()).isEqualTo(422);
        assertThat(bench.bench.desk().<Integer>read(book -> book.hunt().finds().size()))
                .isEqualTo(2);
    }

    @Test
    void a_form_sent_twice_is_recorded_once_unless_it_is_meant_twice() throws IOException, InterruptedException {
        Map<String, String> draw = form("/till", "/till", "amount");
        draw.putAll(Map.of("kind", "DRAW", "amount", "25.00", "day", "2026-03-01"));
        assertThat(post("/till", draw).statusCode()).isEqualTo(303);
        HttpResponse<String> again = post("/till", draw);
        assertThat(again.statusCode()).isEqualTo(409);
        assertThat(again.body()).contains("Recorded already").contains("Record it once more");
        assertThat(bench.bench
                        .desk()
                        .<Integer>read(book -> book.till().cashMoves().size()))
                .isEqualTo(1);
        // other words from the same page are another deed, and so are the same words from a new page
        draw.put("amount", "26.00");
        assertThat(post("/till", draw).statusCode()).isEqualTo(303);
        Map<String, String> fresh = form("/till", "/till", "amount");
        fresh.putAll(Map.of("kind", "DRAW", "amount", "25.00", "day", "2026-03-01"));
        assertThat(post("/till", fresh).statusCode()).isEqualTo(303);
        fresh.put("again", "yes");
        assertThat(post("/till", fresh).statusCode()).isEqualTo(303);
        assertThat(bench.bench
                        .desk()
                        .<Integer>read(book -> book.till().cashMoves().size()))
                .isEqualTo(4);
        // what was refused may be sent again as it is
        fresh.putAll(Map.of("amount", "0", "again", "no"));
        assertThat(post("/till", fresh).statusCode()).isEqualTo(422);
        assertThat(post("/till", fresh).statusCode()).isEqualTo(422);
    }

    @Test
    void of_many_saves_at_once_exactly_one_is_taken() throws Exception {
        Map<String, String> form = form("/boxes/1", "/boxes/1", "label");
        List<Callable<Integer>> saves = new ArrayList<>();
        for (int i = 0; i < 16; i++) {
            Map<String, String> mine = new LinkedHashMap<>(form);
            mine.put("note", "note " + i);
            saves.add(() -> post("/boxes/1", mine).statusCode());
        }
        try (ExecutorService threads = Executors.newFixedThreadPool(16)) {
            List<Integer> answers = new ArrayList<>();
            for (var answer : threads.invokeAll(saves)) {
                answers.add(answer.get());
            }
            assertThat(answers).containsOnlyOnce(303);
        }
    }

    @Test
    void by_keyboard_or_on_a_phone_and_without_scripts_one_chooses_which_to_keep() {
        for (boolean phone : new boolean[] {false, true}) {
            String typed = phone ? "the phone's word" : "the desk's word";
            try (BrowserContext desk = Browser.window(false, false, true);
                    BrowserContext other = Browser.window(phone, phone, false)) {
                Page one = desk.newPage();
                Page two = other.newPage();
                List<String> complaints = Browser.complaints(one);
                one.navigate(bench.address + "/boxes/2");
                two.navigate(bench.address + "/boxes/2");
                // each window changes a field; both are folded away until opened
                one.locator("form.form")
                        .evaluate("form => form.closest('details') && (form.closest('details').open = true)");
                one.fill("form.form input[name=bank]", "Quarry of " + typed);
                one.locator("form.form input[name=bank]").press("Enter");
                one.waitForURL("**/boxes/2");
                if (two.locator("details:has(form.form) summary").count() > 0) {
                    two.locator("details:has(form.form) summary").click();
                }
                two.fill("form.form input[name=note]", typed);
                two.locator("form.form input[name=note]").press("Enter");
                assertThat(two.textContent("h1")).contains("Changed meanwhile");
                assertThat(two.inputValue("input[name=note]")).isEqualTo(typed);
                assertThat(two.textContent("form.changed")).contains("Quarry of " + typed);
                String size = phone ? "phone-dark" : "desk-light";
                two.screenshot(new Page.ScreenshotOptions()
                        .setPath(Path.of("target/pages/changed-" + size + ".png"))
                        .setFullPage(true));
                assertThat((Boolean) two.evaluate("() => document.documentElement.scrollWidth <= innerWidth"))
                        .isTrue();
                two.locator("button:has-text('Save mine')").focus();
                two.keyboard().press("Enter");
                two.waitForSelector("h1:not(:has-text('Changed'))");
                assertThat(bench.bench
                                .desk()
                                .<String>read(book -> book.hunt()
                                        .box(new BoxId(2))
                                        .orElseThrow()
                                        .details()
                                        .note()))
                        .isEqualTo(typed);
                assertThat(complaints).isEmpty();
            }
        }
    }

    @Test
    void quick_undo_of_ones_own_lines_needs_no_waiting_for_the_board() {
        bench.type("+ 44d");
        try (BrowserContext window = Browser.window()) {
            Page page = window.newPage();
            page.navigate(bench.address + "/mat/1");
            for (String line : List.of("39s", "36d", "41")) {
                page.fill("#line", line);
                page.press("#line", "Enter");
            }
            for (int i = 0; i < 3; i++) {
                page.press("#line", "<");
            }
            page.waitForCondition(() ->
                    bench.journal.last() >= 8 && page.locator(".find-list > li").count() == 1);
            assertThat(bench.bench
                            .desk()
                            .<Integer>read(book -> book.hunt()
                                    .hunt(new HuntId(1))
                                    .orElseThrow()
                                    .finds()
                                    .size()))
                    .isEqualTo(1);
        }
    }
}
