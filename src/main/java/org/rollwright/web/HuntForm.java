package org.rollwright.web;

import static org.rollwright.text.Texts.t;

import io.javalin.http.Context;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.catalog.Selection;
import org.rollwright.catalog.WatchName;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Limits;
import org.rollwright.desk.State;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.hunt.HuntId;
import org.rollwright.hunt.Watch;
import org.rollwright.journal.Event;

/// The form that starts a hunt, with what was typed, so that a refused form comes back as it was.
///
/// @param problems why it was refused, empty at first
public record HuntForm(
        String name,
        String denomination,
        String form,
        String count,
        String label,
        String rolls,
        String coins,
        String bank,
        String branch,
        String wrap,
        String stamp,
        String sisters,
        String pickedUp,
        List<String> watches,
        String rule,
        List<String> boxes,
        List<String> problems) {

    private static final int MOST_BOXES = 40;

    /// What a form comes to: a way to make the event, or problems.
    record Checked(@Nullable Maker events, List<String> problems) {}

    /// Makes the event once the numbers are known.
    interface Maker {
        Event make(State book, HuntId hunt);
    }

    static HuntForm blank() {
        return new HuntForm(
                "", "US cent", "box", "1", "", "", "", "", "", "machine", "", "", "", List.of(), "", List.of(),
                List.of());
    }

    static HuntForm from(Context context) {
        return new HuntForm(
                text(context, "name"),
                text(context, "denomination"),
                text(context, "form"),
                text(context, "count"),
                text(context, "label"),
                text(context, "rolls"),
                text(context, "coins"),
                text(context, "bank"),
                text(context, "branch"),
                text(context, "wrap"),
                text(context, "stamp"),
                text(context, "sisters"),
                text(context, "pickedUp"),
                context.formParams("watch"),
                text(context, "rule"),
                context.formParams("box"),
                List.of());
    }

    static String text(Context context, String field) {
        return Optional.ofNullable(context.formParam(field)).orElse("").strip();
    }

    /// The position of the journal that the page with an undo button showed; without one, whatever is last.
    static long asOf(Context context) {
        String text = text(context, "asof");
        return text.matches("[0-9]{1,18}") ? Long.parseLong(text) : Long.MAX_VALUE;
    }

    HuntForm withProblems(List<String> why) {
        return new HuntForm(
                name,
                denomination,
                form,
                count,
                label,
                rolls,
                coins,
                bank,
                branch,
                wrap,
                stamp,
                sisters,
                pickedUp,
                watches,
                rule,
                boxes,
                why);
    }

    /// Reads the form against the catalogue.
    Checked check(Catalog catalog) {
        List<String> wrong = new ArrayList<>();
        List<Watch> chosen = watches(catalog, wrong);
        List<BoxId> waiting = boxes.stream()
                .filter(id -> id.matches("[1-9][0-9]{0,8}"))
                .map(id -> new BoxId(Long.parseLong(id)))
                .toList();
        if (!waiting.isEmpty()) {
            return wrong.isEmpty()
                    ? new Checked(
                            (book, hunt) -> new HuntEvent.HuntStarted(
                                    hunt, nameOr(waitingName(book, waiting)), waiting, chosen),
                            List.of())
                    : new Checked(null, wrong);
        }
        Optional<DenominationFacts> facts = catalog.denominations().stream()
                .filter(one -> one.denomination().toString().equals(denomination))
                .findFirst();
        if (facts.isEmpty()) {
            wrong.add(t("hunt.is-no-denomination-in-the", denomination));
        }
        int howMany = number(count, t("hunt.the-number-of-boxes"), 1, MOST_BOXES, wrong)
                .orElse(1);
        Optional<BoxDetails> details = facts.flatMap(known -> details(known, wrong));
        if (!wrong.isEmpty() || details.isEmpty() || facts.isEmpty()) {
            return new Checked(null, wrong);
        }
        Denomination chosenCoin = facts.get().denomination();
        BoxDetails one = details.get();
        return new Checked((book, hunt) -> start(book, hunt, chosenCoin, one, howMany, chosen), List.of());
    }

    private String nameOr(String otherwise) {
        return name.isEmpty() ? otherwise : name;
    }

    private static String waitingName(State book, List<BoxId> waiting) {
        return book.hunt()
                .box(waiting.getFirst())
                .map(box -> box.details().label())
                .orElse(t("hunts.unnamed"));
    }

    private Event start(State book, HuntId hunt, Denomination coin, BoxDetails one, int howMany, List<Watch> chosen) {
        List<Event> events = new ArrayList<>();
        List<BoxId> ids = new ArrayList<>();
        long next = book.hunt().nextBox().number();
        String base = label.isEmpty() ? word(coin) + " box " + next : label;
        for (int i = 0; i < howMany; i++) {
            BoxId id = new BoxId(next + i);
            String own = howMany == 1 ? base : base + " / " + (i + 1);
            events.add(new HuntEvent.BoxAdded(id, coin, one.withLabel(own)));
            ids.add(id);
        }
        events.add(new HuntEvent.HuntStarted(hunt, nameOr(base), ids, chosen));
        return new Event.Batch(events);
    }

    private static String word(Denomination coin) {
        return coin.key().substring(0, 1).toUpperCase(Locale.ROOT) + coin.key().substring(1);
    }

    private List<Watch> watches(Catalog catalog, List<String> wrong) {
        List<Watch> chosen = new ArrayList<>();
        for (String name : watches) {
            Optional<WatchName> known = catalog.watchByWord(name);
            if (known.isPresent()) {
                chosen.add(new Watch(known.get().name(), known.get().rule()));
            } else {
                wrong.add(t("hunt.is-nothing-the-catalogue-can", name));
            }
        }
        if (!rule.isEmpty()) {
            switch (Selection.parse(rule)) {
                case Selection.Parsed.Good good -> chosen.add(new Watch(rule, rule));
                case Selection.Parsed.Bad bad -> wrong.add(t("hunt.the-rule", bad.wrong(), bad.right()));
            }
        }
        return chosen;
    }

    private Optional<BoxDetails> details(DenominationFacts facts, List<String> wrong) {
        BoxDetails.Form shape =
                switch (form) {
                    case "rolls" -> BoxDetails.Form.ROLLS;
                    case "bag" -> BoxDetails.Form.BAG;
                    case "jar" -> BoxDetails.Form.JAR;
                    default -> BoxDetails.Form.BOX;
                };
        boolean loose = shape == BoxDetails.Form.BAG || shape == BoxDetails.Form.JAR;
        Integer boxRolls = facts.rollsPerBox();
        int full = shape == BoxDetails.Form.BOX && boxRolls != null ? boxRolls : 0;
        int inRolls = rolls.isEmpty()
                ? full
                : number(rolls, t("hunt.the-number-of-rolls"), 0, 10_000, wrong).orElse(0);
        int outside = coins.isEmpty()
                ? 0
                : number(coins, t("hunt.the-number-of-loose-coins"), 0, 1_000_000, wrong)
                        .orElse(0);
        if (!loose && inRolls == 0 && wrong.isEmpty()) {
            wrong.add(t("hunt.it-is-not-said-how"));
        }
        LocalDate day = null;
        if (!pickedUp.isEmpty()) {
            day = Limits.day(pickedUp).orElse(null);
            if (day == null) {
                wrong.add(t("hunt.is-no-date-write-it", pickedUp));
            }
        }
        return Optional.of(new BoxDetails(
                label,
                shape,
                loose ? 0 : inRolls,
                facts.coinsPerRoll(),
                outside,
                bank,
                branch,
                wrap,
                stamp,
                sisters,
                null,
                day,
                null,
                "",
                ""));
    }

    static OptionalInt number(String text, String what, int least, int most, List<String> wrong) {
        try {
            int value = Integer.parseInt(text);
            if (value >= least && value <= most) {
                return OptionalInt.of(value);
            }
        } catch (NumberFormatException e) {
            // falls through to the sentence, which quotes what was typed
        }
        wrong.add(t("hunt.cannot-be-give-a-whole", what, text, least, most));
        return OptionalInt.empty();
    }
}
