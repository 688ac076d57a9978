package org.rollwright.action;

import static org.rollwright.action.Field.maybe;
import static org.rollwright.action.Field.needed;
import static org.rollwright.text.Texts.t;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.rollwright.cabinet.Acquisition;
import org.rollwright.cabinet.Arrivals;
import org.rollwright.cabinet.CabinetEvent;
import org.rollwright.cabinet.CabinetNote;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.cabinet.OwnedCoin;
import org.rollwright.cabinet.Place;
import org.rollwright.cabinet.PlaceId;
import org.rollwright.cabinet.PriceLine;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Limits;
import org.rollwright.coin.Refusal;
import org.rollwright.desk.Desk;
import org.rollwright.desk.State;
import org.rollwright.journal.Declined;
import org.rollwright.journal.Event;
import org.rollwright.journal.Word;

/// What is done with the coins owned.
public final class CabinetActions {
    private static final int MOST_COINS = 1_000_000;
    private static final String PLACE_NUMBER = "[1-9][0-9]{0,8}";
    private static final String GRADE_POINTS = "[0-9]{1,2}(\\.[0-9])?";

    /// Coins come that were not found in a hunt, and lie somewhere.
    public static final Action COIN = new Action(
            "coin",
            List.of(
                    needed("line", "1936d vf20"),
                    maybe("how", "bought"),
                    maybe("from", "a club"),
                    maybe("day", "2026-03-01"),
                    maybe("price", "12.50"),
                    maybe("to", "1")),
            CabinetActions::coin);

    /// What one coin is, is told anew.
    public static final Action COIN_TOLD = new Action(
            "coin-told",
            List.of(needed("coin", "own.1"), needed("line", "1936 f12"), maybe("upTo", "VF20")),
            CabinetActions::told);

    /// Coins are put somewhere.
    public static final Action PUT =
            new Action("put", List.of(needed("coin", "own.1"), needed("to", "1")), CabinetActions::put);

    /// Coins leave.
    public static final Action LEFT = new Action(
            "left",
            List.of(
                    needed("coin", "own.2"),
                    needed("how", "sold"),
                    maybe("price", "20.00"),
                    maybe("whom", "a club"),
                    maybe("day", "2026-03-01")),
            CabinetActions::left);

    /// A coin goes to be graded, or comes back.
    public static final Action GRADED = new Action(
            "graded",
            List.of(
                    needed("coin", "own.1"),
                    needed("estimate", "20"),
                    maybe("outcome", "25"),
                    needed("cost", "25.00"),
                    maybe("day", "2026-03-01")),
            CabinetActions::graded);

    /// A place for coins is made.
    public static final Action PLACE = new Action(
            "place",
            List.of(needed("name", "Box of flips"), maybe("parent", "1"), maybe("capacity", "100")),
            CabinetActions::place);

    /// A place is given up.
    public static final Action PLACE_OFF =
            new Action("place-off", List.of(needed("place", "1")), CabinetActions::placeOff);

    /// Prices of a coin's date and mint are typed, or known no more.
    public static final Action PRICES = new Action(
            "prices",
            List.of(needed("coin", "own.1"), needed("price", "vf30 12.50"), maybe("note", "a club's list")),
            CabinetActions::prices);

    static final List<Action> ALL = List.of(COIN, COIN_TOLD, PUT, LEFT, GRADED, PRICES, PLACE, PLACE_OFF);

    private CabinetActions() {}

    private static Desk.Step step(Event event) {
        return new Desk.Step(0, event);
    }

    private static List<CoinRef> coins(Typed typed) {
        List<CoinRef> coins = new ArrayList<>();
        for (String one : typed.list("coin")) {
            CoinRef.parse(one)
                    .ifPresentOrElse(
                            coins::add,
                            () -> typed.wrong(t("typed.no-coin-number", Refusal.quote(one)), t("typed.write-coins")));
        }
        if (coins.isEmpty()) {
            typed.wrong(t("hunt.no-coin-was-chosen"), t("hunt.coin-tick-one"));
        }
        return coins;
    }

    private static List<CoinRef> oneCoin(Typed typed) {
        List<CoinRef> coins = coins(typed);
        if (coins.size() > 1) {
            typed.wrong(t("typed.only-a-coin"), t("typed.write-coins-one-by-one"));
        }
        return coins;
    }

    private static @Nullable PlaceId place(Typed typed, String name) {
        String text = typed.text(name);
        if (text.isEmpty() || text.equals("0")) {
            return null;
        }
        if (!text.matches(PLACE_NUMBER)) {
            typed.wrong(t("typed.no-place", Refusal.quote(text)), t("typed.write-a-place"));
            return null;
        }
        return new PlaceId(Long.parseLong(text));
    }

    private static Function<State, Desk.Step> coin(Typed typed, Setting setting) {
        CoinLine.Read read = CoinLine.read(typed.text("line"), Denomination.US_CENT, setting);
        if (read instanceof CoinLine.Read.Bad bad) {
            typed.wrong(bad.why().wrong(), bad.why().right());
        }
        Acquisition how = new Acquisition(
                typed.has("how") ? typed.text("how") : "owned",
                typed.text("from"),
                typed.day("day", t("typed.day")),
                typed.maybeMoney("price", t("typed.price")));
        @Nullable PlaceId place = place(typed, "to");
        return known -> {
            CoinLine line = ((CoinLine.Read.Good) read).line();
            return step(Arrivals.of(known.cabinet(), line.coin(), line.count(), how, place));
        };
    }

    private static Function<State, Desk.Step> told(Typed typed, Setting setting) {
        List<CoinRef> coins = oneCoin(typed);
        String upTo = typed.text("upTo");
        Optional<Grade> high = Grade.parse(upTo);
        if (!upTo.isEmpty() && high.isEmpty()) {
            typed.wrong(t("typed.no-grade", Refusal.quote(upTo)), t("typed.write-a-higher-grade"));
        }
        return known -> {
            CoinRef ref = coins.getFirst();
            OwnedCoin coin = held(known, ref);
            Denomination denomination = coin.description().identity().denomination();
            return switch (CoinLine.read(typed.text("line"), denomination, setting)) {
                case CoinLine.Read.Bad bad -> throw new Declined(bad.why());
                case CoinLine.Read.Good good -> {
                    Grade low = good.line().coin().grade();
                    if (high.isPresent() && (low == null || high.get().compareTo(low) <= 0)) {
                        throw new Declined(t("typed.no-grade", Refusal.quote(upTo)), t("typed.write-a-higher-grade"));
                    }
                    if (good.line().count() != 1) {
                        throw new Declined(t("typed.only-a-coin"), t("typed.write-a-coin"));
                    }
                    yield step(new CabinetEvent.CoinDescribed(ref, good.line().coin(), high.orElse(null)));
                }
            };
        };
    }

    private static Function<State, Desk.Step> put(Typed typed, Setting setting) {
        List<CoinRef> coins = coins(typed);
        if (!typed.has("to")) {
            typed.wrong(t("typed.no-place", ""), t("typed.write-a-place"));
        }
        @Nullable PlaceId place = place(typed, "to");
        return known -> step(new CabinetEvent.CoinsPut(coins, place));
    }

    private static Function<State, Desk.Step> left(Typed typed, Setting setting) {
        List<CoinRef> coins = coins(typed);
        CabinetNote.Gone gone = new CabinetNote.Gone(
                new Word<>(typed.text("how")),
                typed.maybeMoney("price", t("typed.price")),
                typed.text("whom"),
                typed.day("day", t("typed.day")));
        return known -> step(new CabinetEvent.CoinsLeft(coins, gone));
    }

    private static Function<State, Desk.Step> prices(Typed typed, Setting setting) {
        List<CoinRef> coins = oneCoin(typed);
        List<PriceLine> lines = new ArrayList<>();
        for (String said : typed.lines("price")) {
            Optional<PriceLine> line = PriceLine.read(said);
            if (line.isEmpty()) {
                typed.wrong(t("typed.no-price", Refusal.quote(said)), t("typed.write-a-price"));
            } else {
                line.get().flaw().ifPresent(flaw -> typed.wrong(flaw.wrong(), flaw.right()));
                lines.add(line.get());
            }
        }
        return known -> {
            Identity issue = held(known, coins.getFirst()).description().identity();
            List<Event> events = PriceLine.events(known.cabinet(), issue, lines, setting.today(), typed.text("note"));
            if (events.isEmpty()) {
                throw new Declined(t("typed.no-price-changes"), t("typed.write-a-price"));
            }
            return step(new Event.Batch(events));
        };
    }

    private static OwnedCoin held(State known, CoinRef ref) {
        return known.holdings()
                .coin(ref)
                .orElseThrow(() -> new Declined(t("hunt.hand-empty", ref), t("hunt.cabinet-look-again")));
    }

    private static double points(Typed typed, String name, String what) {
        String text = Limits.pointed(typed.text(name));
        double points = text.matches(GRADE_POINTS) ? Double.parseDouble(text) : 0;
        if (points < 1 || points > 70) {
            typed.wrong(t("typed.no-points", what, Refusal.quote(text)), t("typed.write-points"));
        }
        return points;
    }

    private static Function<State, Desk.Step> graded(Typed typed, Setting setting) {
        List<CoinRef> coins = oneCoin(typed);
        double estimate = points(typed, "estimate", t("typed.estimate"));
        double outcome = typed.has("outcome") ? points(typed, "outcome", t("typed.outcome")) : 0;
        @Nullable BigDecimal cost = typed.maybeMoney("cost", t("typed.cost"));
        if (cost == null) {
            typed.wrong(t("typed.no-amount", t("typed.cost"), ""), t("typed.write-an-amount"));
        }
        LocalDate day = typed.day("day", t("typed.day"));
        return known -> step(new CabinetEvent.CoinSubmitted(
                coins.getFirst(),
                new CabinetNote.Submission(estimate, outcome, cost == null ? BigDecimal.ZERO : cost, day)));
    }

    private static Function<State, Desk.Step> place(Typed typed, Setting setting) {
        int capacity = typed.small("capacity", t("typed.capacity"), 0, MOST_COINS, 0);
        @Nullable PlaceId parent = place(typed, "parent");
        return known -> step(new CabinetEvent.PlaceMade(
                new Place(known.cabinet().nextPlace(), parent, typed.text("name"), capacity)));
    }

    private static Function<State, Desk.Step> placeOff(Typed typed, Setting setting) {
        @Nullable PlaceId place = place(typed, "place");
        if (place == null) {
            typed.wrong(t("typed.no-place", ""), t("typed.write-a-place"));
        }
        return known -> step(new CabinetEvent.PlaceRemoved(place == null ? new PlaceId(1) : place));
    }
}
