package org.rollwright.scope;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.Rarity;

/// What the rows of varieties say, against the rows of the series and against themselves.
class VarietyFactsTest {
    private static final Catalog CATALOG = CatalogFolder.catalog();

    /// Varieties an audit found absent; common practice.
    private static final List<String> ASKED_FOR = List.of(
            "quarter-1970-d-on-stock-of-dimes",
            "quarter-1983-p-clash-below-the-beak",
            "quarter-2020-w-with-a-privy-mark",
            "quarter-1964-d-with-the-reverse-of-the-next-year",
            "half-1971-d-on-a-silver-clad-planchet",
            "half-1967-multiply-doubled-obverse",
            "nickel-1946-d-over-an-upside-down-d",
            "nickel-1913-three-and-a-half-legs",
            "nickel-1917-d-three-and-a-half-legs",
            "nickel-1883-3-over-2",
            "cent-1867-last-67-over-67",
            "dime-1969-with-the-reverse-of-the-year-before",
            "dime-1970-with-the-reverse-of-two-years-before",
            "dime-1947-s-with-a-plain-s",
            "dime-1947-s-with-a-trumpet-tail",
            "dollar-1972-low-relief-earth",
            "dollar-1972-round-earth-without-islands",
            "dollar-1972-round-earth-with-islands",
            "dollar-1981-s-clear-s",
            "dollar-2000-p-with-detailed-tail-feathers",
            "dollar-2000-p-with-gouges-across-the-eagle",
            "dollar-plain-edge",
            "dollar-doubled-edge-lettering",
            "cent-1953-shoulder-fold",
            "cent-1954-no-shoulder-fold",
            "ca-nickel-1951-high-relief",
            "ca-nickel-1964-extra-water-line",
            "ca-dime-1969-large-date",
            "ca-quarter-1973-large-bust");

    private static final Pattern KNOWN =
            Pattern.compile("\\b(one|two|three|four|five|six|a few dozen)\\b(?: [a-z]+)? known");

    private static List<Issue> issuesOf(Variety variety) {
        return CATALOG.issues().stream()
                .filter(issue -> issue.identity().denomination().equals(variety.denomination())
                        && variety.years().contains(issue.year())
                        && variety.mints().contains(issue.mint()))
                .toList();
    }

    /// The issues whose kind the variety names.
    private static List<Issue> kindOf(Variety variety) {
        return issuesOf(variety).stream()
                .filter(issue ->
                        !variety.coinKind().isEmpty() && issue.identity().kind().equals(variety.coinKind()))
                .toList();
    }

    @Test
    void the_varieties_asked_for_are_there() {
        Set<String> keys = new TreeSet<>();
        Varieties.book().varieties().forEach(one -> keys.add(one.key()));
        assertThat(keys).containsAll(ASKED_FOR);
    }

    @Test
    void every_variety_says_how_sure_we_are_of_it() {
        for (Variety variety : Varieties.book().varieties()) {
            assertThat(variety.certainty().fields().keySet())
                    .as(variety.key())
                    .contains(
                            Certainty.Field.COIN,
                            Certainty.Field.WHERE,
                            Certainty.Field.MARKERS,
                            Certainty.Field.RARITY,
                            Certainty.Field.WORTH);
            assertThat(variety.certainty().fields().containsKey(Certainty.Field.DIRECTION))
                    .as(variety.key())
                    .isEqualTo(!variety.direction().isEmpty());
            assertThat(variety.certainty().told()).as(variety.key()).isNotEmpty();
        }
    }

    @Test
    void what_is_no_word_of_certainty_is_refused() {
        assertThat(Certainty.parse("coin sure; rarity unsure").orElseThrow().written())
                .isEqualTo("coin sure; rarity unsure");
        assertThat(Certainty.parse("").orElseThrow()).isEqualTo(Certainty.UNTOLD);
        assertThat(Certainty.parse("coin perhaps")).isEmpty();
        assertThat(Certainty.parse("colour sure")).isEmpty();
        assertThat(Certainty.parse("sure")).isEmpty();
    }

    /// One coin, two rows: a key date is no common variety, and a common date no rare one.
    @Test
    void series_and_varieties_do_not_contradict_each_other_in_rarity() {
        List<String> contradictions = new ArrayList<>();
        for (Variety variety : Varieties.book().varieties()) {
            for (Issue issue : kindOf(variety)) {
                boolean rare = variety.rarity().compareTo(Variety.RarityClass.SCARCE) >= 0;
                boolean common = variety.rarity() == Variety.RarityClass.COMMON;
                boolean alone = issue.identity().shortName().equals(variety.name())
                        || variety.type().startsWith("date")
                        || variety.type().equals("alloy and date size")
                        || variety.note().startsWith("a kind of its date");
                if (issue.rarity() != Rarity.COMMON && common) {
                    contradictions.add(variety.key() + " is common, the series says "
                            + issue.rarity().word());
                }
                if (issue.rarity() == Rarity.COMMON && rare && alone) {
                    contradictions.add(
                            variety.key() + " is " + variety.rarity().word() + ", the series has it as common");
                }
                if (issue.rarity() == Rarity.KEY && !rare) {
                    contradictions.add(variety.key() + " is " + variety.rarity().word() + ", the series says key");
                }
            }
        }
        assertThat(contradictions).isEmpty();
    }

    /// How many are known is said alike wherever it is said.
    @Test
    void numbers_of_known_coins_agree() {
        List<String> contradictions = new ArrayList<>();
        for (Variety variety : Varieties.book().varieties()) {
            Set<String> numbers = new TreeSet<>(known(variety.note()));
            kindOf(variety).forEach(issue -> numbers.addAll(known(issue.note())));
            if (!variety.coinKind().isEmpty()) {
                issuesOf(variety).stream()
                        .filter(issue -> issue.note().contains(variety.coinKind()))
                        .forEach(issue -> numbers.addAll(known(issue.note())));
            }
            if (numbers.size() > 1) {
                contradictions.add(variety.key() + " " + numbers);
            }
        }
        assertThat(contradictions).isEmpty();
    }

    private static Set<String> known(String note) {
        Set<String> numbers = new TreeSet<>();
        Matcher matcher = KNOWN.matcher(note);
        while (matcher.find()) {
            numbers.add(matcher.group(1));
        }
        return numbers;
    }

    /// Sizes of the date and alloys are kinds of their date: a row of varieties that describes one names the kind.
    @Test
    void a_variety_that_is_a_kind_names_the_kind() {
        for (Variety variety : Varieties.book().varieties()) {
            boolean kinds = variety.type().equals("date size") || variety.type().equals("alloy and date size");
            long told = issuesOf(variety).stream()
                    .map(issue -> issue.identity().kind())
                    .filter(kind -> variety.name().contains("small date") && kind.contains("small date"))
                    .count();
            if (kinds && told > 0 && variety.rarity() != Variety.RarityClass.VERY_RARE) {
                assertThat(kindOf(variety)).as(variety.key()).isNotEmpty();
            }
        }
    }

    /// What moved is told in words; numerals of classes have no place on any row.
    @Test
    void no_numerals_of_classes() {
        Pattern numeral = Pattern.compile("\\b[Cc]lass(es)? [IVX]+\\b");
        for (Variety variety : Varieties.book().varieties()) {
            assertThat(String.join(" ", variety.cells().values())).doesNotContainPattern(numeral);
        }
    }

    /// Museum caption and articles on the Canadian small cent: date and maple twigs on the reverse since 1920, the
    /// beads told apart on the obverse; three cents of 1936 with a dot; no fold, a scarce die of 1955.
    @Test
    void canadian_cents_say_what_the_audit_found() {
        // small or large beads, each with a pointed or a blunt 5
        for (String key : List.of(
                "cent-1965-blunt-5-small-beads",
                "cent-1965-pointed-5-large-beads",
                "cent-1965-pointed-5-small-beads",
                "cent-1965-blunt-5-large-beads")) {
            assertThat(Varieties.book().variety(key).orElseThrow().side()).isEqualTo("both");
        }
        assertThat(Varieties.book()
                        .variety("cent-1936-dot-below-the-date")
                        .orElseThrow()
                        .note())
                .contains("three are known");
        assertThat(Varieties.book()
                        .variety("cent-1955-no-shoulder-fold")
                        .orElseThrow()
                        .rarity())
                .isEqualTo(Variety.RarityClass.RARE);
        assertThat(Varieties.book()
                        .variety("cent-1960-small-date-over-large-date")
                        .orElseThrow()
                        .note())
                .contains("proofs");
        assertThat(Varieties.book()
                        .variety("cent-1960-small-date")
                        .orElseThrow()
                        .rarity())
                .isEqualTo(Variety.RarityClass.UNCOMMON);
    }
}
