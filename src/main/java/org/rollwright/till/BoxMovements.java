package org.rollwright.till;

import static org.rollwright.text.Texts.t;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.joda.money.CurrencyUnit;
import org.jspecify.annotations.Nullable;
import org.rollwright.cabinet.CabinetBook;
import org.rollwright.cabinet.CabinetNote;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.cabinet.Holdings;
import org.rollwright.cabinet.Leaving;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.Disposition;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.HuntBook;
import org.rollwright.hunt.HuntId;
import org.rollwright.hunt.Roll;
import org.rollwright.journal.Word;

/// What the record of boxes and finds says of money.
///
/// A box costs its nominal face value on the day it was picked up, or else the day its hunt began. When its
/// hunt is finished, its finds move to what is kept, rolls counted short or over to the shorts, the rest of the
/// searched rolls to what goes back; unsearched rolls stay in the box. When it is marked returned, that rest
/// goes back. A coin found counts with the face value of the slot it lay in, whatever it is: that is what was
/// paid for it.
final class BoxMovements {
    private final TillBook book;
    private final HuntBook hunts;
    private final CabinetBook cabinet;
    private final Catalog catalog;
    private final CurrencyUnit currency;
    private final ZoneId zone;
    private final List<Ledger.Movement> movements = new ArrayList<>();
    private final Map<BoxId, Order> orderOf = new HashMap<>();

    BoxMovements(TillBook book, Holdings held, Catalog catalog, CurrencyUnit currency, ZoneId zone) {
        this.book = book;
        this.hunts = held.hunts();
        this.cabinet = held.cabinet();
        this.catalog = catalog;
        this.currency = currency;
        this.zone = zone;
    }

    List<Ledger.Movement> movements() {
        book.orders().forEach(this::order);
        hunts.boxes().forEach(this::box);
        return movements;
    }

    private void move(LocalDate day, Account from, Account to, BigDecimal face, long coins, String what, String where) {
        if (coins > 0) {
            movements.add(
                    new Ledger.Movement(day, from, to, face.multiply(BigDecimal.valueOf(coins)), what, where, false));
        }
    }

    private void order(Order order) {
        Optional<DenominationFacts> facts = catalog.facts(order.denomination());
        Optional<BigDecimal> face = catalog.face(order.denomination(), currency);
        if (face.isEmpty() || facts.isEmpty() || !order.prepaid()) {
            return;
        }
        order.arrived().forEach(id -> orderOf.put(id, order));
        long coins = facts.get().coinsPerBox();
        String what = t("till.order-by-number", order.number());
        move(order.placed(), Account.CASH, Account.IN_TRANSIT, face.get(), coins * order.boxes(), what, order.branch());
        LocalDate ended = order.ended();
        if (ended != null) {
            long came = order.arrived().stream()
                    .filter(id -> hunts.box(id).isPresent())
                    .count();
            move(
                    ended,
                    Account.IN_TRANSIT,
                    Account.OUTSIDE,
                    face.get(),
                    coins * (order.boxes() - came),
                    t("till.not-delivered", what),
                    order.branch());
        }
    }

    private void box(Box box) {
        Optional<BigDecimal> face = catalog.face(box.denomination(), currency);
        LocalDate here = hereSince(box);
        if (face.isEmpty() || here == null || box.earlier().isPresent()) {
            return;
        }
        BoxDetails details = box.details();
        String from = Branch.nameOf(details.bank(), details.branch());
        Order order = orderOf.get(box.id());
        long nominal = details.nominalCoins();
        if (order == null) {
            move(here, Account.CASH, Account.BOXES, face.get(), nominal, details.label(), from);
        } else {
            long paid = catalog.facts(box.denomination())
                    .map(DenominationFacts::coinsPerBox)
                    .orElse(0L);
            move(here, Account.IN_TRANSIT, Account.BOXES, face.get(), Math.min(paid, nominal), details.label(), from);
            move(here, Account.IN_TRANSIT, Account.OUTSIDE, face.get(), paid - nominal, details.label(), from);
            move(here, Account.CASH, Account.BOXES, face.get(), nominal - paid, details.label(), from);
        }
        LocalDate settled = settledOn(box);
        if (settled != null) {
            settle(box, face.get(), later(settled, here));
        }
    }

    private void settle(Box box, BigDecimal face, LocalDate day) {
        BoxDetails details = box.details();
        Contents contents = Contents.of(hunts, box);
        String label = details.label();
        // more finds than the box should have held, or than its rolls did: it was over by them
        move(day, Account.SHORT, Account.BOXES, face, contents.over, label, "");
        move(day, Account.BOXES, Account.SHORT, face, contents.missing, label, "");
        move(day, Account.BOXES, Account.KEPT, face, contents.kept, label, "");
        move(day, Account.BOXES, Account.TO_RETURN, face, contents.rest, label, "");
        left(box, face, day);
        LocalDate returned = details.returned();
        if (returned != null) {
            LocalDate back = later(returned, day);
            move(back, Account.TO_RETURN, Account.OUTSIDE, face, contents.rest, label, details.returnedTo());
            move(back, Account.BOXES, Account.OUTSIDE, face, contents.unsearched, label, details.returnedTo());
        }
    }

    private static String left(Word<Leaving> how) {
        return how.in(Leaving.class)
                .map(known -> switch (known) {
                    case SOLD -> t("till.a-find-sold");
                    case GIVEN -> t("till.a-find-given");
                    case SPENT -> t("till.a-find-spent");
                    case LOST -> t("till.a-find-lost");
                })
                .orElse(how.word());
    }

    /// Finds that were kept and left again.
    private void left(Box box, BigDecimal face, LocalDate settled) {
        for (Find find : finds(hunts, box)) {
            boolean goneWhole = find.disposition() == Disposition.SELL || find.disposition() == Disposition.GIVE;
            for (int piece = 1; piece <= find.count() && find.disposition() != Disposition.RETURN; piece++) {
                CabinetNote.Gone gone = cabinet.note(CoinRef.of(find.id(), piece))
                        .map(CabinetNote::gone)
                        .orElse(null);
                if (gone != null) {
                    move(later(gone.day(), settled), Account.KEPT, Account.LEFT, face, 1, left(gone.how()), "");
                } else if (goneWhole) {
                    move(
                            settled,
                            Account.KEPT,
                            Account.LEFT,
                            face,
                            1,
                            find.disposition() == Disposition.SELL
                                    ? t("till.a-find-to-sell")
                                    : t("till.a-find-given-away"),
                            "");
                }
            }
        }
    }

    private static List<Find> finds(HuntBook hunts, Box box) {
        return box.finds().stream().map(hunts::find).flatMap(Optional::stream).toList();
    }

    private static LocalDate later(LocalDate one, LocalDate other) {
        return one.isAfter(other) ? one : other;
    }

    private LocalDate day(Instant at) {
        return LocalDate.ofInstant(at, zone);
    }

    private @Nullable LocalDate hereSince(Box box) {
        LocalDate picked = box.details().pickedUp();
        Optional<LocalDate> began = hunt(box).map(hunt -> day(hunt.started()));
        return picked == null ? began.orElse(null) : picked;
    }

    private Optional<Hunt> hunt(Box box) {
        Optional<HuntId> hunt = box.hunt();
        return hunt.flatMap(hunts::hunt);
    }

    private @Nullable LocalDate settledOn(Box box) {
        return hunt(box)
                .flatMap(Hunt::finished)
                .map(this::day)
                .orElse(box.details().returned());
    }

    /// The coins of a box whose search is over.
    ///
    /// @param kept finds that did not go back
    /// @param missing coins that were not in the rolls counted
    /// @param over coins more than paid for
    /// @param rest searched and to go back
    /// @param unsearched in rolls not opened
    record Contents(long kept, long missing, long over, long rest, long unsearched) {
        static Contents of(HuntBook hunts, Box box) {
            BoxDetails details = box.details();
            long kept = finds(hunts, box).stream()
                    .filter(find -> find.disposition() != Disposition.RETURN)
                    .mapToLong(Find::count)
                    .sum();
            long searched = details.rolls() == 0 ? details.looseCoins() : 0;
            long missing = 0;
            long over = 0;
            for (Roll roll : box.rolls()) {
                boolean full = roll.number() <= details.rolls();
                searched += roll.searched() && full ? details.coinsPerRoll() : 0;
                if (full && roll.counted() != null) {
                    int difference = roll.coins(details.coinsPerRoll()) - details.coinsPerRoll();
                    missing += Math.max(0, -difference);
                    over += Math.max(0, difference);
                    // a roll counted was in hand, even when it was not searched
                    searched += roll.searched() ? 0 : details.coinsPerRoll();
                }
            }
            long nominal = details.nominalCoins();
            long rest = searched - missing + over - kept;
            long unsearched = nominal - searched;
            if (rest < 0) {
                // finds noted without turning rolls: they came out of the rolls not opened
                unsearched += rest;
                rest = 0;
            }
            if (unsearched < 0) {
                over -= unsearched;
                unsearched = 0;
            }
            return new Contents(kept, missing, over, rest, unsearched);
        }
    }
}
