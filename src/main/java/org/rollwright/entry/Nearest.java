package org.rollwright.entry;

import java.util.Collection;
import java.util.Optional;
import org.apache.commons.text.similarity.DamerauLevenshteinDistance;

/// The known word nearest to a mistyped one.
final class Nearest {
    private Nearest() {}

    /// The known word that differs by the fewest insertions, deletions, changes or swaps, when that is no more
    /// than one for a word of three to seven letters and two for a longer one, and when both begin alike: a
    /// wrong guess costs more than none. Ties go to the first in order.
    static Optional<String> to(String word, Collection<String> known) {
        int most = word.length() < 8 ? 1 : 2;
        if (word.length() < 3 || word.length() > 24) {
            return Optional.empty();
        }
        DamerauLevenshteinDistance upTo = new DamerauLevenshteinDistance(most);
        String best = null;
        int bestDistance = most + 1;
        for (String candidate : known) {
            // more than allowed is told as -1
            int distance =
                    candidate.length() < 2 || candidate.charAt(0) != word.charAt(0) ? -1 : upTo.apply(word, candidate);
            if (distance >= 0 && distance < bestDistance) {
                bestDistance = distance;
                best = candidate;
            }
        }
        return Optional.ofNullable(best);
    }
}
