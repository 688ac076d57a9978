package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/// Figures that go up by one in like places: running counts, whoever keeps them and of whatever, and rolls.
///
/// A link from a figure to a later one is worth the more the closer the second is to the first plus one and the more
/// alike the words around both are; each figure is in the best chain that can be made of such links through it
/// (longest path, forward and backward). Nothing here decides whether a figure is a count: strength and place are
/// observations of [Cues].
final class Chains {
    /// Words between two figures of one chain, about four minutes of speech.
    private static final int REACH = 500;

    /// Highest figure that counts something in a hunt, and how many figures back a link is looked for.
    private static final int MOST = 400;

    private static final int MOST_BACK = 120;
    private static final int FURTHEST_STEP = 4;

    // Worth of a link and what adds to it, set by hand and tried on recordings left out: there is no truth of which
    // figures count what to learn from.
    private static final double LINK = -0.2;
    private static final double SKIP = -0.9;
    private static final double STAYS = -1.6;
    private static final double FAR = -0.5;
    private static final double SAME_WORD_BEFORE = 1.2;
    private static final double SAME_WORD_BEHIND = 0.6;
    private static final double BOTH_BEHIND_DATES = 0.9;
    private static final double SAME_PLACE = 0.2;
    private static final double ONE_BEHIND_A_DATE = -0.3;

    private record Figure(int word, int end, int value, String before, String after, boolean dated, boolean opens) {}

    private final double[] strength;
    private final int[] ends;

    /// @param dates whether a figure that could be a date ends right before a word
    Chains(List<Word> words, boolean[] dates) {
        strength = new double[words.size() + 1];
        ends = new int[words.size() + 1];
        List<Figure> figures = figures(words, dates);
        int n = figures.size();
        double[] before = new double[n];
        double[] after = new double[n];
        for (int j = 0; j < n; j++) {
            for (int i = j - 1; i >= Math.max(0, j - MOST_BACK); i--) {
                double link = link(figures.get(i), figures.get(j));
                if (link > Double.NEGATIVE_INFINITY) {
                    before[j] = Math.max(before[j], before[i] + link);
                }
            }
        }
        for (int i = n - 1; i >= 0; i--) {
            for (int j = i + 1; j < Math.min(n, i + MOST_BACK); j++) {
                double link = link(figures.get(i), figures.get(j));
                if (link > Double.NEGATIVE_INFINITY) {
                    after[i] = Math.max(after[i], after[j] + link);
                }
            }
        }
        for (int k = 0; k < n; k++) {
            // both ways: a figure at the end of a long chain by chance is not in it
            double weak = Math.min(before[k], after[k]);
            double strong = Math.max(before[k], after[k]);
            strength[figures.get(k).word] = weak + 0.5 * (strong - weak);
            ends[figures.get(k).word] = figures.get(k).end;
        }
    }

    private static List<Figure> figures(List<Word> words, boolean[] dates) {
        List<Figure> figures = new ArrayList<>();
        int i = 0;
        while (i < words.size()) {
            Optional<Numbers.Spoken> said = Numbers.count(words, i);
            if (said.isEmpty()
                    || said.get().ordinal()
                    || said.get().value() < 1
                    || said.get().value() > MOST
                    || words.get(i).currency()) {
                i++;
                continue;
            }
            int end = said.get().end();
            figures.add(new Figure(
                    i,
                    end,
                    said.get().value(),
                    i == 0 ? "" : words.get(i - 1).text(),
                    end < words.size() ? words.get(end).text() : "",
                    dates[i],
                    words.get(i).opens()));
            i = end;
        }
        return figures;
    }

    private static double link(Figure one, Figure next) {
        int step = next.value - one.value;
        int away = next.word - one.end;
        if (step < 0 || step > FURTHEST_STEP || away > REACH) {
            return Double.NEGATIVE_INFINITY;
        }
        double alike = 0;
        if (one.before.equals(next.before) && !Numbers.isWord(one.before)) {
            alike += SAME_WORD_BEFORE;
        }
        if (one.after.equals(next.after) && !Numbers.isWord(one.after)) {
            alike += SAME_WORD_BEHIND;
        }
        alike += one.dated && next.dated ? BOTH_BEHIND_DATES : one.dated == next.dated ? SAME_PLACE : ONE_BEHIND_A_DATE;
        alike += one.opens == next.opens ? SAME_PLACE : -SAME_PLACE;
        double price = step == 0 ? STAYS : step == 1 ? 0 : SKIP * (step - 1);
        return LINK + alike + price + FAR * away / REACH;
    }

    /// How well the figure at a word sits in a chain; 0 for none, 3 and more for a good one.
    double strength(int word) {
        return word < 0 || word >= strength.length ? 0 : strength[word];
    }

    /// Behind the figure that begins at a word; 0 where none does.
    int end(int word) {
        return word < 0 || word >= ends.length ? 0 : ends[word];
    }
}
