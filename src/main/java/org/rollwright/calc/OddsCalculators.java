package org.rollwright.calc;

import static org.rollwright.calc.Field.ABOVE_ZERO;
import static org.rollwright.calc.Field.CHANCE;
import static org.rollwright.calc.Field.FROM_ZERO;
import static org.rollwright.calc.Field.maybe;
import static org.rollwright.calc.Field.needed;
import static org.rollwright.calc.Field.otherwise;
import static org.rollwright.calc.Field.whole;
import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.rollwright.coin.Limits;
import org.rollwright.odds.Clustering;
import org.rollwright.odds.Completion;
import org.rollwright.odds.EnderLook;
import org.rollwright.odds.GammaRate;
import org.rollwright.odds.Interval;
import org.rollwright.odds.NegativeBinomial;
import org.rollwright.text.Figures;

/// What hunting yields.
final class OddsCalculators {
    /// No box holds as many; the sums over it take a fifth of a second.
    private static final int MOST_COINS = 100_000;
    /// The sums behind a rate end in time and to all digits; so many finds nobody counts.
    private static final Field.Figure FINDS = Field.number(0, 1e7);
    private static final Field.Figure PRIOR_FINDS = Field.number(1e-6, 1e7);
    private static final int MOST_COUNT = 1_000_000_000;
    private static final int MOST_HOLES = 1_000;
    private static final int MOST_ROLLS = 1_000;
    private static final int MOST_FINDS = 20_000;
    private static final int MOST_ASKED = 100;

    /// More coins than that are asked for and told of nowhere.
    private static final double MOST_SAID = 1e15;

    /// Beyond it a number of boxes means never.
    private static final double MOST_BOXES = 1e7;

    private static final Calculator RATE = new Calculator(
            "rate",
            () -> t("calc.a-rate"),
            () -> t("calc.rate-question"),
            List.of(
                    needed("found", () -> t("calc.found"), FINDS, "3"),
                    needed("coins", () -> t("calc.coins-searched"), FROM_ZERO, "500000"),
                    needed("next", () -> t("calc.next-coins"), ABOVE_ZERO, "2500"),
                    needed("shape", () -> t("calc.prior-finds"), PRIOR_FINDS, "0.5"),
                    needed("rate", () -> t("calc.prior-coins"), ABOVE_ZERO, "50000"),
                    maybe(
                            "counts",
                            () -> t("calc.chance-of-exactly"),
                            new Field.Numbers(whole(0, MOST_COUNT), 1, MOST_ASKED),
                            "2 3")),
            OddsCalculators::rate);

    private static final Calculator BOX = new Calculator(
            "box",
            () -> t("calc.a-box"),
            () -> t("calc.box-question"),
            List.of(
                    needed("mean", () -> t("calc.average-per-box"), FROM_ZERO, "12.5"),
                    needed("size", () -> t("calc.size-small-clumped"), ABOVE_ZERO, "2"),
                    needed("observed", () -> t("calc.this-box"), whole(0, MOST_COUNT), "40")),
            OddsCalculators::box);

    private static final Calculator ENDERS = new Calculator(
            "enders",
            () -> t("calc.enders"),
            () -> t("calc.enders-question"),
            List.of(
                    needed("coins", () -> t("calc.coins-in-the-box"), whole(1, MOST_COINS), "2500"),
                    needed("visible", () -> t("calc.enders-seen"), whole(0, MOST_COINS), "48"),
                    needed("matching", () -> t("calc.of-them-match"), whole(0, MOST_COINS), "3"),
                    needed("a", () -> t("calc.prior-matching"), ABOVE_ZERO, "2"),
                    needed("b", () -> t("calc.prior-others"), ABOVE_ZERO, "398")),
            OddsCalculators::enders);

    private static final Calculator CLUSTERING = new Calculator(
            "clustering",
            () -> t("calc.clustering"),
            () -> t("calc.clustering-question"),
            List.of(
                    needed(
                            "perRoll",
                            () -> t("calc.finds-in-each-roll"),
                            new Field.Numbers(whole(0, MOST_FINDS), 2, MOST_ROLLS),
                            "0 1 0 0 2 0 0 1 0 5 4 6 3 0 0 1 0"),
                    needed("window", () -> t("calc.rolls-in-the-window"), whole(1, MOST_ROLLS), "4"),
                    maybe("seed", () -> t("calc.seed"), whole(0, MOST_COUNT), "7")),
            OddsCalculators::clustering);

    private static final Calculator COMPLETION = new Calculator(
            "completion",
            () -> t("calc.a-set"),
            () -> t("calc.completion-question"),
            List.of(
                    maybe(
                            "found",
                            () -> t("calc.finds-of-each-by-blanks"),
                            new Field.Numbers(whole(0, MOST_COUNT), 1, MOST_HOLES),
                            "2 0 1 0"),
                    maybe("searched", () -> t("calc.coins-searched"), ABOVE_ZERO, "100000"),
                    maybe("perBox", () -> t("calc.coins-in-a-box"), ABOVE_ZERO, "2500"),
                    otherwise(
                            "holes",
                            () -> t("calc.holes-by-rate"),
                            new Field.Rows(ABOVE_ZERO, 1, MOST_HOLES, List.of("shape", "rate")),
                            "2 50000\n0.5 40000"),
                    otherwise(
                            "coins",
                            () -> t("calc.after-coins"),
                            new Field.Numbers(Field.number(0, MOST_SAID), 1, MOST_ASKED),
                            "25000"),
                    otherwise(
                            "probabilities",
                            () -> t("calc.for-chances"),
                            new Field.Numbers(CHANCE, 1, MOST_ASKED),
                            "0.5 0.9")),
            OddsCalculators::completion);

    static final List<Calculator> ALL = List.of(RATE, BOX, ENDERS, CLUSTERING, COMPLETION);

    private OddsCalculators() {}

    private static Answer rate(Input in) {
        double found = in.number("found");
        double coins = in.number("coins");
        if (found > coins) {
            throw Input.refused(
                    t("calc.more-than", in.where("found"), in.where("coins")),
                    t("calc.write-fewer", in.where("found")));
        }
        double next = in.number("next");
        GammaRate rate = new GammaRate(in.number("shape"), in.number("rate")).after(found, coins);
        double low = rate.quantile(0.05);
        double high = rate.quantile(0.95);
        List<Double> exactly = new ArrayList<>();
        List<String> sentences = new ArrayList<>(List.of(
                f("calc.rate-answer", coins(1 / rate.mean()), coins(1 / high), coins(1 / low)),
                f(
                        "calc.rate-next",
                        next,
                        rate.mean() * next,
                        100 * rate.exactly(0, next),
                        100 * rate.exactly(1, next),
                        100 * rate.atLeastOne(next))));
        for (double count : in.numbers("counts")) {
            exactly.add(rate.exactly((int) count, next));
            sentences.add(f("calc.rate-exactly", (int) count, 100 * exactly.getLast()));
        }
        return new Answer(Answer.values("mean", rate.mean(), "q05", low, "q95", high, "pExactly", exactly), sentences);
    }

    private static Answer box(Input in) {
        NegativeBinomial counts = new NegativeBinomial(in.number("mean"), in.number("size"));
        int observed = in.whole("observed");
        Interval ninety = counts.interval(0.9);
        double atLeast = counts.atLeast(observed);
        return new Answer(
                Answer.values("pAtLeast", atLeast, "low90", ninety.low(), "high90", ninety.high()),
                List.of(
                        f("calc.box-interval", (long) ninety.low(), (long) ninety.high()),
                        f("calc.box-tails", observed, 100 * atLeast, observed, 100 * counts.atMost(observed))));
    }

    private static Answer enders(Input in) {
        int coins = in.whole("coins");
        int visible = in.whole("visible");
        int matching = in.whole("matching");
        if (visible > coins) {
            throw Input.refused(
                    t("calc.more-than", in.where("visible"), in.where("coins")),
                    t("calc.write-fewer", in.where("visible")));
        }
        if (matching > visible) {
            throw Input.refused(
                    t("calc.more-than", in.where("matching"), in.where("visible")),
                    t("calc.write-fewer", in.where("matching")));
        }
        EnderLook look = new EnderLook(coins, in.number("a"), in.number("b"), visible, matching);
        int low = look.quantile(0.05);
        int high = look.quantile(0.95);
        return new Answer(
                Answer.values("mean", look.mean(), "q05", low, "q95", high),
                List.of(f("calc.enders-answer", look.meanBefore(), look.mean(), low, high)));
    }

    private static Answer clustering(Input in) {
        int[] perRoll =
                in.numbers("perRoll").stream().mapToInt(Double::intValue).toArray();
        if (Arrays.stream(perRoll).asLongStream().sum() > MOST_FINDS) {
            throw Input.refused(
                    t("calc.too-many-finds", in.where("perRoll"), Limits.thousands(MOST_FINDS)), t("calc.fewer-finds"));
        }
        int window = in.whole("window");
        if (window > perRoll.length) {
            throw Input.refused(
                    t("calc.window-too-wide", in.where("window"), perRoll.length),
                    t("calc.write-whole", 1, perRoll.length));
        }
        Clustering found = Clustering.of(perRoll, window, (long) in.number("seed", 1));
        return new Answer(
                Answer.values("d", found.d(), "p", found.p(), "largest", found.largest(), "pLargest", found.pLargest()),
                Double.isNaN(found.d())
                        ? List.of(t("calc.no-finds"))
                        : List.of(
                                f("calc.dispersion-answer", found.d(), 100 * found.p()),
                                f(
                                        "calc.window-answer",
                                        window,
                                        found.from(),
                                        found.largest(),
                                        100 * found.pLargest())));
    }

    /// The holes of a set: each by its finds among the coins searched, or by a rate that is known otherwise.
    private static List<GammaRate> holes(Input in) {
        if (in.has("found") == in.has("holes")) {
            throw Input.refused(
                    in.has("holes")
                            ? t("calc.both-said", in.where("found"), in.where("holes"))
                            : t("calc.neither-said", in.where("found"), in.where("holes")),
                    t("calc.say-one"));
        }
        if (in.has("holes")) {
            return in.rows("holes").stream()
                    .map(row -> new GammaRate(row.get(0), row.get(1)))
                    .toList();
        }
        if (!in.has("searched")) {
            throw in.missing("searched");
        }
        double searched = in.number("searched");
        return in.numbers("found").stream()
                .map(count -> new GammaRate(count + 0.5, searched))
                .toList();
    }

    private static Answer completion(Input in) {
        List<GammaRate> holes = holes(in);
        List<Double> coins = in.numbers("coins");
        List<Double> chances = in.numbers("probabilities");
        List<String> sentences = new ArrayList<>();
        if (in.has("perBox")) {
            // a box is a common measure: with it there is an answer to what was not asked more closely
            double perBox = in.number("perBox");
            sentences.add(f("calc.completion-filled", Completion.expectedFilled(holes, 10 * perBox), holes.size()));
            sentences.add(t(
                    "calc.completion-answer",
                    boxes(Completion.coinsFor(holes, 0.5) / perBox),
                    boxes(Completion.coinsFor(holes, 0.9) / perBox)));
            coins = coins.isEmpty() ? List.of(10 * perBox) : coins;
            chances = chances.isEmpty() ? List.of(0.5, 0.9) : chances;
        }
        List<Double> complete =
                coins.stream().map(so -> Completion.complete(holes, so)).toList();
        List<Double> filled =
                coins.stream().map(so -> Completion.expectedFilled(holes, so)).toList();
        List<Double> coinsFor =
                chances.stream().map(p -> Completion.coinsFor(holes, p)).toList();
        for (int i = 0; i < in.numbers("coins").size(); i++) {
            sentences.add(f(
                    "calc.completion-after", coins(coins.get(i)), filled.get(i), holes.size(), 100 * complete.get(i)));
        }
        for (int i = 0; i < in.numbers("probabilities").size(); i++) {
            sentences.add(f("calc.completion-for", 100 * chances.get(i), coins(coinsFor.get(i))));
        }
        if (sentences.isEmpty()) {
            throw Input.refused(
                    t("calc.nothing-asked", in.where("perBox"), in.where("coins"), in.where("probabilities")),
                    t("calc.say-one-of-them"));
        }
        return new Answer(
                Answer.values("complete", complete, "expectedFilled", filled, "coinsFor", coinsFor), sentences);
    }

    private static String coins(double number) {
        return number <= MOST_SAID
                ? Figures.of("%,.0f", number)
                : t("calc.more-than-so-many", Figures.of("%,.0f", MOST_SAID));
    }

    /// A number of boxes, with one decimal below ten.
    private static String boxes(double number) {
        return number > MOST_BOXES
                ? t("calc.more-than-so-many", Figures.of("%,.0f", MOST_BOXES))
                : Figures.of(number < 10 ? "%.1f" : "%,.0f", number);
    }
}
