package org.rollwright.web.boxes;

import static org.rollwright.text.Texts.t;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.Caution;
import org.rollwright.coin.Denomination;
import org.rollwright.desk.State;
import org.rollwright.hunt.Box;
import org.rollwright.till.Branch;
import org.rollwright.till.Order;
import org.rollwright.web.shell.Manner;
import org.rollwright.web.shell.Usual;

/// Boxes on order.
///
/// @param waiting orders of which boxes are to come, the next due first
/// @param over orders that came or were given up, the latest first
/// @param branches names of those that give boxes
/// @param cautions about the supply of what is hunted
/// @param typed what stands in the form
/// @param undoAsOf position of the journal the page shows
public record OrdersView(
        List<Row> waiting,
        List<Row> over,
        List<String> denominations,
        List<String> branches,
        List<String> cautions,
        Map<String, String> typed,
        List<String> problems,
        String today,
        long undoAsOf) {

    /// One order.
    public record Row(long number, String what, String branch, String placed, String due, String state) {}

    static OrdersView of(
            State book,
            Catalog catalog,
            Usual usual,
            Map<String, String> typed,
            LocalDate today,
            List<String> problems) {
        typed.putIfAbsent("denomination", usual.denomination());
        typed.putIfAbsent("where", usual.place());
        List<Row> waiting = new ArrayList<>();
        List<Row> over = new ArrayList<>();
        book.till().orders().stream()
                .sorted(java.util.Comparator.comparing(Order::due))
                .forEach(order -> {
                    if (order.isOpen()) {
                        waiting.add(row(order, today));
                    } else {
                        over.addFirst(row(order, today));
                    }
                });
        Set<Denomination> hunted = new LinkedHashSet<>();
        book.hunt().boxes().stream().map(Box::denomination).forEach(hunted::add);
        book.till().orders().stream().map(Order::denomination).forEach(hunted::add);
        if (hunted.isEmpty()) {
            hunted.add(Denomination.US_CENT);
        }
        return new OrdersView(
                waiting,
                over,
                catalog.denominations().stream()
                        .map(facts -> facts.denomination().toString())
                        .toList(),
                book.till().branches().stream()
                        .filter(branch -> branch.gives() && !branch.closed())
                        .map(Branch::name)
                        .toList(),
                hunted.stream()
                        .flatMap(coins -> catalog.cautions("supply", coins).stream())
                        .map(Caution::text)
                        .toList(),
                typed,
                problems,
                today.toString(),
                book.undoAsOf(0));
    }

    static String coins(Order order) {
        return order.denomination() + "s";
    }

    private static Row row(Order order, LocalDate today) {
        LocalDate ended = order.ended();
        String state = ended == null
                ? today.isAfter(order.due()) ? t("orders.overdue") : t("orders.open")
                : order.arrived().isEmpty()
                        ? t("orders.given-up", Manner.day(ended))
                        : t("orders.so-many-came", order.arrived().size(), order.boxes(), Manner.day(ended));
        return new Row(
                order.number().number(),
                order.prepaid()
                        ? t("orders.boxes-of-paid", order.boxes(), coins(order))
                        : t("orders.boxes-of", order.boxes(), coins(order)),
                order.branch(),
                Manner.day(order.placed()),
                Manner.day(order.due()),
                state);
    }
}
