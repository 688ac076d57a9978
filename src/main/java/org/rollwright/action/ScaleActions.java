package org.rollwright.action;

import static org.rollwright.action.Field.maybe;
import static org.rollwright.action.Field.needed;
import static org.rollwright.text.Texts.t;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.rollwright.coin.Alloy;
import org.rollwright.coin.Mass;
import org.rollwright.coin.Refusal;
import org.rollwright.desk.Desk;
import org.rollwright.desk.State;
import org.rollwright.journal.Word;
import org.rollwright.scale.CountedPile;
import org.rollwright.scale.Cup;
import org.rollwright.scale.Element;
import org.rollwright.scale.MetalPrice;
import org.rollwright.scale.ScaleEvent;

/// What is done at the scale.
public final class ScaleActions {
    private static final int MOST_COINS = 1_000_000;

    /// A cup for running weighings is begun, or begun anew.
    public static final Action CUP = new Action(
            "cup",
            List.of(
                    needed("name", "copper"),
                    needed("alloy", "us-cent-brass"),
                    maybe("tare", "10 g"),
                    needed("step", "0.1 g")),
            ScaleActions::cup);

    /// A cup is weighed with what was added.
    public static final Action READING = new Action(
            "reading",
            List.of(needed("cup", "copper"), needed("weight", "1240 g"), maybe("what", "Box 12")),
            ScaleActions::reading);

    /// A counted pile is weighed.
    public static final Action PILE = new Action(
            "pile",
            List.of(
                    needed("alloy", "us-cent-brass"),
                    needed("coins", "100"),
                    needed("weight", "310 g"),
                    needed("step", "0.1 g")),
            ScaleActions::pile);

    /// A price of a metal is typed.
    public static final Action METAL = new Action(
            "metal",
            List.of(needed("metal", "copper"), needed("amount", "4.20"), needed("unit", "lb")),
            ScaleActions::metal);

    static final List<Action> ALL = List.of(CUP, READING, PILE, METAL);

    private ScaleActions() {}

    private static Desk.Step step(ScaleEvent event) {
        return new Desk.Step(0, event);
    }

    private static String alloy(Typed typed, Setting setting) {
        String alloy = typed.text("alloy");
        List<String> known =
                setting.catalog().alloys().stream().map(Alloy::name).toList();
        if (!known.contains(alloy)) {
            typed.wrong(
                    t("typed.no-word", t("typed.alloy"), Refusal.quote(alloy)),
                    t("typed.write-one-of", String.join(", ", known)));
        }
        return alloy;
    }

    private static Mass stepOfTheScale(Typed typed) {
        Mass step = typed.mass("step", t("typed.step-of-the-scale"), null);
        if (step.grams() <= 0) {
            typed.wrong(t("typed.step-of-nothing"), t("typed.write-a-step"));
        }
        return step;
    }

    private static Function<State, Desk.Step> cup(Typed typed, Setting setting) {
        Cup cup = new Cup(
                typed.text("name"),
                alloy(typed, setting),
                typed.mass("tare", t("typed.tare"), Mass.ofGrams(0)),
                stepOfTheScale(typed),
                setting.now(),
                List.of());
        return known -> step(new ScaleEvent.CupBegun(cup));
    }

    private static Function<State, Desk.Step> reading(Typed typed, Setting setting) {
        Mass mass = typed.mass("weight", t("typed.reading"), null);
        return known -> step(new ScaleEvent.CupRead(typed.text("cup"), typed.text("what"), mass));
    }

    private static Function<State, Desk.Step> pile(Typed typed, Setting setting) {
        Mass mass = typed.mass("weight", t("typed.weight-of-the-pile"), null);
        Mass step = stepOfTheScale(typed);
        int coins = typed.small("coins", t("typed.coins"), 0, MOST_COINS, null);
        String alloy = alloy(typed, setting);
        return known -> step(new ScaleEvent.PileCounted(new CountedPile(alloy, coins, mass, step, setting.now())));
    }

    private static Function<State, Desk.Step> metal(Typed typed, Setting setting) {
        Element metal = typed.word("metal", t("typed.metal"), Element.class);
        Optional<MetalPrice> price = MetalPrice.read(
                Word.of(metal == null ? Element.COPPER : metal),
                typed.text("amount"),
                typed.text("unit"),
                setting.today());
        if (price.isEmpty()) {
            typed.wrong(
                    t("typed.no-metal-price", Refusal.quote(typed.text("amount")), Refusal.quote(typed.text("unit"))),
                    t("typed.write-a-metal-price"));
        }
        return known -> step(new ScaleEvent.MetalPriced(price.orElseThrow()));
    }
}
