package org.rollwright.till;

import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.rollwright.coin.Refusal;
import org.rollwright.hunt.HuntBook;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.journal.Contradiction;
import org.rollwright.journal.Growing;

/// The till: cash that moved by hand, branches, orders, and the time and road they took. Immutable.
public final class TillBook {
    /// A book in which nothing is written.
    public static final TillBook EMPTY = new TillBook(Growing.list(), Growing.map(), Growing.map(), Growing.list(), 0);

    private final List<CashMove> cashMoves;
    private final Map<String, Branch> branches;
    private final Map<OrderId, Order> orders;
    private final List<Effort> efforts;

    /// The last number given, also to an order taken back at present.
    private final long lastOrder;

    private TillBook(
            List<CashMove> cashMoves,
            Map<String, Branch> branches,
            Map<OrderId, Order> orders,
            List<Effort> efforts,
            long lastOrder) {
        this.cashMoves = cashMoves;
        this.branches = branches;
        this.orders = orders;
        this.efforts = efforts;
        this.lastOrder = lastOrder;
    }

    /// Movements of face value, in the order booked.
    public List<CashMove> cashMoves() {
        return cashMoves;
    }

    /// Branches by name.
    public Collection<Branch> branches() {
        return new TreeMap<>(branches).values();
    }

    /// A branch by the name boxes and bookings use.
    public Optional<Branch> branch(String name) {
        return Optional.ofNullable(branches.get(name));
    }

    /// Orders by number.
    public List<Order> orders() {
        return orders.values().stream()
                .sorted(Comparator.comparingLong(order -> order.number().number()))
                .toList();
    }

    public Optional<Order> order(OrderId number) {
        return Optional.ofNullable(orders.get(number));
    }

    public OrderId nextOrder() {
        return new OrderId(lastOrder + 1);
    }

    /// Time, road and fuel, in the order noted.
    public List<Effort> efforts() {
        return efforts;
    }

    /// Why an event cannot be taken.
    public Optional<Refusal> refuse(TillEvent event, HuntBook hunts) {
        return TillChecks.refuse(this, event, hunts);
    }

    /// Why a box cannot go back where and when it is said to.
    public Optional<Refusal> refuse(HuntEvent.BoxChanged changed, HuntBook hunts) {
        return TillChecks.goesBack(this, changed, hunts);
    }

    /// Why a box cannot have gone back where and when it is said to.
    public Optional<Refusal> refuse(HuntEvent.BoxAdded added) {
        return TillChecks.goesBack(this, added.details());
    }

    /// The book after an event.
    public TillBook apply(TillEvent event) {
        TillBook now = noted(event);
        return switch (event) {
            case TillEvent.CashMoved moved ->
                new TillBook(Growing.plus(cashMoves, moved.move()), branches, orders, efforts, lastOrder);
            case TillEvent.BranchWritten written ->
                now.withBranches(Growing.with(branches, written.branch().name(), written.branch()));
            case TillEvent.BranchRemoved removed -> now.withBranches(Growing.without(branches, removed.branch()));
            case TillEvent.OrderPlaced placed -> now.with(placed.order());
            case TillEvent.OrderEnded ended -> {
                Order before = orders.get(ended.order());
                if (before == null) {
                    throw new Contradiction("there is no order " + ended.order());
                }
                yield now.with(before.endedOn(ended.day(), ended.arrived()));
            }
            case TillEvent.EffortNoted noted ->
                new TillBook(cashMoves, branches, orders, Growing.plus(efforts, noted.effort()), lastOrder);
        };
    }

    /// The book with the numbers that an event gave, whether or not the event counts at present.
    public TillBook noted(TillEvent event) {
        return event instanceof TillEvent.OrderPlaced placed
                        && placed.order().number().number() > lastOrder
                ? new TillBook(
                        cashMoves,
                        branches,
                        orders,
                        efforts,
                        placed.order().number().number())
                : this;
    }

    private TillBook withBranches(Map<String, Branch> now) {
        return new TillBook(cashMoves, now, orders, efforts, lastOrder);
    }

    private TillBook with(Order order) {
        return new TillBook(cashMoves, branches, Growing.with(orders, order.number(), order), efforts, lastOrder);
    }

    /// A [TillBook] as plain values, for a snapshot.
    public record Image(
            List<CashMove> cashMoves,
            List<Branch> branches,
            List<Order> orders,
            List<Effort> efforts,
            long lastOrder) {}

    /// The book as plain values.
    public Image image() {
        return new Image(cashMoves, List.copyOf(branches.values()), orders(), efforts, lastOrder);
    }

    /// The book an image shows.
    public static TillBook of(Image image) {
        Map<String, Branch> branches = new HashMap<>();
        image.branches.forEach(branch -> branches.put(branch.name(), branch));
        Map<OrderId, Order> orders = new HashMap<>();
        image.orders.forEach(order -> orders.put(order.number(), order));
        return new TillBook(
                Growing.list(image.cashMoves),
                Growing.map(branches),
                Growing.map(orders),
                Growing.list(image.efforts),
                image.lastOrder);
    }
}
