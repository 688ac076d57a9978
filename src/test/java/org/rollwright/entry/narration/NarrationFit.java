package org.rollwright.entry.narration;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/// Learns what speaks for a find from narrations by strangers, and measures it on recordings left out.
/// Run it by bench/fit-narration; the last argument `write` writes catalog/narration/weights.csv.
final class NarrationFit {
    private static final int FOLDS = 8;
    private static final int STEPS = 120;

    // Ridges, tried on recordings left out: few turns of speech that are known to matter, thousands of words that are
    // not, and what the first listening tells in between.
    private static final double RIDGE = 0.3;
    private static final double CUE_RIDGE = 6;
    private static final double VOICE_RIDGE = 3;

    /// How often and in how many recordings a word must occur to be learned from.
    private static final int LEAST = 8;
    private static final int LEAST_RECORDINGS = 4;

    /// Weights below are left out of the file; leaving out more cost finds, since faint ones add up.
    private static final double FAINT = 0.03;

    /// Parts a recording's first listening is left out of.
    private static final int PARTS = 5;

    /// What a mention of a narration written by us, and of a generated one, counts beside a stranger's.
    private static final double OURS = 0.5;
    private static final double GENERATED = 0.15;

    /// @param observed numbers of features and cues
    @SuppressWarnings("ArrayRecordComponent") // many of them, never compared
    private record Example(int[] observed, int label, boolean first, double weight) {}

    private NarrationFit() {}

    /// Names of features and cues, and where they were seen.
    private static final class Names {
        final Map<String, Integer> numbers = new HashMap<>();
        final List<String> names = new ArrayList<>();

        synchronized int of(String name) {
            return numbers.computeIfAbsent(name, key -> {
                names.add(key);
                return names.size() - 1;
            });
        }

        synchronized List<String> list() {
            return List.copyOf(names);
        }
    }

    public static void main(String[] args) throws IOException {
        List<Stranger> strangers = new ArrayList<>();
        for (String folder : args) {
            if (!folder.equals("write")) {
                strangers.addAll(Stranger.folder(Path.of(folder)));
            }
        }
        Names names = new Names();
        List<Sample> own = new ArrayList<>();
        for (Stranger one : strangers) {
            own.add(sample(one));
        }
        List<Sample> others = new ArrayList<>();
        for (Annotated narration : Annotated.folder("tuned")) {
            others.add(AnnotatedSample.of(narration, OURS));
        }
        for (Annotated narration : NarrationMaker.many(1_000_000, 120, true, 0.75)) {
            others.add(AnnotatedSample.of(narration, GENERATED));
        }
        System.out.println(strangers.size() + " recordings");
        Stranger.Count[] each = new Stranger.Count[strangers.size()];
        Stranger.Count all = new Stranger.Count();
        Map<String, Double> rest = Weights.parse(Files.readString(Path.of("catalog/narration/weights.csv")))
                .others();
        // the curve is learned from probabilities as they come
        rest.put("calibrate_slope", 1.0);
        rest.put("calibrate_shift", 0.0);
        int[] folds = folds(strangers);
        java.util.stream.IntStream.range(0, FOLDS).parallel().forEach(fold -> {
            List<Sample> training = new ArrayList<>();
            for (int r = 0; r < strangers.size(); r++) {
                if (folds[r] != fold) {
                    training.add(own.get(r));
                }
            }
            Weights weights = weights(training, others, names, rest);
            Decoder decoder = new Decoder(Decoding.PHRASES, () -> weights);
            for (int r = 0; r < strangers.size(); r++) {
                if (folds[r] != fold) {
                    continue;
                }
                Stranger one = strangers.get(r);
                Narration decoded = decoder.decode(
                        new Captions(one.cues(), "text", "UTF-8", List.of()),
                        one.context(),
                        one.denominations(),
                        one.rollsPerBox());
                each[r] = new Stranger.Count();
                each[r].add(one, decoded);
                if (Boolean.getBoolean("rollwright.faults")) {
                    each[r].faults.replaceAll(fault ->
                            fault.contains(" missed ") ? fault + why(one, decoder, weights, decoded, fault) : fault);
                }
                synchronized (all) {
                    all.add(one, decoded);
                }
            }
        });
        for (int r = 0; r < each.length; r++) {
            System.out.println(strangers.get(r).name() + ": " + each[r]);
            if (Boolean.getBoolean("rollwright.faults")) {
                each[r].faults.forEach(fault -> System.out.println("    " + fault));
            }
        }
        System.out.println("left out: " + all);
        Score.printReliability(all.calls);
        List<double[]> half = new ArrayList<>();
        List<double[]> other = new ArrayList<>();
        for (int r = 0; r < each.length; r++) {
            (r % 2 == 0 ? half : other).addAll(each[r].calls);
        }
        double[] curve = platt(half);
        System.out.println("calibrated on one half of the recordings, held against the other:");
        Score.printReliability(other.stream()
                .map(call -> new double[] {through(curve, call[0]), call[1]})
                .toList());
        if (Arrays.asList(args).contains("write")) {
            Weights weights = weights(own, others, names, rest);
            double[] whole = platt(all.calls);
            weights.others().put("calibrate_slope", whole[0]);
            weights.others().put("calibrate_shift", whole[1]);
            write(weights);
        }
    }

    /// The fold each recording is left out in; two recordings of one voice, `x1a` and `x1b`, together.
    private static int[] folds(List<Stranger> strangers) {
        Map<String, Integer> voices = new HashMap<>();
        int[] folds = new int[strangers.size()];
        for (int r = 0; r < folds.length; r++) {
            String voice = strangers.get(r).name().replaceAll("(\\d)[ab]$", "$1");
            folds[r] = voices.computeIfAbsent(voice, key -> voices.size()) % FOLDS;
        }
        return folds;
    }

    private static String why(Stranger one, Decoder decoder, Weights weights, Narration decoded, String fault) {
        String[] parts = fault.split(" ");
        long at = Captions.time(parts[2]).orElse(0L);
        int year = Integer.parseInt(parts[4].substring(0, 4));
        for (Narration.Proposed find : decoded.finds()) {
            if (Math.abs(find.at() - at) < 30_000
                    && Integer.valueOf(year).equals(find.identity().year())) {
                return "  PROPOSED AS " + find.line() + " '" + find.words() + "'";
            }
        }
        Listening heard = decoder.listen(one.cues(), one.context(), one.denominations(), 50);
        StringBuilder near = new StringBuilder();
        for (Mention mention : heard.mentions()) {
            long when = heard.words().get(mention.word()).at();
            Mention.Coin coin = Cues.coin(mention);
            if (coin != null && coin.year() != null && coin.year() == year && Math.abs(when - at) < 15_000) {
                double p = weights.first(heard.around().get(heard.mentions().indexOf(mention)), coin.features());
                return String.format(Locale.ROOT, "  REJECTED %.2f ", p) + coin.denomination() + " '"
                        + heard.said(coin.word() - 6, coin.end() + 5) + "'";
            }
            if (Math.abs(when - at) < 5_000) {
                near.append(mention.getClass().getSimpleName()).append(' ');
            }
        }
        StringBuilder words = new StringBuilder();
        heard.words().stream()
                .filter(word -> Math.abs(word.at() - at) < 4_000)
                .forEach(word -> words.append(word.text()).append(' '));
        return "  NO CANDIDATE " + near + "'" + words + "'";
    }

    private static double through(double[] curve, double probability) {
        double inside = Math.clamp(probability, 1e-6, 1 - 1e-6);
        return 1 / (1 + Math.exp(-(curve[0] * Math.log(inside / (1 - inside)) + curve[1])));
    }

    /// Slope and shift of a logistic curve over the logarithm of the odds, by gradient.
    private static double[] platt(List<double[]> calls) {
        double[] curve = {1, 0};
        for (int step = 0; step < 4_000; step++) {
            double slope = 0;
            double shift = 0;
            for (double[] call : calls) {
                double inside = Math.clamp(call[0], 1e-6, 1 - 1e-6);
                double miss = call[1] - through(curve, call[0]);
                slope += miss * Math.log(inside / (1 - inside));
                shift += miss;
            }
            curve[0] += 0.1 * slope / calls.size();
            curve[1] += 0.1 * shift / calls.size();
        }
        return curve;
    }

    /// A recording with what each mention is.
    ///
    /// @param labels 0 a new find, 1 the same coin, 2 an aside; -1 what is no coin or left out
    /// @param related features in relation to the last find
    @SuppressWarnings("ArrayRecordComponent") // never compared
    record Sample(Listening heard, int[] labels, List<List<Feature>> related, boolean[] first, double weight) {}

    private static Sample sample(Stranger one) {
        Listening heard = Decoding.DECODER.listen(one.cues(), one.context(), one.denominations(), 50);
        return sample(heard, labels(one, heard), 1);
    }

    static Sample sample(Listening heard, int[] labels, double weight) {
        List<Mention> mentions = heard.mentions();
        List<List<Feature>> related = new ArrayList<>();
        boolean[] first = new boolean[labels.length];
        Mention.@Nullable Coin last = null;
        int lastIndex = 0;
        for (int m = 0; m < labels.length; m++) {
            Mention.Coin coin = Cues.coin(mentions.get(m));
            if (coin == null) {
                labels[m] = -1;
                related.add(List.of());
                continue;
            }
            if (labels[m] == 1 && last == null) {
                labels[m] = 2;
            }
            first[m] = last == null;
            related.add(Decoder.related(
                    heard,
                    coin,
                    last,
                    Decoder.told(mentions, lastIndex, m),
                    last != null && heard.rolls().turned(last.end(), coin.word())));
            if (labels[m] == 0) {
                last = coin;
                lastIndex = m + 1;
            }
        }
        return new Sample(heard, labels, related, first, weight);
    }

    /// Examples of the first listening: each mention by itself.
    private static List<Example> early(Sample sample, Names names) {
        List<Example> examples = new ArrayList<>();
        for (int m = 0; m < sample.labels.length; m++) {
            Mention.Coin coin = Cues.coin(sample.heard.mentions().get(m));
            if (sample.labels[m] >= 0 && coin != null) {
                List<String> observed = new ArrayList<>(sample.heard.around().get(m));
                coin.features().forEach(feature -> observed.add(feature.name()));
                examples.add(example(names, Weights.FIRST, observed, List.of(), sample, m));
            }
        }
        return examples;
    }

    /// Examples of the second: with what the first one told of the voice, and the last find.
    private static List<Example> late(Sample sample, Weights early, Names names) {
        List<List<String>> observed = Voice.of(sample.heard, Decoder.first(sample.heard, early));
        List<Example> examples = new ArrayList<>();
        for (int m = 0; m < sample.labels.length; m++) {
            if (sample.labels[m] >= 0) {
                examples.add(example(names, Weights.CUE, observed.get(m), sample.related.get(m), sample, m));
            }
        }
        return examples;
    }

    private static Example example(
            Names names, String kind, List<String> around, List<Feature> features, Sample sample, int m) {
        int[] observed = new int[features.size() + around.size()];
        int n = 0;
        for (Feature feature : features) {
            observed[n++] = names.of(feature.name().toLowerCase(Locale.ROOT));
        }
        for (String cue : around) {
            observed[n++] = names.of(kind + cue);
        }
        return new Example(observed, sample.labels[m], sample.first[m], sample.weight);
    }

    /// 0 a new find, 1 the same coin, 2 an aside.
    private static int[] labels(Stranger one, Listening heard) {
        List<Mention> mentions = heard.mentions();
        int[] labels = new int[mentions.size()];
        Arrays.fill(labels, 2);
        for (Stranger.Truth row : one.truth()) {
            int left = row.count();
            while (left > 0) {
                int best = -1;
                double nearest = Double.MAX_VALUE;
                for (int m = 0; m < labels.length; m++) {
                    Mention.Coin coin = Cues.coin(mentions.get(m));
                    if (coin == null || labels[m] == 0) {
                        continue;
                    }
                    long away = heard.words().get(coin.word()).at() - row.at();
                    boolean same = row.year() == null
                            ? coin.year() == null
                            : row.year().equals(coin.year());
                    // late rather than early, since the times told are when it is first said
                    double distance = away < 0 ? -1.5 * away : away;
                    if (same && away > -9_000 && away < (row.year() == null ? 4_000 : 18_000) && distance < nearest) {
                        nearest = distance;
                        best = m;
                    }
                }
                if (best < 0) {
                    break;
                }
                labels[best] = 0;
                left -= Math.max(
                        1,
                        java.util.Objects.requireNonNull(Cues.coin(mentions.get(best)))
                                .count());
            }
        }
        Mention.@Nullable Coin last = null;
        for (int m = 0; m < labels.length; m++) {
            Mention.Coin coin = Cues.coin(mentions.get(m));
            if (coin == null) {
                continue;
            }
            if (labels[m] == 0) {
                last = coin;
            } else if (last != null
                    && coin.year() != null
                    && coin.year().equals(last.year())
                    && coin.word() - last.end() < 60) {
                labels[m] = 1;
            }
        }
        return labels;
    }

    private static Weights weights(List<Sample> own, List<Sample> others, Names names, Map<String, Double> rest) {
        Weights whole = early(own, others, names);
        // what the first listening says of a recording must not come from having learned that recording
        List<List<Example>> late = new ArrayList<>();
        for (int part = 0; part < PARTS; part++) {
            List<Sample> left = new ArrayList<>();
            for (int r = 0; r < own.size(); r++) {
                if (r % PARTS != part) {
                    left.add(own.get(r));
                }
            }
            Weights early = early(left, others, names);
            for (int r = part; r < own.size(); r += PARTS) {
                late.add(late(own.get(r), early, names));
            }
        }
        List<Example> more = new ArrayList<>();
        others.forEach(other -> more.addAll(late(other, whole, names)));
        double[][] w = fit(late, more, names);
        Weights weights = new Weights();
        for (Feature feature : Feature.values()) {
            int o = names.of(feature.name().toLowerCase(Locale.ROOT));
            if (o < w[0].length) {
                weights.fresh[feature.index()] = w[0][o];
                weights.same[feature.index()] = w[1][o];
            }
        }
        take(w, names, Weights.CUE, weights.cues());
        weights.firstCues().putAll(whole.firstCues());
        weights.others().putAll(rest);
        return weights;
    }

    private static Weights early(List<Sample> own, List<Sample> others, Names names) {
        List<List<Example>> recordings = new ArrayList<>();
        own.forEach(one -> recordings.add(early(one, names)));
        List<Example> more = new ArrayList<>();
        others.forEach(other -> more.addAll(early(other, names)));
        Weights weights = new Weights();
        take(fit(recordings, more, names), names, Weights.FIRST, weights.firstCues());
        return weights;
    }

    private static void take(double[][] w, Names names, String kind, Map<String, double[]> into) {
        List<String> list = names.list();
        for (int o = 0; o < w[0].length; o++) {
            String name = list.get(o);
            if (name.startsWith(kind) && (Math.abs(w[0][o]) > FAINT || Math.abs(w[1][o]) > FAINT)) {
                into.put(name.substring(kind.length()), new double[] {w[0][o], w[1][o]});
            }
        }
    }

    private static double[][] fit(List<List<Example>> recordings, List<Example> others, Names names) {
        List<String> list = names.list();
        int n = list.size();
        int[] seen = new int[n];
        int[] in = new int[n];
        for (List<Example> recording : recordings) {
            Set<Integer> here = new HashSet<>();
            for (Example example : recording) {
                for (int o : example.observed) {
                    seen[o]++;
                    here.add(o);
                }
            }
            here.forEach(o -> in[o]++);
        }
        boolean[] used = new boolean[n];
        double[] ridge = new double[n];
        for (int o = 0; o < n; o++) {
            String name = list.get(o);
            boolean word = name.contains(" ") && !name.matches(Weights.FIRST + "[A-Z_]+");
            used[o] = !word || (seen[o] >= LEAST && in[o] >= LEAST_RECORDINGS);
            ridge[o] = name.startsWith(Weights.CUE + "voice") ? VOICE_RIDGE : word ? CUE_RIDGE : RIDGE;
        }
        List<Example> all = new ArrayList<>();
        recordings.forEach(all::addAll);
        all.addAll(others);
        return fit(all, used, ridge);
    }

    /// Multinomial logistic regression with a ridge, by resilient propagation over all examples at once.
    private static double[][] fit(List<Example> examples, boolean[] used, double[] ridge) {
        int n = used.length;
        double[][] w = new double[2][n];
        double[][] step = new double[2][n];
        double[][] before = new double[2][n];
        for (double[] one : step) {
            Arrays.fill(one, 0.05);
        }
        for (int round = 0; round < STEPS; round++) {
            double[][] slope = new double[2][n];
            for (Example example : examples) {
                double a = 0;
                double b = 0;
                for (int o : example.observed) {
                    if (used[o]) {
                        a += w[0][o];
                        b += w[1][o];
                    }
                }
                if (example.first) {
                    b = -40;
                }
                double high = Math.max(0, Math.max(a, b));
                double sum = Math.exp(-high) + Math.exp(a - high) + Math.exp(b - high);
                double ga = example.weight * ((example.label == 0 ? 1 : 0) - Math.exp(a - high) / sum);
                double gb = example.weight * ((example.label == 1 ? 1 : 0) - Math.exp(b - high) / sum);
                for (int o : example.observed) {
                    if (used[o]) {
                        slope[0][o] += ga;
                        slope[1][o] += gb;
                    }
                }
            }
            for (int k = 0; k < 2; k++) {
                for (int o = 0; o < n; o++) {
                    if (!used[o]) {
                        continue;
                    }
                    double g = slope[k][o] - ridge[o] * w[k][o];
                    double turn = g * before[k][o];
                    if (turn > 0) {
                        step[k][o] = Math.min(step[k][o] * 1.2, 0.5);
                    } else if (turn < 0) {
                        step[k][o] *= 0.5;
                        g = 0;
                    }
                    w[k][o] += Math.signum(g) * step[k][o];
                    before[k][o] = g;
                }
            }
        }
        return w;
    }

    private static void write(Weights weights) throws IOException {
        StringBuilder text = new StringBuilder("name,new,same,source\n");
        for (Feature feature : Feature.values()) {
            row(
                    text,
                    feature.name().toLowerCase(Locale.ROOT),
                    weights.fresh[feature.index()],
                    weights.same[feature.index()]);
        }
        weights.others()
                .forEach((name, value) ->
                        text.append(String.format(Locale.ROOT, "%s,%.3f,,set by hand%n", name, value)));
        new TreeMap<>(weights.cues()).forEach((name, two) -> row(text, Weights.CUE + name, two[0], two[1]));
        new TreeMap<>(weights.firstCues()).forEach((name, two) -> row(text, Weights.FIRST + name, two[0], two[1]));
        Files.writeString(Path.of("catalog/narration/weights.csv"), text);
    }

    private static void row(StringBuilder text, String name, double fresh, double same) {
        text.append(String.format(Locale.ROOT, "%s,%.3f,%.3f,fitted on narrations by strangers%n", name, fresh, same));
    }
}
