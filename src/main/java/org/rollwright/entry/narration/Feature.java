package org.rollwright.entry.narration;

/// What speaks for or against a mention of a coin being a new find, by turns of speech. Their weights are data:
/// catalog/narration/weights.csv, fitted on narrations by strangers. What single words say stands in [Cues].
enum Feature {
    ALWAYS,
    MINT_MARK_SAID,
    PLAIN_SAID,
    HOLDING,
    AGAIN,
    RECALLING,
    HOPING,
    DENYING,
    YEAR_AS_TIME,
    EXPLAINING_AFTER,
    PRICE,
    WATCHED,
    NOT_WATCHED,
    YEAR_IN_FULL,
    ARTICLE_AND_HALF,
    BARE_HALF,
    FIRST_IN_SENTENCE,
    LAST_IN_SENTENCE,
    RANGE,
    GRADE_AFTER,
    NEW_ROLL,
    ASKING,
    TOTAL_NEAR,
    PLURAL_WITHOUT_COUNT,
    LIST,
    DEFINITE,
    KIND_ONLY,
    REPEAT_WORD,
    CURRENCY,
    COUNTED,
    IN_RUN,
    // in relation to the last find
    SAME_DATE_NEAR,
    SAME_DATE_LATER,
    SAME_DATE_FAR,
    SAME_YEAR_OTHER_MINT,
    OTHER_DATE,
    CORRECTING,
    ROLL_CHANGED_SINCE,
    ADDS_MINT,
    SAME_DATE_AT_ONCE,
    ANOTHER_SAID,
    AND_BETWEEN,
    STOP_BETWEEN,
    COUNT_BETWEEN,
    FIGURE_BETWEEN,
    NO_FIND_YET;

    static final int COUNT = values().length;

    /// Its place in arrays of weights.
    @SuppressWarnings("EnumOrdinal")
    int index() {
        return ordinal();
    }
}
