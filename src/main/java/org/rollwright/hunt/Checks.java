package org.rollwright.hunt;

import static org.rollwright.text.Texts.t;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import org.rollwright.coin.Limits;

/// Keeps contradictions out of the journal: answers why an event cannot be taken, before anything is written.
final class Checks {
    static final int MOST_ROLLS = 10_000;
    private static final int MOST_COINS = 1_000_000;
    private static final int MOST_COINS_IN_A_ROLL = 10_000;
    private static final int MOST_EARLIER_BOXES = 1_000_000;

    private Checks() {}

    /// Why an event cannot be taken into a scope; undo works within a scope, so nothing may reach into another.
    static Optional<Refusal> refuse(Logbook book, long scope, Event event) {
        List<Event> parts = event instanceof Event.Batch batch ? batch.events() : List.of(event);
        Optional<Refusal> refusal = refuse(book, event);
        if (refusal.isPresent()) {
            return refusal;
        }
        Set<Long> here = new HashSet<>();
        for (Event part : parts) {
            here.addAll(numbersMade(part));
            OptionalLong owner = owner(book, part, here);
            if (owner.isPresent() && owner.getAsLong() != scope) {
                return refusal(
                        owner.getAsLong() == 0
                                ? t("hunt.this-belongs-to-no-hunt")
                                : t("hunt.this-belongs-to-hunt", new HuntId(owner.getAsLong())),
                        t("hunt.record-it-there"));
            }
        }
        return Optional.empty();
    }

    /// Numbers of finds an event brings into the world, so that later parts of its batch may name them.
    private static List<Long> numbersMade(Event event) {
        return switch (event) {
            case Event.FindLogged logged -> List.of(logged.find().id().number());
            case Event.FindSplit split -> List.of(split.part().number());
            default -> List.of();
        };
    }

    /// The scope an event must be recorded in; empty when any will do.
    private static OptionalLong owner(Logbook book, Event event, Set<Long> here) {
        return switch (event) {
            case Event.HuntStarted started -> OptionalLong.of(started.hunt().number());
            case Event.BoxJoined joined -> OptionalLong.of(joined.hunt().number());
            case Event.WatchBegan began -> OptionalLong.of(began.hunt().number());
            case Event.WatchEnded ended -> OptionalLong.of(ended.hunt().number());
            case Event.RollOpened opened -> OptionalLong.of(opened.hunt().number());
            case Event.RollCounted counted -> boxOwner(book, counted.box());
            case Event.RollLeft left -> boxOwner(book, left.box());
            case Event.FindLogged logged -> OptionalLong.of(logged.find().hunt().number());
            case Event.FindCorrected corrected -> findOwner(book, corrected.find(), here);
            case Event.FindMoved moved -> findOwner(book, moved.find(), here);
            case Event.FindSplit split -> findOwner(book, split.find(), here);
            case Event.FindDeleted deleted -> findOwner(book, deleted.find(), here);
            case Event.FindDisposed disposed -> findOwner(book, disposed.find(), here);
            case Event.Weighed weighed -> OptionalLong.of(weighed.hunt().number());
            case Event.Checked checked -> OptionalLong.of(checked.hunt().number());
            case Event.Attributed attributed -> findOwner(book, attributed.find(), here);
            case Event.VarietyWritten written -> OptionalLong.of(0);
            case Event.VarietyRemoved removed -> OptionalLong.of(0);
            case Event.PhotoKept kept -> photoOwner(book, kept.about());
            case Event.PhotoTaken taken -> photoOwner(book, taken.about());
            case Event.Marked marked -> OptionalLong.of(marked.hunt().number());
            case Event.Noted noted -> OptionalLong.of(noted.hunt().number());
            case Event.HuntFinished over -> OptionalLong.of(over.hunt().number());
            case Event.HuntResumed resumed -> OptionalLong.of(resumed.hunt().number());
            case Event.OpeningBalance opening -> OptionalLong.of(0);
            case Event.BoxTallied tallied -> OptionalLong.of(0);
            case Event.CoinAdded added -> OptionalLong.of(0);
            case Event.AlbumDefined defined -> OptionalLong.of(0);
            case Event.CoinAcquired acquired -> OptionalLong.of(0);
            case Event.CoinDescribed described -> OptionalLong.of(0);
            case Event.PlaceMade made -> OptionalLong.of(0);
            case Event.PlaceRemoved removed -> OptionalLong.of(0);
            case Event.CoinsPut put -> OptionalLong.of(0);
            case Event.CoinsLeft left -> OptionalLong.of(0);
            case Event.CoinSubmitted submitted -> OptionalLong.of(0);
            case Event.PriceNoted noted -> OptionalLong.of(0);
            case Event.PriceForgotten forgotten -> OptionalLong.of(0);
            case Event.CupBegun begun -> OptionalLong.of(0);
            case Event.CupRead read -> OptionalLong.of(0);
            case Event.PileCounted counted -> OptionalLong.of(0);
            case Event.MetalPriced priced -> OptionalLong.of(0);
            case Event.CashMoved moved -> OptionalLong.of(0);
            case Event.BranchWritten written -> OptionalLong.of(0);
            case Event.BranchRemoved removed -> OptionalLong.of(0);
            case Event.OrderPlaced placed -> OptionalLong.of(0);
            case Event.OrderEnded ended -> OptionalLong.of(0);
            case Event.EffortNoted noted -> OptionalLong.of(0);
            case Event.AlbumRemoved removed -> OptionalLong.of(0);
            case Event.HolesFilled filled -> OptionalLong.of(0);
            case Event.PolicyChanged changed -> OptionalLong.of(0);
            case Event.BoxChanged changed -> OptionalLong.of(0);
            case Event.BoxAdded added -> OptionalLong.empty();
            case Event.EndersSeen seen -> OptionalLong.empty();
            case Event.Batch batch -> OptionalLong.empty();
            case Event.Undone undone -> OptionalLong.empty();
            case Event.Redone redone -> OptionalLong.empty();
        };
    }

    /// Photographs of a find belong to its hunt, all others to none, so that undo in one disturbs no other.
    private static OptionalLong photoOwner(Logbook book, PhotoSubject about) {
        if (!about.kind().equals("find")) {
            return OptionalLong.of(0);
        }
        return about.findId()
                .flatMap(book::find)
                .map(find -> OptionalLong.of(find.hunt().number()))
                .orElse(OptionalLong.empty());
    }

    private static OptionalLong boxOwner(Logbook book, BoxId box) {
        return book.box(box)
                .flatMap(Box::hunt)
                .map(hunt -> OptionalLong.of(hunt.number()))
                .orElse(OptionalLong.empty());
    }

    private static OptionalLong findOwner(Logbook book, FindId find, Set<Long> here) {
        return here.contains(find.number())
                ? OptionalLong.empty()
                : book.find(find)
                        .map(known -> OptionalLong.of(known.hunt().number()))
                        .orElse(OptionalLong.empty());
    }

    private static Optional<Refusal> refuse(Logbook book, Event event) {
        return switch (event) {
            case Event.Batch batch -> batch(book, batch);
            case Event.BoxAdded added ->
                book.box(added.box()).isPresent()
                        ? refusal(t("hunt.there-is-already-a-box", added.box()), t("hunt.take-the-next-number"))
                        : size(added.details());
            case Event.BoxChanged changed ->
                first(
                        box(book, changed.box()),
                        () -> first(size(changed.details()), () -> TillChecks.goesBack(book, changed)));
            case Event.HuntStarted started -> huntStarted(book, started);
            case Event.BoxJoined joined -> first(hunt(book, joined.hunt()), () -> freeBox(book, joined.box()));
            case Event.WatchBegan began -> hunt(book, began.hunt());
            case Event.WatchEnded ended -> first(hunt(book, ended.hunt()), () -> watched(book, ended));
            case Event.RollOpened opened ->
                first(
                        hunt(book, opened.hunt()),
                        () -> first(
                                boxOf(book, opened.hunt(), opened.box()),
                                () -> roll(book, opened.box(), opened.roll())));
            case Event.RollCounted counted ->
                first(
                        box(book, counted.box()),
                        () -> first(roll(book, counted.box(), counted.roll()), () -> coins(counted.coins(), "A roll")));
            case Event.RollLeft left -> first(searched(book, left.box()), () -> roll(book, left.box(), left.roll()));
            case Event.FindLogged logged -> find(book, logged.find());
            case Event.FindCorrected corrected ->
                first(find(book, corrected.find()), () -> coins(corrected.count(), "A find"));
            case Event.FindMoved moved -> moved(book, moved);
            case Event.FindSplit split -> split(book, split);
            case Event.FindDeleted deleted -> find(book, deleted.find());
            case Event.FindDisposed disposed -> find(book, disposed.find());
            case Event.EndersSeen seen -> enders(book, seen);
            case Event.Weighed weighed -> boxOf(book, weighed.hunt(), weighed.box());
            case Event.Checked checked -> checked(book, checked);
            case Event.Attributed attributed -> find(book, attributed.find());
            case Event.VarietyWritten written ->
                written.variety().isBlank()
                        ? refusal(t("hunt.the-variety-has-no-key"), t("hunt.give-it-a-name"))
                        : Optional.empty();
            case Event.VarietyRemoved removed ->
                book.varieties().containsKey(removed.variety())
                        ? Optional.empty()
                        : refusal(
                                t("hunt.is-no-variety-you-wrote", removed.variety()),
                                t("hunt.only-your-own-varieties-and"));
            case Event.PhotoKept kept -> subject(book, kept.about());
            case Event.PhotoTaken taken ->
                book.photos(taken.about()).stream()
                                .anyMatch(note -> note.photo().equals(taken.photo()))
                        ? Optional.empty()
                        : refusal(t("hunt.the-photograph-is-not-there"), t("hunt.look-at-the-page-again"));
            case Event.Marked marked -> hunt(book, marked.hunt());
            case Event.Noted noted -> hunt(book, noted.hunt());
            case Event.HuntFinished over -> first(hunt(book, over.hunt()), () -> running(book, over.hunt()));
            case Event.HuntResumed resumed -> first(hunt(book, resumed.hunt()), () -> notRunning(book, resumed.hunt()));
            case Event.OpeningBalance opening -> balance(opening);
            case Event.BoxTallied tallied -> first(box(book, tallied.box()), () -> tallied(book, tallied));
            case Event.CoinAdded added ->
                book.coin(added.coin()).isPresent()
                        ? refusal(t("hunt.there-is-already-a-coin", added.coin()), t("hunt.take-the-next-number"))
                        : Optional.empty();
            case Event.CoinAcquired acquired ->
                book.coin(acquired.coin()).isPresent()
                                || book.acquisition(acquired.coin()).isPresent()
                        ? refusal(t("hunt.there-is-already-a-coin", acquired.coin()), t("hunt.take-the-next-number"))
                        : Optional.empty();
            case Event.CoinDescribed described -> CabinetChecks.owned(book, List.of(described.coin()));
            case Event.PlaceMade made -> CabinetChecks.place(book, made.place());
            case Event.PlaceRemoved removed -> CabinetChecks.emptied(book, removed.place());
            case Event.CoinsPut put -> CabinetChecks.put(book, put);
            case Event.CoinsLeft left -> CabinetChecks.left(book, left);
            case Event.CoinSubmitted submitted -> CabinetChecks.owned(book, List.of(submitted.coin()));
            case Event.PriceNoted noted -> CabinetChecks.price(noted.price());
            case Event.PriceForgotten forgotten -> Optional.empty();
            case Event.CupBegun begun -> CabinetChecks.cup(begun.cup());
            case Event.CupRead read -> CabinetChecks.reading(book, read);
            case Event.PileCounted counted -> CabinetChecks.pile(counted.pile());
            case Event.CashMoved moved -> TillChecks.cash(book, moved.move());
            case Event.BranchWritten written -> TillChecks.branch(written.branch());
            case Event.BranchRemoved removed -> TillChecks.branchRemoved(book, removed.branch());
            case Event.OrderPlaced placed -> TillChecks.placed(book, placed.order());
            case Event.OrderEnded ended -> TillChecks.ended(book, ended);
            case Event.EffortNoted noted -> TillChecks.effort(book, noted.effort());
            case Event.MetalPriced priced ->
                priced.price().perKilogram().signum() > 0
                        ? Optional.empty()
                        : refusal(t("hunt.a-price-of-zero-or"), t("hunt.type-what-a-pound-or"));
            case Event.AlbumDefined defined ->
                defined.name().isBlank()
                        ? refusal(t("hunt.the-album-has-no-name"), t("hunt.give-it-one"))
                        : Optional.empty();
            case Event.AlbumRemoved removed -> album(book, removed.album());
            case Event.HolesFilled filled -> holes(book, filled);
            case Event.PolicyChanged changed -> Optional.empty();
            case Event.Undone undone -> Optional.empty();
            case Event.Redone redone -> Optional.empty();
        };
    }

    /// Undo must not pull the ground from under another hunt.
    static Optional<Refusal> refuseUndo(Logbook book, Entry target) {
        Set<HuntId> startedHere = new HashSet<>();
        List<Event> parts = target.event() instanceof Event.Batch batch ? batch.events() : List.of(target.event());
        for (Event part : parts) {
            if (part instanceof Event.HuntStarted started) {
                startedHere.add(started.hunt());
            }
        }
        for (Event part : parts) {
            if (part instanceof Event.BoxAdded added) {
                if (book.box(added.box())
                        .filter(box -> box.changedElsewhere > 0)
                        .isPresent()) {
                    return refusal(
                            t("hunt.box-was-changed-outside-this", added.box()), t("hunt.undo-that-change-on-the"));
                }
                Optional<HuntId> hunt = book.box(added.box()).flatMap(Box::hunt);
                if (hunt.isPresent() && !startedHere.contains(hunt.get())) {
                    return refusal(t("hunt.the-box-is-already-being", hunt.get()), t("hunt.undo-the-start-of-that"));
                }
            }
        }
        return Optional.empty();
    }

    private interface Check {
        Optional<Refusal> run();
    }

    private static Optional<Refusal> first(Optional<Refusal> refusal, Check next) {
        return refusal.isPresent() ? refusal : next.run();
    }

    private static Optional<Refusal> refusal(String wrong, String right) {
        return Optional.of(new Refusal(wrong, right));
    }

    /// A batch is tried part by part on the state itself and taken back, so that later parts may build on
    /// earlier ones.
    private static Optional<Refusal> batch(Logbook book, Event.Batch batch) {
        Entry trial = new Entry(book.last + 1, java.time.Instant.EPOCH, 0, "", batch);
        List<Runnable> inverses = new java.util.ArrayList<>();
        long boxes = book.lastBox;
        long hunts = book.lastHunt;
        long finds = book.lastFind;
        long albums = book.lastAlbum;
        int added = book.lastAdded;
        long places = book.lastPlace;
        long orders = book.lastOrder;
        Map<HuntId, Integer> ordinals = new HashMap<>();
        for (Event part : batch.events()) {
            Optional<HuntId> hunt = part instanceof Event.FindLogged logged
                    ? Optional.of(logged.find().hunt())
                    : part instanceof Event.FindSplit split
                            ? book.find(split.find()).map(Find::hunt)
                            : Optional.empty();
            hunt.ifPresent(id -> ordinals.putIfAbsent(id, book.ordinals.getOrDefault(id, 0)));
        }
        Optional<Refusal> refusal = Optional.empty();
        for (Event part : batch.events()) {
            refusal = part instanceof Event.Undone || part instanceof Event.Redone || part instanceof Event.Batch
                    ? refusal(t("hunt.a-batch-cannot-hold"), t("hunt.record-it-alone"))
                    : refuse(book, part);
            if (refusal.isPresent()) {
                break;
            }
            inverses.add(Changes.apply(book, part, trial));
        }
        inverses.reversed().forEach(Runnable::run);
        book.lastBox = boxes;
        book.lastHunt = hunts;
        book.lastFind = finds;
        book.lastAlbum = albums;
        book.lastAdded = added;
        book.lastPlace = places;
        book.lastOrder = orders;
        ordinals.forEach(book::ordinal);
        return refusal;
    }

    private static Optional<Refusal> hunt(Logbook book, HuntId id) {
        return book.hunt(id).isPresent()
                ? Optional.empty()
                : refusal(t("hunt.there-is-no-hunt", id), t("hunt.look-at-the-list-of-2"));
    }

    private static Optional<Refusal> running(Logbook book, HuntId id) {
        return book.known(id).finished().isEmpty()
                ? Optional.empty()
                : refusal(t("hunt.hunt-is-already-finished", id), t("hunt.resume-it-to-go-on"));
    }

    private static Optional<Refusal> notRunning(Logbook book, HuntId id) {
        return book.known(id).finished().isPresent()
                ? Optional.empty()
                : refusal(t("hunt.hunt-is-still-under-way", id), t("hunt.just-go-on"));
    }

    private static Optional<Refusal> box(Logbook book, BoxId id) {
        return book.box(id).isPresent()
                ? Optional.empty()
                : refusal(t("hunt.there-is-no-box", id), t("hunt.look-at-the-list-of-3"));
    }

    private static Optional<Refusal> searched(Logbook book, BoxId id) {
        return first(
                box(book, id),
                () -> book.known(id).hunt().isPresent()
                        ? Optional.empty()
                        : refusal(t("hunt.box-is-not-being-searched", id), t("hunt.start-a-hunt-on-it")));
    }

    private static Optional<Refusal> freeBox(Logbook book, BoxId id) {
        return first(
                box(book, id),
                () -> book.known(id).hunt().isEmpty()
                        ? Optional.empty()
                        : refusal(
                                t(
                                        "hunt.box-is-already-searched-in",
                                        id,
                                        book.known(id).hunt().orElseThrow()),
                                t("hunt.choose-another-box-or-go")));
    }

    private static Optional<Refusal> boxOf(Logbook book, HuntId hunt, BoxId box) {
        return first(
                hunt(book, hunt),
                () -> book.known(hunt).boxes().contains(box)
                        ? Optional.empty()
                        : refusal(t("hunt.box-does-not-belong-to", box, hunt), t("hunt.name-a-box-of-this")));
    }

    private static Optional<Refusal> huntStarted(Logbook book, Event.HuntStarted started) {
        if (book.hunt(started.hunt()).isPresent()) {
            return refusal(t("hunt.there-is-already-a-hunt", started.hunt()), t("hunt.take-the-next-number"));
        }
        if (started.boxes().isEmpty()) {
            return refusal(t("hunt.a-hunt-needs-something-to"), t("hunt.name-at-least-one-box"));
        }
        if (new HashSet<>(started.boxes()).size() != started.boxes().size()) {
            return refusal(t("hunt.a-box-is-named-twice"), t("hunt.name-each-box-once"));
        }
        for (BoxId box : started.boxes()) {
            Optional<Refusal> refusal = freeBox(book, box);
            if (refusal.isPresent()) {
                return refusal;
            }
        }
        return Optional.empty();
    }

    private static Optional<Refusal> watched(Logbook book, Event.WatchEnded ended) {
        return book.known(ended.hunt()).watches().stream()
                        .anyMatch(watch -> watch.name().equals(ended.watch()))
                ? Optional.empty()
                : refusal(t("hunt.is-not-being-watched-for", ended.watch()), t("hunt.name-one-of-the-hunt"));
    }

    private static Optional<Refusal> roll(Logbook book, BoxId id, int roll) {
        int rolls = book.known(id).details().rolls();
        if (roll < 0 || roll > MOST_ROLLS) {
            return refusal(t("hunt.there-is-no-roll", roll), t("hunt.rolls-count-from-1"));
        }
        if (roll > rolls) {
            return rolls == 0
                    ? refusal(t("hunt.this-parcel-has-no-rolls"), t("hunt.log-its-coins-without-a"))
                    : refusal(t("hunt.roll-is-over-the-box", roll, rolls), t("hunt.name-a-roll-from-1", rolls));
        }
        return Optional.empty();
    }

    private static Optional<Refusal> size(BoxDetails details) {
        boolean can = details.rolls() <= MOST_ROLLS
                && details.coinsPerRoll() <= MOST_COINS_IN_A_ROLL
                && details.looseCoins() <= MOST_COINS;
        return can
                ? Optional.empty()
                : refusal(
                        t("hunt.no-box-holds-so-many"),
                        t(
                                "hunt.write-up-to-rolls-of",
                                Limits.thousands(MOST_ROLLS),
                                Limits.thousands(MOST_COINS_IN_A_ROLL),
                                Limits.thousands(MOST_COINS)));
    }

    private static Optional<Refusal> coins(int coins, String what) {
        int least = what.equals("A find") ? 1 : 0;
        return coins >= least && coins <= MOST_COINS
                ? Optional.empty()
                : refusal(t("hunt.cannot-hold-coins", what, coins), t("hunt.give-a-number-from-to", least, MOST_COINS));
    }

    private static Optional<Refusal> find(Logbook book, Find find) {
        if (book.find(find.id()).isPresent()) {
            return refusal(t("hunt.there-is-already-a-find", find.id()), t("hunt.take-the-next-number"));
        }
        return first(
                boxOf(book, find.hunt(), find.box()),
                () -> first(roll(book, find.box(), find.roll()), () -> coins(find.count(), "A find")));
    }

    private static Optional<Refusal> find(Logbook book, FindId id) {
        return book.find(id).isPresent()
                ? Optional.empty()
                : refusal(t("hunt.there-is-no-find", id), t("hunt.it-may-have-been-struck"));
    }

    private static Optional<Refusal> subject(Logbook book, PhotoSubject about) {
        if (!about.kind().equals("find")) {
            return Optional.empty();
        }
        return about.findId()
                .map(id -> find(book, id))
                .orElseGet(() -> refusal(t("hunt.is-no-find", about.key()), t("hunt.open-the-find-and-add")));
    }

    private static Optional<Refusal> moved(Logbook book, Event.FindMoved moved) {
        return first(find(book, moved.find()), () -> {
            HuntId hunt = book.known(moved.find()).hunt();
            return first(boxOf(book, hunt, moved.box()), () -> roll(book, moved.box(), moved.roll()));
        });
    }

    private static Optional<Refusal> split(Logbook book, Event.FindSplit split) {
        return first(find(book, split.find()), () -> {
            int count = book.known(split.find()).count();
            return split.coins() >= 1 && split.coins() < count
                    ? Optional.empty()
                    : refusal(
                            t("hunt.cannot-take-of-coins", count, split.coins()),
                            count == 1
                                    ? t("hunt.a-single-coin-cannot-be")
                                    : t("hunt.take-a-number-from-1", (count - 1)));
        });
    }

    private static Optional<Refusal> checked(Logbook book, Event.Checked checked) {
        return first(
                hunt(book, checked.hunt()),
                () -> first(
                        find(book, checked.find()),
                        () -> book.known(checked.find()).hunt().equals(checked.hunt())
                                ? Optional.empty()
                                : refusal(
                                        t("hunt.find-belongs-to-another-hunt", checked.find()),
                                        t("hunt.record-it-there"))));
    }

    private static Optional<Refusal> enders(Logbook book, Event.EndersSeen seen) {
        return first(box(book, seen.box()), () -> {
            int most = 2 * book.known(seen.box()).details().rolls();
            if (seen.matching() < 0 || seen.visible() < 1 || seen.matching() > seen.visible()) {
                return refusal(
                        t("hunt.of-enders-is-impossible", seen.matching(), seen.visible()),
                        t("hunt.write-the-finds-first-then"));
            }
            return most > 0 && seen.visible() > most
                    ? refusal(t("hunt.enders-are-more-than-this", seen.visible(), most), t("hunt.two-for-each-roll-at"))
                    : Optional.empty();
        });
    }

    private static Optional<Refusal> tallied(Logbook book, Event.BoxTallied tallied) {
        if (book.known(tallied.box()).hunt().isPresent()) {
            return refusal(t("hunt.box-is-searched-in-this", tallied.box()), t("hunt.log-its-finds-there"));
        }
        boolean possible = tallied.coins() >= 0
                && tallied.counts().stream().allMatch(count -> count.found() >= 0 && count.found() <= tallied.coins());
        return possible
                ? Optional.empty()
                : refusal(
                        t("hunt.more-coins-found-than-searched", tallied.box()), t("hunt.give-the-coins-searched-and"));
    }

    private static Optional<Refusal> balance(Event.OpeningBalance opening) {
        return opening.boxes() >= 0
                        && opening.boxes() <= MOST_EARLIER_BOXES
                        && opening.coins() >= 0
                        && opening.found() >= 0
                        && opening.found() <= opening.coins()
                ? Optional.empty()
                : refusal(
                        t("hunt.an-opening-balance-of-found", opening.found(), opening.coins()),
                        t("hunt.neither-may-be-negative-nor"));
    }

    private static Optional<Refusal> album(Logbook book, AlbumId id) {
        return book.album(id).isPresent()
                ? Optional.empty()
                : refusal(t("hunt.there-is-no-album", id), t("hunt.look-at-the-list-of-4"));
    }

    private static Optional<Refusal> holes(Logbook book, Event.HolesFilled filled) {
        for (Event.HoleChange change : filled.changes()) {
            Optional<Refusal> refusal = first(album(book, change.album()), () -> {
                CoinRef coin = change.coin();
                return coin == null || book.coin(coin).isPresent()
                        ? Optional.empty()
                        : refusal(t("hunt.coin-is-not-there-any", coin), t("hunt.compare-the-album-again"));
            });
            if (refusal.isPresent()) {
                return refusal;
            }
        }
        return coinTwice(book, filled);
    }

    /// A coin can lie in one hole only.
    private static Optional<Refusal> coinTwice(Logbook book, Event.HolesFilled filled) {
        java.util.Map<String, CoinRef> after = new java.util.HashMap<>();
        book.albums().forEach(album -> album.holes().forEach((hole, coin) -> after.put(album.id() + "/" + hole, coin)));
        for (Event.HoleChange change : filled.changes()) {
            String key = change.album() + "/" + change.hole();
            CoinRef coin = change.coin();
            if (coin == null) {
                after.remove(key);
            } else {
                after.put(key, coin);
            }
        }
        Set<CoinRef> seen = new HashSet<>();
        for (CoinRef coin : after.values()) {
            if (!seen.add(coin)) {
                return refusal(t("hunt.coin-would-lie-in-two", coin), t("hunt.empty-its-old-hole-in"));
            }
        }
        return Optional.empty();
    }
}
