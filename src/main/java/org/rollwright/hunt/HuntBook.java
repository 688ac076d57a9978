package org.rollwright.hunt;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Refusal;
import org.rollwright.journal.Contradiction;
import org.rollwright.journal.Entry;
import org.rollwright.journal.Growing;
import org.rollwright.journal.Register;

/// The searches: hunts, boxes and finds as the journal tells them. Immutable; a next event makes the next book, which
/// shares almost everything with this one.
public final class HuntBook {
    /// Boxes searched before this journal began, as one sum.
    public record Balance(Denomination denomination, String watch, int boxes, long coins, long found) {}

    /// The last numbers given, also to what is taken back at present: none is given twice.
    ///
    /// @param ordinals of finds, by hunt
    record Numbers(long box, long hunt, long find, Register<HuntId, Integer> ordinals) {
        static final Numbers NONE = new Numbers(0, 0, 0, Register.empty());

        Numbers boxed(BoxId id) {
            return new Numbers(Math.max(box, id.number()), hunt, find, ordinals);
        }

        Numbers hunted(HuntId id) {
            return new Numbers(box, Math.max(hunt, id.number()), find, ordinals);
        }

        Numbers found(FindId id, @Nullable HuntId of, int ordinal) {
            return new Numbers(
                    box,
                    hunt,
                    Math.max(find, id.number()),
                    of != null && ordinal(of) < ordinal ? ordinals.with(of, ordinal) : ordinals);
        }

        int ordinal(HuntId id) {
            Integer last = ordinals.get(id);
            return last == null ? 0 : last;
        }
    }

    /// A book in which nothing is written.
    public static final HuntBook EMPTY = new HuntBook(
            Register.empty(),
            Register.empty(),
            Growing.map(),
            Growing.list(),
            Growing.map(),
            Growing.map(),
            Growing.map(),
            Numbers.NONE);

    private static final Comparator<Hunt> BY_HUNT =
            Comparator.comparingLong(hunt -> hunt.id().number());
    private static final Comparator<Box> BY_BOX =
            Comparator.comparingLong(box -> box.id().number());

    final Register<HuntId, Hunt> hunts;
    final Register<BoxId, Box> boxes;
    final Map<FindId, Find> finds;
    final List<Balance> balances;
    final Map<Identity, Integer> counts;
    /// Coins of which nothing was decided yet, by hunt.
    final Map<HuntId, Integer> undecided;

    final Map<String, Integer> checks;
    final Numbers numbers;

    /// Put in order when first asked for.
    private volatile @Nullable List<Hunt> huntsInOrder;

    private volatile @Nullable List<Box> boxesInOrder;

    HuntBook(
            Register<HuntId, Hunt> hunts,
            Register<BoxId, Box> boxes,
            Map<FindId, Find> finds,
            List<Balance> balances,
            Map<Identity, Integer> counts,
            Map<HuntId, Integer> undecided,
            Map<String, Integer> checks,
            Numbers numbers) {
        this.hunts = hunts;
        this.boxes = boxes;
        this.finds = finds;
        this.balances = balances;
        this.counts = counts;
        this.undecided = undecided;
        this.checks = checks;
        this.numbers = numbers;
    }

    /// Hunts by number.
    public List<Hunt> hunts() {
        List<Hunt> known = huntsInOrder;
        if (known == null) {
            known = hunts.sorted(BY_HUNT);
            huntsInOrder = known;
        }
        return known;
    }

    /// Boxes by number.
    public List<Box> boxes() {
        List<Box> known = boxesInOrder;
        if (known == null) {
            known = boxes.sorted(BY_BOX);
            boxesInOrder = known;
        }
        return known;
    }

    /// Every find, in no order.
    public Collection<Find> finds() {
        return Collections.unmodifiableCollection(finds.values());
    }

    public List<Balance> balances() {
        return balances;
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

    /// How often each variety was looked for in vain, over all hunts.
    public Map<String, Integer> checks() {
        return Collections.unmodifiableMap(checks);
    }

    /// Coins of a hunt of which nothing was decided yet, 0 or more.
    public int undecided(HuntId hunt) {
        Integer open = undecided.get(hunt);
        return open == null ? 0 : open;
    }

    /// Coins found so far of each identity, over all hunts.
    public Map<Identity, Integer> coinsByIdentity() {
        return Collections.unmodifiableMap(counts);
    }

    /// Where a find lay, in words: its box and roll.
    public String whereabouts(Find find) {
        return Whereabouts.of(boxes.get(find.box()), find);
    }

    public BoxId nextBox() {
        return new BoxId(numbers.box + 1);
    }

    /// What the next boxes are called that nobody named.
    ///
    /// @param ahead boxes named before this one in the same step
    public String boxName(Denomination coin, int ahead) {
        return "Box " + (nextNumber(coin) + ahead);
    }

    /// The number in the name of a next box that nobody named: boxes searched before this journal count.
    long nextNumber(Denomination coin) {
        return nextBox().number() + boxesBefore(coin);
    }

    /// Boxes of a denomination searched before this journal, of which only sums are known. Sums by watch tell of the
    /// same boxes, so that the largest counts.
    public int boxesBefore(Denomination coin) {
        return balances.stream()
                .filter(balance -> balance.denomination().equals(coin))
                .mapToInt(Balance::boxes)
                .max()
                .orElse(0);
    }

    /// Coins in them.
    public long coinsBefore(Denomination coin) {
        return balances.stream()
                .filter(balance -> balance.denomination().equals(coin))
                .mapToLong(Balance::coins)
                .max()
                .orElse(0);
    }

    public HuntId nextHunt() {
        return new HuntId(numbers.hunt + 1);
    }

    public FindId nextFind() {
        return new FindId(numbers.find + 1);
    }

    /// The ordinal the next find of a hunt will get.
    public int nextOrdinal(HuntId hunt) {
        return numbers.ordinal(hunt) + 1;
    }

    /// The find of a number.
    ///
    /// @throws Contradiction when there is none
    public Find known(FindId id) {
        Find find = finds.get(id);
        if (find == null) {
            throw new Contradiction("there is no find " + id);
        }
        return find;
    }

    /// The box of a number.
    ///
    /// @throws Contradiction when there is none
    public Box known(BoxId id) {
        return boxes.known(id, "box");
    }

    /// The hunt of a number.
    ///
    /// @throws Contradiction when there is none
    public Hunt known(HuntId id) {
        return hunts.known(id, "hunt");
    }

    /// The book after an event.
    ///
    /// @throws Contradiction when the event speaks of what is not here
    public HuntBook apply(HuntEvent event, Entry entry) {
        return HuntChanges.apply(noted(event, entry.scope()), event, entry);
    }

    /// The book with the numbers that an event gave, whether or not the event counts at present.
    public HuntBook noted(HuntEvent event, long scope) {
        Numbers now =
                switch (event) {
                    case HuntEvent.BoxAdded added -> numbers.boxed(added.box());
                    case HuntEvent.HuntStarted started -> numbers.hunted(started.hunt());
                    case HuntEvent.FindLogged logged ->
                        numbers.found(
                                logged.find().id(),
                                logged.find().hunt(),
                                logged.find().ordinal());
                    // the find it was split from may be taken back at present
                    case HuntEvent.FindSplit split ->
                        numbers.found(split.part(), scope == 0 ? null : new HuntId(scope), split.ordinal());
                    default -> numbers;
                };
        return now.equals(numbers) ? this : new HuntBook(hunts, boxes, finds, balances, counts, undecided, checks, now);
    }

    /// The book after an entry of a hunt, whatever it spoke of.
    public HuntBook touched(long scope, Instant at) {
        if (scope == 0) {
            return this;
        }
        HuntId id = new HuntId(scope);
        Hunt hunt = hunts.get(id);
        return hunt == null ? this : with(hunts.with(id, hunt.touched(at)));
    }

    /// Why an event cannot be taken.
    public Optional<Refusal> refuse(HuntEvent event) {
        return HuntChecks.refuse(this, event);
    }

    /// The scope an event must be recorded in; empty when any will do.
    public OptionalLong scope(HuntEvent event) {
        return HuntScopes.of(this, event);
    }

    /// The scope of what belongs to a find; empty when there is no such find.
    public OptionalLong scope(FindId find) {
        return HuntScopes.of(this, find);
    }

    HuntBook with(Register<HuntId, Hunt> now) {
        return new HuntBook(now, boxes, finds, balances, counts, undecided, checks, numbers);
    }

    HuntBook withBoxes(Register<BoxId, Box> now) {
        return new HuntBook(hunts, now, finds, balances, counts, undecided, checks, numbers);
    }

    /// With a find come, gone or changed, in `now` and in the counts.
    ///
    /// @param gone null when there was none before
    /// @param come null when there is none any more
    HuntBook withFinds(Map<FindId, Find> now, @Nullable Find gone, @Nullable Find come) {
        Map<Identity, Integer> itsCounts = counts;
        Map<HuntId, Integer> open = undecided;
        if (gone != null) {
            itsCounts = Growing.counted(itsCounts, gone.facts().identity(), -gone.count());
            open = gone.disposition() == Disposition.OPEN ? Growing.counted(open, gone.hunt(), -gone.count()) : open;
        }
        if (come != null) {
            itsCounts = Growing.counted(itsCounts, come.facts().identity(), come.count());
            open = come.disposition() == Disposition.OPEN ? Growing.counted(open, come.hunt(), come.count()) : open;
        }
        return new HuntBook(hunts, boxes, now, balances, itsCounts, open, checks, numbers);
    }

    HuntBook withChecks(Map<String, Integer> now) {
        return new HuntBook(hunts, boxes, finds, balances, counts, undecided, now, numbers);
    }

    HuntBook with(Balance earlier) {
        return new HuntBook(hunts, boxes, finds, Growing.plus(balances, earlier), counts, undecided, checks, numbers);
    }

    HuntBook changed(Hunt hunt) {
        return with(hunts.with(hunt.id(), hunt));
    }

    HuntBook changed(Box box) {
        return withBoxes(boxes.with(box.id(), box));
    }

    /// The book as plain values.
    public HuntImage image() {
        Map<Long, Integer> ordinals = new HashMap<>();
        numbers.ordinals.all().forEach((hunt, last) -> ordinals.put(hunt.number(), last));
        return new HuntImage(
                hunts(),
                boxes(),
                new ArrayList<>(finds.values()),
                balances,
                numbers.box,
                numbers.hunt,
                numbers.find,
                ordinals);
    }

    /// The book an image shows.
    public static HuntBook of(HuntImage image) {
        Map<HuntId, Hunt> hunts = new HashMap<>();
        Map<String, Integer> checks = new HashMap<>();
        for (Hunt hunt : image.hunts()) {
            hunts.put(hunt.id(), hunt);
            hunt.trials().forEach(trial -> checks.merge(trial.variety(), 1, Integer::sum));
        }
        Map<BoxId, Box> boxes = new HashMap<>();
        image.boxes().forEach(box -> boxes.put(box.id(), box));
        Map<Identity, Integer> counts = new HashMap<>();
        Map<HuntId, Integer> undecided = new HashMap<>();
        for (Find find : image.finds()) {
            counts.merge(find.facts().identity(), find.count(), Integer::sum);
            if (find.disposition() == Disposition.OPEN) {
                undecided.merge(find.hunt(), find.count(), Integer::sum);
            }
        }
        Map<HuntId, Integer> ordinals = new HashMap<>();
        image.ordinals().forEach((hunt, last) -> ordinals.put(new HuntId(hunt), last));
        return new HuntBook(
                Register.of(hunts),
                Register.of(boxes),
                Growing.map(image.finds(), Find::id),
                Growing.list(image.balances()),
                Growing.map(counts),
                Growing.map(undecided),
                Growing.map(checks),
                new Numbers(image.lastBox(), image.lastHunt(), image.lastFind(), Register.of(ordinals)));
    }
}
