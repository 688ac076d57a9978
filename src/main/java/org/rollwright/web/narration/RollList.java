package org.rollwright.web.narration;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedSet;
import java.util.TreeSet;

/// Numbers of rolls as a person writes them: `1-10, 12`.
final class RollList {
    private static final int MOST = 10_000;

    private RollList() {}

    static String print(SortedSet<Integer> rolls) {
        List<String> parts = new ArrayList<>();
        int from = 0;
        int to = -1;
        for (int roll : rolls) {
            if (roll == to + 1) {
                to = roll;
                continue;
            }
            part(from, to, parts);
            from = roll;
            to = roll;
        }
        part(from, to, parts);
        return String.join(", ", parts);
    }

    private static void part(int from, int to, List<String> parts) {
        if (to >= from) {
            parts.add(from == to ? Integer.toString(from) : from + "-" + to);
        }
    }

    /// Empty when it is no list of rolls.
    static Optional<SortedSet<Integer>> read(String text) {
        SortedSet<Integer> rolls = new TreeSet<>();
        for (String part : text.split(",")) {
            if (part.isBlank()) {
                continue;
            }
            String[] ends = part.strip().split("-", -1);
            try {
                int from = Integer.parseInt(ends[0].strip());
                int to = ends.length == 1 ? from : Integer.parseInt(ends[1].strip());
                if (ends.length > 2 || from < 1 || to < from || to > MOST) {
                    return Optional.empty();
                }
                for (int roll = from; roll <= to; roll++) {
                    rolls.add(roll);
                }
            } catch (NumberFormatException e) {
                return Optional.empty();
            }
        }
        return Optional.of(rolls);
    }
}
