package org.rollwright.entry;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import org.rollwright.catalog.Catalog;
import org.rollwright.coin.Country;
import org.rollwright.coin.Grade;

/// Words typed without a blank between them: `ca67`, `2x57d`, `57dx2`, `39svf20`, `55ddo`.
///
/// A word is taken apart only where every part is known, and never where the whole is a date with its mint mark.
final class Glued {
    private static final Pattern FRONT = Pattern.compile("([a-z]{2})?([0-9]{1,3}x)?((?:[0-9]{4}|[0-9]{2})(?![0-9]).*)");
    private static final Pattern DATE = Pattern.compile("([0-9]{4}|[0-9]{2})-?([a-z].*)");
    private static final Pattern TIMES = Pattern.compile("x[0-9]{1,6}");
    private static final int LONGEST_MINT = 2;
    private static final int LONGEST = 40;

    private Glued() {}

    /// The words, those that are several cut apart.
    static List<Token> apart(List<Token> tokens, Catalog catalog, Country home) {
        List<Token> apart = new ArrayList<>();
        for (Token token : tokens) {
            if (token.quoted() || token.text().length() > LONGEST) {
                apart.add(token);
            } else {
                cut(token, catalog, home, apart);
            }
        }
        return apart;
    }

    private static void cut(Token token, Catalog catalog, Country home, List<Token> into) {
        Matcher front = FRONT.matcher(token.lower());
        if (!front.matches() || Grade.parse(token.text()).isPresent()) {
            into.add(token);
            return;
        }
        String abroad = front.group(1);
        boolean known = abroad == null || catalog.countryByWord(abroad).isPresent();
        Country of = abroad == null || !known
                ? home
                : catalog.countryByWord(abroad).orElseThrow().country();
        int date = front.start(3);
        String dated = front.group(3);
        int end = token.text().length();
        int behind = end - behind(dated, catalog, of);
        boolean whole = behind == end && !isDate(dated, catalog, of);
        if (!known || whole || (date == 0 && behind == end)) {
            into.add(token);
            return;
        }
        int count = abroad == null ? 0 : abroad.length();
        if (count > 0) {
            into.add(part(token, 0, count));
        }
        if (front.group(2) != null) {
            into.add(part(token, count, date));
        }
        into.add(part(token, date, behind));
        if (behind < end) {
            into.add(part(token, behind, end));
        }
    }

    private static Token part(Token token, int from, int to) {
        return new Token(token.text().substring(from, to), token.start() + from, token.start() + to, false, "");
    }

    private static boolean isDate(String word, Catalog catalog, Country of) {
        return DateWord.parse(word)
                .filter(date -> date.suffix().isEmpty()
                        || date.suffix().equals("?")
                        || IdentityReader.mintWord(catalog, of, date.suffix()).isPresent())
                .isPresent();
    }

    /// How many letters at the end of a word are a word of their own; 0 when it is a date and nothing else.
    private static int behind(String dated, Catalog catalog, Country of) {
        Matcher date = DATE.matcher(dated);
        if (isDate(dated, catalog, of) || !date.matches()) {
            return 0;
        }
        String rest = date.group(2);
        return IntStream.rangeClosed(0, Math.min(LONGEST_MINT, rest.length()))
                .filter(mint -> mint == 0
                        || IdentityReader.mintWord(catalog, of, rest.substring(0, mint))
                                .isPresent())
                .map(mint -> rest.length() - mint)
                .filter(length -> isWord(rest.substring(rest.length() - length), catalog))
                .findFirst()
                .orElse(0);
    }

    private static boolean isWord(String word, Catalog catalog) {
        boolean grade = Grade.parse(word).isPresent() && word.chars().anyMatch(Character::isDigit);
        return grade
                || TIMES.matcher(word).matches()
                || (word.length() > 1 && catalog.tradeWord(word).isPresent())
                || (word.length() > LONGEST_MINT
                        && catalog.issues().stream()
                                .anyMatch(issue -> issue.words().contains(word)));
    }
}
