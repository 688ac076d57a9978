package org.rollwright.web.albums;

import static org.rollwright.text.Texts.t;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
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
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.Rarity;
import org.rollwright.catalog.Side;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Grade;
import org.rollwright.desk.State;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.FindId;
import org.rollwright.odds.OwnRates;
import org.rollwright.scope.PhotoNote;
import org.rollwright.scope.PhotoSubject;
import org.rollwright.text.Figures;
import org.rollwright.web.shell.Coins;

/// What the album pages show, ready to print.
public final class AlbumViews {
    /// Holes of a year that stand beside each other.
    private static final int MOST_IN_A_ROW = 5;

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
            List<String> problems) {
        /// The holes year by year.
        public List<Year> years() {
            Map<Integer, List<Cell>> years = new LinkedHashMap<>();
            cells.forEach(cell -> years.computeIfAbsent(cell.year(), year -> new ArrayList<>())
                    .add(cell));
            return years.entrySet().stream()
                    .map(year -> new Year(year.getKey(), year.getValue()))
                    .toList();
        }

        /// Whether years have so few holes that a row for each shows more than a page does.
        public boolean isByYear() {
            return years().stream().allMatch(year -> year.cells().size() <= MOST_IN_A_ROW)
                    && years().size() < cells.size();
        }
    }

    /// The holes of a year.
    public record Year(int year, List<Cell> cells) {}

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
    /// @param coin what lies there, or what belongs there
    /// @param chance of a hundred that a year like the last one fills it; 0 when it is filled or nobody can say
    public record Cell(
            String key,
            boolean filled,
            String state,
            String from,
            String note,
            String mark,
            long box,
            int year,
            Coins.Coin coin,
            int chance) {
        /// The class of its edge.
        public String edge() {
            return mark.isEmpty() ? "" : "edge-" + mark.replace(' ', '-');
        }
    }

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
    public record Group(String mark, List<Moved> moves, boolean addition, List<String> photographs) {}

    /// One move, said and seen.
    ///
    /// @param before the coin that gives way, null for an addition
    public record Moved(String text, Coins.@Nullable Coin before, Coins.Coin after) {}

    /// Two coins to hold side by side.
    ///
    /// @param photographs address that lays their photographs over each other, blank unless both have one
    public record Looking(
            String where,
            String coin,
            String there,
            String reason,
            String photographs,
            Coins.Coin before,
            Coins.Coin after) {}

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
            State book,
            Catalog catalog,
            AlbumState state,
            String rule,
            String wished,
            OwnRates rates,
            Instant now,
            List<String> problems) {
        Grade grade = Grade.parse(wished).orElse(null);
        List<Cell> cells = state.places().holes().stream()
                .map(hole -> cell(book, catalog, state, hole, chance(hole, rates, now)))
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

    /// Of a hundred.
    private static int chance(Hole hole, OwnRates rates, Instant now) {
        // what is known of a date is not known of its varieties
        return hole.variety().isEmpty()
                ? (int) Math.round(100 * rates.ofAYear(hole.issues(), now).orElse(0))
                : 0;
    }

    private static Cell cell(State book, Catalog catalog, AlbumState state, Hole hole, int chance) {
        Issue issue = hole.issues().getFirst();
        Rarity rarity = issue.rarity();
        CoinRef ref = state.content().get(hole.key());
        Optional<OwnedCoin> coin =
                ref == null ? Optional.empty() : book.holdings().coin(ref);
        if (coin.isEmpty() || ref == null) {
            return new Cell(
                    hole.key(),
                    false,
                    "",
                    "",
                    "",
                    rarity.said(),
                    0,
                    hole.year(),
                    Coins.of(catalog, issue, null, null, side(state, hole)),
                    chance);
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
                box,
                hole.year(),
                seen(book, catalog, coin.get(), side(state, hole)),
                0);
    }

    /// A coin as it is, by its photograph where there is one.
    private static Coins.Coin seen(State book, Catalog catalog, OwnedCoin coin, @Nullable Side side) {
        return Coins.seen(book, catalog, coin.ref().findId(), coin.description(), side);
    }

    /// The reverse where the holes of a date differ by their design, which it tells; otherwise the side with the date.
    private static @Nullable Side side(AlbumState state, Hole hole) {
        Issue issue = hole.issues().getFirst();
        boolean several = state.places().holes().stream()
                .map(other -> other.issues().getFirst())
                .anyMatch(other -> other.year() == issue.year()
                        && other.mint().equals(issue.mint())
                        && !other.identity().design().equals(issue.identity().design()));
        return several ? Side.REVERSE : null;
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
                    moves.stream()
                            .map(move -> new Moved(
                                    sentence(book, catalog, move),
                                    move.displaced() == null ? null : seen(book, catalog, move.displaced(), null),
                                    seen(book, catalog, move.coin(), null)))
                            .toList(),
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
                                photographs(book, look.there(), look.coin()),
                                seen(book, catalog, look.there(), null),
                                seen(book, catalog, look.coin(), null)))
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
