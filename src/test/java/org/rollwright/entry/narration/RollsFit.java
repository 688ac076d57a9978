package org.rollwright.entry.narration;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/// Measures which roll is in hand at the finds of recordings with a truth, and fits the weights of [Rolls] to them,
/// leaving a sixth of them out at a time. Arguments: `measure`, `fit` or `out`, and the captions, whose
/// truths lie beside them.
final class RollsFit {
    private static final int FOLDS = 6;
    private static final double RIDGE = 0.15;

    /// A find whose roll is known.
    private record Asked(String at, List<Integer> words, int box, int roll) {
        int word() {
            return words.getFirst();
        }

        boolean right(Rolls rolls) {
            for (int one : words) {
                if (rolls.box(one) == box && rolls.roll(one) == roll) {
                    return true;
                }
            }
            return false;
        }
    }

    private record Recording(String name, List<Word> words, List<Cue> cues, int rollsPerBox, List<Asked> asked) {}

    private RollsFit() {}

    public static void main(String[] args) throws IOException {
        List<Recording> all = new ArrayList<>();
        for (int i = 1; i < args.length; i++) {
            all.add(read(Path.of(args[i])));
        }
        Weights weights = Weights.parse(Decoding.text("weights.csv"));
        switch (args[0]) {
            case "measure" -> print(all, weights, Boolean.getBoolean("faults"));
            case "fit" -> {
                fit(all, weights);
                print(all, weights, false);
                weights.others().forEach((name, value) -> {
                    if (name.matches("(sign|step|count)_.*")) {
                        System.out.printf(Locale.ROOT, "%s,%.2f%n", name, value);
                    }
                });
            }
            case "out" -> {
                int right = 0;
                int asked = 0;
                for (int fold = 0; fold < FOLDS; fold++) {
                    Weights others = Weights.parse(Decoding.text("weights.csv"));
                    List<Recording> in = new ArrayList<>();
                    List<Recording> out = new ArrayList<>();
                    for (int i = 0; i < all.size(); i++) {
                        (i % FOLDS == fold ? out : in).add(all.get(i));
                    }
                    fit(in, others);
                    for (Recording one : out) {
                        int here = right(one, others, false);
                        System.out.println(one.name + " left out: " + here + " of " + one.asked.size());
                        right += here;
                        asked += one.asked.size();
                    }
                }
                System.out.printf(Locale.ROOT, "left out: %d of %d, %.1f %%%n", right, asked, 100.0 * right / asked);
            }
            case "time" -> {
                for (int i = 0; i < 300; i++) {
                    long before = System.nanoTime();
                    int words = 0;
                    for (Recording one : all) {
                        rolls(one, weights);
                        words += one.words.size();
                    }
                    if (i % 50 == 49) {
                        System.out.println(words + " words: " + (System.nanoTime() - before) / 1000 + " us");
                    }
                }
            }
            default -> throw new IllegalArgumentException("measure, fit, out or time");
        }
    }

    private static Rolls rolls(Recording one, Weights weights) {
        return new Rolls(one.words, one.cues, one.rollsPerBox, Decoding.PHRASES, weights);
    }

    private static void print(List<Recording> all, Weights weights, boolean faults) {
        int right = 0;
        int asked = 0;
        for (Recording one : all) {
            int here = right(one, weights, faults);
            System.out.println(one.name + ": " + here + " of " + one.asked.size());
            right += here;
            asked += one.asked.size();
        }
        System.out.printf(Locale.ROOT, "all: %d of %d, %.1f %%%n", right, asked, 100.0 * right / asked);
    }

    private static int right(Recording one, Weights weights, boolean faults) {
        Rolls rolls = rolls(one, weights);
        int right = 0;
        for (Asked asked : one.asked) {
            boolean good = asked.right(rolls);
            right += good ? 1 : 0;
            if (faults && !good) {
                StringBuilder near = new StringBuilder();
                for (int i = Math.max(0, asked.word() - 14); i < Math.min(one.words.size(), asked.word() + 4); i++) {
                    near.append(one.words.get(i).text()).append(i == asked.word() ? "* " : " ");
                }
                System.out.printf(
                        Locale.ROOT,
                        "  %s %s: %d-%d for %d-%d (%.2f) %s%n",
                        one.name,
                        asked.at,
                        rolls.box(asked.word()),
                        rolls.roll(asked.word()),
                        asked.box,
                        asked.roll,
                        rolls.sure(asked.word()),
                        near);
            }
        }
        return right;
    }

    private static double loss(List<Recording> all, Weights weights, Map<String, Double> prior) {
        double loss = 0;
        for (Recording one : all) {
            Rolls rolls = rolls(one, weights);
            for (Asked asked : one.asked) {
                boolean good = asked.right(rolls);
                double sure = rolls.sure(asked.word());
                loss -= Math.log(Math.max(0.005, good ? sure : Math.min(0.4, 1 - sure)));
            }
        }
        for (Map.Entry<String, Double> one : prior.entrySet()) {
            double off = weights.of(one.getKey()) - one.getValue();
            loss += RIDGE * off * off;
        }
        return loss;
    }

    private static void fit(List<Recording> all, Weights weights) {
        Map<String, Double> prior = new TreeMap<>();
        weights.others().forEach((name, value) -> {
            if (name.matches("(sign|step|count)_.*") && value != 0 && !name.startsWith("count_from")) {
                prior.put(name, value);
            }
        });
        double best = loss(all, weights, prior);
        for (double by : new double[] {1, 0.5, 0.5}) {
            for (String name : prior.keySet()) {
                for (int sign : new int[] {1, -1}) {
                    while (true) {
                        double old = weights.of(name);
                        weights.others().put(name, old + sign * by);
                        double now = loss(all, weights, prior);
                        if (now >= best - 0.02) {
                            weights.others().put(name, old);
                            break;
                        }
                        best = now;
                    }
                }
            }
        }
    }

    // reading

    private static Recording read(Path captions) throws IOException {
        String base = captions.toString().replaceAll("\\.txt$", "");
        Captions.Read read = Captions.read(Files.readAllBytes(captions));
        List<Cue> cues = ((Captions.Read.Good) read).captions().cues();
        List<Word> words = Decoding.PHRASES.understood(Word.of(cues));
        int rollsPerBox = 50;
        List<Asked> asked = new ArrayList<>();
        for (String line : Files.readAllLines(Path.of(base + ".truth.csv")).stream()
                .skip(1)
                .toList()) {
            String[] cells = line.split(",", -1);
            if (cells.length > 5 && !cells[2].isBlank()) {
                long at = Captions.time(cells[0].strip()).orElseThrow();
                int year = cells[5].isBlank() ? -1 : Integer.parseInt(cells[5].strip());
                int box = cells[1].isBlank() ? 1 : Integer.parseInt(cells[1].strip());
                asked.add(new Asked(cells[0], words(words, at, year), box, Integer.parseInt(cells[2].strip())));
            }
        }
        return new Recording(Path.of(base).getFileName().toString(), words, cues, rollsPerBox, asked);
    }

    /// A year told digit by digit.
    private static boolean digits(List<Word> words, int i, int year) {
        String said = "";
        for (int k = i; k < Math.min(words.size(), i + 4); k++) {
            Optional<Numbers.Spoken> one = Numbers.count(words, k);
            said += words.get(k).is("oh") ? 0 : one.isPresent() ? one.get().value() : "-";
        }
        return said.equals(Integer.toString(year));
    }

    /// The word that tells the year, nearest to a moment; else the words around it.
    private static List<Integer> words(List<Word> words, long at, int year) {
        int best = -1;
        int bestLast = -1;
        List<Integer> near = new ArrayList<>();
        for (int i = 0; i < words.size(); i++) {
            long off = Math.abs(words.get(i).at() - at);
            Optional<Numbers.Spoken> said = Numbers.at(words, i);
            boolean date = said.isPresent()
                    && !said.get().ordinal()
                    && (said.get().value() == year
                            || said.get().value() == Math.floorMod(year, 100)
                            || digits(words, i, year));
            boolean full = said.isPresent() && said.get().year();
            if (date
                    && off <= (full ? 35_000 : 20_000)
                    && (best < 0 || off < Math.abs(words.get(best).at() - at))) {
                best = i;
            }
            boolean last = said.isPresent() && said.get().value() == Math.floorMod(year, 10);
            if (last
                    && off <= 6_000
                    && (bestLast < 0 || off < Math.abs(words.get(bestLast).at() - at))) {
                bestLast = i;
            }
            if (words.get(i).at() >= at - 4_000 && words.get(i).at() <= at + 8_000) {
                near.add(i);
            }
        }
        if (best >= 0) {
            return List.of(best);
        }
        if (bestLast >= 0) {
            near.add(0, bestLast);
        }
        return near.isEmpty() ? List.of(words.size() - 1) : near;
    }
}
