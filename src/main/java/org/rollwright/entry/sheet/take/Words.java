package org.rollwright.entry.sheet.take;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/// The words, numbers and signs of a text, told apart without regard to case and accents.
final class Words {
    /// What a token is.
    enum Kind {
        WORD,
        NUMBER,
        SIGN
    }

    /// @param from where it begins in the text, from 0
    /// @param to behind its last character
    record Token(String text, Kind kind, int from, int to) {}

    /// Signs that mean something where they stand; all others only part words.
    private static final String SIGNS = "?%/$€£¥¢½¼¾~+#*@=";

    private Words() {}

    /// A text in small letters without accents, as long as the text, so that places in it are places in the text.
    static String plain(String text) {
        StringBuilder plain = new StringBuilder(text.length());
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            char base = c < 0x80 || c == '½' || c == '¼' || c == '¾'
                    ? c
                    : Normalizer.normalize(String.valueOf(c), Normalizer.Form.NFD)
                            .charAt(0);
            base = switch (base) {
                case 'ß' -> 's';
                case 'ø', 'Ø' -> 'o';
                case 'æ', 'Æ' -> 'a';
                case '’', '‘', '´', '`', '′' -> '\'';
                case '“', '”', '„', '″' -> '"';
                case '–', '—', '‐', '‑', '−' -> '-';
                case '\u00A0', '\u202F', '\u2009' -> ' ';
                default -> base;
            };
            plain.append(Character.toLowerCase(base));
        }
        return plain.toString().toLowerCase(Locale.ROOT).length() == text.length()
                ? plain.toString().toLowerCase(Locale.ROOT)
                : plain.toString();
    }

    static List<Token> of(String text) {
        String plain = plain(text);
        List<Token> tokens = new ArrayList<>();
        int i = 0;
        while (i < plain.length()) {
            char c = plain.charAt(i);
            int from = i;
            if (Character.isLetter(c)) {
                while (i < plain.length() && Character.isLetter(plain.charAt(i))) {
                    i++;
                }
                tokens.add(new Token(plain.substring(from, i), Kind.WORD, from, i));
            } else if (c >= '0' && c <= '9') {
                i++;
                while (i < plain.length()
                        && (digit(plain, i)
                                || ((plain.charAt(i) == '.' || plain.charAt(i) == ',') && digit(plain, i + 1)))) {
                    i++;
                }
                tokens.add(new Token(plain.substring(from, i), Kind.NUMBER, from, i));
            } else {
                i++;
                if (SIGNS.indexOf(c) >= 0) {
                    tokens.add(new Token(String.valueOf(c), Kind.SIGN, from, i));
                }
            }
        }
        return tokens;
    }

    private static boolean digit(String text, int at) {
        return at < text.length() && text.charAt(at) >= '0' && text.charAt(at) <= '9';
    }

    /// The tokens with one space between them: what two texts have in common when they differ in case, accents,
    /// points and hyphens only.
    static String key(String text) {
        return String.join(" ", of(text).stream().map(Token::text).toList());
    }
}
