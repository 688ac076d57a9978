package org.rollwright.coin;

import java.util.Optional;
import java.util.regex.Pattern;

/// Why something read from a person or a file cannot be used, or cannot be recorded.
///
/// @param wrong what was wrong, a whole sentence
/// @param right what would be right, a whole sentence
public record Refusal(String wrong, String right) {
    private static final int LONGEST_QUOTE = 60;
    private static final Pattern UNSEEN = Pattern.compile("[\\p{Cntrl}\\u202A-\\u202E]");

    /// What was typed, short enough for a sentence and without what steers a terminal.
    public static String quote(String text) {
        String seen = UNSEEN.matcher(text).replaceAll("\uFFFD");
        return seen.length() > LONGEST_QUOTE ? seen.substring(0, LONGEST_QUOTE) + "…" : seen;
    }

    /// A refusal as the answer of a check.
    public static Optional<Refusal> of(String wrong, String right) {
        return Optional.of(new Refusal(wrong, right));
    }

    @Override
    public String toString() {
        return wrong + " " + right;
    }
}
