package org.rollwright.web.boxes;

import static org.rollwright.text.Texts.t;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.coin.Denomination;
import org.rollwright.desk.State;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxReport;
import org.rollwright.text.Figures;
import org.rollwright.web.shell.Manner;
import org.rollwright.web.shell.Usual;

/// Every box, from order to return.
///
/// @param usual what forms hold at first
/// @param undoAsOf position of the journal the page shows
/// @param order what the list is sorted by: newest, finds or label
public record BoxesView(
        List<Group> groups,
        List<String> denominations,
        String chosen,
        String order,
        List<Balance> balances,
        Usual usual,
        String today,
        long undoAsOf,
        List<String> problems) {

    /// Boxes of this journal before those of an earlier time, which were written down later; those by their days.
    private static final Comparator<Box> NEWEST = Comparator.<Box, Boolean>comparing(
                    box -> box.earlier().isPresent())
            .thenComparing(
                    box -> box.earlier().isPresent() ? box.details().pickedUp() : null,
                    Comparator.nullsLast(Comparator.reverseOrder()))
            .thenComparing(
                    Comparator.comparingLong((Box box) -> box.id().number()).reversed());

    /// The boxes of one denomination.
    ///
    /// @param boxes how many, with those searched before this journal
    /// @param before how many of them only sums are known of
    /// @param finds coins found in boxes of this journal
    /// @param foundBefore what was found before, by watch: sums of two watches may hold the same coins
    /// @param average finds per box that was searched whole, blank when there is none
    public record Group(
            String denomination,
            int boxes,
            int before,
            long coins,
            int finds,
            String foundBefore,
            String average,
            List<Row> rows) {}

    /// One box.
    ///
    /// @param rank 0 until it is searched to the end
    public record Row(
            long id,
            String label,
            String day,
            String source,
            String wrap,
            String state,
            long coins,
            int finds,
            int rank) {}

    /// Boxes searched before this journal.
    public record Balance(String denomination, String watch, int boxes, long coins, long found) {}

    static BoxesView of(
            State book,
            Catalog catalog,
            Usual usual,
            LocalDate today,
            String chosen,
            String order,
            List<String> problems) {
        Map<Denomination, List<Box>> byDenomination = new LinkedHashMap<>();
        book.hunt()
                .boxes()
                .forEach(box -> byDenomination
                        .computeIfAbsent(box.denomination(), key -> new ArrayList<>())
                        .add(box));
        book.hunt()
                .balances()
                .forEach(balance -> byDenomination.computeIfAbsent(balance.denomination(), key -> new ArrayList<>()));
        List<Group> groups = new ArrayList<>();
        byDenomination.forEach((denomination, boxes) -> {
            if (chosen.isEmpty() || chosen.equals(denomination.toString())) {
                groups.add(group(book, denomination, boxes, order));
            }
        });
        return new BoxesView(
                groups,
                catalog.denominations().stream()
                        .map(facts -> facts.denomination().toString())
                        .toList(),
                chosen,
                order,
                book.hunt().balances().stream()
                        .map(balance -> new Balance(
                                balance.denomination().toString(),
                                balance.watch(),
                                balance.boxes(),
                                balance.coins(),
                                balance.found()))
                        .toList(),
                usual,
                today.toString(),
                book.last(),
                problems);
    }

    private static Group group(State book, Denomination denomination, List<Box> boxes, String order) {
        List<Integer> counts = boxes.stream()
                .filter(box -> BoxReport.Ranking.isOver(book.hunt(), box))
                .map(Box::foundCoins)
                .sorted(Comparator.reverseOrder())
                .toList();
        List<Row> rows = new ArrayList<>();
        for (Box box : boxes.stream().sorted(NEWEST).toList()) {
            BoxDetails details = box.details();
            rows.add(new Row(
                    box.id().number(),
                    details.label(),
                    day(details.pickedUp()),
                    details.branch().isEmpty() ? details.bank() : details.bank() + ", " + details.branch(),
                    details.wrapSaid(),
                    state(book, box),
                    box.searchedCoins(),
                    box.foundCoins(),
                    BoxReport.Ranking.isOver(book.hunt(), box) ? counts.indexOf(box.foundCoins()) + 1 : 0));
        }
        switch (order) {
            case "finds" -> rows.sort(Comparator.comparingInt(Row::finds).reversed());
            case "label" -> rows.sort(Comparator.comparing(Row::label));
            default -> {}
        }
        List<Box> whole = boxes.stream()
                .filter(box -> box.details().rolls() > 0
                        && box.details().form() == BoxDetails.Form.BOX
                        && box.searchedRolls() == box.details().rolls())
                .toList();
        String average = whole.isEmpty()
                ? ""
                : Figures.of(
                        "%.1f",
                        whole.stream().mapToInt(Box::foundCoins).average().orElse(0));
        return new Group(
                denomination.toString(),
                boxes.size() + book.hunt().boxesBefore(denomination),
                book.hunt().boxesBefore(denomination),
                boxes.stream().mapToLong(Box::searchedCoins).sum() + book.hunt().coinsBefore(denomination),
                boxes.stream().mapToInt(Box::foundCoins).sum(),
                book.hunt().balances().stream()
                        .filter(balance -> balance.denomination().equals(denomination))
                        .map(balance -> balance.found() + " " + balance.watch())
                        .collect(Collectors.joining(", ")),
                average,
                rows);
    }

    static String state(State book, Box box) {
        BoxDetails details = box.details();
        if (details.returned() != null) {
            return t("boxes.state-returned");
        }
        if (box.hunt().isEmpty()) {
            return box.earlier().isPresent()
                    ? t("boxes.searched-earlier")
                    : details.pickedUp() == null ? t("boxes.state-ordered") : t("boxes.state-waiting");
        }
        boolean over = box.hunt()
                .flatMap(book.hunt()::hunt)
                .map(hunt -> hunt.finished().isPresent())
                .orElse(false);
        return over ? t("boxes.state-searched") : t("boxes.under-way");
    }

    static Map<String, String> words(BoxReport report) {
        BoxDetails details = report.details();
        Map<String, String> words = new LinkedHashMap<>();
        put(words, t("boxes.bank-label"), details.bank());
        put(words, t("boxes.branch-label"), details.branch());
        put(words, t("boxes.wrapped-by-label"), details.wrapSaid());
        put(words, t("boxes.stamp-or-seal-label"), details.stamp());
        put(words, t("boxes.sister-boxes"), details.sisters());
        put(words, t("boxes.ordered-label"), day(details.ordered()));
        put(words, t("boxes.picked-up-label"), day(details.pickedUp()));
        put(words, t("boxes.returned-label"), day(details.returned()));
        put(words, t("boxes.returned-to"), details.returnedTo());
        put(words, t("boxes.note-label"), details.note());
        return words;
    }

    private static String day(@Nullable LocalDate day) {
        return day == null ? "" : Manner.day(day);
    }

    private static void put(Map<String, String> words, String key, String value) {
        if (!value.isEmpty()) {
            words.put(key, value);
        }
    }
}
