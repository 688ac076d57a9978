package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/// What a first listening tells of the habits of a voice: how often dates of this age, said this way and led in
/// by this word, were finds elsewhere in the same recording, and what stands around each. Observations for the
/// second listening.
final class Voice {
    private static final int REACH = 40;
    /// How much the recording as a whole counts against what is special about a habit.
    private static final double PRIOR = 1.5;

    private Voice() {}

    /// @param first for each mention the probability of a find after the first listening; below zero for no coin
    /// @return observations of both listenings
    static List<List<String>> of(Listening heard, double[] first) {
        return of(heard, first, Habits.NONE);
    }

    /// @param known what earlier recordings tell of the voice
    static List<List<String>> of(Listening heard, double[] first, Habits known) {
        List<List<String>> all = new ArrayList<>(heard.around());
        List<Mention> mentions = heard.mentions();
        int[] places = java.util.stream.IntStream.range(0, first.length)
                .filter(m -> first[m] >= 0)
                .toArray();
        double sum = 0;
        for (int m : places) {
            sum += first[m];
        }
        double mean =
                (sum + known.all().finds() + 0.3) / (places.length + known.all().dates() + 1);
        List<List<String>> more = new ArrayList<>();
        for (int p = 0; p < places.length; p++) {
            more.add(new ArrayList<>());
        }
        for (Habits.Kind kind : Habits.KINDS) {
            Map<String, double[]> sums = new HashMap<>();
            for (int m : places) {
                double[] one = sums.computeIfAbsent(habit(heard, m, kind), key -> begin(known, key));
                one[0] += first[m];
                one[1]++;
            }
            for (int p = 0; p < places.length; p++) {
                double[] one = java.util.Objects.requireNonNull(sums.get(habit(heard, places[p], kind)));
                double others = (one[0] - first[places[p]] + PRIOR * mean) / (one[1] - 1 + PRIOR);
                more.get(p).add("voice " + kind.share() + " " + level(others));
            }
        }
        kept(heard, first, places, mean, more, known);
        ages(heard, first, places, mean, more);
        for (int p = 0; p < places.length; p++) {
            int here = heard.mentions().get(places[p]).word();
            double before = 0;
            double after = 0;
            int b = 0;
            int a = 0;
            for (int q = p - 1;
                    q >= Math.max(0, p - 3) && here - mentions.get(places[q]).word() < REACH;
                    q--) {
                before += first[places[q]];
                b++;
            }
            for (int q = p + 1;
                    q < Math.min(places.length, p + 4)
                            && mentions.get(places[q]).word() - here < REACH;
                    q++) {
                after += first[places[q]];
                a++;
            }
            String near = (b == 0 ? "-" : level(before / b)) + " " + (a == 0 ? "-" : level(after / a));
            List<String> found = more.get(p);
            found.add("voice before " + (b == 0 ? "-" : level(before / b)));
            found.add("voice after " + (a == 0 ? "-" : level(after / a)));
            found.add("voice near " + near);
            found.add("voice own " + level(first[places[p]]));
            found.add("voice own " + level(first[places[p]]) + " near " + near);
            if (!known.isEmpty()) {
                known.tell(Cues.coin(mentions.get(places[p])), heard.around().get(places[p]), found);
            }
            found.addAll(heard.around().get(places[p]));
            all.set(places[p], found);
        }
        return all;
    }

    /// The words of a date's own stretch that speak most for and most against a find in this recording.
    private static void kept(
            Listening heard, double[] first, int[] places, double mean, List<List<String>> more, Habits known) {
        Map<String, double[]> sums = new HashMap<>();
        for (int m : places) {
            for (String one : heard.around().get(m)) {
                if (one.startsWith("own>")) {
                    double[] sum = sums.computeIfAbsent(one, key -> begin(known, key));
                    sum[0] += first[m];
                    sum[1]++;
                }
            }
        }
        for (int p = 0; p < places.length; p++) {
            double low = mean;
            double high = mean;
            for (String one : heard.around().get(places[p])) {
                double[] sum = one.startsWith("own>") ? sums.get(one) : null;
                if (sum != null && sum[1] > 1) {
                    double others = (sum[0] - first[places[p]] + 2 * PRIOR * mean) / (sum[1] - 1 + 2 * PRIOR);
                    low = Math.min(low, others);
                    high = Math.max(high, others);
                }
            }
            more.get(p).add("voice word low " + level(low));
            more.get(p).add("voice word high " + level(high));
            more.get(p).add("voice word " + level(low) + " " + level(high));
        }
    }

    /// How dates of about this age, older ones and younger ones fare in this recording.
    private static void ages(Listening heard, double[] first, int[] places, double mean, List<List<String>> more) {
        for (int p = 0; p < places.length; p++) {
            Integer year = year(heard, places[p]);
            if (year == null) {
                continue;
            }
            double[] near = {PRIOR * mean, PRIOR};
            double[] older = {PRIOR * mean, PRIOR};
            double[] younger = {PRIOR * mean, PRIOR};
            for (int q = 0; q < places.length; q++) {
                Integer other = q == p ? null : year(heard, places[q]);
                if (other == null || other.equals(year)) {
                    continue;
                }
                double close = Math.exp(-Math.abs(other - year) / Habits.YEARS_NEAR);
                near[0] += close * first[places[q]];
                near[1] += close;
                double[] side = other < year ? older : younger;
                side[0] += first[places[q]];
                side[1]++;
            }
            more.get(p).add("voice year " + level(near[0] / near[1]));
            more.get(p).add("voice older " + level(older[0] / older[1]));
            more.get(p).add("voice younger " + level(younger[0] / younger[1]));
            more.get(p).add("voice years " + level(older[0] / older[1]) + " " + level(younger[0] / younger[1]));
        }
    }

    private static @org.jspecify.annotations.Nullable Integer year(Listening heard, int m) {
        Mention.Coin coin = Cues.coin(heard.mentions().get(m));
        return coin == null ? null : coin.year();
    }

    private static String habit(Listening heard, int m, Habits.Kind kind) {
        return Habits.kept(heard.around().get(m), kind);
    }

    /// Finds and dates that are known of an observation, to add those of this recording to.
    private static double[] begin(Habits known, String observation) {
        Habits.Tally tally = known.of(observation);
        return new double[] {tally.finds(), tally.dates()};
    }

    private static String level(double share) {
        return Integer.toString((int) Math.round(Math.clamp(share, 0, 1) * 6));
    }
}
