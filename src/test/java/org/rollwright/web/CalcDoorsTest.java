package org.rollwright.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.rollwright.calc.Answer;
import org.rollwright.calc.Calculator;
import org.rollwright.calc.Calculators;
import org.rollwright.calc.Field;
import org.rollwright.calc.Said;
import org.rollwright.cli.Commands;
import tools.jackson.databind.json.JsonMapper;

/// The page and the command are two doors to the same calculators: the same input is computed by both with the same
/// result, or refused by both in the same words.
class CalcDoorsTest {
    private static final JsonMapper JSON = JsonMapper.shared();

    private static final Pattern BOUNDS = Pattern.compile("least=([-0-9.E]+), most=([-0-9.E]+)");
    private static final int CORNERS = Integer.getInteger("rollwright.corners", 30);
    private static final long LONGEST_MILLIS = 5_000;

    /// What a careless, a hasty and a hostile hand type.
    private static final List<String> WRONG = List.of(
            "",
            "-1",
            "0",
            "1.5",
            "600000",
            "1e9",
            "12345678901234567890123",
            "1e308",
            "NaN",
            "five",
            "1,000",
            "½٣",
            "1 2 3",
            "{}",
            "\u001b[31m",
            "<b>x</b>",
            "%s {0} ${x}",
            "x".repeat(1_000));

    private record Case(Calculator calculator, Map<String, String> typed, Map<String, String> json) {
        String input() {
            return json.entrySet().stream()
                    .map(one -> "\"" + one.getKey() + "\":" + one.getValue())
                    .collect(Collectors.joining(",", "{", "}"));
        }

        Case with(Field field, String text, String value) {
            Map<String, String> changed = new LinkedHashMap<>(typed);
            changed.put(field.key(), text);
            Map<String, String> written = new LinkedHashMap<>(json);
            written.put(field.key(), value);
            return new Case(calculator, changed, written);
        }

        @Override
        public String toString() {
            return calculator.name() + " " + input().substring(0, Math.min(160, input().length()));
        }
    }

    /// The example of a calculator, at the page's door and at the command's.
    private static Case example(Calculator calculator, boolean otherwise) {
        Map<String, String> typed = new LinkedHashMap<>();
        for (Field field : calculator.fields()) {
            if (otherwise == (field.use() == Field.Use.OTHERWISE)) {
                typed.put(field.key(), field.example());
            }
        }
        Map<String, String> json = new LinkedHashMap<>();
        JSON.readTree(calculator.example(otherwise))
                .properties()
                .forEach(one -> json.put(one.getKey(), one.getValue().toString()));
        assertThat(json.keySet()).isEqualTo(typed.keySet());
        return new Case(calculator, typed, json);
    }

    private static List<Case> cases() {
        List<Case> cases = new ArrayList<>();
        for (Calculator calculator : Calculators.ALL) {
            for (boolean otherwise : calculator.example(true).isEmpty() ? List.of(false) : List.of(false, true)) {
                Case good = example(calculator, otherwise);
                for (Field field : calculator.fields()) {
                    for (String wrong : good.typed.containsKey(field.key()) ? WRONG : List.<String>of()) {
                        // a number of JSON where it is one, otherwise a text as in the form
                        boolean number = wrong.matches("-?(0|[1-9][0-9]*)([.][0-9]+)?(e-?[0-9]+)?");
                        String value =
                                !number ? JSON.writeValueAsString(wrong) : field.rows() ? "[[" + wrong + "]]" : wrong;
                        cases.add(good.with(field, wrong, value));
                    }
                }
            }
        }
        return cases;
    }

    private static String address(TestBench bench, Case one) {
        return bench.address + "/odds/calc?model=" + one.calculator.name()
                + one.typed.entrySet().stream()
                        .map(field -> "&" + field.getKey() + "="
                                + URLEncoder.encode(field.getValue(), StandardCharsets.UTF_8))
                        .collect(Collectors.joining());
    }

    private static HttpResponse<String> page(HttpClient client, String address)
            throws IOException, InterruptedException {
        return client.send(HttpRequest.newBuilder(URI.create(address)).build(), HttpResponse.BodyHandlers.ofString());
    }

    /// What the page says in the form of a calculator.
    private static String said(Case one, HttpResponse<String> page) {
        String html = page.body();
        int from = html.indexOf("<section class=\"panel\" aria-labelledby=\"calc-" + one.calculator.name() + "\"");
        return TwoDoorsTest.Page.text(html.substring(from, html.indexOf("</section>", from)));
    }

    private static Commands.Outcome command(Case one) {
        InputStream before = System.in;
        try {
            System.setIn(new ByteArrayInputStream(one.input().getBytes(StandardCharsets.UTF_8)));
            return Commands.run("calc", one.calculator.name());
        } finally {
            System.setIn(before);
        }
    }

    /// What each door computes, told by the other: the command's values from the form, the page's sentences from JSON.
    private static boolean same(Case one, Commands.Outcome command, String page) {
        Answer form = computed(one.calculator, Said.form(one.typed));
        Answer json = computed(
                one.calculator,
                Said.json(one.input().getBytes(StandardCharsets.UTF_8)).orElseThrow());
        return JSON.readTree(command.out()).equals(JSON.readTree(JSON.writeValueAsString(form.values())))
                && json.sentences().stream().map(TwoDoorsTest.Page::squeezed).allMatch(page::contains);
    }

    private static Answer computed(Calculator calculator, Said said) {
        return switch (calculator.compute(said)) {
            case Calculator.Outcome.Computed computed -> computed.answer();
            case Calculator.Outcome.Refused refused ->
                throw new AssertionError(refused.why().toString());
        };
    }

    @Test
    void what_is_wrong_is_refused_alike_and_what_is_right_computed_alike() throws Exception {
        List<Case> cases = cases();
        List<String> differences = new ArrayList<>();
        int refusedByBoth = 0;
        try (TestBench bench = new TestBench();
                HttpClient client = HttpClient.newHttpClient()) {
            for (Case one : cases) {
                Commands.Outcome command = command(one);
                HttpResponse<String> page = page(client, address(bench, one));
                String text = said(one, page);
                if (command.status() == 2
                        && page.statusCode() == 422
                        && text.contains(TwoDoorsTest.Page.squeezed(command.err()))) {
                    refusedByBoth++;
                } else if (command.status() != 0 || page.statusCode() != 200 || !same(one, command, text)) {
                    differences.add(one + "\n  command " + command.status() + ": " + command.err() + "  page "
                            + page.statusCode() + ": "
                            + page.body()
                                    .lines()
                                    .filter(line -> line.contains("problem"))
                                    .toList());
                }
            }
        }
        System.out.println(cases.size() + " inputs, " + refusedByBoth + " refused at both doors in the same words, "
                + (cases.size() - refusedByBoth - differences.size()) + " computed alike, " + differences.size()
                + " differences");
        assertThat(differences).isEmpty();
        assertThat(refusedByBoth).isGreaterThan(500);
    }

    @Test
    void every_example_is_computed_at_both_doors_with_the_same_numbers() throws Exception {
        try (TestBench bench = new TestBench();
                HttpClient client = HttpClient.newHttpClient()) {
            for (Calculator calculator : Calculators.ALL) {
                for (boolean otherwise : calculator.example(true).isEmpty() ? List.of(false) : List.of(false, true)) {
                    Case one = example(calculator, otherwise);
                    Commands.Outcome command = command(one);
                    HttpResponse<String> page = page(client, address(bench, one));
                    assertThat(command.err()).isEmpty();
                    assertThat(page.statusCode()).as(one.toString()).isEqualTo(200);
                    assertThat(same(one, command, said(one, page)))
                            .as(one.toString())
                            .isTrue();
                    Answer answer = computed(calculator, Said.form(one.typed));
                    assertThat(answer.sentences()).isNotEmpty();
                    assertThat(answer.values().toString() + answer.sentences()).doesNotContain("NaN", "Infinity");
                }
            }
        }
    }

    @Test
    void an_unknown_calculator_is_refused_at_both_doors() throws Exception {
        try (TestBench bench = new TestBench();
                HttpClient client = HttpClient.newHttpClient()) {
            HttpResponse<String> page = page(client, bench.address + "/odds/calc?model=moon&found=1");
            Commands.Outcome command = Commands.run("calc", "moon");
            assertThat(page.statusCode()).isEqualTo(404);
            assertThat(command.status()).isEqualTo(2);
            assertThat(command.err()).contains("'moon'").contains(Calculators.names());
            assertThat(TwoDoorsTest.Page.text(page.body())).contains(TwoDoorsTest.Page.squeezed(command.err()));
        }
    }

    /// Each field at its least, its most or as in the example, at random: computed or refused, and never a fault.
    @Test
    void no_corner_of_the_bounds_is_answered_with_a_fault() {
        Random random = new Random(5);
        List<String> faults = new ArrayList<>();
        for (int i = 0; i < CORNERS; i++) {
            for (Calculator calculator : Calculators.ALL) {
                Map<String, String> typed = new LinkedHashMap<>();
                boolean otherwise =
                        random.nextBoolean() && !calculator.example(true).isEmpty();
                for (Field field : calculator.fields()) {
                    if (otherwise == (field.use() == Field.Use.OTHERWISE)) {
                        typed.put(field.key(), corner(field, random.nextInt(3)));
                    }
                }
                long start = System.nanoTime();
                try {
                    calculator.compute(Said.form(typed));
                } catch (RuntimeException e) {
                    faults.add(calculator.name() + " " + typed + ": " + e);
                }
                long millis = (System.nanoTime() - start) / 1_000_000;
                if (millis > LONGEST_MILLIS) {
                    faults.add(calculator.name() + " " + typed + ": " + millis + " ms");
                }
            }
        }
        assertThat(faults).isEmpty();
    }

    private static String corner(Field field, int which) {
        return which == 2
                ? field.example()
                : field.example().replaceAll("-?[0-9.]+", which == 0 ? least(field.kind()) : most(field.kind()));
    }

    private static String least(Field.Kind kind) {
        Matcher bounds = BOUNDS.matcher(kind.toString());
        return bounds.find() ? bounds.group(1) : "0";
    }

    private static String most(Field.Kind kind) {
        Matcher bounds = BOUNDS.matcher(kind.toString());
        return bounds.find() ? bounds.group(2) : "0";
    }

    @Test
    void names_and_keys_are_given_once() {
        assertThat(Calculators.ALL.stream().map(Calculator::name)).doesNotHaveDuplicates();
        for (Calculator calculator : Calculators.ALL) {
            assertThat(calculator.fields().stream().map(Field::key))
                    .as(calculator.name())
                    .doesNotHaveDuplicates()
                    .doesNotContain("model");
        }
    }
}
