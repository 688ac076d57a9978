package org.rollwright.entry;

import java.util.Locale;
import org.rollwright.catalog.Issue;
import org.rollwright.coin.Metal;

/// Kinds and designs of several words as one word of the entry line: `copper large date` is typed
/// `copper-large-date`.
final class Slug {
    private Slug() {}

    static String of(String text) {
        return text.toLowerCase(Locale.ROOT).replace(' ', '-');
    }

    /// Whether a word is the whole name of this issue's kind or design.
    static boolean isNameOf(Issue issue, String word) {
        String kind = issue.identity().kind();
        String design = issue.identity().design();
        return (!kind.isEmpty() && of(kind).equals(word))
                || (!design.isEmpty() && of(design).equals(word))
                || issue.formerly().stream().anyMatch(name -> of(name).equals(word));
    }

    /// Whether a word singles out this issue's kind or design.
    static boolean names(Issue issue, String word) {
        String kind = issue.identity().kind();
        String design = issue.identity().design();
        return issue.words().contains(word)
                || (!kind.isEmpty() && (Slug.of(kind).equals(word) || hasWord(kind, word)))
                || (!design.isEmpty() && (Slug.of(design).equals(word) || hasWord(design, word)));
    }

    /// Whether a word singles out this issue's kind or design, or names its series.
    static boolean belongs(Issue issue, String word) {
        return names(issue, word) || issue.series().words().contains(word);
    }

    /// Whether a word says what this issue is made of. `nickel` never does: it is the coin.
    static boolean isMetalOf(Issue issue, String word) {
        Metal metal = issue.alloy().metal();
        return metal != Metal.NICKEL && metal.word().equals(word);
    }

    private static boolean hasWord(String text, String word) {
        int at = text.indexOf(word);
        while (at >= 0) {
            boolean starts = at == 0 || text.charAt(at - 1) == ' ';
            int end = at + word.length();
            boolean ends = end == text.length() || text.charAt(end) == ' ';
            if (starts && ends) {
                return true;
            }
            at = text.indexOf(word, at + 1);
        }
        return false;
    }
}
