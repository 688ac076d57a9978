package org.rollwright.text;

import static org.assertj.core.api.Assertions.assertThat;

import gg.jte.output.StringOutput;
import java.io.IOException;
import java.io.Reader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Properties;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.rollwright.web.shell.Marks;

/// What the tool says stands in two files: templates, scripts and code hold keys and no words.
class TextsTest {
    private static final Path MAIN = Path.of("src/main");
    private static final Pattern KEY = Pattern.compile("\\b[tfh]\\(\\s*\"([a-z]+\\.[a-z0-9-]+)\"");
    private static final Pattern SAID = Pattern.compile("\\bsay\\(\"([a-z-]+)\"");
    private static final Pattern WORD = Pattern.compile("\\p{L}{3,}");

    @AfterEach
    void english_again() {
        Texts.use(Locale.ENGLISH);
    }

    @Test
    void every_text_named_is_there_and_every_text_there_is_named() throws IOException {
        TreeSet<String> named = new TreeSet<>();
        for (Path template : files("jte", ".jte")) {
            named.addAll(all(KEY, Files.readString(template), ""));
        }
        for (Path script : files("resources/web", ".js")) {
            named.addAll(all(SAID, Files.readString(script), "script."));
        }
        TreeSet<String> below = new TreeSet<>();
        for (Path code : files("java/org/rollwright", ".java")) {
            (code.toString().contains("/web/") ? named : below).addAll(all(KEY, Files.readString(code), ""));
        }
        assertThat(keys("pages")).as("pages").containsExactlyElementsOf(named);
        assertThat(keys("sentences")).as("the rooms below them").containsExactlyElementsOf(below);
        assertThat(named).as("one key, one text").doesNotContainAnyElementsOf(below);
    }

    /// Keys of a file without those of a form for a count, which stand beside theirs.
    private static Set<String> keys(String file) throws IOException {
        TreeSet<String> there = new TreeSet<>(english(file).stringPropertyNames());
        assertThat(there.stream().filter(key -> key.endsWith(".one")).toList())
                .as("a text for one stands beside a text for many")
                .allMatch(key -> there.contains(key.substring(0, key.length() - 4)));
        there.removeIf(key -> key.endsWith(".one"));
        return there;
    }

    @Test
    void no_words_stand_in_a_template() throws IOException {
        List<String> found = new ArrayList<>();
        for (Path template : files("jte", ".jte")) {
            String bare = bare(Files.readString(template));
            Matcher words = WORD.matcher(bare);
            while (words.find()) {
                found.add(template.getFileName() + ": " + words.group());
            }
        }
        assertThat(found).isEmpty();
    }

    @Test
    void no_words_stand_in_an_expression_either() throws IOException {
        // a choice or a value that begins with a capital or has two words: not a class, a name of a field or an option
        Pattern spoken =
                Pattern.compile("[?:=] \"(?=[A-Z][a-z]|[^\"]*\\p{L}{2,} \\p{L})[^\"<>=/]*\\p{L}{3,}[^\"<>=/]*\"");
        List<String> found = new ArrayList<>();
        for (Path template : files("jte", ".jte")) {
            String text = Files.readString(template).replaceAll("(?s)<style>.*?</style>", "");
            found.addAll(all(spoken, text, template.getFileName() + ": "));
        }
        assertThat(found).isEmpty();
        assertThat(spoken.matcher("a ? \"It pays\" : \"no\"").find()).isTrue();
        assertThat(spoken.matcher("a ? \"problem\" : \"verdict\"").find()).isFalse();
    }

    @Test
    void words_in_a_template_would_be_found() {
        assertThat(bare("<h1 class=\"of\">Boxes</h1>@if(view.any(\"x\"))Some@endif${t(\"a.b\", \"}\")}"))
                .contains("Boxes")
                .contains("Some")
                .doesNotContain("class")
                .doesNotContain("view");
    }

    @Test
    void marks_are_closed_in_the_order_they_were_opened() throws IOException {
        Properties english = english("pages");
        for (String key : english.stringPropertyNames()) {
            List<String> open = new ArrayList<>();
            Matcher marks = Pattern.compile("<(/?)([a-z]+)[^>]*>").matcher(english.getProperty(key));
            while (marks.find()) {
                if (marks.group(1).isEmpty()) {
                    open.add(marks.group(2));
                } else {
                    assertThat(open).as(key).isNotEmpty();
                    assertThat(open.removeLast()).as(key).isEqualTo(marks.group(2));
                }
            }
            assertThat(open).as(key).isEmpty();
        }
    }

    @Test
    void a_translation_is_used_and_what_it_lacks_is_said_in_english() {
        Texts.use(Locale.forLanguageTag("eo-FR"));
        assertThat(Texts.language()).isEqualTo("eo-FR");
        assertThat(Texts.t("page.boxes")).isEqualTo("Skatoloj");
        assertThat(Texts.t("page.albums")).isEqualTo("Albums");
        assertThat(Texts.under("script.")).containsEntry("close", "Fermi").containsEntry("again", "Try again");
        Texts.use(Locale.GERMAN);
        assertThat(Texts.language()).isEqualTo("en");
        assertThat(Texts.t("page.boxes")).isEqualTo("Boxes");
    }

    @Test
    void values_take_their_places_and_cannot_bring_marks() {
        Texts.use(Locale.forLanguageTag("eo"));
        StringOutput out = new StringOutput();
        Marks.h("cabinet.of-coins", "<script>", "\"5\" & $1").writeTo(out);
        assertThat(out.toString()).isEqualTo("el &quot;5&quot; &amp; $1: <b>&lt;script&gt;</b>");
        assertThat(Texts.t("help.help", (Object) null)).isEqualTo("Help: ");
    }

    @Test
    void places_are_filled_and_other_braces_stay() {
        assertThat(Texts.fill("{1} {0}{1} {x} {2} {", new Object[] {"a", "b"}, value -> "<" + value + ">"))
                .isEqualTo("<b> <a><b> {x} {2} {");
        assertThat(Texts.fill("{0}", new Object[] {"{0}"}, value -> value)).isEqualTo("{0}");
        assertThat(Texts.fill("{0}!", new Object[] {null}, value -> value)).isEqualTo("!");
    }

    @Test
    void one_is_said_as_one() {
        StringOutput out = new StringOutput();
        Marks.h("series.boxes", 1).writeTo(out);
        Marks.h("series.boxes", "1").writeTo(out);
        Marks.h("series.boxes", 21).writeTo(out);
        assertThat(out.toString()).isEqualTo("<b>1</b> box<b>1</b> box<b>21</b> boxes");
    }

    /// The Croatian rule for whole numbers as CLDR 47 has it (cldr-core, plurals.json, hr): 1 and 21 are one, 2
    /// and 34 few, 5, 11 and 12 other.
    @Test
    void a_translation_may_have_more_forms_than_one_and_many() {
        Texts.use(Locale.forLanguageTag("hr"));
        assertThat(List.of(1, 21, 2, 34, 5, 11, 12, 0))
                .extracting(count -> Texts.t("hunt.finds-were-enders", count))
                .containsExactly(
                        "1 nalaz",
                        "21 nalaz",
                        "2 nalaza",
                        "34 nalaza",
                        "5 ukupno",
                        "11 ukupno",
                        "12 ukupno",
                        "0 ukupno");
        assertThat(Texts.t("hunt.finds-were-enders", "many")).as("no count").isEqualTo("many ukupno");
        assertThat(Texts.t("store.photographs-are-there", 21))
                .as("in English by English's rule")
                .startsWith("21 photographs are");
    }

    @Test
    void figures_are_rounded_in_their_places() {
        assertThat(Texts.f("odds.mint-s-2f-times", "D", 1.234)).isEqualTo("mint D 1.23 times");
    }

    /// A template without its directives, expressions, tags, styles and scripts.
    private static String bare(String template) {
        StringBuilder rest = new StringBuilder();
        String text = template.replaceAll("(?m)^@(param|import).*$", "")
                .replaceAll("(?s)<style>.*?</style>|<!DOCTYPE[^>]*>|<\\?xml[^>]*>", "")
                .replaceAll("&\\w+;|(?<!<)/[a-z]+", "");
        int i = 0;
        while (i < text.length()) {
            Matcher opening = Pattern.compile(
                            "@(if|elseif|for)\\(|(\\$unsafe|[$!])\\{|@template[.\\w]+\\(|</?[a-z]|@end\\w+|@else")
                    .matcher(text)
                    .region(i, text.length());
            if (!opening.lookingAt()) {
                rest.append(text.charAt(i++));
            } else if (opening.group().endsWith("(") || opening.group().endsWith("{")) {
                i = pastClosing(text, opening.end() - 1);
            } else if (opening.group().startsWith("<")) {
                i = pastTag(text, i);
            } else {
                i = opening.end();
            }
        }
        return rest.toString();
    }

    /// Behind the bracket that closes the one at `from`, or behind the start of a block of content in it.
    private static int pastClosing(String text, int from) {
        int depth = 0;
        boolean quoted = false;
        for (int i = from; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c == '"') {
                quoted = !quoted;
            } else if (!quoted && c == '`') {
                return i + 1;
            } else if (!quoted && (c == '(' || c == '{')) {
                depth++;
            } else if (!quoted && (c == ')' || c == '}') && --depth == 0) {
                return i + 1;
            }
        }
        throw new AssertionError("not closed: " + text.substring(from, Math.min(text.length(), from + 60)));
    }

    private static int pastTag(String text, int from) {
        int i = from;
        while (text.charAt(i) != '>') {
            i = text.startsWith("${", i)
                    ? pastClosing(text, i + 1)
                    : text.startsWith("@for(", i) ? pastClosing(text, i + 4) : i + 1;
        }
        return i + 1;
    }

    private static List<String> all(Pattern pattern, String text, String before) {
        return pattern.matcher(text)
                .results()
                .map(found -> before + found.group(found.groupCount()))
                .toList();
    }

    private static List<Path> files(String folder, String ending) throws IOException {
        try (Stream<Path> walk = Files.walk(MAIN.resolve(folder))) {
            return walk.filter(file -> file.toString().endsWith(ending))
                    .sorted(Comparator.naturalOrder())
                    .toList();
        }
    }

    private static Properties english(String file) throws IOException {
        Properties texts = new Properties();
        try (Reader reader = Files.newBufferedReader(MAIN.resolve("resources/texts/" + file + ".properties"))) {
            texts.load(reader);
        }
        return texts;
    }
}
