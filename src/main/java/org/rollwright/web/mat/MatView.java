package org.rollwright.web.mat;

import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.labelled;
import static org.rollwright.text.Texts.t;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.rollwright.album.HoleAlert;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.coin.Denomination;
import org.rollwright.desk.State;
import org.rollwright.entry.FindText;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.BoxReport;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.FindId;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.Milestones;
import org.rollwright.hunt.Roll;
import org.rollwright.hunt.Tally;
import org.rollwright.hunt.Tempo;
import org.rollwright.hunt.Watch;
import org.rollwright.scope.AttributionNote;
import org.rollwright.scope.Investigation;
import org.rollwright.scope.Prompt;
import org.rollwright.scope.Variety;
import org.rollwright.scope.VarietyShelf;
import org.rollwright.text.Figures;
import org.rollwright.web.albums.AlbumShelf;
import org.rollwright.web.odds.OddsShelf;
import org.rollwright.web.scope.AttributionView;
import org.rollwright.web.shell.CoinPictures;
import org.rollwright.web.shell.Coins;

/// Everything the Mat shows of a hunt, ready to print.
///
/// @param roll the roll in hand, 0 before the first or in a parcel without rolls
/// @param rolls rolls in the box in hand
/// @param last the find logged last, null before the first
public record MatView(
        long hunt,
        String name,
        String denomination,
        String boxLabel,
        int boxOrdinal,
        int boxCount,
        long boxId,
        int roll,
        int rolls,
        @Nullable Integer rollCoins,
        boolean finished,
        List<String> watches,
        List<TallyRow> tallies,
        List<StripCell> strip,
        @Nullable LastFind last,
        List<FindRow> finds,
        int findCount,
        List<String> side,
        boolean canUndo,
        boolean canRedo) {

    /// How many finds are listed; the box report has them all.
    static final int LISTED = 30;

    /// How many varieties are prompted for; the attribution has them all.
    private static final int PROMPTED = 4;

    /// The share of a watch from which it is told (our own).
    private static final double LEAST_SHARE = 0.01;

    /// One line of the running tally.
    ///
    /// @param share of the box's searched coins in percent, blank below one in a hundred
    public record TallyRow(String label, long box, String share, long hunt, long series) {}

    /// One roll on the strip.
    ///
    /// @param kind style: unsearched, in-hand, searched or left
    /// @param level 0 to 4, how tall the bar is
    /// @param spoken what a screen reader says
    public record StripCell(int number, String kind, int coins, int level, String off, String spoken) {}

    /// The find logged last, with what matters about it now.
    public record LastFind(
            int ordinal,
            String name,
            String state,
            int count,
            String place,
            String check,
            List<PromptLine> prompts,
            int morePrompts,
            List<String> milestones,
            List<Alert> alerts,
            Coins.Coin coin,
            CoinPictures.Look look) {}

    /// A variety worth a look on the find.
    ///
    /// @param oneIn about one coin in so many of its date
    /// @param checked whether this find was looked at for it already
    public record PromptLine(String key, String name, String where, String look, String oneIn, boolean checked) {}

    /// What a coin does for an album.
    ///
    /// @param kind style: fills, upgrades, may or have
    public record Alert(String kind, String text) {}

    /// A find in the list.
    ///
    /// @param line the entry line that reads back as this find, for editing in place
    public record FindRow(
            int ordinal,
            String name,
            String state,
            String note,
            int count,
            int box,
            int roll,
            boolean ender,
            String disposition,
            String line,
            String time,
            String attribution,
            Coins.Coin coin) {}

    static MatView of(
            State book, Hunt hunt, Catalog catalog, VarietyShelf varieties, AlbumShelf shelf, OddsShelf odds) {
        Box box = hunt.box().flatMap(book.hunt()::box).orElseThrow();
        Denomination denomination = box.denomination();
        List<Find> boxFinds = finds(book, box.finds());
        List<Find> huntFinds = finds(book, hunt.finds());
        List<BoxReport.RollCell> cells = BoxReport.strip(book.hunt(), box, boxFinds);
        Roll inHand = box.roll(hunt.roll());
        return new MatView(
                hunt.id().number(),
                hunt.name(),
                catalog.facts(denomination).map(DenominationFacts::name).orElse(denomination.key()),
                box.details().label(),
                hunt.boxes().indexOf(box.id()) + 1,
                hunt.boxes().size(),
                box.id().number(),
                hunt.roll(),
                box.details().rolls(),
                inHand == null ? null : inHand.counted(),
                hunt.finished().isPresent(),
                hunt.watches().stream().map(Watch::name).toList(),
                tallies(book, hunt, catalog, denomination, box, boxFinds, huntFinds),
                cells.stream().map(MatView::cell).toList(),
                last(book, hunt, catalog, denomination, varieties, shelf),
                rows(book, hunt, catalog, denomination, varieties),
                hunt.finds().size(),
                side(box, hunt.finished().isPresent(), odds.side(book, hunt, box)),
                book.canUndo(hunt.id().number()),
                book.canRedo(hunt.id().number()));
    }

    private static List<Find> finds(State book, List<FindId> ids) {
        return ids.stream().map(id -> book.hunt().find(id).orElseThrow()).toList();
    }

    private static List<TallyRow> tallies(
            State book,
            Hunt hunt,
            Catalog catalog,
            Denomination denomination,
            Box box,
            List<Find> boxFinds,
            List<Find> huntFinds) {
        List<TallyRow> rows = new ArrayList<>();
        long series = book.hunt().boxes().stream()
                .filter(other -> other.denomination().equals(denomination))
                .mapToLong(Box::foundCoins)
                .sum();
        rows.add(new TallyRow(t("mat.finds"), Tally.coins(boxFinds), "", Tally.coins(huntFinds), series));
        for (Watch watch : hunt.watches()) {
            if (!watch.rule().equals("everything")) {
                rows.add(new TallyRow(
                        watch.name(),
                        Tally.watched(boxFinds, watch, catalog, denomination.country()),
                        share(Tally.share(box, boxFinds, watch, catalog)),
                        Tally.watched(huntFinds, watch, catalog, denomination.country()),
                        Tally.watchedInSeries(book.hunt(), watch, catalog, denomination)));
            }
        }
        return rows;
    }

    public static StripCell cell(BoxReport.RollCell cell) {
        String kind =
                switch (cell.state()) {
                    case UNSEARCHED -> "unsearched";
                    case IN_HAND -> "in-hand";
                    case SEARCHED -> "searched";
                    case PARTLY -> "left partly";
                    case LEFT -> "left";
                };
        int level = cell.coins() == 0 ? 0 : cell.coins() == 1 ? 1 : cell.coins() <= 3 ? 2 : cell.coins() <= 7 ? 3 : 4;
        String off =
                cell.difference() == 0 ? "" : cell.difference() > 0 ? "+" + cell.difference() : "" + cell.difference();
        String state =
                switch (cell.state()) {
                    case UNSEARCHED -> t("mat.not-searched");
                    case IN_HAND -> t("mat.in-hand", found(cell.coins()));
                    case SEARCHED -> found(cell.coins());
                    case PARTLY -> t("mat.left-partly", found(cell.coins()));
                    case LEFT -> t("mat.left-unsearched");
                };
        String spoken = off.isEmpty()
                ? t("mat.roll-and-state", cell.number(), state)
                : t("mat.roll-state-and-off", cell.number(), state, off);
        return new StripCell(cell.number(), kind, cell.coins(), level, off, spoken);
    }

    private static String found(int coins) {
        return coins == 0 ? t("mat.no-finds") : t("mat.finds-of-roll", coins);
    }

    private static @Nullable LastFind last(
            State book,
            Hunt hunt,
            Catalog catalog,
            Denomination denomination,
            VarietyShelf varieties,
            AlbumShelf shelf) {
        if (hunt.finds().isEmpty()) {
            return null;
        }
        Find find = book.hunt().find(hunt.finds().getLast()).orElseThrow();
        List<Prompt> prompts =
                varieties.prompts(book.scope(), book.hunt(), find.facts().identity());
        String check = prompts.isEmpty() ? checks(catalog, find) : "";
        return new LastFind(
                find.ordinal(),
                catalog.name(find.facts().identity(), denomination),
                find.facts().state(),
                find.count(),
                place(hunt, find),
                check,
                prompts.stream()
                        .limit(PROMPTED)
                        .map(prompt -> promptLine(hunt, find, prompt))
                        .toList(),
                Math.max(0, prompts.size() - PROMPTED),
                Milestones.of(book.hunt(), find, catalog),
                shelf.alerts(book, find).stream().map(MatView::alert).toList(),
                coin(book, catalog, find),
                prompts.stream()
                        .findFirst()
                        .map(prompt -> look(catalog, find, prompt.variety()))
                        .orElse(CoinPictures.Look.NONE));
    }

    private static PromptLine promptLine(Hunt hunt, Find find, Prompt prompt) {
        String where = prompt.variety().where();
        String look = prompt.variety().markers().getFirst().text();
        return new PromptLine(
                prompt.variety().key(),
                prompt.variety().name(),
                where,
                // the place is said in front of it; once is enough
                look.startsWith(where + " ") ? look.substring(where.length() + 1) : look,
                Figures.whole(prompt.oneIn()),
                hunt.trials()
                        .contains(new Hunt.Trial(find.id(), prompt.variety().key())));
    }

    static Alert alert(HoleAlert alert) {
        return new Alert(
                switch (alert.kind()) {
                    case FILLS -> "fills";
                    case UPGRADES -> "upgrades";
                    case MAY_UPGRADE -> "may";
                    case HAVE -> "have";
                },
                alert.sentence());
    }

    static String checks(Catalog catalog, Find find) {
        return org.rollwright.entry.LookFor.on(catalog, find.facts().identity());
    }

    private static String place(Hunt hunt, Find find) {
        String roll = find.roll() == 0 ? t("mat.not-in-a-roll") : t("mat.roll-word", find.roll());
        return hunt.boxes().size() < 2
                ? roll
                : t("mat.box-and-roll", hunt.boxes().indexOf(find.box()) + 1, roll);
    }

    private static List<FindRow> rows(
            State book, Hunt hunt, Catalog catalog, Denomination denomination, VarietyShelf varieties) {
        List<FindId> ids = hunt.finds();
        List<FindRow> rows = new ArrayList<>();
        for (int i = ids.size() - 1; i >= Math.max(0, ids.size() - LISTED); i--) {
            Find find = book.hunt().find(ids.get(i)).orElseThrow();
            rows.add(new FindRow(
                    find.ordinal(),
                    catalog.name(find.facts().identity(), denomination),
                    find.facts().state(),
                    find.facts().note(),
                    find.count(),
                    hunt.boxes().indexOf(find.box()) + 1,
                    find.roll(),
                    find.ender(),
                    find.disposition().said(),
                    FindText.print(find, catalog, denomination),
                    time(find.at()),
                    attribution(book, varieties, find),
                    coin(book, catalog, find)));
        }
        return rows;
    }

    /// Where to look for a variety, on a coin of the find's date.
    private static CoinPictures.Look look(Catalog catalog, Find find, Variety variety) {
        return catalog.lookup(find.facts().identity()).stream()
                .findFirst()
                .map(coin -> CoinPictures.look(catalog, coin, variety.looks(), !variety.lacksMintMark()))
                .orElse(CoinPictures.Look.NONE);
    }

    private static Coins.Coin coin(State book, Catalog catalog, Find find) {
        return Coins.seen(book, catalog, Optional.of(find.id()), find.facts(), null);
    }

    private static String attribution(State book, VarietyShelf varieties, Find find) {
        AttributionNote note = book.scope().attributions().get(find.id());
        if (note == null) {
            return "";
        }
        String name = AttributionView.name(book, varieties, note.variety());
        String verdict = Investigation.said(note.verdict());
        return name.isEmpty() ? verdict : labelled(verdict, name);
    }

    private static String time(Instant at) {
        return java.time.format.DateTimeFormatter.ofPattern("HH:mm", java.util.Locale.ROOT)
                .withZone(java.time.ZoneId.systemDefault())
                .format(at);
    }

    private static String share(double part) {
        return part < LEAST_SHARE ? "" : Figures.percent(part, 1);
    }

    private static List<String> side(Box box, boolean finished, List<String> odds) {
        List<String> words = new ArrayList<>();
        for (Box.Enders seen : box.enders()) {
            words.add(t("mat.enders-matched", seen.matching(), seen.visible()));
        }
        for (Box.Weight weight : box.weights()) {
            String what = weight.what().isEmpty() ? t("mat.weight") : weight.what();
            words.add(labelled(what, org.rollwright.entry.Sentence.weight(weight.mass())));
        }
        long searched = box.searchedCoins();
        long all = box.details().nominalCoins();
        words.add(t("mat.of-coins-searched", searched, all));
        Optional<Tempo> tempo = finished ? Optional.empty() : Tempo.of(box);
        tempo.ifPresent(known -> words.add(
                known.left().isZero()
                        ? f("mat.tempo", known.rollsAnHour())
                        : f(
                                "mat.tempo-and-left",
                                known.rollsAnHour(),
                                known.left().toHours(),
                                known.left().toMinutesPart())));
        words.addAll(odds);
        return words;
    }

    /// The view of a hunt by its number, empty when there is none.
    static Optional<MatView> find(
            State book, long hunt, Catalog catalog, VarietyShelf varieties, AlbumShelf shelf, OddsShelf odds) {
        return hunt < 1
                ? Optional.empty()
                : book.hunt()
                        .hunt(new org.rollwright.hunt.HuntId(hunt))
                        .map(known -> of(book, known, catalog, varieties, shelf, odds));
    }
}
