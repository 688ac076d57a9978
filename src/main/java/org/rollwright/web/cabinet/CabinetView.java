package org.rollwright.web.cabinet;

import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.rollwright.cabinet.CabinetIndex;
import org.rollwright.cabinet.Place;
import org.rollwright.cabinet.ValueModel;
import org.rollwright.catalog.Catalog;
import org.rollwright.coin.Grade;
import org.rollwright.desk.State;

/// What the pages of the Cabinet show.
public final class CabinetView {
    private static final int LISTED = 60;

    private CabinetView() {}

    /// The list.
    public record Listing(
            String query,
            long place,
            boolean duplicates,
            String understood,
            int found,
            int all,
            String face,
            String value,
            List<Row> rows,
            List<PlaceRow> places,
            List<String> problems,
            long undoAsOf) {}

    /// One coin in the list.
    public record Row(String ref, String name, String state, String place, String from, String value, int alike) {}

    /// A place in the tree.
    ///
    /// @param depth 0 for one that stands by itself
    public record PlaceRow(long id, String name, String path, int depth, long coins, int capacity, long parent) {}

    static Listing listing(
            State book,
            Catalog catalog,
            CabinetShelf.Contents state,
            String query,
            CabinetIndex.Query asked,
            String understood,
            List<String> problems) {
        List<CabinetIndex.Entry> found = state.index().search(asked);
        List<Row> rows = found.stream()
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
                        state.index().alike(entry.description().identity())))
                .toList();
        return new Listing(
                query,
                asked.place() == null ? 0 : asked.place().number(),
                asked.duplicates(),
                understood,
                found.size(),
                state.index().entries().size(),
                CabinetIndex.face(found, catalog),
                sum(CabinetIndex.sum(found, state.values())),
                rows,
                places(book, state.index()),
                problems,
                book.undoAsOf(0));
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
                ? String.format(Locale.ROOT, "%,.2f", value.amount())
                : t("cabinet.about", rough(value.amount()), rough(value.low()), rough(value.high()));
    }

    static String rough(double amount) {
        return amount >= 100
                ? String.format(Locale.ROOT, "%,.0f", amount)
                : String.format(Locale.ROOT, amount >= 10 ? "%.1f" : "%.2f", amount);
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
