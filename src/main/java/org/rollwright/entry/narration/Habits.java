package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/// What recordings whose finds are known tell of a voice: for everything that is observed around a date, how often
/// it was observed and how often the date was a find. Immutable once it is made.
final class Habits {
    /// How much the voice as a whole counts against what is special about an observation.
    private static final double PRIOR = 1.5;

    /// Steps of half a unit of the logarithm of the odds, and the furthest told apart.
    private static final double STEP = 0.5;

    private static final int FURTHEST = 6;

    /// Years within which dates fare alike.
    static final double YEARS_NEAR = 3;

    /// Dates of about a year, each counting less the further off it is, below which nothing is known of the year.
    private static final double FAINT = 0.2;

    /// A kind of observation that is a habit of a voice.
    ///
    /// @param beginning how the names of its observations begin
    /// @param share the name of its share of finds in one recording, as [Voice] observes it
    record Kind(String beginning, String share) {}

    static final List<Kind> KINDS = List.of(
            new Kind("age ", "age"),
            new Kind("shape ", "shape"),
            new Kind("-1 ", "lead"),
            new Kind("+1 ", "next"),
            new Kind("said ", "mint"),
            new Kind("own first ", "first"),
            new Kind("own form ", "form"),
            new Kind("count own ", "count"),
            new Kind("count led ", "led"),
            new Kind("chain before ", "before"),
            new Kind("mint ", "mark"),
            new Kind("minted ", "minted"),
            new Kind("quality ", "quality"));

    private static final Tally NOTHING = new Tally(0, 0);

    /// Nothing is known of the voice.
    static final Habits NONE = new Habits();

    /// Dates and finds among them.
    record Tally(double dates, double finds) {}

    private final Map<String, Tally> tallies = new HashMap<>();
    private final Map<String, Map<Integer, Tally>> years = new HashMap<>();
    private Tally all = NOTHING;

    private Habits() {}

    static Habits of(List<Taught> recordings) {
        Habits habits = new Habits();
        recordings.forEach(one -> habits.add(one, 0, one.labels().length));
        return habits;
    }

    /// What a part of a recording tells.
    ///
    /// @param from the first mention
    /// @param to behind the last
    static Habits of(Taught recording, int from, int to) {
        Habits habits = new Habits();
        habits.add(recording, from, to);
        return habits;
    }

    private void add(Taught recording, int from, int to) {
        for (int m = from; m < to; m++) {
            if (recording.labels()[m] < 0) {
                continue;
            }
            double find = recording.labels()[m] == 0 ? 1 : 0;
            all = new Tally(all.dates + 1, all.finds + find);
            Mention.Coin coin = Cues.coin(recording.heard().mentions().get(m));
            if (coin != null && coin.year() != null) {
                years.computeIfAbsent(coin.denomination().toString(), key -> new HashMap<>())
                        .merge(
                                coin.year(),
                                new Tally(1, find),
                                (one, two) -> new Tally(one.dates + two.dates, one.finds + two.finds));
            }
            List<String> around = recording.heard().around().get(m);
            for (Kind kind : KINDS) {
                tally(kept(around, kind), find);
            }
            around.stream().filter(Habits::isOwn).forEach(one -> tally(one, find));
        }
    }

    private void tally(String name, double find) {
        Tally before = of(name);
        tallies.put(name, new Tally(before.dates + 1, before.finds + find));
    }

    boolean isEmpty() {
        return all.dates == 0;
    }

    Tally all() {
        return all;
    }

    /// @param name of an observation; none was seen with a blank one
    Tally of(String name) {
        return name.isEmpty() ? NOTHING : tallies.getOrDefault(name, NOTHING);
    }

    /// The first observation of a kind, blank when there is none.
    static String kept(List<String> around, Kind kind) {
        for (String one : around) {
            if (one.startsWith(kind.beginning)) {
                return one;
            }
        }
        return "";
    }

    /// Whether it is a word of a date's own stretch.
    private static boolean isOwn(String observation) {
        return observation.startsWith("own>") || observation.startsWith("own<");
    }

    /// Adds what was told of what stands around a date to its observations.
    void tell(Mention.@Nullable Coin coin, List<String> around, List<String> found) {
        double mean = mean();
        if (coin != null && coin.year() != null) {
            tellYears(coin.denomination().toString(), coin.year(), mean, found);
        }
        found.add("told mean " + Math.round(mean * 6));
        for (Kind kind : KINDS) {
            Tally known = of(kept(around, kind));
            found.add("told " + kind.beginning + (known.dates == 0 ? "never" : step(ratio(known, mean))));
        }
        double low = 0;
        double high = 0;
        double sum = 0;
        for (String one : around) {
            Tally known = isOwn(one) ? of(one) : NOTHING;
            double ratio = known.dates == 0 ? 0 : ratio(known, mean);
            low = Math.min(low, ratio);
            high = Math.max(high, ratio);
            sum += ratio;
        }
        found.add("told low " + step(low));
        found.add("told high " + step(high));
        found.add("told words " + step(sum * STEP));
    }

    /// How dates of about this year, older ones and younger ones of its denomination fared.
    private void tellYears(String denomination, int year, double mean, List<String> found) {
        double[] near = new double[2];
        double[] older = new double[2];
        double[] younger = new double[2];
        years.getOrDefault(denomination, Map.of()).forEach((other, tally) -> {
            double close = Math.exp(-Math.abs(other - year) / YEARS_NEAR);
            add(near, tally, close);
            add(other <= year ? older : younger, tally, other == year ? 0.5 : 1);
        });
        found.add("told year " + told(near, mean));
        found.add("told older " + told(older, mean));
        found.add("told younger " + told(younger, mean));
        found.add("told years " + told(older, mean) + " " + told(younger, mean));
    }

    private static void add(double[] sum, Tally tally, double weight) {
        sum[0] += weight * tally.dates;
        sum[1] += weight * tally.finds;
    }

    private static String told(double[] sum, double mean) {
        return sum[0] < FAINT ? "never" : Long.toString(step(ratio(new Tally(sum[0], sum[1]), mean)));
    }

    private double mean() {
        return (all.finds + 0.3) / (all.dates + 1);
    }

    private static double ratio(Tally known, double mean) {
        double share = (known.finds + PRIOR * mean) / (known.dates + PRIOR);
        return Math.log(share / (1 - share)) - Math.log(mean / (1 - mean));
    }

    private static long step(double ratio) {
        return Math.clamp(Math.round(ratio / STEP), -FURTHEST, FURTHEST);
    }

    /// The words that tell most, at most so many, those that speak for a find first.
    List<OwnVoice.Trait> traits(int most) {
        double mean = mean();
        List<Map.Entry<String, Tally>> words = new ArrayList<>();
        tallies.forEach((name, tally) -> {
            @Nullable String word = name.startsWith("own>") ? name.substring(4) : null;
            if (word != null && !word.startsWith("#") && word.length() > 1 && tally.dates >= 3) {
                words.add(Map.entry(word, tally));
            }
        });
        Comparator<Map.Entry<String, Tally>> telling = Comparator.comparingDouble(
                one -> -Math.abs(ratio(one.getValue(), mean)) * Math.sqrt(one.getValue().dates));
        return words.stream()
                .sorted(telling.thenComparing(Map.Entry::getKey))
                .limit(most)
                .sorted(Comparator.comparingDouble(one -> -ratio(one.getValue(), mean)))
                .map(one -> new OwnVoice.Trait(one.getKey(), (int) one.getValue().dates, (int) one.getValue().finds))
                .toList();
    }
}
