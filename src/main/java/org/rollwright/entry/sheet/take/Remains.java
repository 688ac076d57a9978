package org.rollwright.entry.sheet.take;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/// What is left of the description of a coin when all that is understood is taken out of it. Immutable.
record Remains(Lexicon words) {
    private static final String[] ROLES = {
        "kind", "design", "variety", "metal", "named", "unit", "country", "grade", "details", "colour", "nomint",
        "undated"
    };

    /// What is said otherwise: years with letters, numbers, counts.
    private static final Pattern READ = Pattern.compile(
            "(?<![0-9])(?:1776\\s*[-/]\\s*1976|(?:1[0-9]{3}|20[0-9]{2})(?:\\s*/\\s*[0-9]{1,2})?)(?:\\s?-?\\s?(?:CC|[DSPOWABCGJKF])(?![\\p{L}]))?"
                    + "|(?i:denver|san francisco|carson city|new orleans|philadelphia|philly|west point)(?: mint)?|(?<![\\p{L}])(?:MS|AU|XF|EF|VF|VG|PR|PF|AG|F|G)[ -]?[0-9]{1,2}[+]?(?![\\p{L}0-9])"
                    + "|\\b[0-9]+\\s*[½¼¾]|\\b[0-9]+/[0-9]+|[½¼¾]|[$€£]\\s?[0-9][0-9.,]*|\\bx\\s?[0-9]+\\b|\\b[0-9]+\\s?x\\b");

    private static final Set<String> FILLERS = Set.of(
            "a",
            "an",
            "the",
            "of",
            "coin",
            "coins",
            "piece",
            "pieces",
            "and",
            "or",
            "to",
            "in",
            "on",
            "with",
            "w",
            "one",
            "some",
            "old",
            "type",
            "us",
            "my",
            "from",
            "it",
            "is",
            "de",
            "la",
            "le",
            "les",
            "du",
            "des",
            "d",
            "l",
            "et",
            "y",
            "el",
            "los",
            "las",
            "del",
            "en",
            "der",
            "die",
            "das",
            "und",
            "von",
            "het",
            "een",
            "van",
            "munt",
            "munze",
            "monnaie",
            "moneda",
            "moneta",
            "stuk",
            "stuck",
            "mint",
            "mark",
            "mm",
            "date",
            "year",
            "grade",
            "nr",
            "no",
            "cent",
            "penny",
            "details",
            "st",
            "commemorative",
            "circulated",
            "ex",
            "pcs");

    private static final Set<String> VAGUE = Set.of(
            "big",
            "little",
            "small",
            "large",
            "old",
            "shiny",
            "nice",
            "worn",
            "dirty",
            "beautiful",
            "ugly",
            "foreign",
            "strange",
            "weird",
            "gold",
            "golden",
            "silver",
            "unknown",
            "token",
            "medal",
            "looks",
            "mixed",
            "misc",
            "assorted",
            "various",
            "lot",
            "bag",
            "roll",
            "box",
            "best",
            "pretty",
            "real",
            "fake",
            "rare",
            "common",
            "double",
            "single",
            "great",
            "good",
            "bad",
            "my",
            "his",
            "her",
            "dad",
            "dads",
            "grandpa",
            "another",
            "same",
            "chinese",
            "arabic",
            "holed",
            "toned",
            "dark",
            "light",
            "heavy",
            "thin",
            "found",
            "dug");

    /// Phrases that were not understood, as they stand.
    List<String> of(String text) {
        List<String> left = new ArrayList<>();
        for (String part : text.split("[,;()\\[\\]]| - | – | / ", -1)) {
            StringBuilder rest = new StringBuilder(READ.matcher(part)
                    .replaceAll(found -> " ".repeat(found.group().length())));
            for (Lexicon.Hit hit : words.find(rest.toString(), ROLES)) {
                boolean plain = hit.term().role().equals("nomint")
                        && hit.term().tokens().size() == 1
                        && !hit.term().tokens().equals(List.of("none"));
                if (plain) {
                    continue;
                }
                for (int i = hit.from(); i < hit.to(); i++) {
                    rest.setCharAt(i, ' ');
                }
            }
            // what was understood left a gap: `Wisconsin quarter extra leaf` is two phrases
            Matcher piece = PIECE.matcher(rest);
            while (piece.find()) {
                boolean any = Words.of(piece.group()).stream()
                        .anyMatch(token -> token.kind() == Words.Kind.WORD
                                && token.text().length() > 1
                                && !FILLERS.contains(token.text()));
                if (any) {
                    left.add(phrase(piece.group()));
                }
            }
        }
        return left;
    }

    private static final Pattern PIECE = Pattern.compile("\\S+(?:\\s{1,2}\\S+)*");

    /// From the first to the last word that says something.
    private static String phrase(String piece) {
        List<Words.Token> tokens = Words.of(piece).stream()
                .filter(token -> !FILLERS.contains(token.text()) || token.kind() != Words.Kind.WORD)
                .toList();
        return piece.substring(tokens.getFirst().from(), tokens.getLast().to())
                .strip()
                .replaceAll("\\s+", " ");
    }

    static boolean isVague(String plain) {
        return Words.of(plain).stream().anyMatch(token -> VAGUE.contains(token.text()));
    }
}
