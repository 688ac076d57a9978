package org.rollwright.action;

import static org.rollwright.action.Field.maybe;
import static org.rollwright.action.Field.needed;
import static org.rollwright.text.Texts.t;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.catalog.Selection;
import org.rollwright.catalog.WatchName;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Refusal;
import org.rollwright.desk.Desk;
import org.rollwright.desk.State;
import org.rollwright.hunt.Beginning;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.Disposition;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.hunt.HuntId;
import org.rollwright.hunt.Watch;
import org.rollwright.journal.Declined;
import org.rollwright.journal.Event;

/// What is done with boxes and hunts beside the entry line.
public final class HuntActions {
    private static final int MOST_NEW_BOXES = 40;
    private static final int MOST_ROLLS = 10_000;
    private static final int MOST_COINS = 1_000_000;
    private static final int MOST_EARLIER_BOXES = 1_000_000;
    private static final long MOST_SEARCHED = 1_000_000_000_000L;
    private static final String BOX_NUMBER = "[1-9][0-9]{0,11}";

    private static final List<Field> ABOUT_A_BOX = List.of(
            maybe("bank", "Hill Bank"),
            maybe("branch", "Mill Lane"),
            maybe("wrap", "machine"),
            maybe("stamp", "A 1234"),
            maybe("sisters", "march"),
            maybe("ordered", "2026-03-01"),
            maybe("pickedUp", "2026-03-04"),
            maybe("returned", "2026-03-20"),
            maybe("returnedTo", "Hill Bank, Mill Lane"),
            maybe("note", "torn"));

    /// A hunt begins, on boxes that wait or on new ones.
    public static final Action HUNT = new Action(
            "hunt",
            with(
                    List.of(
                            maybe("name", "Tuesday"),
                            maybe("denomination", "cent"),
                            maybe("form", "box"),
                            maybe("count", "1"),
                            maybe("label", "Box 12"),
                            maybe("boxes", "Box 12, Box 13"),
                            maybe("rolls", "50"),
                            maybe("coins", "0"),
                            maybe("watch", "wheat, copper"),
                            maybe("rule", "metal silver"),
                            maybe("box", "3")),
                    ABOUT_A_BOX),
            HuntActions::hunt);

    /// A box is written down that is ordered or waits.
    public static final Action BOX = new Action(
            "box",
            with(List.of(needed("denomination", "cent"), maybe("label", "Box 12"), maybe("rolls", "50")), ABOUT_A_BOX),
            HuntActions::box);

    /// What is known of a box is told anew: what is not said stays, and a blank takes away.
    public static final Action BOX_CHANGE = new Action(
            "box-change",
            with(List.of(needed("box", "1"), maybe("label", "Box 12"), maybe("rolls", "50")), ABOUT_A_BOX),
            HuntActions::change);

    /// Boxes searched before the journal began, as one sum.
    public static final Action OPENING = new Action(
            "opening",
            List.of(
                    needed("denomination", "cent"),
                    needed("watch", "wheat"),
                    needed("boxes", "40"),
                    needed("coins", "100000"),
                    needed("found", "451")),
            HuntActions::opening);

    /// What becomes of some finds of a hunt is decided, all alike and in one step.
    public static final Action DECIDE = new Action(
            "decide", List.of(needed("hunt", "1"), needed("find", "1, 2"), needed("as", "keep")), HuntActions::decide);

    static final List<Action> ALL = List.of(HUNT, BOX, BOX_CHANGE, OPENING, DECIDE);

    private HuntActions() {}

    private static Function<State, Desk.Step> decide(Typed typed, Setting setting) {
        HuntId hunt = new HuntId(typed.whole("hunt", t("typed.hunt"), 1, 999_999_999_999L, null));
        Set<Integer> ordinals = new LinkedHashSet<>();
        for (String said : typed.list("find")) {
            if (said.matches("f?[1-9][0-9]{0,8}")) {
                ordinals.add(Integer.valueOf(said.replace("f", "")));
            } else {
                typed.wrong(t("typed.no-find-number", Refusal.quote(said)), t("typed.write-find-number"));
            }
        }
        if (typed.list("find").isEmpty()) {
            typed.wrong(t("typed.no-find-told"), t("typed.tick-one"));
        }
        @Nullable Disposition as = typed.word("as", t("typed.decision"), Disposition.class);
        return known -> {
            if (known.hunt().hunt(hunt).isEmpty()) {
                throw new Declined(t("hunt.hunt-unknown", hunt), t("hunt.hunt-list"));
            }
            List<Event> events = new ArrayList<>();
            for (int ordinal : ordinals) {
                Find find = known.hunt()
                        .find(hunt, ordinal)
                        .orElseThrow(() -> new Declined(t("typed.no-find", "f" + ordinal), t("typed.see-finds")));
                if (known.undecided(find) == 0) {
                    throw new Declined(t("typed.find-decided", ordinal), t("typed.put-changes-it", ordinal));
                }
                known.refuse(find, Objects.requireNonNull(as)).ifPresent(refusal -> {
                    throw new Declined(refusal);
                });
                events.add(new HuntEvent.FindDisposed(find.id(), as));
            }
            return new Desk.Step(hunt.number(), events.size() == 1 ? events.getFirst() : new Event.Batch(events));
        };
    }

    private static List<Field> with(List<Field> first, List<Field> then) {
        List<Field> all = new ArrayList<>(first);
        all.addAll(then);
        return all;
    }

    private static Function<State, Desk.Step> hunt(Typed typed, Setting setting) {
        Beginning beginning = new Beginning(typed.text("name"), watches(typed, setting));
        List<String> waiting = typed.list("box");
        if (!waiting.isEmpty()) {
            return known -> step(beginning.onWaiting(
                    known.hunt(),
                    waiting.stream()
                            .map(said -> box(known, said)
                                    .orElseThrow(() -> new Declined(
                                            t("hunt.box-unknown", Refusal.quote(said)), t("hunt.box-list"))))
                            .distinct()
                            .toList(),
                    t("typed.unnamed")));
        }
        Optional<DenominationFacts> facts = typed.denomination("denomination", "cent");
        int count = typed.small("count", t("typed.boxes"), 1, MOST_NEW_BOXES, 1);
        Optional<BoxDetails> details = facts.map(coin -> details(typed, coin));
        List<String> labels = typed.list("boxes");
        if (labels.size() > MOST_NEW_BOXES) {
            typed.wrong(t("typed.too-many-boxes", labels.size()), t("typed.begin-with-at-most", MOST_NEW_BOXES));
        }
        if (!labels.isEmpty() && typed.has("count") && count != labels.size()) {
            typed.wrong(t("typed.count-and-boxes", count, labels.size()), t("typed.leave-count-away"));
        }
        String label = typed.has("label") ? typed.text("label") : count == 1 ? typed.text("name") : "";
        return known -> {
            DenominationFacts kind = facts.orElseThrow();
            return step(beginning.onNew(
                    known.hunt(),
                    kind.denomination(),
                    details.orElseThrow(),
                    labels.isEmpty() ? Beginning.labels(known.hunt(), kind.denomination(), label, count) : labels));
        };
    }

    /// A box by its number or by its label, among those that have not gone back.
    static Optional<BoxId> box(State known, String said) {
        Optional<Box> byNumber =
                said.matches(BOX_NUMBER) ? known.hunt().box(new BoxId(Long.parseLong(said))) : Optional.empty();
        return byNumber.or(() -> known.hunt().boxes().stream()
                        .filter(box -> box.details().label().equals(said)
                                && box.details().returned() == null)
                        .findFirst())
                .map(Box::id);
    }

    private static Desk.Step step(Beginning.Begun begun) {
        return new Desk.Step(begun.hunt().number(), begun.event());
    }

    private static List<Watch> watches(Typed typed, Setting setting) {
        List<Watch> chosen = new ArrayList<>();
        for (String word : typed.list("watch")) {
            Optional<WatchName> known = setting.catalog().watchByWord(word.toLowerCase(Locale.ROOT));
            if (known.isPresent()) {
                chosen.add(new Watch(known.get().name(), known.get().rule()));
            } else if (Selection.parse(word) instanceof Selection.Parsed.Good) {
                chosen.add(new Watch(word, word));
            } else {
                typed.wrong(t("typed.nothing-to-watch-for", Refusal.quote(word)), t("typed.write-a-watch"));
            }
        }
        String rule = typed.text("rule");
        if (!rule.isEmpty()) {
            switch (Selection.parse(rule)) {
                case Selection.Parsed.Good good -> chosen.add(new Watch(rule, rule));
                case Selection.Parsed.Bad bad -> typed.wrong(t("typed.rule", bad.wrong()), bad.right());
            }
        }
        return chosen;
    }

    private static BoxDetails details(Typed typed, DenominationFacts facts) {
        BoxDetails.Form form =
                typed.has("form") ? typed.word("form", t("typed.form"), BoxDetails.Form.class) : BoxDetails.Form.BOX;
        boolean loose = form == BoxDetails.Form.BAG || form == BoxDetails.Form.JAR;
        Integer usual = facts.rollsPerBox();
        int full = form == BoxDetails.Form.BOX && usual != null ? usual : 0;
        int rolls = typed.small("rolls", t("typed.rolls"), 0, MOST_ROLLS, full);
        if (!loose && rolls == 0 && typed.isFine()) {
            typed.wrong(t("typed.not-said-how-many-rolls"), t("typed.give-the-number-of-rolls"));
        }
        return about(
                typed,
                typed.text("label"),
                form == null ? BoxDetails.Form.BOX : form,
                loose ? 0 : rolls,
                facts.coinsPerRoll(),
                typed.small("coins", t("typed.loose-coins"), 0, MOST_COINS, 0));
    }

    private static BoxDetails about(
            Typed typed, String label, BoxDetails.Form form, int rolls, int coinsPerRoll, int loose) {
        return new BoxDetails(
                label,
                form,
                rolls,
                coinsPerRoll,
                loose,
                typed.text("bank"),
                typed.text("branch"),
                typed.text("wrap"),
                typed.text("stamp"),
                typed.text("sisters"),
                typed.maybeDay("ordered", t("typed.ordered")),
                typed.maybeDay("pickedUp", t("typed.picked-up")),
                typed.maybeDay("returned", t("typed.returned")),
                typed.text("returnedTo"),
                typed.text("note"));
    }

    private static Function<State, Desk.Step> box(Typed typed, Setting setting) {
        Optional<DenominationFacts> facts = typed.denomination("denomination");
        int rolls = typed.small(
                "rolls",
                t("typed.rolls"),
                1,
                MOST_ROLLS,
                facts.map(DenominationFacts::rollsPerBox).orElse(null));
        BoxDetails details = about(
                typed,
                typed.text("label"),
                BoxDetails.Form.BOX,
                rolls,
                facts.map(DenominationFacts::coinsPerRoll).orElse(1),
                0);
        return known -> {
            Denomination kind = facts.orElseThrow().denomination();
            return new Desk.Step(
                    0,
                    new HuntEvent.BoxAdded(
                            known.hunt().nextBox(),
                            kind,
                            details.label().isEmpty()
                                    ? details.withLabel(known.hunt().boxName(kind, 0))
                                    : details));
        };
    }

    private static Function<State, Desk.Step> change(Typed typed, Setting setting) {
        BoxId id = new BoxId(typed.whole("box", t("typed.box"), 1, 999_999_999_999L, null));
        @Nullable
        Integer rolls = typed.has("rolls")
                ? Integer.valueOf(typed.small("rolls", t("typed.rolls"), 0, MOST_ROLLS, null))
                : null;
        @Nullable LocalDate ordered = typed.maybeDay("ordered", t("typed.ordered"));
        @Nullable LocalDate pickedUp = typed.maybeDay("pickedUp", t("typed.picked-up"));
        @Nullable LocalDate returned = typed.maybeDay("returned", t("typed.returned"));
        return known -> {
            BoxDetails before = known.hunt()
                    .box(id)
                    .orElseThrow(() -> new Declined(t("hunt.box-unknown", id), t("hunt.box-list")))
                    .details();
            return new Desk.Step(
                    0,
                    new HuntEvent.BoxChanged(
                            id,
                            new BoxDetails(
                                    typed.has("label") ? typed.text("label") : before.label(),
                                    before.form(),
                                    rolls == null ? before.rolls() : rolls,
                                    before.coinsPerRoll(),
                                    before.looseCoins(),
                                    typed.text("bank", before.bank()),
                                    typed.text("branch", before.branch()),
                                    typed.text("wrap", before.wrap()),
                                    typed.text("stamp", before.stamp()),
                                    typed.text("sisters", before.sisters()),
                                    typed.said("ordered") ? ordered : before.ordered(),
                                    typed.said("pickedUp") ? pickedUp : before.pickedUp(),
                                    typed.said("returned") ? returned : before.returned(),
                                    typed.text("returnedTo", before.returnedTo()),
                                    typed.text("note", before.note()))));
        };
    }

    private static Function<State, Desk.Step> opening(Typed typed, Setting setting) {
        Optional<DenominationFacts> facts = typed.denomination("denomination");
        Optional<WatchName> watch =
                setting.catalog().watchByWord(typed.text("watch").toLowerCase(Locale.ROOT));
        if (watch.isEmpty()) {
            typed.wrong(t("typed.nothing-to-watch-for", Refusal.quote(typed.text("watch"))), t("typed.write-a-watch"));
        }
        int boxes = typed.small("boxes", t("typed.boxes"), 0, MOST_EARLIER_BOXES, null);
        long coins = typed.whole("coins", t("typed.coins-searched"), 0, MOST_SEARCHED, null);
        long found = typed.whole("found", t("typed.coins-found"), 0, MOST_SEARCHED, null);
        return known -> new Desk.Step(
                0,
                new HuntEvent.OpeningBalance(
                        facts.orElseThrow().denomination(), watch.orElseThrow().name(), boxes, coins, found));
    }
}
