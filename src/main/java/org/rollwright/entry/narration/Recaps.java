package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.rollwright.coin.Identity;

/// Finds that may be a list of earlier ones read again. Somebody who was there knows at once; the question about one
/// such stretch settles all its finds.
public final class Recaps {
    /// Longest silence between two finds of one list, in milliseconds.
    private static final long APART = 45_000;

    /// How long ago a date must have been found to be said again rather than still.
    private static final long AGO = 40_000;
    private static final int FEWEST = 3;

    /// Share of dates in a recap that were not found before, misheard or missed.
    private static final double MOST_NEW = 0.25;

    /// Expected finds that are called wrongly in a stretch, from which on a question is worth the hunter's time.
    private static final double WORTH_ASKING = 0.5;

    private Recaps() {}

    /// A stretch of the recording that may be a recap.
    ///
    /// @param from milliseconds of its first find
    /// @param to milliseconds of its last find, `from` or more
    /// @param finds which of [Narration#dates], by place from 0, in order
    public record Question(long from, long to, List<Integer> finds) {
        public Question {
            finds = List.copyOf(finds);
        }
    }

    /// The stretch whose answer settles most, if there is one worth asking about: where at least three finds in a
    /// row, and at least three of four, bear dates that were found before, and at least half a find is in doubt.
    public static Optional<Question> mostUnsettled(Narration narration) {
        return mostUnsettled(narration.dates());
    }

    static Optional<Question> mostUnsettled(List<Narration.Proposed> finds) {
        Question best = null;
        double most = WORTH_ASKING;
        for (Question question : all(finds)) {
            double settles = 0;
            for (int find : question.finds) {
                Narration.Proposed one = finds.get(find);
                settles += one.count() * Math.min(one.probability(), 1 - one.probability());
            }
            if (settles >= most) {
                most = settles;
                best = question;
            }
        }
        return Optional.ofNullable(best);
    }

    private static List<Question> all(List<Narration.Proposed> finds) {
        boolean[] again = again(finds);
        List<Question> all = new ArrayList<>();
        int i = 0;
        while (i < again.length) {
            if (!again[i]) {
                i++;
                continue;
            }
            int end = i + 1;
            int last = i;
            int fresh = 0;
            while (end < again.length
                    && finds.get(end).at() - finds.get(end - 1).at() <= APART
                    && (again[end] || fresh + 1 <= MOST_NEW * (end - i + 1))) {
                fresh += again[end] ? 0 : 1;
                last = again[end] ? end : last;
                end++;
            }
            List<Integer> places = new ArrayList<>();
            int repeated = 0;
            for (int k = i; k <= last; k++) {
                places.add(k);
                repeated += again[k] ? 1 : 0;
            }
            if (repeated >= FEWEST) {
                all.add(new Question(finds.get(i).at(), finds.get(last).at(), places));
            }
            i = last + 1;
        }
        return all;
    }

    /// For each find whether its date and mint were found before, some time ago.
    private static boolean[] again(List<Narration.Proposed> finds) {
        Map<String, Long> found = new HashMap<>();
        boolean[] again = new boolean[finds.size()];
        for (int i = 0; i < again.length; i++) {
            Narration.Proposed find = finds.get(i);
            Identity identity = find.identity();
            if (identity.year() == null) {
                continue;
            }
            String date = identity.denomination() + " " + identity.year();
            String mint = String.valueOf(Decoder.letter(identity));
            Long before = found.get(date + mint);
            again[i] = before != null && find.at() - before >= AGO;
            found.putIfAbsent(date + mint, find.at());
        }
        return again;
    }
}
