package org.rollwright.action;

import static org.rollwright.action.Field.maybe;
import static org.rollwright.action.Field.needed;
import static org.rollwright.text.Texts.t;

import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import org.joda.money.CurrencyUnit;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.coin.Refusal;
import org.rollwright.desk.Desk;
import org.rollwright.desk.State;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.HuntId;
import org.rollwright.journal.Declined;
import org.rollwright.journal.Event;
import org.rollwright.journal.Word;
import org.rollwright.till.Account;
import org.rollwright.till.Bookings;
import org.rollwright.till.Branch;
import org.rollwright.till.CashKind;
import org.rollwright.till.CashMove;
import org.rollwright.till.Effort;
import org.rollwright.till.OrderId;
import org.rollwright.till.TillEvent;

/// What is done at the till and on the way to banks.
public final class TillActions {
    private static final int MOST_BOXES = 1_000;
    private static final long MOST_NUMBER = 999_999_999;

    /// Money moved by hand: what happened by a word, or from one account to another.
    public static final Action CASH = new Action(
            "cash",
            List.of(
                    maybe("kind", "DRAW"),
                    maybe("from", "OUTSIDE"),
                    maybe("to", "CASH"),
                    needed("amount", "25.00"),
                    maybe("day", "2026-03-01"),
                    maybe("where", "Hill Bank"),
                    maybe("what", "wrappers"),
                    maybe("currency", "USD")),
            TillActions::cash);

    /// Boxes go back to a bank.
    public static final Action BACK = new Action(
            "back",
            List.of(
                    needed("box", "1"),
                    needed("where", "Hill Bank"),
                    maybe("day", "2026-03-20"),
                    maybe("counted", "25.00"),
                    maybe("fee", "0.00"),
                    maybe("paid", "cash"),
                    maybe("currency", "USD")),
            TillActions::back);

    /// A branch is written down, or rewritten.
    public static final Action BRANCH = new Action(
            "branch",
            List.of(
                    needed("bank", "Hill Bank"),
                    maybe("branch", "Mill Lane"),
                    maybe("gives", "yes"),
                    maybe("takes", "yes"),
                    needed("open", "mon tue wed thu fri"),
                    maybe("lead", "3"),
                    maybe("boxfee", "0.00"),
                    maybe("percent", "0"),
                    maybe("road", "12 km"),
                    maybe("bearing", "NE"),
                    maybe("closed", "no"),
                    maybe("note", "ask for the head teller")),
            TillActions::branch);

    /// A branch is listed no more.
    public static final Action BRANCH_OFF =
            new Action("branch-off", List.of(needed("name", "Hill Bank, Mill Lane")), TillActions::branchOff);

    /// Boxes are ordered.
    public static final Action ORDER = new Action(
            "order",
            List.of(
                    needed("where", "Hill Bank, Mill Lane"),
                    needed("denomination", "cent"),
                    maybe("boxes", "2"),
                    maybe("placed", "2026-03-01"),
                    maybe("due", "2026-03-04"),
                    maybe("prepaid", "no"),
                    maybe("ordernote", "by telephone")),
            TillActions::order);

    /// An order comes to its end.
    public static final Action ARRIVED = new Action(
            "arrived",
            List.of(needed("order", "1"), maybe("came", "2"), maybe("day", "2026-03-04")),
            TillActions::arrived);

    /// Time, road or fuel was spent.
    public static final Action SPENT = new Action(
            "spent",
            List.of(
                    needed("phase", "BANK"),
                    maybe("day", "2026-03-01"),
                    maybe("hunt", "1"),
                    maybe("minutes", "40"),
                    maybe("road", "21.5 km"),
                    maybe("fuel", "3.10"),
                    maybe("where", "Hill Bank, Mill Lane"),
                    maybe("what", "two boxes")),
            TillActions::spent);

    static final List<Action> ALL = List.of(CASH, BACK, BRANCH, BRANCH_OFF, ORDER, ARRIVED, SPENT);

    private TillActions() {}

    private static Bookings bookings(State known, Setting setting) {
        return new Bookings(known.till(), known.holdings(), setting.catalog(), setting.zone());
    }

    private static Desk.Step step(Event event) {
        return new Desk.Step(0, event);
    }

    private static Function<State, Desk.Step> cash(Typed typed, Setting setting) {
        CashKind kind = typed.has("kind") ? typed.word("kind", t("typed.what-happened"), CashKind.class) : null;
        Account from = account(typed, "from", kind == null ? null : kind.from());
        Account to = account(typed, "to", kind == null ? null : kind.to());
        BigDecimal amount = typed.amount("amount", t("typed.amount"));
        LocalDate day = typed.day("day", t("typed.day"));
        CurrencyUnit currency = typed.currency("currency");
        CashMove move = new CashMove(
                day, Word.of(from), Word.of(to), amount, typed.text("where"), typed.text("what"), currency.getCode());
        return known -> step(bookings(known, setting).cash(move, currency));
    }

    private static Account account(Typed typed, String name, @Nullable Account said) {
        if (said != null) {
            if (typed.has(name) && typed.word(name, t("typed.account"), Account.class) != said) {
                typed.wrong(t("typed.kind-and-account", Refusal.quote(typed.text(name))), t("typed.kind-is-enough"));
            }
            return said;
        }
        if (!typed.has(name)) {
            typed.wrong(t("typed.not-said-what-happened"), t("typed.say-a-kind-or-two-accounts"));
            return Account.OUTSIDE;
        }
        Account account = typed.word(name, t("typed.account"), Account.class);
        return account == null ? Account.OUTSIDE : account;
    }

    private static Function<State, Desk.Step> back(Typed typed, Setting setting) {
        LocalDate day = typed.day("day", t("typed.day"));
        BigDecimal fee = typed.money("fee", t("typed.kept-back"));
        @Nullable BigDecimal counted = typed.maybeMoney("counted", t("typed.counted"));
        CurrencyUnit currency = typed.currency("currency");
        String where = typed.text("where");
        List<String> boxes = typed.list("box");
        Bookings.Paid paid = typed.has("paid") ? typed.word("paid", t("typed.paid"), Bookings.Paid.class) : null;
        return known -> step(bookings(known, setting)
                .back(new Bookings.Return(
                        boxes.stream().map(box -> box(known, box)).toList(),
                        day,
                        where,
                        counted,
                        fee,
                        paid == null ? Bookings.Paid.ACCOUNT : paid,
                        currency)));
    }

    private static BoxId box(State known, String said) {
        return HuntActions.box(known, said)
                .orElseThrow(() ->
                        new Declined(t("till.box-is-not-here", Refusal.quote(said)), t("till.look-at-the-list-again")));
    }

    private static Function<State, Desk.Step> branch(Typed typed, Setting setting) {
        Set<DayOfWeek> open = typed.weekdays("open", t("typed.open-on"));
        boolean closed = typed.flag("closed", t("typed.closed"));
        if (open.isEmpty() && !closed) {
            typed.wrong(t("till.branch-opens-on-no-day"), t("typed.write-weekdays"));
        }
        Branch branch = new Branch(
                typed.text("bank"),
                typed.text("branch"),
                typed.flag("gives", t("typed.gives")),
                typed.flag("takes", t("typed.takes")),
                open,
                typed.small("lead", t("typed.days-to-pick-up"), 0, 60, 0),
                typed.money("boxfee", t("typed.fee-for-a-box")),
                typed.percent("percent", t("typed.kept-back-for-counting")),
                typed.kilometres("road", t("typed.road")),
                new Word<>(typed.text("bearing")),
                closed,
                typed.text("note"));
        return known -> step(new TillEvent.BranchWritten(branch));
    }

    private static Function<State, Desk.Step> branchOff(Typed typed, Setting setting) {
        return known -> step(new TillEvent.BranchRemoved(typed.text("name")));
    }

    private static Function<State, Desk.Step> order(Typed typed, Setting setting) {
        Optional<DenominationFacts> facts = typed.denomination("denomination");
        int boxes = typed.small("boxes", t("typed.boxes"), 1, MOST_BOXES, 1);
        LocalDate placed = typed.day("placed", t("typed.ordered"));
        @Nullable LocalDate due = typed.maybeDay("due", t("typed.due"));
        boolean prepaid = typed.flag("prepaid", t("typed.prepaid"));
        return known -> step(bookings(known, setting)
                .order(typed.text("where"), facts.orElseThrow(), boxes, placed, due, prepaid, typed.text("ordernote")));
    }

    private static Function<State, Desk.Step> arrived(Typed typed, Setting setting) {
        OrderId order = new OrderId(typed.whole("order", t("typed.order"), 1, MOST_NUMBER, null));
        LocalDate day = typed.day("day", t("typed.day"));
        @Nullable
        Integer came = typed.has("came")
                ? Integer.valueOf(typed.small("came", t("typed.boxes-that-came"), 0, MOST_BOXES, null))
                : null;
        return known -> step(bookings(known, setting).arrived(order, day, came));
    }

    private static Function<State, Desk.Step> spent(Typed typed, Setting setting) {
        Effort.Phase phase = typed.word("phase", t("typed.kind-of-time"), Effort.Phase.class);
        long hunt = typed.whole("hunt", t("typed.hunt"), 0, MOST_NUMBER, 0L);
        Effort effort = new Effort(
                typed.day("day", t("typed.day")),
                hunt == 0 ? null : new HuntId(hunt),
                phase == null ? Effort.Phase.SEARCH : phase,
                typed.small("minutes", t("typed.minutes"), 0, 1_440, 0),
                typed.kilometres("road", t("typed.road")),
                typed.money("fuel", t("typed.fuel")),
                typed.text("where"),
                typed.text("what"));
        return known -> step(new TillEvent.EffortNoted(effort));
    }
}
