package org.rollwright.odds;

import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/// Did what was predicted come true? Every box is predicted from those before it, and compared.
///
/// @param boxes predicted
/// @param held share of them within the 50, 80 and 90 % intervals
/// @param steps each prediction and what came, in order
public record Honesty(int boxes, List<Double> held, List<Step> steps, String sentence) {
    /// One prediction.
    public record Step(String label, int low, int high, double mean, int found) {}

    private static final int FIRST = 5;
    private static final int MOST = 40;
    private static final double[] LEVELS = {0.5, 0.8, 0.9};

    /// Predicts the last forty boxes at the most, none before the sixth.
    public static Honesty of(History history) {
        List<BoxHistory> boxes = history.byDay();
        List<YieldModel.Seen> all = new ArrayList<>(history.before());
        boxes.stream().map(BoxHistory::seen).forEach(all::add);
        int from = Math.max(FIRST, boxes.size() - MOST);
        // each prediction knows only the boxes before it; they are computed side by side
        List<Predictive> predictions = IntStream.range(Math.min(from, boxes.size()), boxes.size())
                .parallel()
                .mapToObj(i -> YieldModel.fit(all.subList(0, history.before().size() + i))
                        .next(boxes.get(i).source(), boxes.get(i).fullBoxes()))
                .toList();
        int[] held = new int[LEVELS.length];
        List<Step> steps = new ArrayList<>();
        for (int p = 0; p < predictions.size(); p++) {
            BoxHistory box = boxes.get(from + p);
            Predictive predictive = predictions.get(p);
            for (int level = 0; level < LEVELS.length; level++) {
                Interval interval = predictive.interval(LEVELS[level]);
                held[level] += box.found() >= interval.low() && box.found() <= interval.high() ? 1 : 0;
            }
            Interval ninety = predictive.interval(0.9);
            steps.add(new Step(box.label(), (int) ninety.low(), (int) ninety.high(), predictive.mean(), box.found()));
        }
        int count = steps.size();
        List<Double> shares = new ArrayList<>();
        for (int level = 0; level < LEVELS.length; level++) {
            shares.add(count == 0 ? Double.NaN : held[level] / (double) count);
        }
        String sentence =
                count == 0 ? t("odds.too-few-boxes") : f("odds.predictions-checked", count, held[2], held[1], held[0]);
        return new Honesty(count, shares, steps, sentence);
    }
}
