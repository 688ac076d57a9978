package org.rollwright.desk;

import static org.rollwright.text.Texts.t;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.rollwright.album.Album;
import org.rollwright.album.AlbumBook;
import org.rollwright.cabinet.CabinetBook;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.cabinet.Holdings;
import org.rollwright.cabinet.OwnedCoin;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Refusal;
import org.rollwright.hunt.Disposition;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.FindId;
import org.rollwright.hunt.HuntBook;
import org.rollwright.hunt.HuntId;
import org.rollwright.hunt.HuntImage;
import org.rollwright.journal.Entry;
import org.rollwright.scale.ScaleBook;
import org.rollwright.scope.AttributionNote;
import org.rollwright.scope.ScopeBook;
import org.rollwright.till.TillBook;

/// The present state: the fold of the journal up to a position. Immutable, so that a reader may keep it and needs no
/// lock.
public final class State {
    /// The state of an empty journal.
    public static final State EMPTY = new State(0, Books.EMPTY, Steps.NONE);

    private final long last;
    private final Books books;
    private final Steps steps;

    /// What follows from the books, worked out when first asked for.
    private volatile @Nullable Map<FindId, Integer> placed;

    private volatile @Nullable Map<HuntId, Integer> placedOpen;

    State(long last, Books books, Steps steps) {
        this.last = last;
        this.books = books;
        this.steps = steps;
    }

    /// Position of the last entry folded in.
    public long last() {
        return last;
    }

    public HuntBook hunt() {
        return books.hunt();
    }

    public AlbumBook album() {
        return books.album();
    }

    public CabinetBook cabinet() {
        return books.cabinet();
    }

    public TillBook till() {
        return books.till();
    }

    public ScopeBook scope() {
        return books.scope();
    }

    public ScaleBook scale() {
        return books.scale();
    }

    /// The coins in the hunter's hands.
    public Holdings holdings() {
        return books.holdings();
    }

    /// The coins in the hunter's hands as albums compare them: a coin that was attributed to a variety under the
    /// microscope is one of that variety, whether or not its line says so.
    public List<OwnedCoin> comparable() {
        return holdings().coins().stream().map(this::attributed).toList();
    }

    private OwnedCoin attributed(OwnedCoin coin) {
        CoinDescription told = coin.description();
        return told.varieties().isEmpty()
                ? coin.ref()
                        .findId()
                        .flatMap(scope()::attribution)
                        .filter(AttributionNote::countsAsFound)
                        .map(note -> new OwnedCoin(
                                coin.ref(), told.withVarieties(List.of(note.variety())), coin.provenance()))
                        .orElse(coin)
                : coin;
    }

    Books books() {
        return books;
    }

    Steps steps() {
        return steps;
    }

    /// Whether undo is worth offering in a scope.
    public boolean canUndo(long scope) {
        return steps.undoable(scope).isPresent();
    }

    /// Whether undo in a scope would take back this very entry.
    public boolean wouldUndo(long scope, long seq) {
        return steps.undoable(scope).orElse(0) == seq && seq > 0;
    }

    /// Whether a step could be brought back in a scope.
    public boolean canRedo(long scope) {
        return steps.redoable(scope).isPresent();
    }

    /// The position a page may carry beside its button for undo; 0 when there is nothing to take back.
    public long undoAsOf(long scope) {
        return canUndo(scope) ? last : 0;
    }

    /// The state after an entry, given the books after it.
    State after(Entry entry, Books now) {
        if (entry.seq() != last + 1) {
            throw new IllegalStateException("entry " + entry.seq() + " does not follow entry " + last);
        }
        return new State(entry.seq(), now, steps.after(entry));
    }

    /// The whole state as plain values, for a snapshot. It saves time only: the journal makes it anew.
    public record Image(
            long last,
            HuntImage hunt,
            AlbumBook.Image album,
            CabinetBook.Image cabinet,
            TillBook.Image till,
            ScopeBook.Image scope,
            ScaleBook.Image scale,
            List<Undoing> steps) {
        /// The image of a state.
        public static Image of(State state) {
            return new Image(
                    state.last,
                    state.books.hunt().image(),
                    state.books.album().image(),
                    state.books.cabinet().image(),
                    state.books.till().image(),
                    state.books.scope().image(),
                    state.books.scale().image(),
                    state.steps.image());
        }
    }

    /// What undo and redo may do in a scope, as plain values.
    ///
    /// @param done positions of the entries that count, in order
    /// @param undone positions of those that could be brought back, the next one last
    /// @param latest position of its last entry, whatever it was
    public record Undoing(long scope, List<Long> done, List<Long> undone, long latest) {}

    /// The state an image shows.
    public static State of(Image image) {
        return new State(
                image.last,
                new Books(
                        HuntBook.of(image.hunt),
                        AlbumBook.of(image.album),
                        CabinetBook.of(image.cabinet),
                        TillBook.of(image.till),
                        ScopeBook.of(image.scope),
                        ScaleBook.of(image.scale)),
                Steps.of(image.steps));
    }

    /// Coins of a find of which nothing was decided: those that lie in an album are.
    ///
    /// @return 0 or more
    public int undecided(Find find) {
        return find.disposition() == Disposition.OPEN ? find.count() - placed().getOrDefault(find.id(), 0) : 0;
    }

    /// Coins of a hunt of which nothing was decided.
    ///
    /// @return 0 or more
    public int undecided(HuntId hunt) {
        return hunt().undecided(hunt) - placedOpen().getOrDefault(hunt, 0);
    }

    /// Why finds cannot be given away as a whole: some of their coins lie in an album, and would leave it.
    public Optional<Refusal> refuse(Find find, Disposition disposition) {
        int placed = placed().getOrDefault(find.id(), 0);
        return disposition.leaves() && placed > 0 && placed < find.count()
                ? Optional.of(new Refusal(
                        t("desk.partly-in-an-album", find.ordinal(), placed, find.count()),
                        t("desk.part-the-others-off", find.ordinal(), find.count() - placed)))
                : Optional.empty();
    }

    /// Coins of finds that lie in albums, by find; made when first asked for.
    private Map<FindId, Integer> placed() {
        Map<FindId, Integer> known = placed;
        if (known == null) {
            Set<CoinRef> lying = new HashSet<>();
            for (Album one : album().albums()) {
                for (CoinRef coin : one.holes().values()) {
                    // an album may name a coin that has left since
                    if (coin.find() > 0 && holdings().coin(coin).isPresent()) {
                        lying.add(coin);
                    }
                }
            }
            Map<FindId, Integer> counted = new HashMap<>();
            lying.forEach(coin -> counted.merge(new FindId(coin.find()), 1, Integer::sum));
            known = counted;
            placed = known;
        }
        return known;
    }

    /// As [#placed], of finds not decided otherwise, by hunt.
    private Map<HuntId, Integer> placedOpen() {
        Map<HuntId, Integer> known = placedOpen;
        if (known == null) {
            Map<HuntId, Integer> counted = new HashMap<>();
            placed().forEach((id, coins) -> hunt().find(id)
                    .filter(find -> find.disposition() == Disposition.OPEN)
                    .ifPresent(find -> counted.merge(find.hunt(), coins, Integer::sum)));
            known = counted;
            placedOpen = known;
        }
        return known;
    }
}
