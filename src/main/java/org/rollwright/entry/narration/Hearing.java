package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.rollwright.entry.EntryContext;

/// What grammar has to go by: the words, the phrases heard among them, and what was understood so far.
abstract class Hearing extends WordPlaces {
    final EntryContext context;
    final List<Mention> mentions = new ArrayList<>();

    private final Map<String, BitSet> heard;

    /// Where the present roll was named: what was said before it has nothing to do with what comes now.
    private int scene;

    Hearing(List<Word> words, EntryContext context, Phrases phrases) {
        super(words);
        this.context = context;
        this.heard = phrases.heard(words);
    }

    /// Keeps what was understood; a roll named opens a scene.
    void understood(Mention mention) {
        mentions.add(mention);
        scene = mention instanceof Mention.RollTo || mention instanceof Mention.RollNext ? mention.end() : scene;
    }

    /// The first word of the scene, or as many words back as said if that is later.
    int since(int i, int reach) {
        return Math.max(scene, i - reach);
    }

    /// Whether a phrase of the class lies within the sentence, up to so many words before a place.
    boolean before(String kind, int i, int reach) {
        BitSet places = heard.get(kind);
        if (places == null) {
            return false;
        }
        for (int k = i - 1; k >= Math.max(scene, i - reach) && !words.get(k).stops(); k--) {
            if (places.get(k)) {
                return true;
            }
        }
        return false;
    }

    /// Whether a phrase of the class lies within the sentence, up to so many words from a place on.
    boolean after(String kind, int i, int reach) {
        BitSet places = heard.get(kind);
        if (places == null) {
            return false;
        }
        for (int k = i; k < Math.min(words.size(), i + reach); k++) {
            if (k > 0 && words.get(k - 1).stops()) {
                return false;
            }
            if (is(k, "roll") && count(k + 1).isPresent()) {
                return false;
            }
            if (places.get(k)) {
                return true;
            }
        }
        return false;
    }

    boolean heard(String kind, int i) {
        BitSet places = heard.get(kind);
        return places != null && i >= 0 && places.get(i);
    }

    Optional<Numbers.Spoken> number(int i) {
        return Numbers.at(words, i);
    }

    /// A number that is a count: two digits said as one, not the first half of a year.
    Optional<Numbers.Spoken> count(int i) {
        return Numbers.count(words, i);
    }
}
