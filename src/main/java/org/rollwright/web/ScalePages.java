package org.rollwright.web;

import static org.rollwright.text.Texts.t;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.rollwright.coin.Mass;
import org.rollwright.coin.MassText;
import org.rollwright.hunt.CountedPile;
import org.rollwright.hunt.Cup;
import org.rollwright.hunt.Desk;
import org.rollwright.hunt.Event;
import org.rollwright.hunt.MetalPrice;
import org.rollwright.scale.MetalContent;

/// The Scale: cups that fill from box to box, counted piles, and what a weight says.
final class ScalePages {
    private final Bench bench;
    private final Render render;

    ScalePages(Bench bench, Render render) {
        this.bench = bench;
        this.render = render;
    }

    void register(RoutesConfig routes) {
        routes.get("/scale", context -> show(context, List.of()));
        routes.post("/scale/cup", this::cup);
        routes.post("/scale/reading", this::reading);
        routes.post("/scale/pile", this::pile);
        routes.post("/scale/price", this::price);
        routes.post("/scale/undo", this::undo);
    }

    private void show(Context context, List<String> problems) {
        Map<String, String> typed = new LinkedHashMap<>();
        context.queryParamMap().forEach((name, values) -> typed.put(name, values.getLast()));
        context.formParamMap().forEach((name, values) -> typed.put(name, values.getLast()));
        ScaleView view = bench.desk().read(book -> ScaleView.of(book, bench.catalog(), typed, problems));
        render.page(context, "scale", Map.of("frame", bench.frame(t("page.scale"), "scale"), "view", view));
    }

    private static String field(Context context, String name) {
        return Optional.ofNullable(context.formParam(name)).orElse("").strip();
    }

    /// A weight from a field, or why there is none.
    private static Mass mass(Context context, String name, String what) throws Unread {
        return switch (MassText.read(field(context, name))) {
            case MassText.Result.Good good -> good.mass();
            case MassText.Result.Bad bad -> throw new Unread(what + ": " + bad.flaw());
        };
    }

    private static final class Unread extends Exception {
        private static final long serialVersionUID = 1L;

        Unread(String sentence) {
            super(sentence, null, false, false);
        }
    }

    private void refuse(Context context, String sentence) {
        context.status(HttpStatus.UNPROCESSABLE_CONTENT);
        show(context, List.of(sentence));
    }

    private void record(Context context, Event event, String anchor) {
        if (bench.desk().record(0, "", book -> event) instanceof Desk.Outcome.Refused refused) {
            refuse(context, refused.refusal().toString());
        } else {
            context.redirect("/scale#" + anchor, HttpStatus.SEE_OTHER);
        }
    }

    private void cup(Context context) {
        try {
            Mass tare = field(context, "tare").isEmpty() ? Mass.ofGrams(0) : mass(context, "tare", t("field.tare"));
            Mass step = mass(context, "step", t("scale.step-of-the-scale-2"));
            if (step.grams() <= 0) {
                throw new Unread(t("scale.step-of-the-scale-it"));
            }
            record(
                    context,
                    new Event.CupBegun(new Cup(
                            field(context, "name"),
                            field(context, "alloy"),
                            tare,
                            step,
                            bench.clock().instant(),
                            List.of())),
                    "cups");
        } catch (Unread e) {
            refuse(context, String.valueOf(e.getMessage()));
        }
    }

    private void reading(Context context) {
        try {
            Mass mass = mass(context, "weight", t("field.reading"));
            record(context, new Event.CupRead(field(context, "cup"), field(context, "what"), mass), "cups");
        } catch (Unread e) {
            refuse(context, String.valueOf(e.getMessage()));
        }
    }

    private void pile(Context context) {
        try {
            Mass mass = mass(context, "weight", t("scale.weight-of-the-pile"));
            Mass step = mass(context, "step", t("scale.step-of-the-scale-2"));
            String coins = field(context, "coins");
            if (!coins.matches("[0-9]{1,7}")) {
                throw new Unread(t("scale.the-number-of-coins-must"));
            }
            record(
                    context,
                    new Event.PileCounted(new CountedPile(
                            field(context, "alloy"),
                            Integer.parseInt(coins),
                            mass,
                            step,
                            bench.clock().instant())),
                    "piles");
        } catch (Unread e) {
            refuse(context, String.valueOf(e.getMessage()));
        }
    }

    private void price(Context context) {
        String amount = field(context, "amount");
        String unit = field(context, "unit");
        double gramsPerUnit =
                switch (unit) {
                    case "lb" -> Mass.GRAMS_PER_POUND;
                    case "oz t" -> MetalContent.TROY_OUNCE;
                    case "kg" -> 1000;
                    default -> 0;
                };
        if (!amount.matches("[0-9]{1,7}(\\.[0-9]{1,4})?") || gramsPerUnit == 0) {
            refuse(context, t("scale.price-write-an-amount-above"));
            return;
        }
        BigDecimal perKilogram = new BigDecimal(amount)
                .multiply(BigDecimal.valueOf(1000 / gramsPerUnit))
                .setScale(6, java.math.RoundingMode.HALF_EVEN);
        record(
                context,
                new Event.MetalPriced(new MetalPrice(
                        field(context, "metal"),
                        perKilogram,
                        amount + " per " + unit,
                        LocalDate.ofInstant(bench.clock().instant(), ZoneId.systemDefault()))),
                "metal");
    }

    private void undo(Context context) {
        if (bench.desk().undo(0, "<", HuntForm.asOf(context)) instanceof Desk.Outcome.Refused refused) {
            refuse(context, refused.refusal().toString());
        } else {
            context.redirect("/scale", HttpStatus.SEE_OTHER);
        }
    }
}
