package org.rollwright.entry;

import java.util.Locale;
import java.util.Optional;

/// A word that may be a coin's date: `39s`, `1944-D`, `'44D`, `36?`, `nd`.
///
/// @param digits of the year as typed, blank for a date that cannot be read
/// @param suffix what followed, lower case: a mint, `?`, or blank
record DateWord(String digits, String suffix) {

    static Optional<DateWord> parse(String text) {
        String word = text.toLowerCase(Locale.ROOT);
        if (word.equals("nd")) {
            return Optional.of(new DateWord("", ""));
        }
        int at = 0;
        if (!word.isEmpty() && (word.charAt(0) == '\'' || word.charAt(0) == '\u2019')) {
            at = 1;
        }
        int from = at;
        while (at < word.length() && word.charAt(at) >= '0' && word.charAt(at) <= '9') {
            at++;
        }
        if (at == from) {
            return Optional.empty();
        }
        String digits = word.substring(from, at);
        String rest = word.substring(at);
        if (rest.startsWith("-") && rest.length() > 1) {
            rest = rest.substring(1);
        }
        boolean plain = rest.equals("?") || rest.chars().allMatch(c -> c >= 'a' && c <= 'z');
        return plain ? Optional.of(new DateWord(digits, rest)) : Optional.empty();
    }

    boolean unreadable() {
        return digits.isEmpty();
    }

    boolean hasCentury() {
        return digits.length() == 4;
    }

    int number() {
        return Integer.parseInt(digits);
    }
}
