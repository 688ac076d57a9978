package org.rollwright.recap;

import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.labelled;
import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.ToLongFunction;
import java.util.stream.Collectors;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.coin.Denomination;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.BoxReport;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.HuntBook;
import org.rollwright.hunt.Tally;
import org.rollwright.hunt.Watch;

/// A hunt in a few numbers and words, for a card, a page and a text. No bank, town or value is in it.
///
/// @param searched coins looked at
/// @param tallies what was watched for, with counts in this hunt and the whole series
/// @param best best finds in words, the best first
/// @param boxes each box with its finds and, once searched to the end, its rank
/// @param race the box in hand against another one
/// @param strip finds in each roll of the box in hand; -1 for a roll not searched
public record Story(
        String title,
        String coins,
        long searched,
        int found,
        List<Count> tallies,
        List<String> best,
        List<BoxLine> boxes,
        List<Integer> strip,
        Optional<String> last,
        Optional<Race> race) {
    /// One tally.
    public record Count(String name, long hunt, long series) {}

    /// One box.
    ///
    /// @param rank 0 until it is searched to the end
    /// @param of how many boxes were searched to the end
    public record BoxLine(String name, int found, int rank, int of) {
        /// Finds of the box, with its rank when it has one among others.
        public String words() {
            return rank > 0 && of > 1
                    ? t("recap.box-finds-number-of", found, name, rank, of)
                    : t("recap.finds-of-box", found, name);
        }
    }

    private static final int BEST = 10;

    public Story {
        tallies = List.copyOf(tallies);
        best = List.copyOf(best);
        boxes = List.copyOf(boxes);
        strip = List.copyOf(strip);
    }

    /// @param worth by which the best finds are told
    public static Story of(HuntBook book, Hunt hunt, Worth worth) {
        Catalog catalog = worth.catalog();
        List<Find> finds =
                hunt.finds().stream().map(book::find).flatMap(Optional::stream).toList();
        List<Box> boxes =
                hunt.boxes().stream().map(book::box).flatMap(Optional::stream).toList();
        Denomination denomination =
                boxes.isEmpty() ? Denomination.US_CENT : boxes.getFirst().denomination();
        List<Count> tallies = new ArrayList<>();
        for (Watch watch : hunt.watches()) {
            if (!watch.rule().equals("everything")) {
                tallies.add(new Count(
                        watch.name(),
                        Tally.watched(finds, watch, catalog, denomination.country()),
                        Tally.watchedInSeries(book, watch, catalog, denomination)));
            }
        }
        List<String> best = worth.best(finds, denomination, BEST);
        List<BoxLine> lines = new ArrayList<>();
        for (Box box : boxes) {
            BoxReport report = BoxReport.of(book, box, catalog);
            lines.add(new BoxLine(box.details().label(), report.foundCoins(), report.rank(), report.ranked()));
        }
        return new Story(
                hunt.name(),
                catalog.facts(denomination).map(DenominationFacts::name).orElse(denomination.key()),
                boxes.stream().mapToLong(Box::searchedCoins).sum(),
                Tally.coins(finds),
                tallies,
                best,
                lines,
                strip(book, hunt),
                finds.isEmpty() ? Optional.empty() : Optional.of(worth.words(finds.getLast(), denomination)),
                Race.of(book, hunt));
    }

    /// How long the bar of a roll on the strip is, in tenths of the longest.
    public int tenths(int found) {
        int most = Math.max(1, strip.stream().mapToInt(Integer::intValue).max().orElse(1));
        return found <= 0 ? 0 : Math.max(1, Math.round(10f * found / most));
    }

    private static List<Integer> strip(HuntBook book, Hunt hunt) {
        Optional<Box> box = hunt.box()
                .or(() -> hunt.boxes().stream().findFirst().map((BoxId id) -> id))
                .flatMap(book::box);
        if (box.isEmpty()) {
            return List.of();
        }
        List<Find> finds = box.get().finds().stream()
                .map(book::find)
                .flatMap(Optional::stream)
                .toList();
        return BoxReport.strip(book, box.get(), finds).stream()
                .map(cell -> cell.coins() == 0
                                && (cell.state() == BoxReport.RollCell.State.UNSEARCHED
                                        || cell.state() == BoxReport.RollCell.State.LEFT)
                        ? -1
                        : cell.coins())
                .toList();
    }

    /// Tallies in a row, such as `3 wheat, 1 copper`.
    static String listed(List<Count> tallies, ToLongFunction<Count> of) {
        return tallies.stream()
                .map(count -> of.applyAsLong(count) + " " + count.name)
                .collect(Collectors.joining(", "));
    }

    /// Two sentences.
    public String shortText() {
        return f("recap.coins-of-looked-at", title, searched, coins, found)
                + (tallies.isEmpty() ? "" : " (" + listed(tallies, Count::hunt) + ")")
                + ". "
                + (best.isEmpty()
                        ? t("recap.skunked-this-time")
                        : t("recap.best", String.join(", ", best.subList(0, Math.min(3, best.size())))));
    }

    /// A few lines, with chapter times when there are some.
    public String longText(Afterwards after, Optional<Chapters> chapters) {
        StringBuilder text = new StringBuilder(shortText()).append("\n\n");
        for (BoxLine box : boxes) {
            text.append(
                            box.rank > 0 && box.of > 1
                                    ? t("recap.box-rank", box.found, box.name, box.rank, box.of)
                                    : t("recap.finds-of-box", box.found, box.name))
                    .append('\n');
        }
        if (!tallies.isEmpty()) {
            text.append('\n')
                    .append(t("recap.in-the-whole-series", listed(tallies, Count::series)))
                    .append('\n');
        }
        for (List<String> some : List.of(after.albums(), after.weights(), after.odds())) {
            if (!some.isEmpty()) {
                text.append('\n');
                some.forEach(one -> text.append(one).append(".\n"));
            }
        }
        if (best.size() > 3) {
            text.append('\n')
                    .append(labelled(t("recap.the-best-finds"), "").strip())
                    .append('\n');
            best.forEach(one -> text.append("- ").append(one).append('\n'));
        }
        chapters.ifPresent(made -> text.append('\n').append(made.text()));
        return text.toString();
    }
}
