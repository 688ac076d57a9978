package org.rollwright.web.albums;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.rollwright.album.AlbumState;
import org.rollwright.album.Hole;
import org.rollwright.album.Proposal;
import org.rollwright.album.WantList;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.cabinet.OwnedCoin;
import org.rollwright.catalog.AlbumExample;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.Rarity;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Grade;
import org.rollwright.desk.State;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.FindId;
import org.rollwright.odds.OwnRates;
import org.rollwright.scope.PhotoNote;
import org.rollwright.scope.PhotoSubject;
import org.rollwright.text.Figures;

/// What the album pages show, ready to print.
public final class AlbumViews {
    private AlbumViews() {}

    /// The list of albums.
    ///
    /// @param rule what was typed into the form, kept when it was refused
    public record Shelf(
            List<Row> albums,
            List<AlbumExample> examples,
            String policy,
            String name,
            String rule,
            long undoAsOf,
            List<String> problems) {}

    /// One album in the list.
    public record Row(long id, String name, int filled, int holes, String rule) {}

    /// One album.
    public record Page(
            long id,
            String name,
            String rule,
            int filled,
            int holes,
            List<Cell> cells,
            List<Wish> wants,
            String wished,
            List<String> problems) {}

    /// What was typed in the forms of an album's page, one of which was refused: to be put right.
    ///
    /// @param ticked keys of holes that hold a coin
    /// @param takeOut the hole a coin was to be taken out of
    public record Typed(String holes, String grade, List<String> ticked, String name, String rule, String takeOut) {
        /// Whether anything was typed.
        public boolean isOwned() {
            return !holes.isEmpty() || !grade.isEmpty() || !ticked.isEmpty();
        }
    }

    /// One hole.
    ///
    /// @param state what lies there: grade, colour and so on; blank for an empty hole
    /// @param mark key, semi-key, scarce or blank
    public record Cell(String key, boolean filled, String state, String from, String note, String mark, long box) {}

    /// One line of the want list.
    ///
    /// @param boxes full boxes for an even chance by the hunter's own finds; blank when they say nothing of it
    public record Wish(String hole, String mark, String mintage, String has, String boxes) {}

    /// The outcome of comparing.
    ///
    /// @param hunt number of the hunt just finished, 0 when all finds are compared
    /// @param anyAlbum whether there is an album to compare with
    public record Compare(
            long hunt,
            boolean anyAlbum,
            List<Group> groups,
            List<Looking> looks,
            List<Telling> untold,
            List<Telling> varieties,
            int additions,
            int upgrades) {}

    /// Moves that are accepted together.
    ///
    /// @param photographs addresses that lay the photographs of old and new coin over each other
    public record Group(String mark, List<String> moves, boolean addition, List<String> photographs) {}

    /// Two coins to hold side by side.
    ///
    /// @param photographs address that lays their photographs over each other, blank unless both have one
    public record Looking(String where, String coin, String there, String reason, String photographs) {}

    /// A coin whose kind is to be told, or that is of a variety, and an empty hole.
    public record Telling(String coin, String where) {}

    static Row row(AlbumState state, String rule) {
        return new Row(
                state.id().number(),
                state.name(),
                filled(state),
                state.places().holes().size(),
                rule);
    }

    private static int filled(AlbumState state) {
        return (int) state.places().holes().stream()
                .filter(hole -> state.content().containsKey(hole.key()))
                .count();
    }

    public static Page page(
            State book, AlbumState state, String rule, String wished, OwnRates rates, List<String> problems) {
        Grade grade = Grade.parse(wished).orElse(null);
        List<Cell> cells = state.places().holes().stream()
                .map(hole -> cell(book, state, hole))
                .toList();
        List<Wish> wants = WantList.of(state, grade, ref -> gradeOf(book, ref), rates::boxes).stream()
                .map(want -> new Wish(
                        want.hole().key(),
                        want.rarity().said(),
                        want.mintage() == null ? "" : Figures.whole(want.mintage()),
                        want.has() == null ? "" : state(book, want.has()),
                        want.boxes().isPresent() ? boxes(want.boxes().getAsDouble()) : ""))
                .toList();
        return new Page(
                state.id().number(),
                state.name(),
                rule,
                filled(state),
                state.places().holes().size(),
                cells,
                wants,
                wished,
                problems);
    }

    private static String boxes(double boxes) {
        if (boxes > 1e7 || boxes < 1) {
            return boxes < 1 ? t("album.less-than-one") : t("album.more-than-a-lifetime");
        }
        return Figures.of(boxes < 10 ? "%.1f" : "%,.0f", boxes);
    }

    private static @Nullable Grade gradeOf(State book, CoinRef ref) {
        return book.holdings().coin(ref).map(coin -> coin.description().grade()).orElse(null);
    }

    private static String state(State book, CoinRef ref) {
        return book.holdings()
                .coin(ref)
                .map(coin -> stateOf(coin.description()))
                .orElse("");
    }

    private static String stateOf(CoinDescription facts) {
        return facts.state().isEmpty() ? t("album.no-grade-told") : facts.state();
    }

    private static Cell cell(State book, AlbumState state, Hole hole) {
        Rarity rarity = hole.issues().getFirst().rarity();
        CoinRef ref = state.content().get(hole.key());
        Optional<OwnedCoin> coin =
                ref == null ? Optional.empty() : book.holdings().coin(ref);
        if (coin.isEmpty() || ref == null) {
            return new Cell(hole.key(), false, "", "", "", rarity.said(), 0);
        }
        long box = ref.findId()
                .flatMap(book.hunt()::find)
                .map(Find::box)
                .map(id -> id.number())
                .orElse(0L);
        return new Cell(
                hole.key(),
                true,
                stateOf(coin.get().description()),
                book.cabinet().cameFrom(coin.get()),
                coin.get().description().note(),
                rarity.said(),
                box);
    }

    private static List<Telling> tellings(State book, Catalog catalog, List<Proposal.Untold> some, long hunt) {
        return some.stream()
                .filter(one -> concerns(book, one.coin(), hunt))
                .map(one -> new Telling(
                        coin(book, catalog, one.coin()),
                        one.albumName() + ", "
                                + one.holes().stream()
                                        .map(Hole::key)
                                        .reduce((a, b) -> t("album.or", a, b))
                                        .orElse("")))
                .toList();
    }

    static Compare compare(State book, Catalog catalog, Proposal proposal, long hunt) {
        List<Group> groups = new ArrayList<>();
        for (int number : proposal.groups()) {
            List<Proposal.Move> moves = proposal.moves().stream()
                    .filter(move -> move.group() == number)
                    .toList();
            groups.add(new Group(
                    proposal.mark(number),
                    moves.stream().map(move -> sentence(book, catalog, move)).toList(),
                    moves.stream().allMatch(Proposal.Move::isAddition),
                    moves.stream()
                            .map(move -> photographs(book, move.displaced(), move.coin()))
                            .filter(address -> !address.isEmpty())
                            .toList()));
        }
        return new Compare(
                hunt,
                !book.album().albums().isEmpty(),
                groups,
                proposal.looks().stream()
                        .filter(look -> concerns(book, look.coin(), hunt))
                        .map(look -> new Looking(
                                look.albumName() + ", " + look.hole().key(),
                                coin(book, catalog, look.coin()),
                                coin(book, catalog, look.there()),
                                look.reason(),
                                photographs(book, look.there(), look.coin())))
                        .toList(),
                tellings(book, catalog, proposal.untold(), hunt),
                tellings(book, catalog, proposal.varieties(), hunt),
                (int) proposal.moves().stream()
                        .filter(Proposal.Move::isAddition)
                        .count(),
                (int) proposal.moves().stream()
                        .filter(move -> !move.isAddition())
                        .count());
    }

    private static boolean concerns(State book, OwnedCoin coin, long hunt) {
        return hunt == 0
                || coin.ref()
                        .findId()
                        .flatMap((FindId id) -> book.hunt().find(id))
                        .map(find -> find.hunt().number() == hunt)
                        .orElse(false);
    }

    /// Where photographs of both coins lie over each other: of one side, where the captions say so.
    private static String photographs(State book, @Nullable OwnedCoin before, OwnedCoin after) {
        if (before == null) {
            return "";
        }
        List<PhotoNote> old = photos(book, before);
        List<PhotoNote> fresh = photos(book, after);
        if (old.isEmpty() || fresh.isEmpty()) {
            return "";
        }
        for (PhotoNote one : old) {
            for (PhotoNote two : fresh) {
                if (one.caption().equalsIgnoreCase(two.caption())) {
                    return "/scope/compare?a=" + one.photo() + "&b=" + two.photo();
                }
            }
        }
        return "/scope/compare?a=" + old.getFirst().photo() + "&b="
                + fresh.getFirst().photo();
    }

    private static List<PhotoNote> photos(State book, OwnedCoin coin) {
        return coin.ref()
                .findId()
                .map(id -> book.scope().photos(PhotoSubject.find(id)))
                .orElse(List.of());
    }

    private static String coin(State book, Catalog catalog, OwnedCoin coin) {
        String state = coin.description().state();
        return catalog.name(
                        coin.description().identity(),
                        coin.description().identity().denomination())
                + (state.isEmpty() ? "" : " " + state) + " (" + book.cabinet().cameFrom(coin)
                + ")";
    }

    /// A move in words.
    private static String sentence(State book, Catalog catalog, Proposal.Move move) {
        String hole = move.albumName() + ", " + move.hole().key();
        OwnedCoin displaced = move.displaced();
        return displaced == null
                ? t("album.addition", hole, coin(book, catalog, move.coin()))
                : t(
                        "album.upgrade-the-goes-to",
                        hole,
                        coin(book, catalog, move.coin()),
                        move.reason(),
                        coin(book, catalog, displaced),
                        move.displacedTo());
    }
}
