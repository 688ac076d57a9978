package org.rollwright.text;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.Reader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Properties;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/// The French texts say everything the English ones say, with the same values and marks, and are written as French is
/// in Canada. What is missing is said in English by the tool; here it is listed.
class FrenchTextsTest {
    private static final Pattern PLACE = Pattern.compile("\\{[0-9]}");
    private static final Pattern FIGURE = Pattern.compile("%(?:[0-9]\\$)?([-+,.0-9]*[dfsg]|%)");
    private static final Pattern MARK = Pattern.compile("</?[a-z][^>]*>");
    private static final Pattern LETTERS = Pattern.compile("\\p{L}{3}");

    /// Words and lines that are the same in both languages: French words that English took over, names, and what is
    /// typed into a field, which stays as the entry line has it.
    private static final Set<String> ALIKE = Set.of(
            "%.3f bits",
            "09s vdb f12",
            "1972-D doubled",
            "36d vf30, silver, S mint, ungraded",
            "Album",
            "Album {0}",
            "Albums",
            "Attribution",
            "Canada",
            "Catalogue",
            "Date",
            "Dates",
            "Grade",
            "Grades",
            "Guide",
            "Long",
            "Minutes",
            "Narration",
            "Note",
            "Question",
            "Rollwright",
            "Source",
            "Tare",
            "Type",
            "Verdict",
            "Version",
            "album",
            "cent",
            "chance",
            "cupronickel",
            "date",
            "grade",
            "grade {0}",
            "machine",
            "minutes",
            "nickel",
            "note",
            "phase",
            "photo {0}",
            "pivot",
            "probable",
            "rare",
            "rotation",
            "series wheat; years 1909-1940; one per date and mint",
            "small date",
            "total",
            "tube 12",
            "years 1940-1949; mints S",
            "zinc",
            "{0} – Rollwright");

    private static Map<String, String> texts(String language) throws IOException {
        Map<String, String> all = new HashMap<>();
        for (String file : List.of("pages", "sentences")) {
            Properties texts = new Properties();
            try (Reader reader =
                    Files.newBufferedReader(Path.of("src/main/resources/texts", file + language + ".properties"))) {
                texts.load(reader);
            }
            texts.stringPropertyNames().forEach(key -> all.put(key, texts.getProperty(key)));
        }
        return all;
    }

    /// Keys without those of a form for a count, which a language has where it needs them.
    private static Set<String> plain(Set<String> keys) {
        TreeSet<String> plain = new TreeSet<>(keys);
        plain.removeIf(key -> key.endsWith(".one") || key.equals("plural"));
        return plain;
    }

    @Test
    void every_text_is_there_in_french() throws IOException {
        Set<String> missing = plain(texts("").keySet());
        missing.removeAll(texts("_fr").keySet());
        assertThat(missing).as("without a French text").isEmpty();
    }

    @Test
    void no_french_text_has_lost_its_english_one() throws IOException {
        Set<String> lost = plain(texts("_fr").keySet());
        lost.removeAll(texts("").keySet());
        assertThat(lost).isEmpty();
        assertThat(texts("_fr").keySet().stream().filter(key -> key.endsWith(".one")))
                .as("a text for one stands beside a text for many")
                .allMatch(key -> plain(textsOrNone()).contains(key.substring(0, key.length() - 4)));
    }

    private static Set<String> textsOrNone() {
        try {
            return texts("_fr").keySet();
        } catch (IOException e) {
            return Set.of();
        }
    }

    @Test
    void values_and_marks_are_those_of_the_english_text() throws IOException {
        Map<String, String> english = texts("");
        List<String> differ = new ArrayList<>();
        texts("_fr").forEach((key, french) -> {
            String same = english.getOrDefault(key, english.get(key.replaceAll("\\.one$", "")));
            if (same == null) {
                return; // the rule for counts
            }
            // a text for one need not say the count twice, nor name an example of many
            boolean places = key.endsWith(".one")
                    ? all(PLACE, same).containsAll(all(PLACE, french))
                    : all(PLACE, french).equals(all(PLACE, same));
            if (!places
                    || !all(FIGURE, french).equals(all(FIGURE, same))
                    || !all(MARK, french).equals(all(MARK, same))
                    || french.endsWith(" ") != same.endsWith(" ")
                    || french.startsWith(" ") != same.startsWith(" ")) {
                differ.add(key + ": " + french);
            }
        });
        assertThat(differ).isEmpty();
    }

    /// Without the number by which a figure may change its place; keys that are pressed have names of their own.
    private static List<String> all(Pattern pattern, String text) {
        return pattern.matcher(text)
                .results()
                .map(found -> found.groupCount() == 0 ? found.group() : found.group(1))
                .sorted()
                .toList();
    }

    @Test
    void what_is_the_same_in_both_is_listed() throws IOException {
        Map<String, String> english = texts("");
        TreeSet<String> same = new TreeSet<>();
        texts("_fr").forEach((key, french) -> {
            if (french.equals(english.get(key)) && LETTERS.matcher(french).find()) {
                same.add(french);
            }
        });
        // names of units and formats with their values
        same.removeIf(text -> text.matches("\\{0} (PNG|SVG)|oz t|AICc"));
        assertThat(same).containsExactlyInAnyOrderElementsOf(ALIKE);
    }

    /// No blank before a semicolon, a question mark or an exclamation mark; one that does not break before a colon, a
    /// percent sign and a dollar sign and inside quotation marks: the usage of Canada, as "Le guide du
    /// rédacteur" of the Government of Canada's Translation Bureau tells it of punctuation (from memory).
    @Test
    void punctuation_is_that_of_canada() throws IOException {
        Pattern wrong = Pattern.compile(
                " [!?]| ;(?! ?:|$)| :(?=\\s|$|<)| %(?![-+,.0-9$]*[dfsg])| \\$|« |[^\\u00A0]»|\\p{L}'\\p{L}");
        List<String> found = new ArrayList<>();
        texts("_fr").forEach((key, text) -> {
            if (key.equals("plural")) {
                return;
            }
            // what is typed or named stands as it is
            String words = text.replaceAll("<code>.*?</code>|<kbd>.*?</kbd>|<[^>]*>", "");
            wrong.matcher(words)
                    .results()
                    .map(MatchResult::group)
                    .forEach(one -> found.add(key + ": '" + one + "' in " + text));
        });
        assertThat(found).isEmpty();
    }

    /// The last column of the glossary in docs/translating.md holds what a thing is not called.
    @Test
    void one_thing_has_one_word() throws IOException {
        List<String> rows = Files.readAllLines(Path.of("docs/translating.md")).stream()
                .filter(line -> line.startsWith("| ") && line.split(" *\\| *").length == 4)
                .skip(1)
                .toList();
        assertThat(rows).hasSizeGreaterThan(20);
        List<String> found = new ArrayList<>();
        Map<String, String> texts = texts("_fr");
        for (String row : rows) {
            String[] cells = row.split(" *\\| *");
            String said = cells[2].split(",")[0];
            assertThat(texts.values())
                    .as(row)
                    .anyMatch(text -> text.toLowerCase(Locale.CANADA_FRENCH).contains(said));
            for (String other : cells[3].split(", *")) {
                Pattern word = Pattern.compile("(?iu)(?<!\\p{L})" + Pattern.quote(other) + "s?(?!\\p{L})");
                texts.forEach((key, text) -> {
                    if (!other.equals("–") && word.matcher(text).find()) {
                        found.add(key + ": " + other + " in " + text);
                    }
                });
            }
        }
        assertThat(found).isEmpty();
    }
}
