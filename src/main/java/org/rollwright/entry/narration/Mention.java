package org.rollwright.entry.narration;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Mass;

/// Something said that may tell of the hunt. Places are numbers of words.
sealed interface Mention {
    /// First word.
    int word();

    /// Behind the last word.
    int end();

    /// How the mint was said.
    enum Said {
        /// Not at all.
        NOTHING,
        /// As no mint mark, plain, or Philadelphia.
        PLAIN,
        /// As a letter or a city.
        MARK
    }

    /// A coin, held or only spoken of.
    ///
    /// @param year null when only the kind of coin was named
    /// @param code letter of the mint, blank unless [Said#MARK]
    /// @param abroad whether another country was named
    /// @param count coins alike
    /// @param extras varieties and kinds as words of the entry line
    /// @param features what speaks for and against a new find
    /// @param number the bare number it might only be, -1 otherwise
    record Coin(
            int word,
            int end,
            Denomination denomination,
            @Nullable Integer year,
            Said said,
            String code,
            boolean abroad,
            int count,
            List<String> extras,
            List<Feature> features,
            int number)
            implements Mention {
        public Coin {
            extras = List.copyOf(extras);
            features = List.copyOf(features);
        }
    }

    /// A mint told after the date: `it's a D`.
    ///
    /// @param correcting whether it takes back what was said before
    /// @param faint whether it only follows from a mint that is not there: `no D`
    record MintOnly(int word, int end, Said said, String code, boolean correcting, boolean faint) implements Mention {}

    /// A number by itself: a running count, a roll, or a date of two digits.
    ///
    /// @param strong whether it is said as running counts are
    /// @param coin what coin it would be, null when it can be none
    record Bare(
            int word,
            int end,
            int value,
            boolean alone,
            boolean strong,
            @Nullable Coin coin) implements Mention {}

    /// A running count: `that makes twelve`, `our twelfth`.
    record Total(int word, int end, int value) implements Mention {}

    /// So many coins announced, or summed up, for a roll.
    record Promise(int word, int end, int value) implements Mention {}

    /// @param value of the roll in its box, or of the hunt when it runs over several boxes
    record RollTo(int word, int end, int value) implements Mention {}

    /// @param sure false for `next one`, which may be a coin
    record RollNext(int word, int end, boolean sure) implements Mention {}

    record BoxTo(int word, int end, int value) implements Mention {}

    record Weight(int word, int end, Mass mass) implements Mention {}
}
