package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/// One word of the recording, or one number in digits.
///
/// @param text lower case, without punctuation
/// @param at milliseconds, spread evenly over the words of its caption
/// @param cue which caption, from 0
/// @param from first character within the caption's text
/// @param to behind the last character
/// @param opens whether a sentence, or a clause, begins with it
/// @param stops whether a full stop, question mark or the like follows
/// @param asks whether a question mark follows
/// @param currency whether a currency sign stood in front
record Word(
        String text, long at, int cue, int from, int to, boolean opens, boolean stops, boolean asks, boolean currency) {

    boolean is(String other) {
        return text.equals(other);
    }

    /// Whether it is digits.
    boolean isNumber() {
        return !text.isEmpty() && text.charAt(0) >= '0' && text.charAt(0) <= '9' && !text.endsWith("th");
    }

    /// Cuts captions into words: `1944-D` into `1944` and `d`, `$19.36` into `19` and `36`, `fifty-six` into
    /// two.
    static List<Word> of(List<Cue> cues) {
        List<Word> words = new ArrayList<>();
        boolean opens = true;
        for (int c = 0; c < cues.size(); c++) {
            Cue cue = cues.get(c);
            String text = cue.text();
            int i = 0;
            while (i < text.length()) {
                int kind = kind(text, i);
                boolean plural = isPlural(text, i);
                if (kind == OTHER && !plural) {
                    char mark = text.charAt(i);
                    boolean dots = mark == '.' && i + 1 < text.length() && text.charAt(i + 1) == '.';
                    boolean betweenDigits =
                            i > 0 && i + 1 < text.length() && kind(text, i - 1) == DIGIT && kind(text, i + 1) == DIGIT;
                    if (!betweenDigits
                            && (dots
                                    || mark == '.'
                                    || mark == '?'
                                    || mark == '!'
                                    || mark == ','
                                    || mark == ':'
                                    || mark == ';')) {
                        opens = true;
                        boolean full = mark != ',';
                        if (full && !words.isEmpty()) {
                            Word last = words.removeLast();
                            words.add(new Word(
                                    last.text,
                                    last.at,
                                    last.cue,
                                    last.from,
                                    last.to,
                                    last.opens,
                                    true,
                                    mark == '?' || last.asks,
                                    last.currency));
                        }
                    }
                    i++;
                    continue;
                }
                int from = i;
                i += plural ? 1 : 0;
                kind = plural ? LETTER : kind;
                while (i < text.length() && (kind(text, i) == kind || (kind == LETTER && isApostrophe(text, i)))) {
                    i++;
                }
                if (kind == DIGIT
                        && i + 4 <= text.length()
                        && text.charAt(i) == ','
                        && text.substring(i + 1, i + 4).chars().allMatch(d -> d >= '0' && d <= '9')) {
                    i += 4;
                }
                String shown = text.substring(plural ? from + 1 : from, i).replace(",", "");
                boolean currency = from > 0 && "$£€".indexOf(text.charAt(from - 1)) >= 0;
                String ending = kind == DIGIT ? ending(text, i) : "";
                i += ending.length();
                long at = cue.start() + (cue.end() - cue.start()) * from / Math.max(1, text.length());
                words.add(new Word(
                        shown.toLowerCase(Locale.ROOT).replace('\u2019', '\'') + ending.toLowerCase(Locale.ROOT),
                        at,
                        c,
                        from,
                        i,
                        opens,
                        false,
                        false,
                        currency));
                opens = false;
            }
        }
        return words;
    }

    private static final int LETTER = 1;
    private static final int DIGIT = 2;
    private static final int OTHER = 3;

    private static int kind(String text, int i) {
        char c = text.charAt(i);
        if (c >= '0' && c <= '9') {
            return DIGIT;
        }
        return Character.isLetter(c) ? LETTER : OTHER;
    }

    /// Whether the `'s` of `62's` begins: several of them, and no mint of San Francisco.
    private static boolean isPlural(String text, int i) {
        return i > 0
                && (text.charAt(i) == '\'' || text.charAt(i) == '\u2019')
                && kind(text, i - 1) == DIGIT
                && i + 1 < text.length()
                && text.charAt(i + 1) == 's'
                && (i + 2 == text.length() || kind(text, i + 2) == OTHER);
    }

    private static boolean isApostrophe(String text, int i) {
        char c = text.charAt(i);
        return (c == '\'' || c == '\u2019') && i + 1 < text.length() && Character.isLetter(text.charAt(i + 1));
    }

    /// `th` of `12th`, `st`, `nd`, `rd`; the plural `s` of `1950s` stays a word of its own.
    private static String ending(String text, int i) {
        for (String one : List.of("th", "st", "nd", "rd")) {
            boolean here = text.regionMatches(true, i, one, 0, 2);
            if (here && (i + 2 >= text.length() || kind(text, i + 2) == OTHER)) {
                return text.substring(i, i + 2);
            }
        }
        return "";
    }
}
