package org.rollwright.entry.narration;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/// Fits the weights of the decoder on generated narrations and writes catalog/narration/weights.csv: a
/// multinomial logistic regression of what a mention of a coin is (new find, the same coin again, an aside) on
/// its features, with a ridge penalty. Run it by bench/fit-narration.
final class NarrationFit {
    private static final int NARRATIONS = 1_500;
    private static final double PART = 0.75;
    private static final double RIDGE = 1.0;
    private static final int STEPS = 600;

    private record Example(List<Feature> features, int label) {}

    private NarrationFit() {}

    public static void main(String[] args) throws IOException {
        List<Example> examples = new ArrayList<>();
        for (Annotated narration : NarrationMaker.many(1_000_000, NARRATIONS, true, PART)) {
            examples(narration, examples);
        }
        // the hand-written ones in tuned/ count as well, several times, because they are few
        for (Annotated narration : Annotated.folder("tuned")) {
            for (int i = 0; i < 12; i++) {
                examples(narration, examples);
            }
        }
        double[][] weights = fit(examples);
        Path file = Path.of("catalog/narration/weights.csv");
        Map<String, Double> others =
                new TreeMap<>(Weights.parse(Files.readString(file)).others());
        StringBuilder text = new StringBuilder("name,new,same,source\n");
        for (Feature feature : Feature.values()) {
            text.append(String.format(
                    Locale.ROOT,
                    "%s,%.3f,%.3f,fitted on generated narrations%n",
                    feature.name().toLowerCase(Locale.ROOT),
                    weights[0][feature.index()],
                    weights[1][feature.index()]));
        }
        others.forEach((name, value) -> text.append(String.format(Locale.ROOT, "%s,%.3f,,set by hand%n", name, value)));
        Files.writeString(file, text);
        System.out.println(examples.size() + " examples; written to " + file);
    }

    private static void examples(Annotated narration, List<Example> into) {
        Listening heard = Decoding.DECODER.listen(
                Captions.read(narration.vtt().getBytes(java.nio.charset.StandardCharsets.UTF_8))
                                instanceof Captions.Read.Good good
                        ? good.captions().cues()
                        : List.of(),
                narration.context());
        Mention.Coin last = null;
        int lastIndex = 0;
        boolean rollChanged = false;
        List<Mention> mentions = heard.mentions();
        for (int m = 0; m < mentions.size(); m++) {
            Mention mention = mentions.get(m);
            rollChanged |= mention instanceof Mention.RollTo || mention instanceof Mention.RollNext;
            Mention.Coin coin = mention instanceof Mention.Coin direct
                    ? direct
                    : mention instanceof Mention.Bare bare ? bare.coin() : null;
            if (coin == null) {
                continue;
            }
            int label = label(narration, heard, coin, next(mentions, m, heard));
            if (label == 2 && mention instanceof Mention.Bare) {
                continue;
            }
            if (label == 1 && last == null) {
                continue;
            }
            into.add(
                    new Example(Decoder.related(coin, last, Decoder.told(mentions, lastIndex, m), rollChanged), label));
            if (label == 0 || (label == 1 && coin.features().contains(Feature.CORRECTING))) {
                last = coin;
                lastIndex = m + 1;
                rollChanged = false;
            }
        }
    }

    private static Word next(List<Mention> mentions, int m, Listening heard) {
        for (int n = m + 1; n < mentions.size(); n++) {
            Mention mention = mentions.get(n);
            if (mention instanceof Mention.Coin || (mention instanceof Mention.Bare bare && bare.coin() != null)) {
                return heard.words().get(mention.word());
            }
        }
        return heard.words().getLast();
    }

    /// 0 a new find, 1 the same coin, 2 an aside.
    private static int label(Annotated narration, Listening heard, Mention.Coin coin, Word next) {
        Word first = heard.words().get(coin.word());
        for (Annotated.Note note : narration.notes()) {
            boolean behind = note.cue() > first.cue() || (note.cue() == first.cue() && note.at() > first.from());
            boolean before = next.equals(heard.words().getLast())
                    || note.cue() < next.cue()
                    || (note.cue() == next.cue() && note.at() <= next.from());
            if (behind && before) {
                if (note.text().equals("=")) {
                    return 1;
                }
                if (narration.isFind(note)) {
                    return 0;
                }
            }
        }
        return 2;
    }

    private static double[][] fit(List<Example> examples) {
        double[][] weights = new double[2][Feature.COUNT];
        double[][] speed = new double[2][Feature.COUNT];
        for (int step = 0; step < STEPS; step++) {
            double[][] slope = new double[2][Feature.COUNT];
            for (Example example : examples) {
                double a = sum(weights[0], example.features);
                double b = example.features.contains(Feature.NO_FIND_YET) ? -40 : sum(weights[1], example.features);
                double high = Math.max(0, Math.max(a, b));
                double all = Math.exp(-high) + Math.exp(a - high) + Math.exp(b - high);
                double pa = Math.exp(a - high) / all;
                double pb = Math.exp(b - high) / all;
                for (Feature feature : example.features) {
                    slope[0][feature.index()] += (example.label == 0 ? 1 : 0) - pa;
                    slope[1][feature.index()] += (example.label == 1 ? 1 : 0) - pb;
                }
            }
            for (int k = 0; k < 2; k++) {
                for (int f = 0; f < Feature.COUNT; f++) {
                    double gradient = (slope[k][f] - RIDGE * weights[k][f]) / examples.size();
                    speed[k][f] = 0.9 * speed[k][f] + gradient;
                    weights[k][f] += 1.2 * speed[k][f];
                }
            }
        }
        return weights;
    }

    private static double sum(double[] weights, List<Feature> features) {
        double sum = 0;
        for (Feature feature : features) {
            sum += weights[feature.index()];
        }
        return sum;
    }
}
