package org.rollwright.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaFieldAccess;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.syntax.ArchRuleDefinition;
import java.io.IOException;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.rollwright.action.Action;
import org.rollwright.action.Actions;
import org.rollwright.action.Field;
import org.rollwright.action.Fields;
import org.rollwright.cli.Commands;
import org.rollwright.desk.State;
import org.rollwright.desk.StateText;
import org.rollwright.journal.Event;
import org.rollwright.store.Store;
import org.rollwright.web.shell.Door;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/// A page and a command are two doors to the same action: the same input is taken by both, or refused by both in the
/// same words.
class TwoDoorsTest {
    private static final JavaClasses HOUSE = new ClassFileImporter()
            .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
            .importPackages("org.rollwright");

    /// What a careless, a hasty and a hostile hand type; none of it holds what a script takes for its own marks.
    private static final List<String> WRONG = List.of(
            "-1",
            "0",
            "1.5.2",
            "1,50",
            "2,500",
            "1,2345",
            "99999999999",
            "12345678901234567890",
            "1e9",
            "NaN",
            "2026-02-30",
            "31.4.2026",
            "9999-12-31",
            "five",
            "ß½٣",
            "own.0",
            "USD",
            "yes no",
            "x".repeat(1_000));

    /// Where the form of each action goes, and what it says besides.
    private static final Map<String, String> FORMS = forms();

    @TempDir
    Path folder;

    private static Map<String, String> forms() {
        Map<String, String> forms = new TreeMap<>();
        forms.put("hunt", "/mat");
        forms.put("box", "/boxes");
        forms.put("box-change", "/boxes/{box}");
        forms.put("opening", "/boxes/opening");
        forms.put("decide", "/mat/{hunt}/decide");
        forms.put("variety", "/scope/new");
        forms.put("variety-off", "/scope/variety/{key}/remove");
        forms.put("attributed", "/scope/find/1/1");
        forms.put("photo-off", "/scope/photos/take-out");
        forms.put("album", "/albums");
        forms.put("album-off", "/albums/{album}?do=remove");
        forms.put("take-out", "/albums/{album}?do=take");
        forms.put("owned", "/albums/{album}?do=owned");
        forms.put("policy", "/albums/policy");
        forms.put("accept", "/albums/compare");
        forms.put("cup", "/scale/cup");
        forms.put("reading", "/scale/reading");
        forms.put("pile", "/scale/pile");
        forms.put("metal", "/scale/price");
        forms.put("coin", "/cabinet/add");
        forms.put("coin-told", "/cabinet/coin/{coin}");
        forms.put("put", "/cabinet/move?do=put");
        forms.put("left", "/cabinet/move?do=left");
        forms.put("graded", "/cabinet/coin/{coin}/submission");
        forms.put("prices", "/cabinet/coin/{coin}/prices");
        forms.put("place", "/cabinet/place");
        forms.put("place-off", "/cabinet/place/remove");
        forms.put("cash", "/till");
        forms.put("back", "/till/return");
        forms.put("branch", "/till/branches");
        forms.put("branch-off", "/till/branches/remove");
        forms.put("order", "/boxes/orders");
        forms.put("arrived", "/boxes/orders/end");
        forms.put("spent", "/till/time");
        return forms;
    }

    /// Fields that a page has in its address or under another name, and which are therefore not varied.
    private static final Map<String, List<String>> FIXED = Map.ofEntries(
            Map.entry("box-change", List.of("box")),
            Map.entry("decide", List.of("hunt")),
            Map.entry("variety", List.of("key")),
            Map.entry("variety-off", List.of("key")),
            Map.entry("attributed", List.of("find", "answers")),
            Map.entry("photo-off", List.of("find")),
            Map.entry("album", List.of("album")),
            Map.entry("album-off", List.of("album")),
            Map.entry("take-out", List.of("album")),
            Map.entry("owned", List.of("album")),
            Map.entry("coin-told", List.of("coin")),
            Map.entry("graded", List.of("coin")),
            Map.entry("prices", List.of("coin")));

    /// What there is before anything wrong is typed.
    private static final List<String> BEFORE = List.of(
            "@hunt Box 1; denomination cent; watch wheat",
            "+ 1939s vf20",
            "44d",
            "@branch Hill Bank; branch Mill Lane",
            "@album Wheat cents: series wheat; years 1934-1958",
            "@coin x2 1936 vf20",
            "@place Box of flips",
            "@cup copper; alloy us-cent-brass; tare 10 g; step 0.1 g",
            "@order Hill Bank, Mill Lane; coins cent; boxes 2; day 2026-03-02; due 2026-03-04");

    @Test
    void every_action_has_a_form() {
        assertThat(FORMS.keySet())
                .isEqualTo(Actions.ALL.stream().map(Action::name).collect(Collectors.toCollection(TreeSet::new)));
    }

    @Test
    void pages_ask_for_every_action_and_make_no_event_themselves() {
        List<String> unasked = HOUSE.stream()
                .filter(one -> one.getSimpleName().endsWith("Actions"))
                .flatMap(one -> one.getFields().stream())
                .filter(field -> field.getRawType().isEquivalentTo(Action.class))
                .filter(field -> field.getAccessesToSelf().stream()
                        .map(JavaFieldAccess::getOriginOwner)
                        .noneMatch(asking -> asking.getPackageName().startsWith("org.rollwright.web")))
                .map(field -> field.getFullName())
                .toList();
        assertThat(unasked).isEmpty();
        ArchRuleDefinition.noClasses()
                .that()
                .resideInAnyPackage("org.rollwright.web..", "org.rollwright.cli..")
                .and()
                .doNotHaveSimpleName("WarmUpCommand")
                .should()
                .callConstructorWhere(new com.tngtech.archunit.base.DescribedPredicate<>("makes an event") {
                    @Override
                    public boolean test(com.tngtech.archunit.core.domain.JavaConstructorCall call) {
                        return call.getTargetOwner().isAssignableTo(Event.class);
                    }
                })
                .because("what a page or a command does is an action, with the same bounds at both doors")
                .check(HOUSE);
    }

    private record Case(Action action, Map<String, String> typed) {
        String line() {
            return switch (action.name()) {
                case "album" -> "@album " + typed.getOrDefault("name", "") + ": " + typed.getOrDefault("rule", "");
                case "opening" ->
                    "@opening "
                            + action.fields().stream()
                                    .map(field -> typed.get(field.name()))
                                    .collect(Collectors.joining(" "));
                default ->
                    "@" + action.name() + " "
                            + typed.entrySet().stream()
                                    .map(entry -> "; " + entry.getKey() + " " + entry.getValue())
                                    .collect(Collectors.joining());
            };
        }
    }

    private static List<Case> cases() {
        List<Case> cases = new ArrayList<>();
        for (Action action : Actions.ALL) {
            Map<String, String> good = new LinkedHashMap<>();
            for (Field field : action.fields()) {
                // a variety or an album of that name is there already once one was taken
                if ((!field.example().isEmpty() && field.needed())
                        || fixed(action).contains(field.name())) {
                    good.put(field.name(), field.example());
                }
            }
            good.keySet().removeIf(name -> name.equals("key") && action.name().equals("variety"));
            if (action.name().equals("album")) {
                good.remove("album");
            }
            if (action.name().equals("photo-off")) {
                good.remove("find");
            }
            for (Field field : action.fields()) {
                for (String wrong : WRONG) {
                    boolean script = action.name().equals("opening") && wrong.contains(" ");
                    if (!fixed(action).contains(field.name()) && !script) {
                        Map<String, String> typed = new LinkedHashMap<>(good);
                        typed.put(field.name(), wrong);
                        cases.add(new Case(action, typed));
                    }
                }
            }
        }
        return cases;
    }

    private static List<String> fixed(Action action) {
        return FIXED.getOrDefault(action.name(), List.of());
    }

    @Test
    void what_is_wrong_is_refused_alike_at_both_doors() throws Exception {
        List<Case> cases = cases();
        List<String> lines = new ArrayList<>(BEFORE);
        cases.forEach(one -> lines.add(one.line()));
        Path script = Files.write(folder.resolve("script.txt"), lines);
        Commands.Outcome outcome = Commands.run(
                "mat",
                "--data",
                folder.resolve("data").toString(),
                "--script",
                script.toString(),
                "--keep-going",
                "--json");
        Map<Integer, String> byCommand = new TreeMap<>();
        for (JsonNode refused : JsonMapper.shared().readTree(outcome.out()).get("refused")) {
            byCommand.put(
                    refused.get("line").asInt(),
                    refused.get("wrong").asString() + " " + refused.get("right").asString());
        }
        for (int i = 1; i <= BEFORE.size(); i++) {
            assertThat(byCommand).as(BEFORE.get(i - 1)).doesNotContainKey(i);
        }
        List<String> differences = new ArrayList<>();
        int refusedByBoth = 0;
        try (TestBench bench = new TestBench(InstantSource.system())) {
            before(bench);
            for (int i = 0; i < cases.size(); i++) {
                String command = byCommand.get(BEFORE.size() + i + 1);
                HttpResponse<String> page = post(bench, cases.get(i));
                String text = Page.text(page.body());
                boolean refused = page.statusCode() == 422;
                if (refused && command != null && text.contains(Page.squeezed(command))) {
                    refusedByBoth++;
                } else if (refused || command != null) {
                    differences.add(cases.get(i)
                                    .line()
                                    .substring(
                                            0, Math.min(160, cases.get(i).line().length()))
                            + "\n  command: " + command + "\n  page " + page.statusCode() + ": "
                            + (refused ? Page.problems(text) : ""));
                }
            }
            // what both took, both must have recorded alike
            assertThat(Page.apart(recorded(bench.bench.desk().state()), byCommand()))
                    .isEmpty();
        }
        System.out.println(cases.size() + " inputs, " + refusedByBoth + " refused at both doors in the same words, "
                + (cases.size() - refusedByBoth - differences.size()) + " taken by both, " + differences.size()
                + " differences");
        assertThat(differences).isEmpty();
        assertThat(refusedByBoth).isGreaterThan(500);
    }

    private List<String> byCommand() {
        Store.Opening opening = Store.open(folder.resolve("data"), Store.Mode.READ, InstantSource.system());
        try (Store store = ((Store.Opening.Opened) opening).store()) {
            return recorded(store.desk().state());
        }
    }

    /// A state as lines, without the times of day, and without the journal's length: a page that is sent twice is
    /// recorded once, a line of a script that stands twice is not.
    private static List<String> recorded(State state) {
        return StateText.whole(state)
                .replaceAll("\\d{4}-\\d\\d-\\d\\dT[0-9:.]+Z", "(time)")
                .replaceAll(" last [0-9]+", "")
                .lines()
                .toList();
    }

    /// The same beginning, by the same actions.
    private static void before(TestBench bench) {
        Door door = new Door(bench.bench);
        for (Map.Entry<String, Map<String, String>> one : List.of(
                Map.entry("hunt", Map.of("name", "Box 1", "denomination", "cent", "watch", "wheat")),
                Map.entry("", Map.of("line", "+ 1939s vf20")),
                Map.entry("", Map.of("line", "44d")),
                Map.entry(
                        "branch",
                        Map.of(
                                "bank",
                                "Hill Bank",
                                "branch",
                                "Mill Lane",
                                "gives",
                                "yes",
                                "takes",
                                "yes",
                                "open",
                                "mon tue wed thu fri")),
                Map.entry("album", Map.of("name", "Wheat cents", "rule", "series wheat; years 1934-1958")),
                Map.entry("coin", Map.of("line", "x2 1936 vf20")),
                Map.entry("place", Map.of("name", "Box of flips")),
                Map.entry("cup", Map.of("name", "copper", "alloy", "us-cent-brass", "tare", "10 g", "step", "0.1 g")),
                Map.entry(
                        "order",
                        Map.of(
                                "where",
                                "Hill Bank, Mill Lane",
                                "denomination",
                                "cent",
                                "boxes",
                                "2",
                                "placed",
                                "2026-03-02",
                                "due",
                                "2026-03-04")))) {
            if (one.getKey().isEmpty()) {
                assertThat(bench.bench
                                .recorder()
                                .record(
                                        new org.rollwright.hunt.HuntId(1),
                                        one.getValue().getOrDefault("line", "")))
                        .isInstanceOf(org.rollwright.entry.Recorder.Outcome.Recorded.class);
            } else {
                assertThat(door.perform(
                                Fields.of(one.getValue()),
                                Actions.named(one.getKey()).orElseThrow(),
                                (known, event) -> {}))
                        .as(one.getKey())
                        .isInstanceOf(Action.Answer.Done.class);
            }
        }
    }

    private static HttpResponse<String> post(TestBench bench, Case one) throws IOException, InterruptedException {
        String form = FORMS.getOrDefault(one.action.name(), "");
        Map<String, String> typed = new LinkedHashMap<>(one.typed);
        String path = form;
        for (Map.Entry<String, String> entry : one.typed.entrySet()) {
            if (path.contains("{" + entry.getKey() + "}")) {
                path = path.replace("{" + entry.getKey() + "}", entry.getValue());
                typed.remove(entry.getKey());
            }
        }
        if (path.contains("?do=")) {
            typed.put("do", path.substring(path.indexOf("?do=") + 4));
            path = path.substring(0, path.indexOf('?'));
        }
        if (one.action.name().equals("attributed")) {
            typed.put("a", typed.remove("answers"));
        }
        if (one.action.name().equals("prices")) {
            typed.put("pasted", typed.remove("price"));
        }
        String body = typed.entrySet().stream()
                .map(entry -> URLEncoder.encode(entry.getKey(), StandardCharsets.UTF_8) + "="
                        + URLEncoder.encode(entry.getValue(), StandardCharsets.UTF_8))
                .collect(Collectors.joining("&"));
        return HttpClient.newHttpClient()
                .send(
                        HttpRequest.newBuilder(URI.create(bench.address + path))
                                .header("Content-Type", "application/x-www-form-urlencoded")
                                .POST(HttpRequest.BodyPublishers.ofString(body))
                                .build(),
                        HttpResponse.BodyHandlers.ofString());
    }

    /// A page as a reader has it.
    static final class Page {
        private Page() {}

        static String text(String html) {
            return squeezed(html.replaceAll("<[^>]*>", " ")
                    .replace("&lt;", "<")
                    .replace("&gt;", ">")
                    .replace("&quot;", "\"")
                    .replace("&#34;", "\"")
                    .replace("&#39;", "'")
                    .replace("&amp;", "&"));
        }

        /// The lines in which two records differ, with what stands around the first difference.
        static List<String> apart(List<String> page, List<String> command) {
            List<String> apart = new ArrayList<>();
            for (int i = 0; i < Math.max(page.size(), command.size()); i++) {
                String one = i < page.size() ? page.get(i) : "";
                String other = i < command.size() ? command.get(i) : "";
                if (!one.equals(other)) {
                    int at = 0;
                    while (at < Math.min(one.length(), other.length()) && one.charAt(at) == other.charAt(at)) {
                        at++;
                    }
                    apart.add("page: " + around(one, at) + "\ncommand: " + around(other, at));
                }
            }
            return apart;
        }

        private static String around(String line, int at) {
            return line.substring(Math.max(0, at - 120), Math.min(line.length(), at + 120));
        }

        static String squeezed(String text) {
            return text.replaceAll("\\s+", " ").strip();
        }

        static String problems(String text) {
            return text.substring(0, Math.min(300, text.length()));
        }
    }
}
