package org.rollwright.entry.narration;

import java.util.List;

/// Questions about the words of a recording by their places. Places outside of it hold no word, open a sentence and
/// stop one.
abstract class WordPlaces {
    final List<Word> words;

    WordPlaces(List<Word> words) {
        this.words = words;
    }

    boolean is(int i, String... any) {
        if (i < 0 || i >= words.size()) {
            return false;
        }
        for (String one : any) {
            if (words.get(i).is(one)) {
                return true;
            }
        }
        return false;
    }

    boolean sequence(int i, String... all) {
        for (int k = 0; k < all.length; k++) {
            if (!is(i + k, all[k])) {
                return false;
            }
        }
        return true;
    }

    boolean opens(int i) {
        return i <= 0 || i >= words.size() || words.get(i).opens();
    }

    boolean stops(int i) {
        return i < 0 || i >= words.size() - 1 || words.get(i).stops();
    }
}
