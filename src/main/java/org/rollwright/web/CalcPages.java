package org.rollwright.web;

import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.t;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.rollwright.odds.Clustering;
import org.rollwright.odds.Completion;
import org.rollwright.odds.EnderLook;
import org.rollwright.odds.GammaRate;
import org.rollwright.odds.Interval;
import org.rollwright.odds.NegativeBinomial;

/// The calculator: the models by themselves, for anyone with numbers in hand. Every answer has an address of
/// its own.
public final class CalcPages {
    /// One form of the page.
    ///
    /// @param answer sentences, empty before it was sent
    public record Form(
            String model, String title, String meaning, List<Field> fields, List<String> answer, String wrong) {}

    /// One field of a form.
    public record Field(String name, String label, String value) {}

    private static final int MOST_HOLES = 1_000;
    private static final int MOST_ROLLS = 1_000;
    private static final int MOST_FINDS = 20_000;

    /// Numbers beyond these bounds mean nothing here, and could keep the computer busy for hours.
    private static final double LEAST = 1e-6;

    private static final double MOST = 1e9;

    private final Bench bench;
    private final Render render;

    CalcPages(Bench bench, Render render) {
        this.bench = bench;
        this.render = render;
    }

    void register(RoutesConfig routes) {
        routes.get("/odds/calc", this::calc);
    }

    /// Ends a computation; carries what is wrong with which field.
    private static final class Wrong extends RuntimeException {
        private static final long serialVersionUID = 1L;

        Wrong(String sentence) {
            super(sentence, null, false, false);
        }
    }

    private void calc(Context context) {
        String asked = Optional.ofNullable(context.queryParam("model")).orElse("");
        List<Form> forms = new ArrayList<>();
        forms.add(form(
                context,
                asked,
                "rate",
                t("calc.a-rate"),
                t("calc.rate-question"),
                fields(
                        "found",
                        t("calc.found"),
                        "3",
                        "coins",
                        t("calc.coins-searched"),
                        "500000",
                        "next",
                        t("calc.next-coins"),
                        "2500",
                        "shape",
                        t("calc.prior-finds"),
                        "0.5",
                        "rate",
                        t("calc.prior-coins"),
                        "50000")));
        forms.add(form(
                context,
                asked,
                "box",
                t("calc.a-box"),
                t("calc.box-question"),
                fields(
                        "mean",
                        t("calc.average-per-box"),
                        "12.5",
                        "size",
                        t("calc.size-small-clumped"),
                        "2",
                        "observed",
                        t("calc.this-box"),
                        "40")));
        forms.add(form(
                context,
                asked,
                "enders",
                t("calc.enders"),
                t("calc.enders-question"),
                fields(
                        "coins",
                        t("calc.coins-in-the-box"),
                        "2500",
                        "visible",
                        t("calc.enders-seen"),
                        "48",
                        "matching",
                        t("calc.of-them-match"),
                        "3",
                        "a",
                        t("calc.prior-matching"),
                        "2",
                        "b",
                        t("calc.prior-others"),
                        "398")));
        forms.add(form(
                context,
                asked,
                "clustering",
                t("calc.clustering"),
                t("calc.clustering-question"),
                fields(
                        "perRoll",
                        t("calc.finds-in-each-roll"),
                        "0 1 0 0 2 0 0 1 0 5 4 6 3 0 0 1 0",
                        "window",
                        t("calc.rolls-in-the-window"),
                        "4")));
        forms.add(form(
                context,
                asked,
                "completion",
                t("calc.a-set"),
                t("calc.completion-question"),
                fields(
                        "found",
                        t("calc.finds-of-each-by-blanks"),
                        "2 0 1 0",
                        "coins",
                        t("calc.coins-searched"),
                        "100000",
                        "perBox",
                        t("calc.coins-in-a-box"),
                        "2500")));
        boolean wrong = forms.stream().anyMatch(form -> !form.wrong.isEmpty());
        if (wrong) {
            context.status(io.javalin.http.HttpStatus.UNPROCESSABLE_CONTENT);
        }
        render.page(context, "calc", Map.of("frame", bench.frame(t("page.calculator"), "odds"), "forms", forms));
    }

    private static Map<String, String[]> fields(String... namesLabelsValues) {
        Map<String, String[]> fields = new LinkedHashMap<>();
        for (int i = 0; i < namesLabelsValues.length; i += 3) {
            fields.put(namesLabelsValues[i], new String[] {namesLabelsValues[i + 1], namesLabelsValues[i + 2]});
        }
        return fields;
    }

    private static Form form(
            Context context, String asked, String model, String title, String meaning, Map<String, String[]> fields) {
        boolean sent = asked.equals(model);
        Map<String, String> values = new LinkedHashMap<>();
        List<Field> shown = new ArrayList<>();
        fields.forEach((name, labelAndValue) -> {
            String value = sent ? Optional.ofNullable(context.queryParam(name)).orElse("") : labelAndValue[1];
            values.put(name, value);
            shown.add(new Field(name, labelAndValue[0], value));
        });
        if (!sent) {
            return new Form(model, title, meaning, shown, List.of(), "");
        }
        try {
            return new Form(model, title, meaning, shown, answer(model, new Values(values, fields)), "");
        } catch (Wrong e) {
            return new Form(model, title, meaning, shown, List.of(), String.valueOf(e.getMessage()));
        }
    }

    private record Values(Map<String, String> values, Map<String, String[]> labels) {
        private String label(String name) {
            String[] known = labels.get(name);
            return known == null ? name : known[0];
        }

        double number(String name, double least, boolean above) {
            String text = values.getOrDefault(name, "").strip().replace(",", "");
            try {
                double value = Double.parseDouble(text);
                boolean enough = above ? value > least && value >= LEAST : value >= least;
                if (enough && value <= MOST) {
                    return value;
                }
            } catch (NumberFormatException e) {
                // falls through to the sentence that quotes the field
            }
            throw new Wrong(
                    above
                            ? t("calc.number-above", label(name), (long) least, (long) MOST, text)
                            : t("calc.number-range", label(name), (long) least, (long) MOST, text));
        }

        int whole(String name, int least, int most) {
            double value = number(name, least, false);
            if (value != Math.rint(value) || value > most) {
                throw new Wrong(t("calc.not-whole", label(name), least, most));
            }
            return (int) value;
        }

        int[] wholes(String name, int fewest, int most) {
            String[] parts = values.getOrDefault(name, "").strip().split("[ ,;]+");
            int[] numbers = new int[parts.length];
            for (int i = 0; i < parts.length; i++) {
                try {
                    numbers[i] = Integer.parseInt(parts[i]);
                } catch (NumberFormatException e) {
                    throw new Wrong(t("calc.not-whole-numbers", label(name), parts[i]));
                }
                if (numbers[i] < 0 || numbers[i] > 100_000) {
                    throw new Wrong(t("calc.number-out-of-range", label(name), parts[i]));
                }
            }
            if (numbers.length < fewest || numbers.length > most) {
                throw new Wrong(t("calc.holds-numbers", label(name), fewest, most));
            }
            return numbers;
        }
    }

    private static List<String> answer(String model, Values in) {
        return switch (model) {
            case "rate" -> rate(in);
            case "box" -> box(in);
            case "enders" -> enders(in);
            case "clustering" -> clustering(in);
            default -> completion(in);
        };
    }

    private static List<String> rate(Values in) {
        double found = in.number("found", 0, false);
        double coins = in.number("coins", 0, true);
        if (found > coins) {
            throw new Wrong(t("calc.found-above-coins"));
        }
        double next = in.number("next", 0, true);
        GammaRate rate = new GammaRate(in.number("shape", 0, true), in.number("rate", 0, true)).after(found, coins);
        Interval ninety = rate.interval(0.9);
        return List.of(
                f("calc.rate-answer", 1 / rate.mean(), 1 / ninety.high(), 1 / ninety.low()),
                f(
                        "calc.rate-next",
                        next,
                        rate.mean() * next,
                        100 * rate.exactly(0, next),
                        100 * rate.exactly(1, next),
                        100 * rate.atLeastOne(next)));
    }

    private static List<String> box(Values in) {
        NegativeBinomial counts = new NegativeBinomial(in.number("mean", 0, false), in.number("size", 0, true));
        int observed = in.whole("observed", 0, 1_000_000);
        Interval ninety = counts.interval(0.9);
        return List.of(
                f("calc.box-interval", (int) ninety.low(), (int) ninety.high()),
                f("calc.box-tails", observed, 100 * counts.atLeast(observed), observed, 100 * counts.atMost(observed)));
    }

    private static List<String> enders(Values in) {
        int coins = in.whole("coins", 1, 1_000_000);
        int visible = in.whole("visible", 0, coins);
        EnderLook look = new EnderLook(
                coins, in.number("a", 0, true), in.number("b", 0, true), visible, in.whole("matching", 0, visible));
        Interval ninety = look.interval(0.9);
        return List.of(
                f("calc.enders-answer", look.meanBefore(), look.mean(), (int) ninety.low(), (int) ninety.high()));
    }

    private static List<String> clustering(Values in) {
        int[] perRoll = in.wholes("perRoll", 2, MOST_ROLLS);
        if (java.util.Arrays.stream(perRoll).asLongStream().sum() > MOST_FINDS) {
            throw new Wrong(t("calc.too-many-finds", MOST_FINDS));
        }
        int window = in.whole("window", 1, perRoll.length);
        Clustering found = Clustering.of(perRoll, window, 7);
        if (Double.isNaN(found.d())) {
            return List.of(t("calc.no-finds"));
        }
        return List.of(
                f("calc.dispersion-answer", found.d(), 100 * found.p()),
                f("calc.window-answer", window, found.from(), found.largest(), 100 * found.pLargest()));
    }

    private static List<String> completion(Values in) {
        int[] found = in.wholes("found", 1, MOST_HOLES);
        double coins = in.number("coins", 0, true);
        double perBox = in.number("perBox", 0, true);
        List<GammaRate> holes = new ArrayList<>();
        for (int count : found) {
            holes.add(new GammaRate(count + 0.5, coins));
        }
        double half = Completion.coinsFor(holes, 0.5) / perBox;
        double ninety = Completion.coinsFor(holes, 0.9) / perBox;
        return List.of(
                f("calc.completion-filled", Completion.expectedFilled(holes, 10 * perBox), holes.size()),
                t("calc.completion-answer", OddsView.number(half), OddsView.number(ninety)));
    }
}
