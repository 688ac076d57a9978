package org.rollwright.web.cabinet;

import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.rollwright.cabinet.CabinetIndex;
import org.rollwright.cabinet.Place;
import org.rollwright.cabinet.ValueModel;
import org.rollwright.coin.Grade;
import org.rollwright.desk.State;
import org.rollwright.text.Figures;
import org.rollwright.web.shell.Bench;
import org.rollwright.web.shell.Choice;
import org.rollwright.web.shell.Coins;

/// What the pages of the Cabinet show.
public final class CabinetView {
    private static final int LISTED = 60;

    private CabinetView() {}

    /// The list.
    ///
    /// @param first and
    /// @param last numbers of the coins on this page, from 1
    /// @param pictures whether one of the coins on this page was photographed
    public record Listing(
            Search search,
            List<Choices> choices,
            String understood,
            int found,
            int all,
            String face,
            String value,
            List<Row> rows,
            int first,
            int last,
            int page,
            boolean pictures,
            List<PlaceRow> places,
            List<String> problems,
            long undoAsOf) {
        public boolean hasNext() {
            return last < found;
        }
    }

    /// What a filter can be set to.
    public record Choices(String name, String label, List<Choice> options) {}

    /// One coin in the list.
    ///
    /// @param coin as it looks, by its photograph where there is one
    public record Row(
            String ref,
            String name,
            String state,
            String place,
            String from,
            String value,
            int alike,
            Coins.Coin coin) {}

    /// A place in the tree.
    ///
    /// @param depth 0 for one that stands by itself
    public record PlaceRow(long id, String name, String path, int depth, long coins, int capacity, long parent) {}

    static Listing listing(
            State book, Bench bench, CabinetShelf.Contents state, Search search, int page, List<String> problems) {
        List<CabinetIndex.Entry> found = search.found(bench, state);
        int shown = Math.min(page, Math.max(1, (found.size() + LISTED - 1) / LISTED));
        int before = (shown - 1) * LISTED;
        List<Row> rows = found.stream()
                .skip(before)
                .limit(LISTED)
                .map(entry -> new Row(
                        entry.ref().toString(),
                        entry.name(),
                        state(entry),
                        entry.album().isEmpty() ? entry.place() : t("cabinet.in-album", entry.album()),
                        entry.from(),
                        CabinetIndex.value(entry, state.values())
                                .map(CabinetView::value)
                                .orElse(""),
                        state.index().alike(entry.description().identity()),
                        Coins.seen(book, bench.catalog(), entry.ref().findId(), entry.description(), null)))
                .toList();
        return new Listing(
                search,
                choices(state.index(), search),
                search.asked(bench, state.index()).understood(),
                found.size(),
                state.index().entries().size(),
                CabinetIndex.face(found, bench.catalog()),
                sum(CabinetIndex.sum(found, state.values())),
                rows,
                Math.min(before + 1, found.size()),
                before + rows.size(),
                shown,
                rows.stream().anyMatch(row -> !row.coin().photo().isEmpty()),
                places(book, state.index()),
                problems,
                book.undoAsOf(0));
    }

    private static List<Choices> choices(CabinetIndex index, Search search) {
        return List.of(
                choices(
                        search,
                        "coins",
                        t("cabinet.coins-filter"),
                        index.denominations().stream()
                                .map(one -> new String[] {one.toString(), one.toString()})
                                .toList()),
                choices(
                        search,
                        "mint",
                        t("cabinet.mint-filter"),
                        index.mints().stream()
                                .map(one -> new String[] {one.code(), one.code()})
                                .toList()),
                choices(
                        search,
                        "metal",
                        t("cabinet.metal-filter"),
                        index.entries().stream()
                                .map(CabinetIndex.Entry::metal)
                                .filter(Objects::nonNull)
                                .distinct()
                                .sorted()
                                .map(metal -> new String[] {metal.word(), metal.said()})
                                .toList()),
                choices(
                        search,
                        "graded",
                        t("cabinet.grade-filter"),
                        List.of(
                                new String[] {"graded", t("cabinet.graded")},
                                new String[] {"ungraded", t("cabinet.ungraded")})));
    }

    private static Choices choices(Search search, String name, String label, List<String[]> known) {
        List<Choice> options = new ArrayList<>();
        known.forEach(one -> options.add(new Choice(one[0], one[1], one[0].equals(search.field(name)))));
        return new Choices(name, label, options);
    }

    /// Orders of the list.
    public static List<Choice> orders(Search search) {
        return List.of(
                order(search, CabinetIndex.Order.CAME, t("cabinet.order-came")),
                order(search, CabinetIndex.Order.NEWEST, t("cabinet.order-newest")),
                order(search, CabinetIndex.Order.VALUE, t("cabinet.order-value")),
                order(search, CabinetIndex.Order.DATE, t("cabinet.order-date")),
                order(search, CabinetIndex.Order.GRADE, t("cabinet.order-grade")));
    }

    /// Ways a coin can have come.
    public static List<Choice> ways(String chosen) {
        return List.of(
                new Choice("bought", t("cabinet.bought"), chosen.equals("bought")),
                new Choice("given", t("cabinet.given"), chosen.equals("given")),
                new Choice("traded", t("cabinet.traded"), chosen.equals("traded")),
                new Choice("owned", t("cabinet.owned-before"), chosen.equals("owned")));
    }

    private static Choice order(Search search, CabinetIndex.Order order, String words) {
        return new Choice(order.name().toLowerCase(Locale.ROOT), words, order == search.order());
    }

    static String state(CabinetIndex.Entry entry) {
        Grade upTo = entry.gradeUpTo();
        return entry.description().state()
                + (upTo == null ? "" : t("cabinet.up-to", upTo))
                + (entry.atGrading() ? t("cabinet.at-grading") : "");
    }

    public static String sum(ValueModel.Sum sum) {
        if (sum.counted() == 0) {
            return t("cabinet.no-price-near");
        }
        return f("cabinet.sum", sum.amount(), sum.low(), sum.high())
                + (sum.blank() == 0 ? "" : f("cabinet.without-a-value", sum.blank()));
    }

    public static String value(ValueModel.Value value) {
        return value.typed()
                ? Figures.of("%,.2f", value.amount())
                : t("cabinet.about", rough(value.amount()), rough(value.low()), rough(value.high()));
    }

    static String rough(double amount) {
        return amount >= 100 ? Figures.of("%,.0f", amount) : Figures.of(amount >= 10 ? "%.1f" : "%.2f", amount);
    }

    static List<PlaceRow> places(State book, CabinetIndex index) {
        Map<Long, Long> counts = new java.util.HashMap<>();
        for (CabinetIndex.Entry entry : index.entries()) {
            if (entry.placeId() != null) {
                counts.merge(entry.placeId().number(), 1L, Long::sum);
            }
        }
        List<PlaceRow> rows = new ArrayList<>();
        add(book, counts, null, 0, rows);
        return rows;
    }

    private static void add(
            State book,
            Map<Long, Long> counts,
            org.rollwright.cabinet.@Nullable PlaceId parent,
            int depth,
            List<PlaceRow> into) {
        if (depth > 12) {
            return;
        }
        for (Place place : book.cabinet().places()) {
            if (java.util.Objects.equals(place.parent(), parent)) {
                into.add(new PlaceRow(
                        place.id().number(),
                        place.name(),
                        CabinetIndex.path(book.cabinet(), place.id()),
                        depth,
                        counts.getOrDefault(place.id().number(), 0L),
                        place.capacity(),
                        parent == null ? 0 : parent.number()));
                add(book, counts, place.id(), depth + 1, into);
            }
        }
    }
}
