package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/// The turns of speech the decoder listens for, by class: data in catalog/narration/phrases.csv.
public final class Phrases {
    /// Classes of what is often misheard begin so.
    private static final String MEANS = "means ";

    private record Entry(List<String> words, String kind) {}

    private final Map<String, List<Entry>> byFirst = new HashMap<>();
    private final Map<String, List<String>> means = new HashMap<>();

    private Phrases() {}

    /// Reads rows `phrase,class,source`.
    ///
    /// @throws IllegalArgumentException when a row has another shape; the file is part of the program
    public static Phrases parse(String csv) {
        Phrases phrases = new Phrases();
        Csv.rows(csv, "phrases.csv", 3, cells -> {
            List<String> words = List.of(cells.getField(0).split(" "));
            String kind = cells.getField(1);
            if (kind.startsWith(MEANS)) {
                phrases.means.put(
                        cells.getField(0),
                        List.of(kind.substring(MEANS.length()).split(" ")));
            } else {
                phrases.byFirst
                        .computeIfAbsent(words.getFirst(), first -> new ArrayList<>())
                        .add(new Entry(words, kind));
            }
        });
        return phrases;
    }

    /// Replaces what is often misheard by what was meant. Times and places stay.
    List<Word> understood(List<Word> words) {
        List<Word> better = new ArrayList<>(words.size());
        for (Word word : words) {
            List<String> meant = means.get(word.text());
            if (meant == null) {
                better.add(word);
                continue;
            }
            for (int i = 0; i < meant.size(); i++) {
                better.add(new Word(
                        meant.get(i),
                        word.at(),
                        word.cue(),
                        word.from(),
                        word.to(),
                        word.opens() && i == 0,
                        word.stops() && i == meant.size() - 1,
                        word.asks(),
                        word.currency()));
            }
        }
        return better;
    }

    /// Where each class occurs: for every class the words that belong to one of its phrases.
    Map<String, BitSet> heard(List<Word> words) {
        Map<String, BitSet> places = new LinkedHashMap<>();
        for (int i = 0; i < words.size(); i++) {
            for (Entry entry : byFirst.getOrDefault(words.get(i).text(), List.of())) {
                if (matches(words, i, entry.words)) {
                    places.computeIfAbsent(entry.kind, kind -> new BitSet()).set(i, i + entry.words.size());
                }
            }
        }
        return places;
    }

    /// How many of the words occur in some phrase; a help in telling the language.
    boolean knows(String word) {
        return byFirst.containsKey(word) || means.containsKey(word);
    }

    private static boolean matches(List<Word> words, int from, List<String> phrase) {
        if (from + phrase.size() > words.size()) {
            return false;
        }
        for (int i = 0; i < phrase.size(); i++) {
            if (!words.get(from + i).is(phrase.get(i))) {
                return false;
            }
        }
        return true;
    }
}
