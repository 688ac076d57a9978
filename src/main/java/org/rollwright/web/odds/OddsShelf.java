package org.rollwright.web.odds;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.rollwright.album.AlbumShelves;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.catalog.Issue;
import org.rollwright.coin.Denomination;
import org.rollwright.desk.State;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.Watch;
import org.rollwright.odds.BoxHistory;
import org.rollwright.odds.EnderHistory;
import org.rollwright.odds.EnderLook;
import org.rollwright.odds.History;
import org.rollwright.odds.OddsReport;
import org.rollwright.odds.Pace;
import org.rollwright.odds.YieldModel;
import org.rollwright.text.Texts;
import org.rollwright.web.shell.Bench;

/// The odds as the pages need them: the report kept for one state of the journal, and what the other boxes say
/// of the one in hand kept while only that one changes. Thread-safe.
public final class OddsShelf {
    private record Kept(long at, String key, OddsReport report) {}

    private record Others(long hunt, String key, YieldModel model, double count, EnderHistory enders) {}

    private static final int FEWEST_OTHERS = 3;
    private static final int FEWEST_ROLLS = 5;

    private final Bench bench;
    private final AlbumShelves albums;
    private volatile @Nullable Kept kept;
    private volatile @Nullable Others others;

    public OddsShelf(Bench bench, AlbumShelves albums) {
        this.bench = bench;
        this.albums = albums;
        bench.desk().listen(entry -> {
            Others known = others;
            if (known != null && entry.scope() != known.hunt) {
                others = null;
            }
        });
    }

    OddsReport report(State book, Denomination denomination, Watch watch) {
        // its sentences are in one language
        String key = denomination + "|" + watch.name() + "|" + watch.rule() + "|" + Texts.language();
        Kept known = kept;
        if (known != null && known.at == book.last() && known.key.equals(key)) {
            return known.report;
        }
        OddsReport report = build(book, bench.catalog(), albums, denomination, watch);
        kept = new Kept(book.last(), key, report);
        return report;
    }

    static OddsReport build(State book, Catalog catalog, AlbumShelves albums, Denomination denomination, Watch watch) {
        long perBox =
                catalog.facts(denomination).map(DenominationFacts::coinsPerBox).orElse(2_500L);
        History history = History.of(book.hunt(), catalog, denomination, watch, perBox);
        List<OddsReport.Wanted> wanted = new ArrayList<>();
        albums.states(book.album(), book.holdings()).forEach(state -> {
            Map<String, List<Issue>> empty = state.emptyHoles(denomination);
            if (!empty.isEmpty()) {
                wanted.add(new OddsReport.Wanted(state.name(), empty));
            }
        });
        return OddsReport.of(book.hunt(), book.scope(), catalog, history, perBox, wanted);
    }

    /// What the hunter's own history says of the box in hand: enders before the first roll, pace from the fifth
    /// roll on.
    public List<String> side(State book, Hunt hunt, Box box) {
        List<String> words = new ArrayList<>();
        if (hunt.watches().isEmpty()
                || hunt.finished().isPresent()
                || box.details().rolls() == 0) {
            return words;
        }
        Watch watch = hunt.watches().getFirst();
        boolean enders = !box.enders().isEmpty() && box.searchedRolls() < FEWEST_ROLLS;
        boolean pace = box.searchedRolls() >= FEWEST_ROLLS
                && box.searchedRolls() < box.details().rolls();
        if (!enders && !pace) {
            return words;
        }
        long perBox = Math.max(1, box.details().nominalCoins());
        Others known = others(book, hunt, box, watch, perBox);
        if (known.count < FEWEST_OTHERS) {
            return words;
        }
        if (enders) {
            int matching = box.enders().stream().mapToInt(Box.Enders::matching).sum();
            int visible = box.enders().stream().mapToInt(Box.Enders::visible).sum();
            if (visible <= perBox && matching <= visible) {
                words.add(known.enders.sentence(
                        new EnderLook((int) perBox, known.enders.a(), known.enders.b(), visible, matching),
                        watch.name()));
            }
        }
        if (pace) {
            Optional<BoxHistory> now = History.ofBox(book.hunt(), bench.catalog(), box, watch, perBox);
            now.ifPresent(seen ->
                    words.add(Pace.of(known.model, watch.name(), seen, Math.max(0, perBox - seen.exposedCoins()))
                            .sentence()));
        }
        return words;
    }

    private Others others(State book, Hunt hunt, Box box, Watch watch, long perBox) {
        String key = box.id() + "|" + watch.name() + "|" + Texts.language();
        Others known = others;
        if (known != null && known.hunt == hunt.id().number() && known.key.equals(key)) {
            return known;
        }
        History all = History.of(book.hunt(), bench.catalog(), box.denomination(), watch, perBox);
        History without = new History(
                all.denomination(),
                all.watch(),
                all.boxes().stream().filter(one -> !one.id().equals(box.id())).toList(),
                all.before());
        double count = without.boxes().size()
                + without.before().stream().mapToDouble(YieldModel.Seen::boxes).sum();
        Others fresh = new Others(
                hunt.id().number(), key, YieldModel.fit(without.seen(null)), count, EnderHistory.of(without));
        others = fresh;
        return fresh;
    }
}
