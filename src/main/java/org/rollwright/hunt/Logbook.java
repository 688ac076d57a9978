package org.rollwright.hunt;

import static org.rollwright.text.Texts.t;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableSet;
import java.util.Optional;
import java.util.TreeMap;
import java.util.TreeSet;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;

/// The present state: the fold of the journal.
///
/// Applying an entry costs the same whether the journal holds ten entries or a million. Each application leaves
/// an inverse behind, so undo and redo cost no more; only an undo that reaches past [#UNDO_DEPTH] steps asks
/// for a new fold (see [Desk]). Not thread-safe: [Desk] guards it.
public final class Logbook {
    /// Steps of undo kept in memory for each hunt.
    static final int UNDO_DEPTH = 500;

    private record Done(Entry entry, Runnable inverse) {}

    /// Undo and redo of one hunt, or of everything outside hunts.
    private static final class Steps {
        final Deque<Done> done = new ArrayDeque<>();
        final Deque<Entry> undone = new ArrayDeque<>();
        boolean forgotSome;

        /// Position of its last entry, whatever it was.
        long latest;
    }

    /// An opening balance as stored.
    public record Balance(Denomination denomination, String watch, int boxes, long coins, long found) {}

    final Map<HuntId, Hunt> hunts = new TreeMap<>((a, b) -> Long.compare(a.number(), b.number()));
    final Map<BoxId, Box> boxes = new TreeMap<>((a, b) -> Long.compare(a.number(), b.number()));
    final Map<FindId, Find> finds = new HashMap<>();
    final Map<AlbumId, Album> albums = new TreeMap<>((a, b) -> Long.compare(a.number(), b.number()));
    final Map<CoinRef, OwnedCoin> added = new LinkedHashMap<>();
    final List<Balance> balances = new ArrayList<>();
    final Map<CoinRef, CabinetNote> cabinet = new HashMap<>();
    final Map<CoinRef, Acquisition> acquisitions = new HashMap<>();
    final Map<PlaceId, Place> places = new TreeMap<>(Comparator.comparing(PlaceId::number));
    final Map<Identity, List<PricePoint>> prices = new HashMap<>();
    final Map<String, Cup> cups = new TreeMap<>();
    final Map<String, CountedPile> piles = new TreeMap<>();
    final Map<String, MetalPrice> metalPrices = new TreeMap<>();
    final List<CashMove> cashMoves = new ArrayList<>();
    final Map<String, Branch> branches = new TreeMap<>();
    final Map<Long, Order> orders = new TreeMap<>();
    final List<Effort> efforts = new ArrayList<>();
    long lastPlace;
    long lastOrder;

    /// The last ordinal given to a find of each hunt, also of hunts that are taken back at present.
    final Map<HuntId, Integer> ordinals = new HashMap<>();

    private final Map<String, Integer> checks = new HashMap<>();
    final Map<FindId, AttributionNote> attributions = new TreeMap<>(Comparator.comparing(FindId::number));
    final Map<String, Map<String, String>> varieties = new TreeMap<>();
    /// In the order kept, whichever way it came about, so that undo in one hunt disturbs no other.
    final NavigableSet<PhotoNote> photos = new TreeSet<>(Comparator.comparing(PhotoNote::at)
            .thenComparing(PhotoNote::photo)
            .thenComparing(note -> note.about().toString()));
    final Map<Identity, Integer> coinsByIdentity = new HashMap<>();
    private final Map<Long, Steps> steps = new HashMap<>();
    private long unboundedScope = -1;

    /// Whether the state began from an image, so that earlier steps have no inverse here.
    boolean fromImage;

    /// What an image says could be brought back; [Desk] reads those entries from the journal.
    List<LogbookImage.TakenBack> imagedTakenBack = List.of();

    /// Position of the last entry in that image.
    long imaged;
    String policy = "";
    long last;
    long lastBox;
    long lastHunt;
    long lastFind;
    long lastAlbum;
    int lastAdded;

    /// Position of the last entry folded in.
    public long last() {
        return last;
    }

    public Collection<Hunt> hunts() {
        return Collections.unmodifiableCollection(hunts.values());
    }

    public Collection<Box> boxes() {
        return Collections.unmodifiableCollection(boxes.values());
    }

    public Collection<Album> albums() {
        return Collections.unmodifiableCollection(albums.values());
    }

    public Collection<Find> finds() {
        return Collections.unmodifiableCollection(finds.values());
    }

    public List<Balance> balances() {
        return Collections.unmodifiableList(balances);
    }

    public Optional<Hunt> hunt(HuntId id) {
        return Optional.ofNullable(hunts.get(id));
    }

    public Optional<Box> box(BoxId id) {
        return Optional.ofNullable(boxes.get(id));
    }

    public Optional<Find> find(FindId id) {
        return Optional.ofNullable(finds.get(id));
    }

    /// The find a hunter calls `f12` within a hunt.
    public Optional<Find> find(HuntId hunt, int ordinal) {
        Hunt holder = hunts.get(hunt);
        if (holder == null) {
            return Optional.empty();
        }
        return holder.finds().stream()
                .map(this::known)
                .filter(find -> find.ordinal() == ordinal)
                .findFirst();
    }

    public Optional<Album> album(AlbumId id) {
        return Optional.ofNullable(albums.get(id));
    }

    /// What attributions came to, the latest of each find.
    public Map<FindId, AttributionNote> attributions() {
        return Collections.unmodifiableMap(attributions);
    }

    /// How often each variety was looked for in vain, over all hunts.
    public Map<String, Integer> checks() {
        return Collections.unmodifiableMap(checks);
    }

    void countCheck(String variety, int sign) {
        checks.merge(variety, sign, (a, b) -> {
            int sum = a + b;
            return sum == 0 ? null : sum;
        });
    }

    /// Varieties the user wrote or rewrote: their rows by key.
    public Map<String, Map<String, String>> varieties() {
        return Collections.unmodifiableMap(varieties);
    }

    /// Every photograph in the record, in the order kept.
    public Collection<PhotoNote> photos() {
        return Collections.unmodifiableCollection(photos);
    }

    /// Photographs of one thing.
    public List<PhotoNote> photos(PhotoSubject about) {
        return photos.stream().filter(note -> note.about().equals(about)).toList();
    }

    /// The comparison policy as the user last wrote it, blank when never changed.
    public String policy() {
        return policy;
    }

    /// Coins found so far of each identity, over all hunts.
    public Map<Identity, Integer> coinsByIdentity() {
        return Collections.unmodifiableMap(coinsByIdentity);
    }

    /// A coin in the hunter's hands, empty when its find was struck out or the coin was returned, sold or given
    /// away.
    public Optional<OwnedCoin> coin(CoinRef ref) {
        if (isGone(ref)) {
            return Optional.empty();
        }
        if (ref.find() == 0) {
            return Optional.ofNullable(added.get(ref)).map(this::told);
        }
        Find find = finds.get(new FindId(ref.find()));
        if (find == null || ref.piece() > find.count() || isGone(find.disposition())) {
            return Optional.empty();
        }
        return Optional.of(told(new OwnedCoin(ref, find.facts(), provenance(find))));
    }

    /// Every coin in the hunter's hands: added ones, then finds in the order logged.
    public List<OwnedCoin> ownedCoins() {
        List<OwnedCoin> owned = new ArrayList<>();
        added.values().stream()
                .filter(coin -> !isGone(coin.ref()))
                .map(this::told)
                .forEach(owned::add);
        for (Hunt hunt : hunts.values()) {
            for (FindId id : hunt.finds()) {
                owned.addAll(coinsOf(known(id)));
            }
        }
        return owned;
    }

    /// The coins of one find that are still in the hunter's hands.
    public List<OwnedCoin> coinsOf(Find find) {
        List<OwnedCoin> coins = new ArrayList<>();
        if (!isGone(find.disposition())) {
            for (int piece = 1; piece <= find.count(); piece++) {
                CoinRef ref = CoinRef.of(find.id(), piece);
                if (!isGone(ref)) {
                    coins.add(told(new OwnedCoin(ref, find.facts(), provenance(find))));
                }
            }
        }
        return coins;
    }

    private boolean isGone(CoinRef coin) {
        CabinetNote note = cabinet.get(coin);
        return note != null && note.gone() != null;
    }

    private OwnedCoin told(OwnedCoin coin) {
        CabinetNote note = cabinet.get(coin.ref());
        return note == null ? coin : coin.told(note);
    }

    /// What the cabinet knows of a coin beyond its find; also of coins that left.
    public Optional<CabinetNote> cabinet(CoinRef coin) {
        return Optional.ofNullable(cabinet.get(coin));
    }

    /// Everything the cabinet knows beyond the finds.
    public Collection<CabinetNote> cabinetNotes() {
        return Collections.unmodifiableCollection(cabinet.values());
    }

    /// How a coin came that was not found.
    public Optional<Acquisition> acquisition(CoinRef coin) {
        return Optional.ofNullable(acquisitions.get(coin));
    }

    public Collection<Place> places() {
        return Collections.unmodifiableCollection(places.values());
    }

    public Optional<Place> place(PlaceId id) {
        return Optional.ofNullable(places.get(id));
    }

    public PlaceId nextPlace() {
        return new PlaceId(lastPlace + 1);
    }

    /// Price points by issue, in the order noted.
    public Map<Identity, List<PricePoint>> prices() {
        return Collections.unmodifiableMap(prices);
    }

    public Collection<Cup> cups() {
        return Collections.unmodifiableCollection(cups.values());
    }

    /// The counted pile of each alloy, the latest.
    public Map<String, CountedPile> piles() {
        return Collections.unmodifiableMap(piles);
    }

    /// Movements of face value, in the order booked.
    public List<CashMove> cashMoves() {
        return Collections.unmodifiableList(cashMoves);
    }

    public Collection<Branch> branches() {
        return Collections.unmodifiableCollection(branches.values());
    }

    /// A branch by the name boxes and bookings use.
    public Optional<Branch> branch(String name) {
        return Optional.ofNullable(branches.get(name));
    }

    public Collection<Order> orders() {
        return Collections.unmodifiableCollection(orders.values());
    }

    public Optional<Order> order(long number) {
        return Optional.ofNullable(orders.get(number));
    }

    public long nextOrder() {
        return lastOrder + 1;
    }

    /// Time, road and fuel, in the order noted.
    public List<Effort> efforts() {
        return Collections.unmodifiableList(efforts);
    }

    /// The price of each metal, the latest.
    public Map<String, MetalPrice> metalPrices() {
        return Collections.unmodifiableMap(metalPrices);
    }

    private static boolean isGone(Disposition disposition) {
        return disposition == Disposition.RETURN || disposition == Disposition.SELL || disposition == Disposition.GIVE;
    }

    private String provenance(Find find) {
        Box box = boxes.get(find.box());
        String label = box == null ? find.box().toString() : box.details().label();
        return find.roll() == 0 ? label : t("hunt.box-and-roll", label, find.roll());
    }

    public BoxId nextBox() {
        return new BoxId(lastBox + 1);
    }

    public HuntId nextHunt() {
        return new HuntId(lastHunt + 1);
    }

    public FindId nextFind() {
        return new FindId(lastFind + 1);
    }

    public AlbumId nextAlbum() {
        return new AlbumId(lastAlbum + 1);
    }

    public CoinRef nextAdded() {
        return new CoinRef(0, lastAdded + 1);
    }

    /// The entry that undo would take back in a scope.
    public Optional<Entry> undoable(long scope) {
        Steps own = steps.get(scope);
        return own == null || own.done.isEmpty()
                ? Optional.empty()
                : Optional.of(own.done.getLast().entry());
    }

    /// The entry that redo would bring back in a scope.
    public Optional<Entry> redoable(long scope) {
        Steps own = steps.get(scope);
        return own == null || own.undone.isEmpty() ? Optional.empty() : Optional.of(own.undone.getLast());
    }

    /// What could be brought back, scope by scope.
    List<LogbookImage.TakenBack> takenBack() {
        return steps.entrySet().stream()
                .filter(own -> !own.getValue().undone.isEmpty())
                .map(own -> new LogbookImage.TakenBack(
                        own.getKey(),
                        own.getValue().undone.stream().map(Entry::seq).toList()))
                .toList();
    }

    /// Whether undo is worth offering in a scope. After a start from a snapshot earlier steps are known to the
    /// journal alone: a hunt has at least its beginning, what lies outside hunts is taken to have some.
    public boolean canUndo(long scope) {
        return undoable(scope).isPresent()
                || (mayHaveOlderSteps(scope) && (scope == 0 || hunts.containsKey(new HuntId(scope))));
    }

    /// The position a page may carry beside its button for undo; 0 when there is nothing to take back.
    public long undoAsOf(long scope) {
        return canUndo(scope) ? last : 0;
    }

    /// Position of the last entry of a scope; of an image, the latest it can have.
    long latest(long scope) {
        Steps own = steps.get(scope);
        return Math.max(imaged, own == null ? 0 : own.latest);
    }

    /// Sets the last ordinal given in a hunt.
    void ordinal(HuntId id, int last) {
        ordinals.put(id, last);
        Hunt hunt = hunts.get(id);
        if (hunt != null) {
            hunt.lastOrdinal = last;
        }
    }

    /// Folds one entry in.
    ///
    /// @throws IllegalStateException when the entry contradicts the state; [Checks] keeps such entries out
    public void apply(Entry entry) {
        if (entry.seq() != last + 1) {
            throw new IllegalStateException("entry " + entry.seq() + " does not follow entry " + last);
        }
        Steps own = steps.computeIfAbsent(entry.scope(), scope -> new Steps());
        own.latest = entry.seq();
        switch (entry.event()) {
            case Event.Undone undone -> {
                Done step = own.done.pollLast();
                if (step == null || step.entry.seq() != undone.target()) {
                    throw new IllegalStateException("entry " + undone.target() + " is not the last of its hunt");
                }
                step.inverse.run();
                own.undone.addLast(step.entry);
            }
            case Event.Redone redone -> {
                Entry again = own.undone.pollLast();
                if (again == null || again.seq() != redone.target()) {
                    throw new IllegalStateException("entry " + redone.target() + " was not the last undone");
                }
                own.done.addLast(new Done(again, Changes.apply(this, again.event(), again)));
            }
            default -> {
                Runnable inverse = Changes.apply(this, entry.event(), entry);
                own.undone.clear();
                own.done.addLast(new Done(entry, inverse));
                if (own.done.size() > UNDO_DEPTH && entry.scope() != unboundedScope) {
                    own.done.removeFirst();
                    own.forgotSome = true;
                }
            }
        }
        last = entry.seq();
    }

    /// Whether a scope may have earlier steps that only a new fold of the journal can undo.
    boolean mayHaveOlderSteps(long scope) {
        Steps own = steps.get(scope);
        return fromImage || (own != null && own.forgotSome);
    }

    /// Whether an entry can be applied from memory: false when it takes back or brings back a step whose
    /// inverse was forgotten, or lies before the image the state began from; nor does an image know what numbers
    /// were given in a hunt that it does not hold.
    boolean knowsStepOf(Entry entry) {
        return switch (entry.event()) {
            case Event.Undone step ->
                undoable(entry.scope())
                        .filter(known -> known.seq() == step.target())
                        .isPresent();
            case Event.Redone step ->
                redoable(entry.scope())
                        .filter(known -> known.seq() == step.target() && !(fromImage && startsHunt(known)))
                        .isPresent();
            default -> true;
        };
    }

    private static boolean startsHunt(Entry entry) {
        return entry.event() instanceof Event.HuntStarted
                || (entry.event() instanceof Event.Batch batch
                        && batch.events().stream().anyMatch(Event.HuntStarted.class::isInstance));
    }

    /// Whether bringing an entry back, or finding out that there is none, needs a new fold first.
    boolean mustFoldToRedo(Optional<Entry> entry) {
        return fromImage && entry.map(Logbook::startsHunt).orElse(true);
    }

    /// Sets what redo would bring back in a scope, the next one last.
    void redoable(long scope, Deque<Entry> undone) {
        steps.computeIfAbsent(scope, key -> new Steps()).undone.addAll(undone);
    }

    /// Keeps every inverse of one scope, however many.
    void keepAllSteps(long scope) {
        unboundedScope = scope;
    }

    /// Counts an entry as read without letting it change anything but the numbers already given.
    void passOver(Entry entry) {
        Changes.noteNumbers(this, entry.event(), entry.scope());
        steps.computeIfAbsent(entry.scope(), key -> new Steps()).latest = entry.seq();
        last = entry.seq();
    }

    Find known(FindId id) {
        Find find = finds.get(id);
        if (find == null) {
            throw new IllegalStateException("there is no find " + id);
        }
        return find;
    }

    Box known(BoxId id) {
        Box box = boxes.get(id);
        if (box == null) {
            throw new IllegalStateException("there is no box " + id);
        }
        return box;
    }

    Hunt known(HuntId id) {
        Hunt hunt = hunts.get(id);
        if (hunt == null) {
            throw new IllegalStateException("there is no hunt " + id);
        }
        return hunt;
    }

    Album known(AlbumId id) {
        Album album = albums.get(id);
        if (album == null) {
            throw new IllegalStateException("there is no album " + id);
        }
        return album;
    }

    /// Counts coins of a find in or out, everywhere totals are kept.
    void tally(Find find, int sign) {
        int coins = sign * find.count();
        known(find.box()).foundCoins += coins;
        known(find.hunt()).foundCoins += coins;
        coinsByIdentity.merge(find.facts().identity(), coins, (a, b) -> {
            int sum = a + b;
            return sum == 0 ? null : sum;
        });
    }
}
