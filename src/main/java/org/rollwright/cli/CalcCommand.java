package org.rollwright.cli;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.rollwright.cabinet.GradingDecision;
import org.rollwright.odds.Clustering;
import org.rollwright.odds.Completion;
import org.rollwright.odds.EnderLook;
import org.rollwright.odds.GammaRate;
import org.rollwright.odds.Interval;
import org.rollwright.odds.NegativeBinomial;
import org.rollwright.scale.CountByWeight;
import org.rollwright.scale.MixedPile;
import org.rollwright.scope.Attribution;
import org.rollwright.scope.Doubling;
import org.rollwright.text.Texts;
import picocli.CommandLine;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/// The models by themselves, for anyone with numbers in hand.
@CommandLine.Command(
        name = "calc",
        description = "Compute one model from numbers in hand: JSON on standard input, JSON on standard output.",
        footer = {
            "",
            "completion  {\"holes\":[{\"shape\":2,\"rate\":50000}],\"coins\":[25000],\"probabilities\":[0.5,0.9]}",
            "rate        {\"shape\":0.8,\"rate\":60000,\"found\":3,\"coins\":500000,\"next\":2500,\"counts\":[0,1,5]}",
            "box         {\"mean\":12.5,\"size\":2.0,\"observed\":40}",
            "enders      {\"coins\":2500,\"a\":2,\"b\":398,\"visible\":48,\"matching\":3}",
            "clustering  {\"perRoll\":[0,1,0,2],\"window\":2,\"seed\":7}",
            "doubling    {\"pairs\":[[0,7.2,-0.18,7.2],[5.1,4.8,4.98,4.92],[-6.8,1.2,-6.83,1.03]],\"clickSd\":0.02}",
            "weight      {\"grams\":1899.4,\"coinMean\":3.11,\"coinSd\":0.04,\"resolution\":1}",
            "mixture     {\"grams\":132.9,\"coins\":50,\"heavyMean\":3.11,\"lightMean\":2.5,\"heavySd\":0.04,",
            "            \"lightSd\":0.03,\"resolution\":0.1}",
            "grading     {\"estimate\":64.2,\"sd\":1,\"grades\":[63,64,65],\"values\":[24,40,95],\"raw\":32,\"fees\":27}",
            "attribution {\"candidates\":[\"ordinary\",\"A\"],\"priors\":[0.9,0.1],\"likelihoods\":[[0.02,0.6]],\"ask\":[[0.1,0.8]]}",
            "",
            "Example: ./run calc box < numbers.json",
            "",
            "Exit status: 0 computed, 2 the input is not usable; the sentence names the key."
        })
final class CalcCommand implements Callable<Integer> {
    private static final int MOST_NUMBERS = 100_000;

    /// Numbers beyond these bounds mean nothing here, and could keep the computer busy for hours.
    private static final double LEAST = 1e-6;

    private static final double MOST = 1e9;
    private static final int MOST_COINS = 1_000_000;
    private static final int MOST_FINDS = 20_000;

    /// Millimetres; a careful click at twenty times magnification (common practice).
    private static final double USUAL_CLICK_SD = 0.02;

    @CommandLine.Parameters(
            paramLabel = "MODEL",
            description =
                    "completion, rate, box, enders, clustering, doubling, attribution, weight, mixture or grading.")
    private String model = "";

    @Override
    public Integer call() throws IOException {
        JsonNode input;
        try {
            input = JsonMapper.shared().readTree(System.in.readAllBytes());
        } catch (JacksonException e) {
            throw new Open.Stop(
                    ExitCode.INPUT,
                    "The input is no JSON. " + Texts.command() + " calc --help shows what each model takes.");
        }
        if (!input.isObject()) {
            throw new Open.Stop(
                    ExitCode.INPUT,
                    "The input is no JSON object. " + Texts.command() + " calc --help shows what each model takes.");
        }
        System.out.println(Json.of(
                switch (model) {
                    case "completion" -> completion(input);
                    case "rate" -> rate(input);
                    case "box" -> box(input);
                    case "enders" -> enders(input);
                    case "clustering" -> clustering(input);
                    case "doubling" -> doubling(input);
                    case "weight" -> weight(input);
                    case "mixture" -> mixture(input);
                    case "grading" -> grading(input);
                    case "attribution" -> attribution(input);
                    default ->
                        throw new Open.Stop(
                                ExitCode.INPUT,
                                "There is no model '" + model
                                        + "'. There are completion, rate, box, enders, clustering,"
                                        + " doubling, attribution, weight, mixture, grading.");
                }));
        return ExitCode.OK.number();
    }

    private static Map<String, Object> completion(JsonNode input) {
        List<GammaRate> holes = new ArrayList<>();
        JsonNode list = list(input, "holes");
        for (int i = 0; i < list.size(); i++) {
            String key = "holes[" + i + "].";
            holes.add(new GammaRate(
                    positive(list.get(i), "shape", key + "shape"), positive(list.get(i), "rate", key + "rate")));
        }
        List<Double> complete = new ArrayList<>();
        List<Double> filled = new ArrayList<>();
        for (double coins : numbers(input, "coins")) {
            check(coins >= 0 && coins <= 1e15, "coins", "holds numbers from 0 to 1e15, not " + coins);
            complete.add(Completion.complete(holes, coins));
            filled.add(Completion.expectedFilled(holes, coins));
        }
        List<@Nullable Double> coinsFor = new ArrayList<>();
        for (double p : numbers(input, "probabilities")) {
            check(p > 0 && p < 1, "probabilities", "lies above 0 and below 1, not at " + p);
            double coins = Completion.coinsFor(holes, p);
            coinsFor.add(Double.isInfinite(coins) ? null : coins);
        }
        return map("complete", complete, "expectedFilled", filled, "coinsFor", coinsFor);
    }

    private static Map<String, Object> rate(JsonNode input) {
        GammaRate prior = new GammaRate(positive(input, "shape", "shape"), positive(input, "rate", "rate"));
        double found = zeroOrMore(input, "found");
        double coins = zeroOrMore(input, "coins");
        check(found <= coins, "found", "is at most coins: " + found + " cannot be found in " + coins);
        double next = positive(input, "next", "next");
        GammaRate posterior = prior.after(found, coins);
        List<Double> exactly = new ArrayList<>();
        for (double count : numbers(input, "counts")) {
            exactly.add(posterior.exactly(whole(count, "counts"), next));
        }
        return map(
                "mean",
                posterior.mean(),
                "q05",
                posterior.quantile(0.05),
                "q95",
                posterior.quantile(0.95),
                "pExactly",
                exactly);
    }

    private static Map<String, Object> box(JsonNode input) {
        NegativeBinomial model = new NegativeBinomial(zeroOrMore(input, "mean"), positive(input, "size", "size"));
        int observed = whole(zeroOrMore(input, "observed"), "observed");
        Interval ninety = model.interval(0.9);
        return map("pAtLeast", model.atLeast(observed), "low90", ninety.low(), "high90", ninety.high());
    }

    private static Map<String, Object> enders(JsonNode input) {
        int coins = whole(positive(input, "coins", "coins"), "coins");
        check(coins <= MOST_COINS, "coins", "is at most " + MOST_COINS);
        int visible = whole(zeroOrMore(input, "visible"), "visible");
        int matching = whole(zeroOrMore(input, "matching"), "matching");
        check(
                visible <= coins,
                "visible",
                "is at most coins: " + visible + " enders cannot be seen on " + coins + " coins");
        check(matching <= visible, "matching", "is at most visible: " + matching + " of " + visible + " cannot match");
        EnderLook look = new EnderLook(coins, positive(input, "a", "a"), positive(input, "b", "b"), visible, matching);
        return map("mean", look.mean(), "q05", look.quantile(0.05), "q95", look.quantile(0.95));
    }

    private static Map<String, Object> clustering(JsonNode input) {
        List<Double> rolls = numbers(input, "perRoll");
        check(rolls.size() >= 2 && rolls.size() <= 1_000, "perRoll", "holds two to 1000 rolls");
        int[] perRoll = new int[rolls.size()];
        for (int i = 0; i < perRoll.length; i++) {
            perRoll[i] = whole(rolls.get(i), "perRoll");
        }
        int finds = java.util.Arrays.stream(perRoll)
                .map(count -> Math.min(count, MOST_FINDS + 1))
                .sum();
        check(finds <= MOST_FINDS, "perRoll", "holds at most " + MOST_FINDS + " finds in all");
        int window = whole(positive(input, "window", "window"), "window");
        check(window <= perRoll.length, "window", "is at most the number of rolls, " + perRoll.length);
        double seed = input.has("seed") ? number(input, "seed", "seed") : 1;
        Clustering found = Clustering.of(perRoll, window, (long) seed);
        return map(
                "d",
                Double.isNaN(found.d()) ? null : found.d(),
                "p",
                found.p(),
                "largest",
                found.largest(),
                "pLargest",
                found.pLargest());
    }

    private static Map<String, Object> doubling(JsonNode input) {
        JsonNode list = list(input, "pairs");
        check(list.size() >= 3, "pairs", "holds at least three pairs");
        List<Doubling.Pair> pairs = new ArrayList<>();
        for (JsonNode one : list) {
            check(one.isArray() && one.size() == 4, "pairs", "holds pairs of four numbers x, y, u, v, not " + one);
            double[] four = new double[4];
            for (int i = 0; i < 4; i++) {
                check(
                        one.get(i).isNumber() && Math.abs(one.get(i).asDouble()) <= 100,
                        "pairs",
                        "holds millimetres from the centre, not " + one.get(i));
                four[i] = one.get(i).asDouble();
            }
            pairs.add(new Doubling.Pair(four[0], four[1], four[2], four[3]));
        }
        double clickSd = input.has("clickSd") ? positive(input, "clickSd", "clickSd") : USUAL_CLICK_SD;
        Doubling found = Doubling.fit(pairs, clickSd);
        boolean turns = !Double.isNaN(found.pivotX());
        return map(
                "motion", found.motion().word(),
                "class", found.motion().hubClass(),
                "angleDeg", found.angleDegrees(),
                "pivot", turns ? List.of(found.pivotX(), found.pivotY()) : null,
                "shift", List.of(found.shiftX(), found.shiftY()),
                "rms", found.rms());
    }

    private static Map<String, Object> weight(JsonNode input) {
        CountByWeight found = CountByWeight.of(
                zeroOrMore(input, "grams"),
                positive(input, "coinMean", "coinMean"),
                zeroOrMore(input, "coinSd"),
                zeroOrMore(input, "resolution"));
        return map("coins", found.coins(), "se", found.standardError());
    }

    private static Map<String, Object> mixture(JsonNode input) {
        double heavy = positive(input, "heavyMean", "heavyMean");
        double light = positive(input, "lightMean", "lightMean");
        check(heavy > light, "heavyMean", "is above lightMean, " + light + ", not " + heavy);
        int coins = whole(positive(input, "coins", "coins"), "coins");
        check(coins <= MOST_NUMBERS, "coins", "is at most " + MOST_NUMBERS);
        double heavySd = zeroOrMore(input, "heavySd");
        double lightSd = zeroOrMore(input, "lightSd");
        double resolution = zeroOrMore(input, "resolution");
        check(resolution > 0 || (heavySd > 0 && lightSd > 0), "resolution", "is above 0 when a spread is 0");
        MixedPile found = MixedPile.of(zeroOrMore(input, "grams"), coins, heavy, light, heavySd, lightSd, resolution);
        return map("moments", found.moments(), "mean", found.mean(), "sd", found.sd());
    }

    private static Map<String, Object> grading(JsonNode input) {
        List<Double> grades = numbers(input, "grades");
        List<Double> values = numbers(input, "values");
        check(!grades.isEmpty(), "grades", "holds at least one grade");
        check(values.size() == grades.size(), "values", "holds one value for each grade");
        for (int i = 1; i < grades.size(); i++) {
            check(grades.get(i) > grades.get(i - 1), "grades", "rise from one to the next");
        }
        check(values.stream().allMatch(value -> value >= 0), "values", "are 0 or more");
        GradingDecision found = GradingDecision.of(
                number(input, "estimate", "estimate"),
                positive(input, "sd", "sd"),
                grades,
                values,
                zeroOrMore(input, "raw"),
                zeroOrMore(input, "fees"));
        return map("expectedNet", found.expectedNet(), "gain", found.gain(), "pAhead", found.ahead());
    }

    private static Map<String, Object> attribution(JsonNode input) {
        int candidates = list(input, "candidates").size();
        check(candidates >= 2, "candidates", "names at least two, an ordinary coin among them");
        List<Double> priors = numbers(input, "priors");
        check(priors.size() == candidates, "priors", "holds one number for each candidate");
        check(
                priors.stream().allMatch(p -> p >= 0) && priors.stream().anyMatch(p -> p > 0),
                "priors",
                "are 0 or more, one of them above 0");
        List<List<Double>> likelihoods = rows(input, "likelihoods", candidates);
        List<List<Double>> ask = input.has("ask") ? rows(input, "ask", candidates) : List.of();
        Attribution found;
        try {
            found = Attribution.of(priors, likelihoods);
        } catch (IllegalArgumentException e) {
            throw new Open.Stop(ExitCode.INPUT, "The key 'likelihoods' contradicts every candidate.");
        }
        return map(
                "posterior",
                found.posterior(),
                "gainBits",
                ask.stream().map(found::gainBits).toList());
    }

    private static List<List<Double>> rows(JsonNode input, String key, int width) {
        List<List<Double>> rows = new ArrayList<>();
        for (JsonNode row : list(input, key)) {
            check(row.isArray() && row.size() == width, key, "holds rows of one number for each candidate, not " + row);
            List<Double> numbers = new ArrayList<>();
            for (JsonNode one : row) {
                check(
                        one.isNumber() && one.asDouble() >= 0 && one.asDouble() <= 1,
                        key,
                        "holds probabilities from 0 to 1, not " + one);
                numbers.add(one.asDouble());
            }
            rows.add(numbers);
        }
        return rows;
    }

    private static Map<String, Object> map(@Nullable Object... keysAndValues) {
        Map<String, Object> map = new LinkedHashMap<>();
        for (int i = 0; i < keysAndValues.length; i += 2) {
            map.put(String.valueOf(keysAndValues[i]), keysAndValues[i + 1]);
        }
        return map;
    }

    private static void check(boolean holds, String key, String sentence) {
        if (!holds) {
            throw new Open.Stop(ExitCode.INPUT, "The key '" + key + "' " + sentence + ".");
        }
    }

    private static double number(JsonNode node, String name, String key) {
        JsonNode value = node.get(name);
        check(value != null, key, "is missing");
        if (value == null) {
            throw new IllegalStateException("checked");
        }
        check(value.isNumber(), key, "is a number, not " + value);
        double number = value.asDouble();
        check(!Double.isNaN(number) && !Double.isInfinite(number), key, "is a finite number, not " + value);
        return number;
    }

    private static double positive(JsonNode node, String name, String key) {
        double number = number(node, name, key);
        check(number > 0, key, "is above 0, not " + number);
        check(number >= LEAST && number <= MOST, key, "lies between " + LEAST + " and " + MOST + ", not at " + number);
        return number;
    }

    private static double zeroOrMore(JsonNode node, String name) {
        double number = number(node, name, name);
        check(number >= 0, name, "is 0 or more, not " + number);
        check(number <= MOST, name, "is at most " + MOST + ", not " + number);
        return number;
    }

    private static int whole(double number, String key) {
        check(
                number >= 0 && number <= 1e9 && number == Math.rint(number),
                key,
                "is a whole number from 0, not " + number);
        return (int) number;
    }

    private static JsonNode list(JsonNode node, String key) {
        JsonNode value = node.get(key);
        check(value != null, key, "is missing");
        check(value != null && value.isArray() && value.size() <= MOST_NUMBERS, key, "is a list");
        if (value == null) {
            throw new IllegalStateException("checked");
        }
        return value;
    }

    private static List<Double> numbers(JsonNode node, String key) {
        List<Double> numbers = new ArrayList<>();
        for (JsonNode one : list(node, key)) {
            check(
                    one.isNumber() && !Double.isNaN(one.asDouble()) && !Double.isInfinite(one.asDouble()),
                    key,
                    "holds finite numbers, not " + one);
            numbers.add(one.asDouble());
        }
        return numbers;
    }
}
