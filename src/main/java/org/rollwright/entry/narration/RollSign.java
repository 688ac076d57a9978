package org.rollwright.entry.narration;

import java.util.Locale;

/// Something said that may tell which roll is in hand.
///
/// @param value the roll, the box, or how many rolls on
/// @param other another reading of the roll, 0 for none: `one, two` behind `forty`
/// @param from first roll of a range that ends with it, 0 for none
/// @param box of a [Kind#BOX_ROLL], 0 otherwise
/// @param turns how often the speaker changed before it
/// @param clues bits by [Clue#index]
record RollSign(int word, int end, Kind kind, int value, int other, int from, int box, int turns, long clues) {
    /// What a sign would do if it is meant.
    enum Kind {
        /// Turns to a roll by its number.
        TO,
        /// Turns so many rolls on.
        ON,
        /// Turns to the last roll of the box.
        LAST,
        /// Turns to a box.
        BOX,
        /// Turns to a roll of a box: `2-31`.
        BOX_ROLL
    }

    /// What speaks for or against a sign. Each has a weight for a roll, `sign_` and its name,
    /// and one for a running count, `count_` and its name.
    enum Clue {
        ROLL_BEFORE,
        ORDINAL_ROLL,
        ROLL_NEAR,
        ALONE,
        OPENING,
        NOTHING_NEXT,
        NOTHING_NEAR,
        VERB_NEXT,
        IN_BEFORE,
        COUNT_IN,
        MINE,
        COUNTS_UP,
        RANGE,
        PAUSE_BEFORE,
        NUMBER_BEFORE,
        TOTAL_BEFORE,
        MINT_NEXT,
        ARTICLE_BEFORE,
        YEAR,
        UNIT_NEXT,
        THING_NEXT,
        COIN_BEFORE,
        LIKE_LAST,
        NOTHING_BEFORE,
        NO_STOPS,
        ORDINAL,
        ORDINAL_ONE,
        OF_ALL,
        ENDS_NEXT,
        FIGURE_NEXT,
        AFTER_COIN,
        PLAIN_FIGURE,
        HEARD_ALIKE,
        NEXT_ROLL,
        NEXT_ALONE,
        ROLLS_LATER,
        LAST_ROLL,
        LAST_ONE,
        BOX_NAMED,
        BOX_SPOKEN_OF;

        static final int COUNT = values().length;

        /// Its place among the weights.
        @SuppressWarnings("EnumOrdinal")
        int index() {
            return ordinal();
        }

        String weight() {
            return "sign_" + name().toLowerCase(Locale.ROOT);
        }

        /// Its weight for a running count.
        String weightAsCount() {
            return "count_" + name().toLowerCase(Locale.ROOT);
        }
    }

    boolean has(Clue clue) {
        return (clues & bit(clue)) != 0;
    }

    /// A clue as one bit of many.
    static long bit(Clue clue) {
        return 1L << clue.index();
    }
}
