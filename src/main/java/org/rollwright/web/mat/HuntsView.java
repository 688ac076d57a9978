package org.rollwright.web.mat;

import static org.rollwright.text.Texts.t;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.catalog.WatchName;
import org.rollwright.desk.State;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.Hunt;
import org.rollwright.web.shell.Manner;
import org.rollwright.web.shell.Usual;

/// The list of hunts and the form for a new one.
///
/// @param today what is next
/// @param last position of the journal it shows
public record HuntsView(
        List<Row> running,
        List<Row> finished,
        int finishedInAll,
        HuntForm form,
        List<DenominationFacts> denominations,
        List<WatchName> watches,
        List<Waiting> waiting,
        Today today,
        long last) {

    private static final int FINISHED_LISTED = 30;

    /// One hunt.
    public record Row(long id, String name, String boxes, String progress, int finds, String when) {}

    /// A box that nobody searches yet.
    public record Waiting(long id, String label, String what) {}

    /// Who may have wrapped a box, by the word the record keeps.
    public Map<String, String> wraps() {
        Map<String, String> wraps = new LinkedHashMap<>();
        wraps.put("machine", t("hunts.wrap-machine"));
        wraps.put("customer", t("hunts.wrap-customer"));
        wraps.put("bank", t("hunts.wrap-bank"));
        wraps.put("mixed", t("hunts.wrap-mixed"));
        return wraps;
    }

    static HuntsView of(State book, Catalog catalog, HuntForm form, Usual usual, LocalDate day) {
        List<Row> running = new ArrayList<>();
        List<Row> finished = new ArrayList<>();
        for (Hunt hunt : book.hunt().hunts()) {
            (hunt.finished().isEmpty() ? running : finished).addFirst(row(book, hunt));
        }
        return new HuntsView(
                running,
                finished.subList(0, Math.min(FINISHED_LISTED, finished.size())),
                finished.size(),
                form,
                List.copyOf(catalog.denominations()),
                catalog.watches(),
                book.hunt().boxes().stream()
                        .filter(Box::waits)
                        .map(box -> new Waiting(
                                box.id().number(),
                                box.details().label(),
                                t("hunts.waiting-rolls", box.details().rolls(), box.denomination())))
                        .toList(),
                Today.of(book, catalog, usual, day),
                book.last());
    }

    private static Row row(State book, Hunt hunt) {
        List<Box> boxes = hunt.boxes().stream()
                .map(id -> book.hunt().box(id).orElseThrow())
                .toList();
        long searched = boxes.stream().mapToLong(Box::searchedRolls).sum();
        long rolls = boxes.stream().mapToLong(box -> box.details().rolls()).sum();
        String labels = boxes.size() == 1
                ? boxes.getFirst().details().label()
                : t("hunts.boxes-from", boxes.size(), boxes.getFirst().details().label());
        return new Row(
                hunt.id().number(),
                hunt.name(),
                labels,
                rolls == 0 ? t("hunts.loose-coins-word") : t("hunts.searched-of-rolls", searched, rolls),
                hunt.foundCoins(),
                Manner.day(hunt.touched()));
    }
}
