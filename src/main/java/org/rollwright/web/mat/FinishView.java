package org.rollwright.web.mat;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.List;
import org.rollwright.catalog.Catalog;
import org.rollwright.desk.State;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.BoxReport;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.HuntId;

/// What is looked at before a hunt is called finished: rolls left out, counts, finds without a decision.
public record FinishView(long hunt, String name, List<BoxLine> boxes, int finds, int undecided, List<String> open) {

    /// How a box stands.
    public record BoxLine(
            long id, String label, long searched, int rolls, long coins, long nominal, long difference, int finds) {}

    static FinishView of(State book, long number, Catalog catalog) {
        Hunt hunt = book.hunt().hunt(new HuntId(number)).orElseThrow();
        List<BoxLine> lines = new ArrayList<>();
        List<String> open = new ArrayList<>();
        for (var id : hunt.boxes()) {
            Box box = book.hunt().box(id).orElseThrow();
            BoxReport report = BoxReport.of(book.hunt(), box, catalog);
            lines.add(new BoxLine(
                    id.number(),
                    box.details().label(),
                    report.searchedRolls(),
                    box.details().rolls(),
                    report.searchedCoins(),
                    report.nominalCoins(),
                    report.difference(),
                    report.foundCoins()));
            long missing = report.strip().stream()
                    .filter(cell -> cell.state() == BoxReport.RollCell.State.UNSEARCHED)
                    .count();
            if (missing > 0) {
                open.add(
                        t("finish.rolls-were-not-opened", missing, box.details().label()));
            }
            boolean after = report.finds().stream().anyMatch(find -> find.roll() == 0)
                    && box.details().rolls() > 0;
            if (after) {
                open.add(t("finish.in-no-roll", box.details().label()));
            }
        }
        List<Find> finds = hunt.finds().stream()
                .map(id -> book.hunt().find(id).orElseThrow())
                .toList();
        long untold = finds.stream()
                .filter(find -> catalog.lookup(find.facts().identity()).size() > 1)
                .count();
        if (untold > 0) {
            open.add(t("finish.finds-of-several-kinds", untold));
        }
        int undecided = book.undecided(hunt.id());
        return new FinishView(number, hunt.name(), lines, hunt.foundCoins(), undecided, open);
    }
}
