package org.rollwright.odds;

import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.rollwright.text.Figures;

/// Is a box unusual, against the hunter's own history without it?
///
/// @param expected mean predicted for as much as was searched of it
/// @param ninety central 90 % interval of that prediction
/// @param atLeast chance of so many or more
/// @param atMost chance of so few or fewer
/// @param clustering of its finds in neighbouring rolls; empty with fewer than three finds or five rolls
/// @param sentence in plain words
public record Surprise(
        BoxHistory box,
        double expected,
        Interval ninety,
        double atLeast,
        double atMost,
        Optional<Clustering> clustering,
        boolean unusual,
        String sentence) {
    /// Chances below this are called unusual: one box in a hundred.
    static final double RARE = 0.01;

    private static final int FEWEST_BOXES = 3;
    private static final int WIDEST = 10;

    /// Judges a box.
    ///
    /// @param seed of the simulated spreads
    public static Surprise of(History history, BoxHistory box, long seed) {
        YieldModel model = YieldModel.fit(history.seen(box));
        Predictive predictive = model.next(box.source(), box.fullBoxes());
        double atLeast = predictive.atLeast(box.found());
        double atMost = predictive.atMost(box.found());
        int[] perRoll = box.perRoll().stream().mapToInt(Integer::intValue).toArray();
        Optional<Clustering> clustering = box.found() >= 3 && perRoll.length >= 5
                ? Optional.of(Clustering.widest(perRoll, WIDEST, seed))
                : Optional.empty();
        int others = history.boxes().size() - 1 + history.before().size();
        Interval ninety = predictive.interval(0.9);
        List<String> words = new ArrayList<>();
        boolean many = atLeast < RARE;
        boolean few = atMost < RARE;
        boolean close = clustering.filter(one -> one.pLargest() < RARE).isPresent();
        String name = history.watch().name();
        if (others < FEWEST_BOXES) {
            words.add(t("odds.too-few-others", others));
        } else if (many || few) {
            words.add(f(
                    "odds.box-unusual",
                    box.found(),
                    name,
                    predictive.mean(),
                    (int) ninety.low(),
                    (int) ninety.high(),
                    many ? t("odds.more") : t("odds.fewer"),
                    odds(many ? atLeast : atMost)));
        } else {
            words.add(f("odds.box-ordinary", box.found(), name, predictive.mean(), (int) ninety.low(), (int)
                    ninety.high()));
        }
        if (close) {
            Clustering one = clustering.orElseThrow();
            int from = box.rolls().get(one.from() - 1);
            int to = box.rolls().get(one.from() + one.window() - 2);
            words.add(f(
                    "odds.rolls-together",
                    one.largest(),
                    from == to ? t("odds.roll", from) : t("odds.rolls-from-to", from, to),
                    odds(one.pLargest())));
            if (many) {
                words.add(t("odds.accumulation"));
            }
        }
        Map<String, Integer> usual = new HashMap<>();
        history.boxes().stream()
                .filter(other -> !other.equals(box))
                .forEach(other -> other.dates().forEach((date, count) -> usual.merge(date, count, Integer::sum)));
        Optional<Mixture> mixture = Mixture.of(box.dates(), usual, seed);
        boolean mixed = mixture.filter(one -> one.p() < RARE).isPresent();
        if (mixed) {
            List<String> stands = mixture.orElseThrow().stands();
            words.add(
                    stands.isEmpty()
                            ? t("odds.dates-unusual", odds(mixture.orElseThrow().p()))
                            : t(
                                    "odds.dates-unusual-most",
                                    odds(mixture.orElseThrow().p()),
                                    String.join(", ", stands)));
        }
        boolean unusual = others >= FEWEST_BOXES && (many || few || close || mixed);
        return new Surprise(
                box, predictive.mean(), ninety, atLeast, atMost, clustering, unusual, String.join(" ", words));
    }

    /// The reciprocal of a chance in figures a person can keep in mind.
    static String odds(double chance) {
        double in = 1 / Math.max(chance, 1e-6);
        return in >= 1e6
                ? t("odds.a-million")
                : Figures.of("%,d", in < 1000 ? Math.round(in) : Math.round(in / 100) * 100);
    }
}
