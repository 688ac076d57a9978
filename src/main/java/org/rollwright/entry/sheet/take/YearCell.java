package org.rollwright.entry.sheet.take;

import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/// The year on a coin and what stands beside it in one cell: `1909 S VDB`, `44D`, `1943/2 P`, `42-45`.
///
/// @param year blank when none is said
/// @param mint a letter, `none` where that is said, blank when nothing is
/// @param variety what the year's own writing says: an overdate
/// @param rest what stands behind
/// @param range whether several years are said
/// @param doubtful whether the year is not sure
/// @param undated whether it is said that there is none
record YearCell(
        String year, String mint, String variety, String rest, boolean range, boolean doubtful, boolean undated) {
    static final YearCell NONE = new YearCell("", "", "", "", false, false, false);

    private static final String YEAR = "(1[0-9]{3}|20[0-9]{2})";
    private static final Pattern RANGE = Pattern.compile("'?(?:" + YEAR
            + "|([0-9]{2}))\\s*(?:-|to|thru|through|bis|tot|a|/)\\s*'?(?:" + YEAR + "|([0-9]{2}))('?s)?(?![0-9])(.*)");
    private static final Pattern DECADE =
            Pattern.compile("(?:'?[0-9]{2}|" + YEAR + ")'?s\\b(.*)|" + YEAR + "\\s*\\+(.*)");
    private static final Pattern OVER = Pattern.compile(YEAR + "\\s*/\\s*([0-9]{1,2})(?![0-9])(.*)");
    private static final Pattern FULL = Pattern.compile(YEAR + "(.*)");
    private static final Pattern SHORT = Pattern.compile("'?([0-9]{2})(?![0-9/])(.*)");
    private static final Pattern MINT = Pattern.compile("\\s*[-/(]?\\s*([A-Za-z]{1,2})\\)?(?![A-Za-z'])(.*)");
    private static final List<String> LETTERS = List.of(
            "P", "D", "S", "O", "CC", "W", "A", "B", "BB", "C", "E", "F", "G", "J", "K", "H", "M", "T", "I", "L", "N",
            "R");

    static boolean isYear(String text) {
        return text.strip()
                .matches("'?" + YEAR + "(?:\\s*[-/]?\\s*[A-Za-z]{1,2})?(?:[^0-9/.].*)?|'?[0-9]{2}[ -]?[DSPO]?");
    }

    static boolean isCoinYear(String text) {
        return text.strip().matches(YEAR + "(?:\\s*[-/]?\\s*[A-Za-z]{1,2})?");
    }

    /// Reads a cell.
    ///
    /// @param column whether the cell is one of years, where two digits are a year, too
    static YearCell read(String text, Lexicon words, boolean column) {
        String plain = text.strip();
        if (plain.matches("(?:[0-9] ){3}[0-9]")) {
            plain = plain.replace(" ", "");
        }
        if (plain.isEmpty() || plain.matches("[?-]+")) {
            return plain.isEmpty() ? NONE : new YearCell("", "", "", "", false, false, plain.contains("-"));
        }
        plain = plain.replaceAll("^\\((" + "[0-9]{4}" + ")\\)", "$1");
        Optional<String> undated = words.exact("undated", plain);
        if (undated.isPresent()) {
            return new YearCell("", "", "", "", false, false, true);
        }
        Optional<YearCell> era = era(plain, words);
        if (era.isPresent()) {
            return era.get();
        }
        if (plain.matches("1776\\s*[-/]\\s*1976.*")) {
            YearCell marked = marked("1976", "", plain.replaceFirst("1776\\s*[-/]\\s*1976", ""), words);
            return new YearCell("1976", marked.mint, "bicentennial", marked.rest, false, marked.doubtful, false);
        }
        Matcher range = RANGE.matcher(plain);
        if (range.matches() && later(range)) {
            return new YearCell("", "", "", nonNull(range.group(6)).strip(), true, false, false);
        }
        Matcher decade = DECADE.matcher(plain);
        if (decade.matches() && (column || plain.matches("[0-9]{4}'?s\\b.*"))) {
            return new YearCell("", "", "", "", true, false, false);
        }
        Matcher over = OVER.matcher(plain);
        if (over.matches()) {
            return marked(over.group(1), "overdate " + over.group(1) + "/" + over.group(2), over.group(3), words);
        }
        // the year as the coin's own calendar counts it, and ours beside it
        Matcher both = Pattern.compile(
                        "([0-9]{2,4})\\s*(?:\\(|=|/)\\s*" + YEAR + "\\)?(?:\\s*(?:ad|ce|n\\.?c\\.?))?(.*)",
                        Pattern.CASE_INSENSITIVE)
                .matcher(plain);
        if (both.matches() && isOther(both.group(1), both.group(2))) {
            return marked(both.group(2), "", both.group(3), words);
        }
        Matcher back = Pattern.compile(
                        YEAR + "\\s*(?:\\(|=|/)\\s*([0-9]{2,4})(?:\\s*ah)?\\)?(.*)", Pattern.CASE_INSENSITIVE)
                .matcher(plain);
        if (back.matches() && back.group(2).length() >= 3 && isOther(back.group(2), back.group(1))) {
            return marked(back.group(1), "", back.group(3), words);
        }
        Matcher full = FULL.matcher(plain);
        if (full.matches()) {
            return marked(full.group(1), "", full.group(2), words);
        }
        Matcher brief = SHORT.matcher(plain);
        if (column && brief.matches()) {
            int two = Integer.parseInt(brief.group(1));
            return marked(
                    Integer.toString(two <= 27 ? (two <= 8 ? 2000 : 1900) + two : 1900 + two),
                    "",
                    brief.group(2),
                    words);
        }
        return new YearCell("", "", "", plain, false, plain.contains("?"), false);
    }

    private static String nonNull(@org.jspecify.annotations.Nullable String text) {
        return text == null ? "" : text;
    }

    private static boolean later(Matcher range) {
        String from = range.group(1) == null ? nonNull(range.group(2)) : nonNull(range.group(1));
        String to = range.group(3) == null ? nonNull(range.group(4)) : nonNull(range.group(3));
        int first = Integer.parseInt(from.substring(from.length() - 2));
        int last = Integer.parseInt(to.substring(to.length() - 2));
        return to.length() == 4 || (last > first && !range.group().contains("/"));
    }

    /// Whether one number is another calendar's for a year of ours: of the Hijra, the Buddhist era, the Hebrew one.
    private static boolean isOther(String other, String year) {
        int own = Integer.parseInt(other);
        int ours = Integer.parseInt(year);
        boolean hijra = Math.abs((int) Math.round(own * 0.970225 + 621.54) - ours) <= 1;
        boolean buddhist = own - ours == 543 || own - ours == 544;
        boolean hebrew = own - ours == 3760 || own - ours == 3761;
        boolean saka = ours - own == 78 || ours - own == 79 || ours - own == 57 || ours - own == 56;
        return hijra || buddhist || hebrew || (saka && own > 1000);
    }

    private static Optional<YearCell> era(String text, Lexicon words) {
        for (Lexicon.Hit hit : words.find(text, "era")) {
            Matcher number = Pattern.compile("\\s*([0-9]{1,2})(.*)").matcher(text.substring(hit.to()));
            if (number.matches()) {
                int base = Integer.parseInt(hit.means().replaceAll("[^0-9]", ""));
                return Optional.of(new YearCell(
                        Integer.toString(base + Integer.parseInt(number.group(1))),
                        "",
                        "",
                        number.group(2),
                        false,
                        false,
                        false));
            }
        }
        return Optional.empty();
    }

    private static YearCell marked(String year, String variety, String behind, Lexicon words) {
        String rest = behind.strip();
        boolean doubtful = rest.startsWith("?");
        if (doubtful) {
            rest = rest.substring(1).strip();
        }
        if (rest.matches("[-–]")) {
            return new YearCell(year, "none", variety, "", false, doubtful, false);
        }
        String mint = "";
        Matcher letters = MINT.matcher(rest);
        if (letters.matches()) {
            String found = letters.group(1).toUpperCase(java.util.Locale.ROOT);
            boolean variant = words.find(rest, "variety").stream().anyMatch(hit -> hit.first() == 0);
            if (LETTERS.contains(found) && !variant) {
                mint = found;
                rest = letters.group(2).strip();
            }
        }
        return new YearCell(year, mint, variety, rest, false, doubtful || rest.equals("?"), false);
    }
}
