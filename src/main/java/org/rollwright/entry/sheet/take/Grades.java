package org.rollwright.entry.sheet.take;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;

/// Grades as people write them, in words of five languages, brought to the trade's short form.
///
/// @param grade `VF 20`, `MS 62 to 63`, `AU~`, blank when none is said
/// @param details what else is said of the state: `cleaned`, parted by commas
/// @param colour blank when none is said
/// @param rest words that were not understood
/// @param doubtful a grade word that has two meanings, blank when none
record Grades(String grade, String details, String colour, String rest, String doubtful) {
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
        String spaced = text.replaceAll("(?i)\\bv\\.f\\.?", "VF").replaceAll("(?i)\\be\\.f\\.?", "EF");
        List<Words.Token> tokens = Words.of(spaced);
        List<Step> steps = new ArrayList<>();
        Set<String> details = new LinkedHashSet<>();
        String colour = "";
        String doubtful = "";
        List<String> rest = new ArrayList<>();
        boolean hedge = false;
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
                        doubtful = text.substring(
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
        return new Grades(grade, String.join(", ", details), colour, String.join(" ", rest), sure ? "" : doubtful);
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
