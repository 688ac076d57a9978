package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/// Varieties and errors that are said of a coin in hand, and not denied, looked for or asked about. The phrases are
/// data: classes `variety WORD` of catalog/narration/phrases.csv, where WORD is a word of the entry line or a note in
/// quotes.
final class Qualities {
    /// Words around a phrase where it is denied: right before, right behind, and by strong words a sentence later.
    private static final int BEFORE = 6;

    private static final int BEHIND = 5;
    private static final int LATER = 14;
    private static final Set<String> DENIED = Set.of(
            "no",
            "not",
            "isn't",
            "ain't",
            "without",
            "never",
            "check",
            "checking",
            "checked",
            "looking",
            "look",
            "lookin",
            "if",
            "whether",
            "any",
            "hope",
            "hoping",
            "could",
            "maybe",
            "might",
            "need",
            "want",
            "wanted",
            "or",
            "unless",
            "find",
            "searching",
            "compare",
            "wasn't",
            "won't",
            "neither",
            "nor",
            "wish",
            "please",
            "called",
            "can't",
            "they",
            "people",
            "question");
    private static final Set<String> LATER_DENIED =
            Set.of("isn't", "nope", "ordinary", "regular", "normal", "luck", "haven't", "hasn't");
    private static final Set<String> THEN_DENIED =
            Set.of("nope", "gone", "back", "not", "isn't", "no", "return", "negative", "nothing");

    /// Varieties of single years; elsewhere the words mean something else. Denominations and years from the published
    /// listings of the trade, from memory.
    private static final Map<String, int[]> YEARS = Map.of(
            "\"maple leaf\"", new int[] {1947, 1947},
            "\"no shoulder fold\"", new int[] {1953, 1955},
            "\"shoulder fold\"", new int[] {1953, 1955},
            "\"pointed 5\"", new int[] {1965, 1985},
            "\"large beads\"", new int[] {1965, 1965},
            "\"no P\"", new int[] {1982, 1982},
            "wideam", new int[] {1992, 2000},
            "closeam", new int[] {1992, 1999},
            "large", new int[] {1960, 1982},
            "small", new int[] {1859, 1982});

    private final List<Word> words;
    private final Map<String, BitSet> places = new LinkedHashMap<>();

    Qualities(List<Word> words, Phrases phrases) {
        this.words = words;
        phrases.heard(words).forEach((kind, where) -> {
            if (kind.startsWith("variety ")) {
                places.put(kind.substring(8), where);
            }
        });
    }

    /// What is said of a coin between two words.
    ///
    /// @param year of the coin
    List<String> of(int from, int to, int year) {
        List<String> all = new ArrayList<>();
        places.forEach((word, where) -> {
            int[] years = YEARS.get(word);
            if (years != null && (year < years[0] || year > years[1])) {
                return;
            }
            boolean is = false;
            for (int i = where.nextSetBit(from); i >= 0 && i < to; i = where.nextSetBit(where.nextClearBit(i))) {
                int end = where.nextClearBit(i);
                is = !denied(word, i, end);
            }
            if (is) {
                all.add(word);
            }
        });
        if (all.contains("ddr")) {
            all.remove("ddo");
        }
        if (all.contains("\"no shoulder fold\"")) {
            all.remove("\"shoulder fold\"");
        }
        if (all.contains("\"poor man's doubled die\"")) {
            all.remove("ddo");
        }
        return all;
    }

    private boolean denied(String word, int from, int to) {
        boolean negative = word.startsWith("\"no ");
        for (int i = from - 1; i >= Math.max(0, from - BEFORE) && !words.get(i).stops(); i--) {
            if (DENIED.contains(words.get(i).text())
                    && !(negative && words.get(i).is("no"))) {
                return true;
            }
        }
        if (words.get(to - 1).asks()) {
            return true;
        }
        for (int i = to;
                i < Math.min(words.size(), to + BEHIND) && !words.get(i - 1).stops();
                i++) {
            if (THEN_DENIED.contains(words.get(i).text())) {
                return true;
            }
            if (words.get(i).asks()) {
                return true;
            }
        }
        for (int i = to; i < Math.min(words.size(), to + LATER); i++) {
            if (LATER_DENIED.contains(words.get(i).text())) {
                return true;
            }
        }
        return false;
    }
}
