package org.rollwright.web.mat;

import static org.rollwright.text.Texts.t;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.rollwright.catalog.Catalog;
import org.rollwright.desk.State;
import org.rollwright.hunt.Beginning;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.Watch;
import org.rollwright.till.Order;
import org.rollwright.web.shell.Manner;
import org.rollwright.web.shell.Usual;

/// What is next: what waits to be picked up, opened, decided or brought back, and the last set-up once more.
///
/// @param starts hunts that one key begins; the first is the one most likely meant
/// @param waiting what else waits, each with the page that deals with it
public record Today(List<Start> starts, List<Line> waiting) {
    /// Boxes of which each has a button of its own.
    private static final int BUTTONS = 3;

    /// A hunt that can be begun as it stands.
    ///
    /// @param fields of the form that begins it
    public record Start(String text, String what, List<Field> fields) {}

    /// A field of a form.
    public record Field(String name, String value) {}

    /// Something that waits.
    public record Line(String text, String address) {}

    static Today of(State book, Catalog catalog, Usual usual, LocalDate today) {
        Optional<Hunt> last = book.hunt().hunts().stream().reduce((a, b) -> b);
        List<String> watches = last.map(hunt -> hunt.watches().stream()
                        .map(watch -> said(watch, catalog))
                        .toList())
                .orElse(usual.watches());
        List<Start> starts = new ArrayList<>();
        book.hunt().boxes().stream().filter(Box::isHere).limit(BUTTONS).forEach(box -> starts.add(open(box, watches)));
        if (starts.isEmpty()) {
            last.flatMap(hunt -> hunt.boxes().stream().findFirst())
                    .flatMap(book.hunt()::box)
                    .ifPresent(box -> starts.add(again(book, box, watches)));
        }
        List<Line> waiting = new ArrayList<>();
        for (Order order : book.till().orders()) {
            if (order.isOpen()) {
                waiting.add(new Line(
                        order.due().isAfter(today)
                                ? t("today.order-later", order.boxes(), order.branch(), Manner.day(order.due()))
                                : t("today.order-now", order.boxes(), order.branch()),
                        "/boxes/orders"));
            }
        }
        undecided(book).ifPresent(waiting::add);
        long back = book.hunt().boxes().stream()
                .filter(box -> box.details().returned() == null
                        && box.hunt()
                                .flatMap(book.hunt()::hunt)
                                .flatMap(Hunt::finished)
                                .isPresent())
                .count();
        if (back > 0) {
            waiting.add(new Line(t("today.to-bring-back", back), "/till"));
        }
        long sent = book.cabinet().notes().stream()
                .filter(note -> note.submission() != null && note.submission().outcome() == 0)
                .count();
        if (sent > 0) {
            waiting.add(new Line(t("today.at-grading", sent), "/cabinet"));
        }
        return new Today(List.copyOf(starts), List.copyOf(waiting));
    }

    private static Optional<Line> undecided(State book) {
        Hunt latest = null;
        int coins = 0;
        for (Hunt hunt : book.hunt().hunts()) {
            int open = hunt.finished().isPresent() ? book.undecided(hunt.id()) : 0;
            coins += open;
            latest = open > 0 ? hunt : latest;
        }
        return latest == null
                ? Optional.empty()
                : Optional.of(new Line(
                        t("today.undecided", coins), "/mat/" + latest.id().number() + "/decide"));
    }

    /// A watch as the form says it.
    private static String said(Watch watch, Catalog catalog) {
        return catalog.watchByWord(watch.name()).isPresent() ? watch.name() : watch.rule();
    }

    private static Start open(Box box, List<String> watches) {
        List<Field> fields = new ArrayList<>();
        fields.add(new Field("box", Long.toString(box.id().number())));
        watches.forEach(watch -> fields.add(new Field("watch", watch)));
        return new Start(t("today.open", box.details().label()), what(box, watches), List.copyOf(fields));
    }

    private static Start again(State book, Box box, List<String> watches) {
        BoxDetails details = box.details();
        List<Field> fields = new ArrayList<>();
        fields.add(new Field("denomination", box.denomination().toString()));
        fields.add(new Field("form", details.form().name().toLowerCase(java.util.Locale.ROOT)));
        fields.add(new Field("count", "1"));
        fields.add(new Field("label", Beginning.nextLabel(book.hunt(), box)));
        fields.add(new Field("rolls", details.rolls() == 0 ? "" : Integer.toString(details.rolls())));
        fields.add(new Field("coins", details.looseCoins() == 0 ? "" : Integer.toString(details.looseCoins())));
        fields.add(new Field("bank", details.bank()));
        fields.add(new Field("branch", details.branch()));
        fields.add(new Field("wrap", details.wrap()));
        watches.forEach(watch -> fields.add(new Field("watch", watch)));
        return new Start(t("today.again"), what(box, watches), List.copyOf(fields));
    }

    private static String what(Box box, List<String> watches) {
        String watched = watches.isEmpty() ? t("today.nothing-watched") : String.join(", ", watches);
        List<String> parts = new ArrayList<>(List.of(box.denomination().toString()));
        if (box.details().rolls() > 0) {
            parts.add(t("today.rolls", box.details().rolls()));
        }
        parts.add(box.details().bank());
        parts.add(box.details().branch());
        parts.add(watched);
        return parts.stream().filter(part -> !part.isBlank()).collect(Collectors.joining(" · "));
    }
}
