package org.rollwright.entry;

import java.util.Collection;
import java.util.Optional;

/// The known word nearest to a mistyped one.
final class Nearest {
    private Nearest() {}

    /// The known word that differs by the fewest insertions, deletions, changes or swaps, when that is no more
    /// than one for a short word and two for one of five letters or more; ties go to the first in order.
    static Optional<String> to(String word, Collection<String> known) {
        int most = word.length() < 5 ? 1 : 2;
        if (word.length() < 3 || word.length() > 24) {
            return Optional.empty();
        }
        String best = null;
        int bestDistance = most + 1;
        for (String candidate : known) {
            if (candidate.length() < 2 || Math.abs(candidate.length() - word.length()) > most) {
                continue;
            }
            int distance = distance(word, candidate);
            if (distance < bestDistance) {
                bestDistance = distance;
                best = candidate;
            }
        }
        return Optional.ofNullable(best);
    }

    private static int distance(String a, String b) {
        int[][] cost = new int[a.length() + 1][b.length() + 1];
        for (int i = 0; i <= a.length(); i++) {
            cost[i][0] = i;
        }
        for (int j = 0; j <= b.length(); j++) {
            cost[0][j] = j;
        }
        for (int i = 1; i <= a.length(); i++) {
            for (int j = 1; j <= b.length(); j++) {
                int change = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
                int least = Math.min(cost[i - 1][j - 1] + change, Math.min(cost[i - 1][j], cost[i][j - 1]) + 1);
                if (i > 1 && j > 1 && a.charAt(i - 1) == b.charAt(j - 2) && a.charAt(i - 2) == b.charAt(j - 1)) {
                    least = Math.min(least, cost[i - 2][j - 2] + 1);
                }
                cost[i][j] = least;
            }
        }
        return cost[a.length()][b.length()];
    }
}
