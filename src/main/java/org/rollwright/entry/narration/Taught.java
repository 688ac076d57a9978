package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/// A recording of which is known what each mention of a coin was.
///
/// @param labels 0 a new find, 1 the same coin, 2 neither; -1 what is no coin or left out
/// @param related features of each mention in relation to the last find
/// @param twins what lies between a date and the same date again
/// @param first whether no find was before it
/// @param weight how much it counts, 1 for a stranger's recording
@SuppressWarnings("ArrayRecordComponent") // never compared
record Taught(
        Listening heard,
        int[] labels,
        List<List<Feature>> related,
        List<List<String>> twins,
        boolean[] first,
        double weight) {
    /// How long before its time a find may be said, and how long behind, in milliseconds; times told are when it is
    /// first said, so that later is likelier than earlier.
    private static final long EARLY = 9_000;

    private static final long LATE = 18_000;
    private static final long LATE_UNDATED = 4_000;
    private static final double EARLY_COUNTS = 1.5;

    /// Words within which a date said again may be the same coin.
    private static final int STILL = 60;

    /// @param held all finds of the recording, in any order
    static Taught of(Listening heard, List<Lesson.Find> held) {
        return of(heard, labels(heard, held), 1);
    }

    static Taught of(Listening heard, int[] labels, double weight) {
        List<Mention> mentions = heard.mentions();
        List<List<Feature>> related = new ArrayList<>();
        List<List<String>> twins = new ArrayList<>();
        boolean[] first = new boolean[labels.length];
        Mention.@Nullable Coin last = null;
        int lastIndex = 0;
        for (int m = 0; m < labels.length; m++) {
            Mention.Coin coin = Cues.coin(mentions.get(m));
            if (coin == null) {
                labels[m] = -1;
                related.add(List.of());
                twins.add(List.of());
                continue;
            }
            if (labels[m] == 1 && last == null) {
                labels[m] = 2;
            }
            first[m] = last == null;
            Mention.MintOnly told = Relation.told(mentions, lastIndex, m);
            twins.add(Relation.twin(heard, coin, last, told));
            related.add(Relation.features(
                    heard, coin, last, told, last != null && heard.rolls().turned(last.end(), coin.word())));
            if (labels[m] == 0) {
                last = coin;
                lastIndex = m + 1;
            }
        }
        return new Taught(heard, labels, related, twins, first, weight);
    }

    private static int[] labels(Listening heard, List<Lesson.Find> held) {
        int[] labels = new int[heard.mentions().size()];
        Arrays.fill(labels, 2);
        for (Lesson.Find one : held) {
            int left = one.count();
            while (left > 0) {
                int best = nearest(heard, labels, one);
                if (best < 0) {
                    break;
                }
                labels[best] = 0;
                left -= Math.max(
                        1,
                        Objects.requireNonNull(Cues.coin(heard.mentions().get(best)))
                                .count());
            }
        }
        Mention.@Nullable Coin last = null;
        for (int m = 0; m < labels.length; m++) {
            Mention.Coin coin = Cues.coin(heard.mentions().get(m));
            if (coin == null) {
                continue;
            }
            if (labels[m] == 0) {
                last = coin;
            } else if (last != null
                    && coin.year() != null
                    && coin.year().equals(last.year())
                    && coin.word() - last.end() < STILL) {
                labels[m] = 1;
            }
        }
        return labels;
    }

    /// The mention of a find that is none of an earlier one's; -1 when there is none.
    private static int nearest(Listening heard, int[] labels, Lesson.Find find) {
        int best = -1;
        double nearest = Double.MAX_VALUE;
        for (int m = 0; m < labels.length; m++) {
            Mention.Coin coin = Cues.coin(heard.mentions().get(m));
            if (coin == null || labels[m] == 0 || !Objects.equals(find.year(), coin.year())) {
                continue;
            }
            double distance = find.at() < 0
                    ? untimed(heard.rolls(), coin.word(), find)
                    : timed(heard.words().get(coin.word()).at() - find.at(), find.year() != null);
            if (distance < nearest) {
                nearest = distance;
                best = m;
            }
        }
        return best;
    }

    /// How far a mention is from a find in time; infinite when too far.
    private static double timed(long away, boolean dated) {
        boolean near = away > -EARLY && away < (dated ? LATE : LATE_UNDATED);
        return !near ? Double.MAX_VALUE : away < 0 ? -EARLY_COUNTS * away : away;
    }

    /// The first mention in the roll the hunter names.
    private static double untimed(Rolls rolls, int word, Lesson.Find find) {
        return rolls.box(word) == find.box() && rolls.roll(word) == find.roll() ? word : Double.MAX_VALUE;
    }

    /// Examples of the first listening: each mention by itself.
    List<Regression.Example> early(Regression.Names names) {
        List<Regression.Example> examples = new ArrayList<>();
        for (int m = 0; m < labels.length; m++) {
            Mention.Coin coin = Cues.coin(heard.mentions().get(m));
            if (labels[m] >= 0 && coin != null) {
                List<String> observed = new ArrayList<>(heard.around().get(m));
                coin.features().forEach(feature -> observed.add(feature.name()));
                examples.add(example(names, Weights.FIRST, observed, List.of(), m));
            }
        }
        return examples;
    }

    /// Examples of the second: with what the first one told of the voice, and the last find.
    ///
    /// @param early the first listening's weights
    List<Regression.Example> late(Weights early, Regression.Names names) {
        List<List<String>> observed = Voice.of(heard, Decoder.first(heard, early));
        List<Regression.Example> examples = new ArrayList<>();
        for (int m = 0; m < labels.length; m++) {
            if (labels[m] >= 0) {
                examples.add(example(names, Weights.CUE, second(observed.get(m), m), related.get(m), m));
            }
        }
        return examples;
    }

    /// Examples of the second, with what the other half tells of the voice.
    List<Regression.Example> told(Weights early, Regression.Names names) {
        double[] listened = Decoder.first(heard, early);
        List<Regression.Example> examples = new ArrayList<>();
        int middle = labels.length / 2;
        for (int half = 0; half < 2; half++) {
            int from = half == 0 ? 0 : middle;
            int to = half == 0 ? middle : labels.length;
            Habits known = Habits.of(this, half == 0 ? middle : 0, half == 0 ? labels.length : middle);
            if (known.isEmpty()) {
                continue;
            }
            List<List<String>> observed = Voice.of(heard, listened, known);
            for (int m = from; m < to; m++) {
                if (labels[m] >= 0) {
                    examples.add(example(names, Weights.CUE, second(observed.get(m), m), related.get(m), m));
                }
            }
        }
        return examples;
    }

    private List<String> second(List<String> observed, int m) {
        List<String> all = new ArrayList<>(observed);
        all.addAll(twins.get(m));
        return all;
    }

    private Regression.Example example(
            Regression.Names names, String kind, List<String> around, List<Feature> features, int m) {
        int[] observed = new int[features.size() + around.size()];
        int n = 0;
        for (Feature feature : features) {
            observed[n++] = names.of(feature.name().toLowerCase(Locale.ROOT));
        }
        for (String cue : around) {
            observed[n++] = names.of(kind + cue);
        }
        return new Regression.Example(observed, labels[m], first[m], weight);
    }
}
