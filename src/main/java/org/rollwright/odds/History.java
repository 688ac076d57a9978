package org.rollwright.odds;

import static org.rollwright.text.Texts.t;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.Selection;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.HuntBook;
import org.rollwright.hunt.Roll;
import org.rollwright.hunt.Watch;

/// Exposure: what was found of a target, box by box, and how much was searched while it was watched for. A find
/// outside the watch is a find, but enters no rate.
///
/// @param boxes in order of the journal, only those with some exposure
/// @param before boxes searched before the journal began, as sums
public record History(Denomination denomination, Watch watch, List<BoxHistory> boxes, List<YieldModel.Seen> before) {
    /// The name of boxes whose source was not noted.
    static String unknownSource() {
        return t("odds.source-not-noted");
    }

    /// The name of what was searched before this journal.
    static String earlier() {
        return t("odds.before-this-journal");
    }

    public History {
        boxes = List.copyOf(boxes);
        before = List.copyOf(before);
    }

    /// Gathers the history of a target.
    ///
    /// @param coinsPerBox coins of a full box of the denomination
    public static History of(HuntBook book, Catalog catalog, Denomination denomination, Watch watch, long coinsPerBox) {
        Target target = new Target(catalog, denomination, watch);
        List<BoxHistory> boxes = new ArrayList<>();
        List<YieldModel.Seen> before = new ArrayList<>();
        for (Box box : book.boxes()) {
            if (!box.denomination().equals(denomination)) {
                continue;
            }
            box.earlier()
                    .ifPresent(earlier -> earlier.counts().stream()
                            .filter(count -> count.watch().name().equals(watch.name()) && earlier.coins() > 0)
                            .forEach(count -> before.add(new YieldModel.Seen(
                                    source(box.details()), 1, earlier.coins() / (double) coinsPerBox, count.found()))));
            BoxHistory one = box(book, box, watch, target, coinsPerBox);
            if (one != null) {
                boxes.add(one);
            }
        }
        for (HuntBook.Balance balance : book.balances()) {
            boolean ours = balance.denomination().equals(denomination)
                    && balance.watch().equals(watch.name());
            if (ours && balance.boxes() > 0 && balance.coins() > 0) {
                before.add(new YieldModel.Seen(
                        earlier(), balance.boxes(), balance.coins() / (double) coinsPerBox, balance.found()));
            }
        }
        return new History(denomination, watch, boxes, before);
    }

    /// One box of a history by itself, empty when nothing of it was searched while watching.
    public static java.util.Optional<BoxHistory> ofBox(
            HuntBook book, Catalog catalog, Box box, Watch watch, long coinsPerBox) {
        Target target = new Target(catalog, box.denomination(), watch);
        return java.util.Optional.ofNullable(box(book, box, watch, target, coinsPerBox));
    }

    private static final class Target {
        private final Catalog catalog;
        private final Denomination denomination;
        private final @Nullable Selection selection;
        private final Map<Identity, Boolean> known = new HashMap<>();

        Target(Catalog catalog, Denomination denomination, Watch watch) {
            this.catalog = catalog;
            this.denomination = denomination;
            this.selection =
                    Selection.parse(watch.rule()) instanceof Selection.Parsed.Good good ? good.selection() : null;
        }

        boolean matches(CoinDescription coin) {
            Selection rule = selection;
            if (rule == null) {
                return false;
            }
            if (rule.looksAtState()) {
                return rule.selects(coin, catalog.lookup(coin.identity()), denomination.country());
            }
            return known.computeIfAbsent(coin.identity(), identity -> {
                List<Issue> issues = catalog.lookup(identity);
                return rule.selects(coin, issues, denomination.country());
            });
        }
    }

    private static @Nullable BoxHistory box(HuntBook book, Box box, Watch watch, Target target, long coinsPerBox) {
        BoxDetails details = box.details();
        Map<Integer, Integer> perRoll = new TreeMap<>();
        long coins = 0;
        for (Roll roll : box.rolls()) {
            boolean watched = roll.watches().stream().anyMatch(one -> one.name().equals(watch.name()));
            if (roll.searched() && watched) {
                perRoll.put(roll.number(), 0);
                coins += roll.coins(details.coinsPerRoll());
            }
        }
        boolean loose = Exposure.isLoose(box)
                && box.hunt()
                        .flatMap(book::hunt)
                        .filter(hunt -> hunt.watches().stream()
                                .anyMatch(one -> one.name().equals(watch.name())))
                        .isPresent();
        if (loose) {
            coins += details.looseCoins();
        }
        if (coins == 0) {
            return null;
        }
        int found = 0;
        Map<String, Integer> dates = new HashMap<>();
        LocalDate day = details.pickedUp();
        for (var id : box.finds()) {
            Find find = book.find(id).orElseThrow();
            if (day == null) {
                day = find.at().atOffset(ZoneOffset.UTC).toLocalDate();
            }
            boolean exposed = perRoll.containsKey(find.roll()) || (loose && find.roll() == 0);
            if (exposed && target.matches(find.facts())) {
                found += find.count();
                dates.merge(find.facts().identity().dateAndMint(), find.count(), Integer::sum);
                if (find.roll() > 0) {
                    perRoll.merge(find.roll(), find.count(), Integer::sum);
                }
            }
        }
        int matching = 0;
        int visible = 0;
        for (Box.Enders enders : box.enders()) {
            matching += enders.matching();
            visible += enders.visible();
        }
        return new BoxHistory(
                box.id(),
                details.label(),
                source(details),
                details.wrap(),
                details.sisters(),
                day,
                coinsPerBox,
                coins,
                found,
                List.copyOf(perRoll.values()),
                List.copyOf(perRoll.keySet()),
                matching,
                visible,
                details.rolls() > 0 && perRoll.size() == details.rolls(),
                dates);
    }

    /// What the source of a box is called: bank, branch and wrap as far as they are known.
    public static String source(BoxDetails details) {
        String name = (details.bank() + (details.branch().isEmpty() ? "" : ", " + details.branch())).strip();
        String source = name.isEmpty() ? unknownSource() : name;
        return details.wrap().isEmpty() ? source : t("odds.source-wrapped", source, details.wrapSaid());
    }

    /// Everything the yield model may learn from, without one box when it is to be judged.
    public List<YieldModel.Seen> seen(@Nullable BoxHistory without) {
        List<YieldModel.Seen> seen = new ArrayList<>(before);
        boxes.stream().filter(box -> !box.equals(without)).map(BoxHistory::seen).forEach(seen::add);
        return seen;
    }

    /// Coins searched while watching, the sums from before included.
    public long coins() {
        long coins = boxes.stream().mapToLong(BoxHistory::exposedCoins).sum();
        double full = boxes.isEmpty() ? 0 : boxes.getFirst().fullCoins();
        return coins
                + Math.round(before.stream()
                        .mapToDouble(one -> one.fullBoxes() * full)
                        .sum());
    }

    /// Found while watching, the sums from before included.
    public long found() {
        return boxes.stream().mapToLong(BoxHistory::found).sum()
                + before.stream().mapToLong(YieldModel.Seen::found).sum();
    }

    /// In order of day, unknown days in the order of the journal at the end.
    List<BoxHistory> byDay() {
        return boxes.stream()
                .sorted(Comparator.comparing(BoxHistory::day, Comparator.nullsLast(Comparator.naturalOrder())))
                .toList();
    }
}
