package org.rollwright.entry.sheet.take;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/// Grades as people write them, in words of five languages, brought to the trade's short form.
///
/// @param grade `VF 20`, `MS 62 to 63`, `AU~`, blank when none is said
/// @param details what else is said of the state: `cleaned`, parted by commas
/// @param colour blank when none is said
/// @param rest words that were not understood
/// @param doubtful a grade word that has two meanings, blank when none
record Grades(String grade, String details, String colour, String rest, String doubtful) {
    private static final Pattern HEDGE = Pattern.compile(
            "\\b(or so|or thereabouts|or near it|maybe|probably|prob|probly|i think|i guess|my guess|guess|roughly|more or less"
                    + "|peut[ -]etre|environ|a peu pres|ungefahr|etwa|vielleicht|ongeveer|misschien|quizas?|mas o menos|aprox)\\b\\.?");

    private static final Pattern STEP = Pattern.compile("[1-9]|[1-6][0-9]|70");

    private record Step(String letters, String number, boolean plus, boolean hedged) {
        String text() {
            return letters + (number.isEmpty() ? "" : " " + number) + (plus ? "+" : "");
        }
    }

    static Grades read(String text, Lexicon words) {
        if (text.isBlank() || text.strip().matches("[?-]+")) {
            return new Grades("", "", "", "", "");
        }
        Matcher nearly =
                Pattern.compile("^\\s*[an]\\.?(?=(?:VF|EF|XF|F|VG|Fine)\\b)").matcher(text);
        boolean near = nearly.find();
        boolean hedged = near || HEDGE.matcher(Words.plain(text)).find();
        String said = near
                ? text.substring(nearly.end())
                : hedged ? HEDGE.matcher(Words.plain(text)).replaceAll(" ") : text;
        String spaced = said.replaceAll("(?i)\\bv\\.f\\.?", "VF").replaceAll("(?i)\\be\\.f\\.?", "EF");
        List<Words.Token> tokens = Words.of(spaced);
        List<Step> steps = new ArrayList<>();
        Set<String> details = new LinkedHashSet<>();
        String colour = "";
        String doubtful = "";
        List<String> rest = new ArrayList<>();
        boolean hedge = hedged;
        int i = 0;
        while (i < tokens.size()) {
            Words.Token token = tokens.get(i);
            List<Words.Token> from = tokens.subList(i, tokens.size());
            List<Lexicon.Hit> hits = words.find(from, "grade", "details", "colour");
            Lexicon.Hit hit = hits.isEmpty() || hits.getFirst().first() > 0 ? null : hits.getFirst();
            if (hit == null) {
                String word = token.text();
                boolean sign = token.kind() == Words.Kind.SIGN;
                if (token.kind() == Words.Kind.NUMBER && STEP.matcher(word).matches()) {
                    if (steps.isEmpty()) {
                        String letters = letters(Integer.parseInt(word));
                        steps.add(new Step(letters, word, false, hedge));
                    } else {
                        Step last = steps.getLast();
                        steps.add(new Step(last.letters, word, false, false));
                    }
                } else if (word.equals("+") && !steps.isEmpty()) {
                    Step last = steps.removeLast();
                    steps.add(new Step(last.letters, last.number, true, last.hedged));
                } else if (word.equals("?")
                        || word.equals("~")
                        || word.equals("ish")
                        || word.equals("about")
                        || word.equals("circa")
                        || word.equals("ca")
                        || word.equals("env")
                        || word.equals("approx")) {
                    hedge = true;
                } else if (!sign
                        && !List.of(
                                        "to",
                                        "a",
                                        "bis",
                                        "tot",
                                        "or",
                                        "and",
                                        "with",
                                        "w",
                                        "en",
                                        "et",
                                        "und",
                                        "anders",
                                        "but",
                                        "mais",
                                        "aber",
                                        "maar",
                                        "otherwise",
                                        "sonst",
                                        "y",
                                        "con",
                                        "mit",
                                        "met",
                                        "avec",
                                        "details",
                                        "detail",
                                        "nice",
                                        "low",
                                        "high",
                                        "slight",
                                        "slightly",
                                        "lightly",
                                        "light",
                                        "leicht",
                                        "licht",
                                        "legerement")
                                .contains(word)) {
                    rest.add(word);
                }
                i++;
                continue;
            }
            int next = i + hit.behind();
            switch (hit.term().role()) {
                case "grade" -> {
                    String letters = hit.means();
                    if (letters.endsWith("?")) {
                        doubtful = spaced.substring(
                                token.from(), tokens.get(next - 1).to());
                        letters = letters.substring(0, letters.length() - 1);
                    }
                    String number = "";
                    if (next < tokens.size()
                            && tokens.get(next).kind() == Words.Kind.NUMBER
                            && STEP.matcher(tokens.get(next).text()).matches()) {
                        number = tokens.get(next).text();
                        next++;
                    }
                    String written = Words.plain(hit.term().tokens().getFirst());
                    if (written.equals("pr") && number.length() == 2 && number.compareTo("60") >= 0) {
                        letters = "Proof";
                    } else if (written.equals("fr") && (number.equals("2") || number.equals("02"))) {
                        letters = "FR";
                    }
                    steps.add(new Step(letters, number, false, false));
                }
                case "details" -> details.add(hit.means());
                default -> colour = hit.means();
            }
            i = next;
        }
        String grade = "";
        if (!steps.isEmpty()) {
            Step low = steps.getFirst();
            Step high = steps.getLast();
            grade = low.text();
            if (!high.equals(low)) {
                grade += " to "
                        + (high.letters.equals(low.letters) && !high.number.isEmpty() ? high.number : high.text());
            }
            if (text.strip().matches("\\p{L}{1,3}\\s?-")) {
                grade += "-";
            }
            if (hedge) {
                grade += "~";
            }
        }
        // beside a sure neighbour a word with two meanings has one
        boolean sure = steps.size() > 1;
        return new Grades(
                grade,
                String.join(", ", details),
                colour,
                String.join(" ", rest),
                sure && !doubtful.matches("(?i)b|beau|belle") ? "" : doubtful);
    }

    private static final Pattern LETTERS = Pattern.compile(
            "(?<![\\p{L}0-9])(?:(?:AG|VG|VF|XF|EF|AU|UNC|BU|MS|PF|PR|FDC|TTB|SUP|SPL|MBC|EBC)(?:[ -]?[1-7]?[0-9])?|(?:F|G)[ -]?(?:4|6|12|15))"
                    + "[+]?(?:(?:[-/]| to )(?:[A-Z]{2,3}|F|G)?[0-9]{0,2})?(?![\\p{L}0-9])");

    private static final Pattern AT_END = Pattern.compile(
            "(?i)(?<![\\p{L}])(?:(?:about|almost|very|extra|extremely) )?(?:good|fine|unc|uncirculated|proof|mint state)"
                    + "(?:[ -]?[1-7]?[0-9])?[+]?\\s*$");

    /// Grade and damage among the other words of a description: in capitals, with a number, or in a part of their
    /// own.
    static Grades among(String text, Lexicon words) {
        String grade = "";
        Set<String> details = new LinkedHashSet<>();
        boolean american = Words.plain(text)
                .matches(
                        ".*\\b(cents?|penn(y|ies)|dimes?|nickels?|quarters?|hal(f|ves)|dollars?|wheats?|indians?)\\b.*");
        for (String part : text.split("[,;()]| - ", -1)) {
            Grades whole = read(part, words);
            Matcher letters = LETTERS.matcher(part);
            boolean only = !part.isBlank() && whole.rest().isEmpty() && part.matches(".*\\p{L}.*");
            boolean coin = only
                    && part.strip().length() <= 2
                    && !part.strip().matches(american ? "AU|BU|VF|VG|XF|EF|AG|MS|F|G" : "AU|BU|VF|VG|XF|EF|AG|MS");
            Matcher word = AT_END.matcher(part);
            if (only
                    && !coin
                    && !whole.grade().matches(".*[?]")
                    && whole.doubtful().isEmpty()) {
                grade = grade.isEmpty() ? whole.grade() : grade;
                if (!whole.details().isEmpty()) {
                    details.add(whole.details());
                }
            } else if (grade.isEmpty() && letters.find()) {
                grade = read(letters.group(), words).grade();
            } else if (grade.isEmpty() && word.find()) {
                grade = read(word.group(), words).grade();
            }
        }
        String of = detailsOf(text, words);
        if (!of.isEmpty()) {
            details.add(of);
        }
        return new Grades(grade, String.join(", ", details), "", "", "");
    }

    /// Damage a remark tells of, where a part of it is about nothing else: `rim ding at 4 oclock`, `nettoyée`.
    static String detailsOf(String note, Lexicon words) {
        Set<String> found = new LinkedHashSet<>();
        for (String part : note.replaceAll("(?i)\\blt\\.", "light").split("[,;.!\\n/()]", -1)) {
            String bare = Words.plain(part)
                    .strip()
                    .replaceAll(
                            "( (slightly|a bit|badly|lightly|somewhat|heavily|rev|obv|reverse|obverse|un peu|leicht|licht|etwas|un poco))+$",
                            "")
                    .replaceAll(
                            "^((has|with|w|w/|mit|avec|met|con|a|an|some|slightly?|lightly?|light|small|leichter?|leicht|petits?|petites?|un|une|een|ein|eine|kleiner?)[ /])+",
                            "");
            Optional<String> whole = words.exact("details", bare);
            List<Lexicon.Hit> hits = words.find(part, "details");
            boolean place = !hits.isEmpty()
                    && hits.getFirst().first() == 0
                    && Words.plain(part.substring(hits.getFirst().to()))
                            .matches(" ?(at|on|near|in|by|sur|a|au|am|an|auf|bei|op|bij|aan|en|sobre|por)\\b.*");
            boolean plain = whole.isPresent() || place;
            String means = plain ? whole.orElseGet(() -> hits.getFirst().means()) : "";
            boolean vague =
                    means.equals("circulated") || Words.plain(part).strip().matches("green|groen|use|coups?|circ|new");
            if (plain && !vague && !note.contains("?")) {
                found.add(means);
            }
        }
        return String.join(", ", found);
    }

    /// The letters a bare number stands for (common practice).
    private static String letters(int number) {
        return number >= 60
                ? "MS"
                : number >= 50
                        ? "AU"
                        : number >= 40
                                ? "XF"
                                : number >= 20
                                        ? "VF"
                                        : number >= 12 ? "F" : number >= 8 ? "VG" : number >= 4 ? "G" : "AG";
    }
}
