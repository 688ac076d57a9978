package org.rollwright.recap;

import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.coin.Denomination;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.HuntBook;
import org.rollwright.hunt.Tally;
import org.rollwright.hunt.Watch;

/// All boxes of one denomination, in numbers and words. No bank, town or value is in it.
///
/// @param boxes searched, those before the journal included
/// @param searched coins looked at
/// @param points the boxes in the order of the record
public record SeriesStory(
        String coins,
        int boxes,
        long searched,
        long found,
        List<Story.Count> tallies,
        List<Point> points,
        List<Tally.Line> decades,
        List<Tally.Line> mints,
        List<String> best,
        List<String> records) {
    /// A box on the chart.
    public record Point(String label, int found) {}

    private static final int BEST = 12;

    public SeriesStory {
        tallies = List.copyOf(tallies);
        points = List.copyOf(points);
        decades = List.copyOf(decades);
        mints = List.copyOf(mints);
        best = List.copyOf(best);
        records = List.copyOf(records);
    }

    /// @param worth by which the best finds are told
    public static SeriesStory of(HuntBook book, Worth worth, Denomination denomination) {
        Catalog catalog = worth.catalog();
        List<Box> boxes = book.boxes().stream()
                .filter(box -> box.denomination().equals(denomination) && box.touched())
                .toList();
        List<Find> finds = boxes.stream()
                .flatMap(box -> box.finds().stream())
                .map(book::find)
                .flatMap(Optional::stream)
                .toList();
        List<Point> points = boxes.stream()
                .map(box -> new Point(box.details().label(), box.foundCoins()))
                .toList();
        return new SeriesStory(
                catalog.facts(denomination).map(DenominationFacts::name).orElse(denomination.key()),
                Math.clamp(boxes.size() + book.boxesBefore(denomination), 0, Integer.MAX_VALUE),
                boxes.stream().mapToLong(Box::searchedCoins).sum() + book.coinsBefore(denomination),
                Tally.coins(finds),
                tallies(book, catalog, denomination),
                points,
                Tally.byDecade(finds),
                Tally.byMint(finds),
                worth.best(finds, denomination, BEST),
                records(points));
    }

    private static List<Story.Count> tallies(HuntBook book, Catalog catalog, Denomination denomination) {
        Map<String, Watch> watches = new LinkedHashMap<>();
        for (Hunt hunt : book.hunts()) {
            boolean ours = hunt.boxes().stream()
                    .map(book::box)
                    .flatMap(Optional::stream)
                    .anyMatch(box -> box.denomination().equals(denomination));
            if (ours) {
                hunt.watches().stream()
                        .filter(watch -> !watch.rule().equals("everything"))
                        .forEach(watch -> watches.putIfAbsent(watch.name(), watch));
            }
        }
        return watches.values().stream()
                .map(watch ->
                        new Story.Count(watch.name(), 0, Tally.watchedInSeries(book, watch, catalog, denomination)))
                .toList();
    }

    private static List<String> records(List<Point> points) {
        List<String> records = new ArrayList<>();
        points.stream()
                .max(Comparator.comparingInt(Point::found))
                .filter(point -> point.found > 0)
                .ifPresent(point -> records.add(t("recap.best-box-with-finds", point.label, point.found)));
        long skunked = points.stream().filter(point -> point.found == 0).count();
        if (skunked > 0) {
            records.add(t("recap.boxes-showed-nothing", skunked));
        }
        if (points.size() > 1) {
            records.add(f(
                    "recap.average",
                    points.stream().mapToInt(Point::found).average().orElse(0),
                    points.size()));
        }
        return records;
    }

    /// One paragraph to paste.
    public String text() {
        return f("recap.series-so-far", boxes, coins, searched, found)
                + (tallies.isEmpty() ? "" : " (" + Story.listed(tallies, Story.Count::series) + ")")
                + "."
                + (records.isEmpty() ? "" : " " + String.join(". ", records) + ".");
    }
}
