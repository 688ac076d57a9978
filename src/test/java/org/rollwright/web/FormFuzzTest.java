package org.rollwright.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.hunt.HuntId;

/// Every page that links lead to, and every form on them, filled with what no hunter would type: the answer may
/// be a refusal, but never a fault of the tool.
class FormFuzzTest {
    private static final List<String> NASTY = List.of(
            "",
            " ",
            "-1",
            "0",
            "00",
            "1",
            "9999999999999999999999",
            "abc",
            "1e309",
            "NaN",
            "-0",
            "1,5",
            "12.345",
            "2026-02-30",
            "0001-01-01",
            "9999-12-31",
            "+999999999-12-31",
            "-999999999-01-01",
            "1e99999999",
            "CASX",
            "\u001B[2J",
            "\u202Eb",
            "<b>x</b>",
            "x".repeat(5_000),
            "½",
            "٣",
            "\u0000",
            "\uD7FF",
            "'\"",
            "../../etc",
            "%00",
            "1/0",
            "3/48",
            "f1",
            "f99999",
            "h1",
            "b1",
            "44d",
            "null",
            "{}",
            "\r\nX: y");

    /// What only code says.
    private static final Pattern FROM_WITHIN = Pattern.compile(
            "No enum constant|For input string|Optional\\[|java\\.lang\\.|rollwright[.\\w]*\\.[A-Z]\\w*");

    private static final Pattern LINK = Pattern.compile("(?:href|src|hx-get)=\"(/[^\"#]*)");
    private static final Pattern FORM = Pattern.compile("<form([^>]*)>(.*?)</form>", Pattern.DOTALL);
    private static final Pattern FIELD =
            Pattern.compile("<(input|textarea|button)\\b([^>]*)>|<select\\b([^>]*)>(.*?)</select>", Pattern.DOTALL);
    private static final Pattern OPTION = Pattern.compile("<option\\b([^>]*)>");

    private record Field(String name, String value, List<String> options, boolean maybe) {}

    private record Form(String action, boolean post, boolean parts, List<Field> fields) {}

    private final TestBench bench = new TestBench();
    private final HttpClient client = HttpClient.newHttpClient();
    private final Map<String, Form> forms = new LinkedHashMap<>();
    private final List<String> faults = new ArrayList<>();
    private int calls;

    private static String attribute(String tag, String name) {
        Matcher matcher = Pattern.compile("\\b" + name + "=\"([^\"]*)\"").matcher(tag);
        return matcher.find() ? matcher.group(1).replace("&amp;", "&").replace("&quot;", "\"") : "";
    }

    private static String shape(String path) {
        return path.replaceAll("[0-9]+", "N");
    }

    private HttpResponse<String> call(String what, HttpRequest.Builder request)
            throws IOException, InterruptedException {
        calls++;
        HttpResponse<String> answer = client.send(request.build(), HttpResponse.BodyHandlers.ofString());
        if (answer.statusCode() >= 500
                || answer.body().contains("\tat org.")
                // the list of libraries is full of such names
                || (!what.contains("/about/")
                        && FROM_WITHIN.matcher(answer.body()).find())) {
            faults.add(answer.statusCode() + " " + what);
        }
        return answer;
    }

    private HttpResponse<String> get(String path) throws IOException, InterruptedException {
        return call("GET " + path, HttpRequest.newBuilder(URI.create(bench.address + path.replace(" ", "%20"))));
    }

    private void crawl() throws IOException, InterruptedException {
        Deque<String> waiting = new ArrayDeque<>(List.of(
                "/mat",
                "/boxes",
                "/albums",
                "/scope",
                "/scale",
                "/cabinet",
                "/till",
                "/odds",
                "/recap/series",
                "/settings",
                "/help",
                "/about"));
        Set<String> seen = new HashSet<>();
        Map<String, Integer> shapes = new HashMap<>();
        while (!waiting.isEmpty() && seen.size() < 250) {
            String path = waiting.removeFirst();
            boolean known = !seen.add(path) || shapes.merge(shape(path), 1, Integer::sum) > 2;
            if (known || path.endsWith("/live") || path.startsWith("/assets/")) {
                continue;
            }
            HttpResponse<String> page = get(path);
            for (String number : List.of("0", "99999999", "9".repeat(25))) {
                get(path.replaceFirst("[0-9]+", number));
            }
            if (!page.headers().firstValue("Content-Type").orElse("").contains("html")) {
                continue;
            }
            Matcher link = LINK.matcher(page.body());
            while (link.find()) {
                waiting.add(link.group(1).replace("&amp;", "&"));
            }
            read(path, page.body());
        }
    }

    private void read(String path, String page) {
        Matcher form = FORM.matcher(page);
        while (form.find()) {
            String head = form.group(1);
            String action = attribute(head, "action").isEmpty() ? path : attribute(head, "action");
            List<Field> fields = new ArrayList<>();
            Matcher field = FIELD.matcher(form.group(2));
            while (field.find()) {
                boolean select = field.group(1) == null;
                String tag = select ? field.group(3) : field.group(2);
                List<String> options = new ArrayList<>();
                if (select) {
                    Matcher option = OPTION.matcher(field.group(4));
                    while (option.find()) {
                        options.add(attribute(option.group(1), "value"));
                    }
                }
                String name = attribute(tag, "name");
                if (!name.isEmpty()) {
                    String value = options.isEmpty() ? attribute(tag, "value") : options.getFirst();
                    boolean maybe = !select
                            && (tag.contains("checkbox")
                                    || tag.contains("radio")
                                    || field.group(1).equals("button"));
                    fields.add(new Field(name, value, options, maybe));
                }
            }
            boolean post = attribute(head, "method").equalsIgnoreCase("post");
            Form read = new Form(action, post, attribute(head, "enctype").startsWith("multipart"), fields);
            Set<String> names = new java.util.TreeSet<>();
            fields.forEach(one -> names.add(one.name));
            forms.putIfAbsent(post + shape(action) + names, read);
        }
    }

    private void submit(Form form, List<String[]> values) throws IOException, InterruptedException {
        StringBuilder told = new StringBuilder(form.action);
        values.forEach(value ->
                told.append(' ').append(value[0]).append('=').append(value[1], 0, Math.min(30, value[1].length())));
        if (form.parts) {
            StringBuilder body = new StringBuilder();
            values.forEach(value -> body.append("--cut\r\nContent-Disposition: form-data; name=\"")
                    .append(value[0])
                    .append(value[0].equals("file") || value[0].equals("photo") ? "\"; filename=\"a.csv" : "")
                    .append("\"\r\n\r\n")
                    .append(value[1])
                    .append("\r\n"));
            call(
                    "POST " + told,
                    HttpRequest.newBuilder(URI.create(bench.address + form.action))
                            .header("Content-Type", "multipart/form-data; boundary=cut")
                            .POST(HttpRequest.BodyPublishers.ofString(body + "--cut--\r\n")));
            return;
        }
        StringBuilder body = new StringBuilder();
        values.forEach(value -> body.append(body.isEmpty() ? "" : "&")
                .append(value[0])
                .append('=')
                .append(URLEncoder.encode(value[1], StandardCharsets.UTF_8)));
        if (form.post) {
            call(
                    "POST " + told,
                    HttpRequest.newBuilder(URI.create(bench.address + form.action))
                            .header("Content-Type", "application/x-www-form-urlencoded")
                            .POST(HttpRequest.BodyPublishers.ofString(body.toString())));
        } else {
            call("GET " + told, HttpRequest.newBuilder(URI.create(bench.address + form.action + "?" + body)));
        }
    }

    @Test
    void no_page_and_no_form_answers_with_a_fault() throws IOException, InterruptedException {
        try (bench;
                client) {
            for (String line : List.of("+ 44d", "x3 45 rpm", "+ 36", "ca 67", "w 100g", "\"a note\"", "put f1 album")) {
                bench.bench.recorder().record(new HuntId(1), line);
            }
            bench.bench
                    .desk()
                    .record(
                            0,
                            "",
                            book -> new HuntEvent.OpeningBalance(
                                    org.rollwright.coin.Denomination.US_CENT, "wheat", 4, 10_000, 41));
            crawl();
            Random random = new Random(20_261_126);
            for (int round = 0; round < 16; round++) {
                if (round == 5) {
                    // forms of an album or a place made meanwhile
                    crawl();
                }
                for (Form form : List.copyOf(forms.values())) {
                    List<String[]> values = new ArrayList<>();
                    for (Field field : form.fields) {
                        if (!field.maybe || random.nextBoolean()) {
                            values.add(new String[] {field.name, field.value});
                        }
                    }
                    for (int change = round == 0 ? 0 : 1 + random.nextInt(3);
                            change > 0 && !values.isEmpty();
                            change--) {
                        int at = random.nextInt(values.size());
                        String name = values.get(at)[0];
                        List<String> options = form.fields.stream()
                                .filter(field -> field.name.equals(name))
                                .flatMap(field -> field.options.stream())
                                .toList();
                        values.get(at)[1] = !options.isEmpty() && random.nextBoolean()
                                ? options.get(random.nextInt(options.size()))
                                : NASTY.get(random.nextInt(NASTY.size()));
                        if (random.nextInt(10) == 0) {
                            values.remove(at);
                        }
                    }
                    submit(form, values);
                }
            }
            System.out.println(forms.size() + " forms, " + calls + " requests, " + faults.size() + " faults");
            assertThat(faults).isEmpty();
            assertThat(forms).hasSizeGreaterThan(50);
        }
    }
}
