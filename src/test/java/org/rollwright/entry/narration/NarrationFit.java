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
    private static final double TWIN_RIDGE = 1;

    /// What lessons tell, learned last, with all else held where it is.
    private static final double TOLD_RIDGE = 10;

    private static final double HELD_RIDGE = 1e6;

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

    private NarrationFit() {}

    public static void main(String[] args) throws IOException {
        List<Stranger> strangers = new ArrayList<>();
        for (String folder : args) {
            if (!folder.equals("write")) {
                strangers.addAll(Stranger.folder(Path.of(folder)));
            }
        }
        Regression.Names names = new Regression.Names();
        List<Taught> own = new ArrayList<>();
        for (Stranger one : strangers) {
            own.add(taught(one));
        }
        List<Taught> others = new ArrayList<>();
        for (Annotated narration : Annotated.folder("tuned")) {
            others.add(AnnotatedSample.of(narration, OURS));
        }
        for (Annotated narration : NarrationMaker.many(1_000_000, 120, true, 0.75)) {
            others.add(AnnotatedSample.of(narration, GENERATED));
        }
        System.out.println(strangers.size() + " recordings");
        Stranger.Count[] each = new Stranger.Count[strangers.size()];
        Stranger.Count all = new Stranger.Count();
        Learned pairs = new Learned();
        Learned halves = new Learned();
        Map<String, Double> rest = Weights.parse(Files.readString(Path.of("catalog/narration/weights.csv")))
                .others();
        // the curve is learned from probabilities as they come
        rest.put("calibrate_slope", 1.0);
        rest.put("calibrate_shift", 0.0);
        int[] folds = folds(strangers);
        java.util.stream.IntStream.range(0, FOLDS).parallel().forEach(fold -> {
            List<Taught> training = new ArrayList<>();
            for (int r = 0; r < strangers.size(); r++) {
                if (folds[r] != fold) {
                    training.add(own.get(r));
                }
            }
            Weights weights = weights(training, others, names, rest);
            Decoder decoder = new Decoder(() -> Decoding.PHRASES, () -> weights);
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
                List<Taught> lessons = others(strangers, own, r);
                if (!lessons.isEmpty()) {
                    pairs.add(one, weights, lessons);
                }
                halves.add(one.half(false), weights, List.of(taught(one.half(true))));
            }
        });
        for (int r = 0; r < each.length; r++) {
            System.out.println(strangers.get(r).name() + ": " + each[r]);
            if (Boolean.getBoolean("rollwright.faults")) {
                each[r].faults.forEach(fault -> System.out.println("    " + fault));
            }
        }
        pairs.print("other recordings of a voice");
        halves.print("second halves");
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

    /// What a voice's lessons do for its other recordings: pairs of recordings, and the two halves of each.
    private static final class Learned {
        final Stranger.Count before = new Stranger.Count();
        final Stranger.Count after = new Stranger.Count();

        synchronized void add(Stranger one, Weights weights, List<Taught> lessons) {
            before.add(one, decode(one, weights, List.of()));
            after.add(one, decode(one, weights, lessons));
        }

        void print(String what) {
            System.out.println(what + ", before learning: " + before);
            System.out.println(what + ", after learning: " + after);
        }
    }

    private static Narration decode(Stranger one, Weights weights, List<Taught> lessons) {
        return new Decoder(() -> Decoding.PHRASES, () -> weights)
                .taught(lessons)
                .decode(
                        new Captions(one.cues(), "text", "UTF-8", List.of()),
                        one.context(),
                        one.denominations(),
                        one.rollsPerBox());
    }

    /// A recording of which the voice made another, `x1a` and `x1b`, and those others.
    private static List<Taught> others(List<Stranger> strangers, List<Taught> own, int r) {
        String name = strangers.get(r).name();
        List<Taught> others = new ArrayList<>();
        for (int q = 0; q < own.size(); q++) {
            if (q != r && voice(strangers.get(q).name()).equals(voice(name))) {
                others.add(own.get(q));
            }
        }
        return others;
    }

    private static String voice(String name) {
        return name.replaceAll("(\\d)[ab]$", "$1");
    }

    /// The fold each recording is left out in; two recordings of one voice, `x1a` and `x1b`, together.
    private static int[] folds(List<Stranger> strangers) {
        Map<String, Integer> voices = new HashMap<>();
        int[] folds = new int[strangers.size()];
        for (int r = 0; r < folds.length; r++) {
            folds[r] = voices.computeIfAbsent(voice(strangers.get(r).name()), key -> voices.size()) % FOLDS;
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

    private static Taught taught(Stranger one) {
        Listening heard = Decoding.DECODER.listen(one.cues(), one.context(), one.denominations(), 50);
        return Taught.of(heard, one.finds());
    }

    private static Weights plain(
            List<Taught> own, List<Taught> others, Regression.Names names, Map<String, Double> rest) {
        Weights whole = early(own, others, names);
        List<List<Regression.Example>> late = secondListening(own, others, names, Taught::late);
        List<Regression.Example> more = new ArrayList<>();
        others.forEach(other -> more.addAll(other.late(whole, names)));
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

    /// Makes examples of a recording.
    private interface Examples {
        List<Regression.Example> of(Taught recording, Weights early, Regression.Names names);
    }

    /// Examples of each recording by a first listening that has not learned it: one that has would tell too much.
    private static List<List<Regression.Example>> secondListening(
            List<Taught> own, List<Taught> others, Regression.Names names, Examples examples) {
        List<List<Regression.Example>> all = new ArrayList<>();
        for (int part = 0; part < PARTS; part++) {
            List<Taught> left = new ArrayList<>();
            for (int r = 0; r < own.size(); r++) {
                if (r % PARTS != part) {
                    left.add(own.get(r));
                }
            }
            Weights early = early(left, others, names);
            for (int r = part; r < own.size(); r += PARTS) {
                all.add(examples.of(own.get(r), early, names));
            }
        }
        return all;
    }

    /// What lessons tell, learned from the one half of each recording for the other, with everything else as it is.
    private static void told(List<Taught> own, List<Taught> others, Regression.Names names, Weights weights) {
        List<Regression.Example> examples = new ArrayList<>();
        secondListening(own, others, names, Taught::told).forEach(examples::addAll);
        List<String> list = names.list();
        int n = list.size();
        boolean[] used = new boolean[n];
        double[] ridge = new double[n];
        double[][] prior = new double[2][n];
        for (int o = 0; o < n; o++) {
            String name = list.get(o);
            boolean tells = name.startsWith(Weights.CUE + "told ");
            double[] known = weights.known(name);
            used[o] = tells || known != null;
            ridge[o] = tells ? TOLD_RIDGE : HELD_RIDGE;
            if (known != null) {
                prior[0][o] = known[0];
                prior[1][o] = known[1];
            }
        }
        take(Regression.fit(examples, used, ridge, prior, STEPS), names, Weights.CUE + "told ", weights.cues());
    }

    private static Weights weights(
            List<Taught> own, List<Taught> others, Regression.Names names, Map<String, Double> rest) {
        Weights weights = plain(own, others, names, rest);
        told(own, others, names, weights);
        return weights;
    }

    private static Weights early(List<Taught> own, List<Taught> others, Regression.Names names) {
        List<List<Regression.Example>> recordings = new ArrayList<>();
        own.forEach(one -> recordings.add(one.early(names)));
        List<Regression.Example> more = new ArrayList<>();
        others.forEach(other -> more.addAll(other.early(names)));
        Weights weights = new Weights();
        take(fit(recordings, more, names), names, Weights.FIRST, weights.firstCues());
        return weights;
    }

    private static void take(double[][] w, Regression.Names names, String kind, Map<String, double[]> into) {
        List<String> list = names.list();
        for (int o = 0; o < w[0].length; o++) {
            String name = list.get(o);
            if (name.startsWith(kind) && (Math.abs(w[0][o]) > FAINT || Math.abs(w[1][o]) > FAINT)) {
                into.put(name.substring(name.indexOf(' ') + 1), new double[] {w[0][o], w[1][o]});
            }
        }
    }

    private static double[][] fit(
            List<List<Regression.Example>> recordings, List<Regression.Example> others, Regression.Names names) {
        List<String> list = names.list();
        int n = list.size();
        int[] seen = new int[n];
        int[] in = new int[n];
        for (List<Regression.Example> recording : recordings) {
            Set<Integer> here = new HashSet<>();
            for (Regression.Example example : recording) {
                for (int o : example.observed()) {
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
            ridge[o] = name.startsWith(Weights.CUE + "twin")
                    ? TWIN_RIDGE
                    : name.startsWith(Weights.CUE + "voice") ? VOICE_RIDGE : word ? CUE_RIDGE : RIDGE;
        }
        List<Regression.Example> all = new ArrayList<>();
        recordings.forEach(all::addAll);
        all.addAll(others);
        return Regression.fit(all, used, ridge, new double[2][n], STEPS);
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
