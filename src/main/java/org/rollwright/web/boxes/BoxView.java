package org.rollwright.web.boxes;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.rollwright.catalog.Catalog;
import org.rollwright.coin.Denomination;
import org.rollwright.desk.State;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxReport;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.Tally;

/// One box, its report and what is known of it.
///
/// @param hunt number of the hunt that searches it, 0 while none does
public record BoxView(
        long id,
        String label,
        String denomination,
        String state,
        long hunt,
        BoxReport report,
        Map<String, String> facts,
        RollStrip strip,
        List<Breakdown> breakdowns,
        List<Dated> dates,
        List<RollFinds> byRoll,
        List<String> sisters,
        BoxDetails details,
        List<String> problems) {

    /// Counts under one heading.
    ///
    /// @param most the greatest count, for the length of the bars
    public record Breakdown(String title, int most, List<Tally.Line> lines) {}

    /// Coins of one date and mint.
    public record Dated(String name, int coins) {}

    /// The finds of one roll.
    public record RollFinds(String roll, List<String> finds) {}

    public static BoxView of(State book, Box box, Catalog catalog, List<String> problems) {
        BoxReport report = BoxReport.of(book.hunt(), box, catalog);
        Denomination denomination = box.denomination();
        List<Breakdown> breakdowns = new ArrayList<>();
        add(breakdowns, t("box.watched-for"), report.byWatch());
        add(breakdowns, t("box.by-decade"), report.byDecade());
        add(breakdowns, t("box.by-mint"), report.byMint());
        add(breakdowns, t("box.by-series"), report.bySeries());
        add(breakdowns, t("box.by-metal"), report.byMetal());
        List<Dated> dates = new ArrayList<>();
        report.identities()
                .forEach((identity, coins) -> dates.add(new Dated(catalog.name(identity, denomination), coins)));
        return new BoxView(
                box.id().number(),
                box.details().label(),
                denomination.toString(),
                BoxesView.state(book, box),
                box.hunt().map(org.rollwright.hunt.HuntId::number).orElse(0L),
                report,
                BoxesView.words(report),
                RollStrip.of(report.strip()),
                breakdowns,
                dates,
                byRoll(report, catalog, denomination),
                sisters(book, box),
                box.details(),
                problems);
    }

    private static void add(List<Breakdown> into, String title, List<Tally.Line> lines) {
        if (!lines.isEmpty()) {
            into.add(new Breakdown(
                    title,
                    Math.max(1, lines.stream().mapToInt(Tally.Line::coins).max().orElse(1)),
                    lines));
        }
    }

    private static List<RollFinds> byRoll(BoxReport report, Catalog catalog, Denomination denomination) {
        Map<Integer, List<String>> rolls = new TreeMap<>();
        for (Find find : report.finds()) {
            String name = (find.count() > 1 ? find.count() + " × " : "")
                    + catalog.name(find.facts().identity(), denomination)
                    + (find.facts().state().isEmpty() ? "" : " " + find.facts().state())
                    + (find.ender() ? " (" + t("box.ender-word") + ")" : "");
            rolls.computeIfAbsent(find.roll(), key -> new ArrayList<>()).add(name);
        }
        List<RollFinds> lines = new ArrayList<>();
        rolls.forEach((roll, names) ->
                lines.add(new RollFinds(roll == 0 ? t("box.no-roll") : t("box.roll-word", roll), names)));
        return lines;
    }

    private static List<String> sisters(State book, Box box) {
        String word = box.details().sisters();
        Map<Long, String> lines = new LinkedHashMap<>();
        if (!word.isEmpty()) {
            book.hunt().boxes().stream()
                    .filter(other -> !other.id().equals(box.id())
                            && other.details().sisters().equals(word))
                    .forEach(other -> lines.put(
                            other.id().number(),
                            t(
                                    "box.sister-with-finds",
                                    other.foundCoins(),
                                    other.details().label())));
        }
        return List.copyOf(lines.values());
    }
}
