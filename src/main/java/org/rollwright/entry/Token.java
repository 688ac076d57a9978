package org.rollwright.entry;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/// A word of an entry line and where it stands.
///
/// @param text as typed; for a quoted token what stands between the quotes
/// @param start position of its first character in the line, from 0
/// @param end position after its last character
/// @param tag what stood before the colon in `note:"…"`, blank otherwise
record Token(String text, int start, int end, boolean quoted, String tag) {

    String lower() {
        return text.toLowerCase(Locale.ROOT);
    }

    /// A line that cannot be taken because of this word.
    Reading.Problem problem(String wrong, String right) {
        return new Reading.Problem(start, end - start, wrong, right);
    }

    /// Cuts a line into segments at commas outside quotes, and each segment into tokens at white space.
    ///
    /// A quote opens only at the beginning of a token or after a tag's colon; inside it a doubled quote stands
    /// for one. A quote that is never closed runs to the end of the line. Never throws.
    static List<List<Token>> segments(String line) {
        List<List<Token>> segments = new ArrayList<>();
        List<Token> segment = new ArrayList<>();
        int at = 0;
        while (at < line.length()) {
            char c = line.charAt(at);
            if (c == ',') {
                segments.add(segment);
                segment = new ArrayList<>();
                at++;
            } else if (isSpace(c)) {
                at++;
            } else if (isQuote(c)) {
                at = quoted(line, at, at, "", segment);
            } else {
                at = bare(line, at, segment);
            }
        }
        segments.add(segment);
        return segments;
    }

    private static int bare(String line, int start, List<Token> into) {
        int at = start;
        while (at < line.length()) {
            char c = line.charAt(at);
            if (c == ',' || isSpace(c)) {
                break;
            }
            if (c == ':' && at > start && at + 1 < line.length() && isQuote(line.charAt(at + 1))) {
                return quoted(line, start, at + 1, line.substring(start, at).toLowerCase(Locale.ROOT), into);
            }
            at++;
        }
        into.add(new Token(line.substring(start, at), start, at, false, ""));
        return at;
    }

    private static int quoted(String line, int start, int open, String tag, List<Token> into) {
        StringBuilder text = new StringBuilder();
        int at = open + 1;
        while (at < line.length()) {
            char c = line.charAt(at);
            if (closes(line.charAt(open), c)) {
                if (at + 1 < line.length() && c == '"' && line.charAt(at + 1) == '"') {
                    text.append(c);
                    at += 2;
                    continue;
                }
                at++;
                break;
            }
            text.append(isSpace(c) ? ' ' : c);
            at++;
        }
        into.add(new Token(text.toString().strip(), start, at, true, tag));
        return at;
    }

    private static boolean isSpace(char c) {
        return Character.isWhitespace(c) || Character.isSpaceChar(c) || Character.isISOControl(c);
    }

    /// A straight quote is closed by a straight one only, so that a note may hold typographic ones; and the
    /// reverse.
    private static boolean closes(char opening, char c) {
        return opening == '"' ? c == '"' : c != '"' && isQuote(c);
    }

    /// Straight and typographic double quotes: phones type the latter.
    private static boolean isQuote(char c) {
        return c == '"' || c == '\u201C' || c == '\u201D' || c == '\u201E';
    }
}
