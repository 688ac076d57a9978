package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/// Reads numbers in digits or words.
///
/// Long because figures are said in a dozen ways, and each way must know where the others begin.
final class Numbers {
    /// A number.
    ///
    /// @param value 0 or more
    /// @param end behind its last word
    /// @param ordinal whether it was `twelfth` rather than `twelve`
    /// @param year whether it was said as a year: `nineteen thirty-six`, `19 36`, or four digits
    /// @param words whether it was words rather than digits
    record Spoken(int value, int end, boolean ordinal, boolean year, boolean words) {
        boolean twoDigits() {
            return !year && value >= 0 && value <= 99 && !ordinal;
        }
    }

    private static final Map<String, Integer> UNITS =
            Map.of("one", 1, "two", 2, "three", 3, "four", 4, "five", 5, "six", 6, "seven", 7, "eight", 8, "nine", 9);
    private static final Map<String, Integer> TEENS = Map.of(
            "ten",
            10,
            "eleven",
            11,
            "twelve",
            12,
            "thirteen",
            13,
            "fourteen",
            14,
            "fifteen",
            15,
            "sixteen",
            16,
            "seventeen",
            17,
            "eighteen",
            18,
            "nineteen",
            19);
    private static final Map<String, Integer> TENS = Map.of(
            "twenty", 20, "thirty", 30, "forty", 40, "fourty", 40, "fifty", 50, "sixty", 60, "seventy", 70, "eighty",
            80, "ninety", 90);
    private static final Map<String, Integer> ORDINALS = Map.ofEntries(
            Map.entry("first", 1),
            Map.entry("second", 2),
            Map.entry("third", 3),
            Map.entry("fourth", 4),
            Map.entry("fifth", 5),
            Map.entry("sixth", 6),
            Map.entry("seventh", 7),
            Map.entry("eighth", 8),
            Map.entry("ninth", 9),
            Map.entry("tenth", 10),
            Map.entry("eleventh", 11),
            Map.entry("twelfth", 12),
            Map.entry("thirteenth", 13),
            Map.entry("fourteenth", 14),
            Map.entry("fifteenth", 15),
            Map.entry("sixteenth", 16),
            Map.entry("seventeenth", 17),
            Map.entry("eighteenth", 18),
            Map.entry("nineteenth", 19),
            Map.entry("twentieth", 20),
            Map.entry("thirtieth", 30),
            Map.entry("fortieth", 40),
            Map.entry("fiftieth", 50));

    private Numbers() {}

    private static final Map<String, Integer> DECADES =
            Map.of("teens", 10, "twenties", 20, "thirties", 30, "forties", 40, "fifties", 50, "sixties", 60);

    /// The decade a word names, `forties`; -1 for what is none.
    static int decade(String text) {
        return DECADES.getOrDefault(text, -1);
    }

    /// Whether a word is a number, or a part of one.
    static boolean isWord(String text) {
        return UNITS.containsKey(text) || TEENS.containsKey(text) || TENS.containsKey(text);
    }

    /// Whether a word may have a unit behind it: `thirty`.
    static boolean isTens(String text) {
        return TENS.containsKey(text);
    }

    /// The number that begins at a word, as long as it reaches.
    static Optional<Spoken> at(List<Word> words, int i) {
        if (i >= words.size()) {
            return Optional.empty();
        }
        Word word = words.get(i);
        Optional<Spoken> spelled = spelled(words, i);
        if (spelled.isPresent()) {
            return spelled;
        }
        if (word.isNumber()) {
            return digits(words, i);
        }
        if (ordinalDigits(word.text()) > 0) {
            return Optional.of(new Spoken(ordinalDigits(word.text()), i + 1, true, false, false));
        }
        return inWords(words, i);
    }

    /// A year spelled digit by digit, `1 9 4 4` or `one nine four four`, and the years before 1910, `oh eight`.
    private static Optional<Spoken> spelled(List<Word> words, int i) {
        if (List.of("oh", "o", "aught", "ought").contains(words.get(i).text())) {
            int unit = joins(words, i + 1) ? digit(words.get(i + 1).text()) : -1;
            return unit < 1 ? Optional.empty() : Optional.of(new Spoken(unit, i + 2, false, false, false));
        }
        boolean pair = isFigure(words, i)
                && isFigure(words, i + 1)
                && joins(words, i + 1)
                && !isFigure(words, i + 2)
                && !isFigure(words, i - 1)
                && i + 2 < words.size()
                && joins(words, i + 2)
                && MINTS.contains(words.get(i + 2).text());
        if (pair) {
            return Optional.of(new Spoken(
                    10 * digit(words.get(i).text()) + digit(words.get(i + 1).text()), i + 2, false, false, true));
        }
        int value = 0;
        for (int k = i; k < i + 4; k++) {
            int digit = k >= words.size() || (k > i && !joins(words, k))
                    ? -1
                    : digit(words.get(k).text());
            if (digit < 0) {
                return Optional.empty();
            }
            value = 10 * value + digit;
        }
        boolean more = joins(words, i + 4) && digit(words.get(i + 4).text()) >= 0;
        return !more && isYear(value) ? Optional.of(new Spoken(value, i + 4, false, true, false)) : Optional.empty();
    }

    private static boolean isFigure(List<Word> words, int i) {
        return i >= 0
                && i < words.size()
                && words.get(i).isNumber()
                && words.get(i).text().length() == 1;
    }

    /// Whether a date of two digits was said as `oh eight`.
    static boolean isOh(List<Word> words, int i) {
        return List.of("oh", "o", "aught", "ought").contains(words.get(i).text());
    }

    /// A single digit, in figures or as a word; -1 for what is none.
    static int digit(String text) {
        if (text.length() == 1 && text.charAt(0) >= '0' && text.charAt(0) <= '9') {
            return text.charAt(0) - '0';
        }
        if (text.equals("oh") || text.equals("o") || text.equals("zero")) {
            return 0;
        }
        return UNITS.getOrDefault(text, -1);
    }

    /// A number that counts: `19 46` is 19 here, and `nineteen forty-six` nineteen.
    static Optional<Spoken> count(List<Word> words, int i) {
        if (i < 0 || i >= words.size()) {
            return Optional.empty();
        }
        Word word = words.get(i);
        if (word.isNumber()) {
            boolean usable = word.text().length() <= 3 && word.text().chars().allMatch(c -> c >= '0' && c <= '9');
            return usable
                    ? Optional.of(new Spoken(Integer.parseInt(word.text()), i + 1, false, false, false))
                    : Optional.empty();
        }
        if (ordinalDigits(word.text()) > 0) {
            return at(words, i);
        }
        Integer ordinal = ORDINALS.get(word.text());
        return ordinal != null ? Optional.of(new Spoken(ordinal, i + 1, true, false, true)) : small(words, i);
    }

    private static int ordinalDigits(String text) {
        int n = text.length() - 2;
        boolean shaped = n >= 1
                && n <= 4
                && text.substring(0, n).chars().allMatch(c -> c >= '0' && c <= '9')
                && List.of("st", "nd", "rd", "th").contains(text.substring(n));
        return shaped ? Integer.parseInt(text.substring(0, n)) : 0;
    }

    private static Optional<Spoken> digits(List<Word> words, int i) {
        String text = words.get(i).text();
        if (!text.chars().allMatch(c -> c >= '0' && c <= '9') || text.length() > 6) {
            return Optional.empty();
        }
        int value = Integer.parseInt(text);
        if (text.length() == 4 && isYear(value)) {
            // `1940 8` is 1948 in captions that break a year
            int unit = value % 10 == 0 && value % 100 != 0 && joins(words, i + 1)
                    ? digit(words.get(i + 1).text())
                    : -1;
            boolean lone =
                    unit > 0 && !(i + 2 < words.size() && words.get(i + 2).isNumber());
            return Optional.of(new Spoken(lone ? value + unit : value, lone ? i + 2 : i + 1, false, true, false));
        }
        boolean century = text.equals("18") || text.equals("19") || text.equals("20");
        if (century && joins(words, i + 1)) {
            String next = words.get(i + 1).text();
            if (words.get(i + 1).isNumber() && next.length() == 2) {
                return Optional.of(new Spoken(value * 100 + Integer.parseInt(next), i + 2, false, true, false));
            }
        }
        return Optional.of(new Spoken(value, i + 1, false, false, false));
    }

    private static boolean isYear(int value) {
        return value >= 1793 && value <= 2099;
    }

    /// Whether the word goes on without a pause.
    private static boolean joins(List<Word> words, int i) {
        return i < words.size() && !words.get(i).opens();
    }

    private static Optional<Spoken> inWords(List<Word> words, int i) {
        String text = words.get(i).text();
        Integer ordinal = ORDINALS.get(text);
        if (ordinal != null) {
            return Optional.of(new Spoken(ordinal, i + 1, true, false, true));
        }
        Optional<Spoken> small = small(words, i);
        if (small.isEmpty()) {
            return Optional.empty();
        }
        Spoken first = small.get();
        int end = first.end();
        if (first.ordinal() || !joins(words, end)) {
            return small;
        }
        String next = words.get(end).text();
        boolean century = first.value() == 18 || first.value() == 19 || first.value() == 20;
        if (next.equals("hundred")) {
            return hundreds(words, first, end + 1, century);
        }
        if (next.equals("thousand") && first.value() == 2) {
            int after = joins(words, end + 1) && words.get(end + 1).is("and") ? end + 2 : end + 1;
            Optional<Spoken> rest = joins(words, after) ? small(words, after) : Optional.empty();
            int value = 2000 + rest.map(Spoken::value).orElse(0);
            return Optional.of(new Spoken(value, rest.map(Spoken::end).orElse(end + 1), false, true, true));
        }
        if (century && first.value() == 19 && next.equals("and") && joins(words, end + 1)) {
            // `nineteen and forty-four`, as older people say it
            Optional<Spoken> rest = small(words, end + 1);
            if (rest.isPresent() && rest.get().value() >= 10 && !rest.get().ordinal()) {
                return Optional.of(
                        new Spoken(1900 + rest.get().value(), rest.get().end(), false, true, true));
            }
        }
        if (century) {
            if ((next.equals("oh") || next.equals("o")) && joins(words, end + 1)) {
                Integer unit = UNITS.get(words.get(end + 1).text());
                if (unit != null) {
                    return Optional.of(new Spoken(first.value() * 100 + unit, end + 2, false, true, true));
                }
            }
            Optional<Spoken> rest = small(words, end);
            if (rest.isPresent() && rest.get().value() >= 10 && !rest.get().ordinal()) {
                return Optional.of(new Spoken(
                        first.value() * 100 + rest.get().value(), rest.get().end(), false, true, true));
            }
            if (words.get(end).isNumber() && words.get(end).text().length() == 2) {
                int value =
                        first.value() * 100 + Integer.parseInt(words.get(end).text());
                return Optional.of(new Spoken(value, end + 1, false, true, true));
            }
        }
        return small;
    }

    private static Optional<Spoken> hundreds(List<Word> words, Spoken first, int end, boolean century) {
        int after = joins(words, end) && words.get(end).is("and") ? end + 1 : end;
        Optional<Spoken> rest = joins(words, after) ? small(words, after) : Optional.empty();
        int value = first.value() * 100 + rest.map(Spoken::value).orElse(0);
        return Optional.of(
                new Spoken(value, rest.map(Spoken::end).orElse(end), false, century && first.value() >= 18, true));
    }

    private static final Map<String, Integer> HOMOPHONES = Map.of("won", 1, "ate", 8, "fore", 4, "sicks", 6);
    private static final Map<String, Integer> HOMOPHONES_BEFORE_MINTS = Map.of("to", 2, "too", 2, "for", 4);
    private static final List<String> MINTS = List.of(
            "d",
            "s",
            "p",
            "w",
            "d's",
            "s's",
            "ds",
            "plain",
            "denver",
            "philadelphia",
            "no",
            "blank",
            "philly",
            "frisco",
            "bare");

    /// The unit behind `forty`, as it is written or as recognisers hear it: `forty ate d`, `fifty to no letter`.
    private static @Nullable Integer unitBehindTens(List<Word> words, int i) {
        String text = words.get(i).text();
        Integer unit = UNITS.get(text);
        if (unit != null) {
            return unit;
        }
        boolean mint = i + 1 < words.size() && MINTS.contains(words.get(i + 1).text());
        return mint && HOMOPHONES_BEFORE_MINTS.containsKey(text)
                ? HOMOPHONES_BEFORE_MINTS.get(text)
                : HOMOPHONES.get(text);
    }

    /// Cuts plurals of dates in two, `sixty fours` into `four` and `s` as `64s` is cut.
    static List<Word> singular(List<Word> words) {
        List<Word> all = new ArrayList<>(words.size());
        for (int i = 0; i < words.size(); i++) {
            Word word = words.get(i);
            String text = word.text();
            String one = text.endsWith("es") && !text.endsWith("nes") && !text.endsWith("ves") && !text.endsWith("ees")
                    ? text.substring(0, text.length() - 2)
                    : text.endsWith("s") ? text.substring(0, text.length() - 1) : text;
            boolean plural = i > 0
                    && !one.equals(text)
                    && UNITS.containsKey(one)
                    && TENS.containsKey(words.get(i - 1).text());
            if (plural) {
                all.add(new Word(
                        one, word.at(), word.cue(), word.from(), word.to(), word.opens(), false, false, false));
                all.add(new Word(
                        "s", word.at(), word.cue(), word.to(), word.to(), false, word.stops(), word.asks(), false));
            } else {
                all.add(word);
            }
        }
        return all;
    }

    /// Pairs of figures from which on a voice is taken to say dates digit by digit, `5 7 d`.
    private static final int SPELLS = 6;

    /// Joins figures that are said one by one by a voice that does so all the time: `4 8 blank` is 48.
    static List<Word> joined(List<Word> words) {
        int pairs = 0;
        for (int i = 0; i < words.size(); i++) {
            int run = run(words, i);
            pairs += run % 2 == 0 && run > 0 && !ascends(words, i, run) ? run / 2 : 0;
            i += Math.max(0, run - 1);
        }
        if (pairs < SPELLS) {
            return words;
        }
        List<Word> all = new ArrayList<>(words.size());
        for (int i = 0; i < words.size(); i++) {
            int run = run(words, i);
            boolean split = run > 0
                    && run % 2 == 0
                    && !ascends(words, i, run)
                    && !(run == 4 && spelled(words, i).isPresent());
            for (int k = i; k < i + run; k += split ? 2 : 1) {
                all.add(split ? pair(words.get(k), words.get(k + 1)) : words.get(k));
            }
            if (run == 0) {
                all.add(words.get(i));
            }
            i += Math.max(0, run - 1);
        }
        return all;
    }

    /// How many figures of one digit begin at a word, one behind the other; 0 when one stands before.
    private static int run(List<Word> words, int i) {
        int end = i;
        while (isFigure(words, end) && (end == i || joins(words, end))) {
            end++;
        }
        return end - i;
    }

    private static boolean ascends(List<Word> words, int i, int run) {
        for (int k = i + 1; k < i + run; k++) {
            if (digit(words.get(k).text()) != digit(words.get(k - 1).text()) + 1) {
                return false;
            }
        }
        return true;
    }

    private static Word pair(Word one, Word two) {
        return new Word(
                one.text() + two.text(),
                one.at(),
                one.cue(),
                one.from(),
                two.cue() == one.cue() ? two.to() : one.to(),
                one.opens(),
                two.stops(),
                two.asks(),
                one.currency());
    }

    /// 1 to 99 in words.
    private static Optional<Spoken> small(List<Word> words, int i) {
        String text = words.get(i).text();
        Integer value = UNITS.get(text);
        if (value == null) {
            value = TEENS.get(text);
        }
        if (value != null) {
            return Optional.of(new Spoken(value, i + 1, false, false, true));
        }
        Integer tens = TENS.get(text);
        if (tens == null) {
            return Optional.empty();
        }
        boolean and = joins(words, i + 1) && words.get(i + 1).is("and") && joins(words, i + 2) && tens >= 30;
        if (and && UNITS.containsKey(words.get(i + 2).text())) {
            // `forty and one`, as some say it
            return Optional.of(new Spoken(
                    tens + UNITS.getOrDefault(words.get(i + 2).text(), 0), i + 3, false, false, true));
        }
        if (joins(words, i + 1)) {
            Integer unit = unitBehindTens(words, i + 1);
            if (unit != null) {
                return Optional.of(new Spoken(tens + unit, i + 2, false, false, true));
            }
            Integer ordinal = ORDINALS.get(words.get(i + 1).text());
            if (ordinal != null && ordinal < 10) {
                return Optional.of(new Spoken(tens + ordinal, i + 2, true, false, true));
            }
        }
        return Optional.of(new Spoken(tens, i + 1, false, false, true));
    }
}
