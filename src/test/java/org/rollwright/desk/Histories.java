package org.rollwright.desk;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.rollwright.album.AlbumEvent;
import org.rollwright.album.AlbumId;
import org.rollwright.cabinet.Acquisition;
import org.rollwright.cabinet.CabinetEvent;
import org.rollwright.cabinet.CabinetNote;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.cabinet.Place;
import org.rollwright.cabinet.PlaceId;
import org.rollwright.cabinet.PricePoint;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mass;
import org.rollwright.coin.Mint;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.Disposition;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.FindId;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.hunt.HuntId;
import org.rollwright.hunt.Watch;
import org.rollwright.journal.Event;
import org.rollwright.journal.Journal;
import org.rollwright.journal.Word;
import org.rollwright.scale.Cup;
import org.rollwright.scale.ScaleEvent;
import org.rollwright.scope.PhotoSubject;
import org.rollwright.scope.ScopeEvent;
import org.rollwright.scope.VerdictWord;
import org.rollwright.till.Account;
import org.rollwright.till.Bearing;
import org.rollwright.till.Branch;
import org.rollwright.till.CashMove;
import org.rollwright.till.Effort;
import org.rollwright.till.Order;
import org.rollwright.till.OrderId;
import org.rollwright.till.TillEvent;

/// Random histories of hunts, boxes, finds and albums, with undo and redo among them; the same for the same
/// seed.
public final class Histories {
    private Histories() {}

    static final Instant START = Instant.parse("2026-01-01T00:00:00Z");

    /// A random history through the desk: whatever it refuses is not written; whatever it keeps must be
    /// reversible.
    public static Desk history(Journal journal, Random random, int steps) {
        return continued(new Desk(journal, () -> START, State.EMPTY), random, steps);
    }

    /// Goes on with a random history on an open desk.
    public static Desk continued(Desk desk, Random random, int steps) {
        for (int i = 0; i < steps; i++) {
            long hunts = desk.read(book -> (long) book.hunt().hunts().size());
            long scope = hunts == 0 || random.nextInt(8) == 0 ? 0 : 1 + random.nextInt((int) hunts);
            switch (random.nextInt(12)) {
                case 0 -> desk.undo(scope, "<");
                case 1 -> desk.undo(scope, "<");
                case 2 -> desk.redo(scope, ">");
                default -> desk.recordAt(START.plusSeconds(i), "", book -> step(book, scope, random));
            }
        }
        return desk;
    }

    private static Desk.Step step(State book, long scope, Random random) {
        if (scope == 0 || random.nextInt(25) == 0) {
            return outside(book, random);
        }
        HuntId hunt = new HuntId(scope);
        if (book.hunt().hunt(hunt).isEmpty()) {
            return outside(book, random);
        }
        List<Event> events = new ArrayList<>();
        for (int i = 0; i <= random.nextInt(3) / 2; i++) {
            events.add(inside(book, book.hunt().hunt(hunt).orElseThrow(), random, i));
        }
        return new Desk.Step(scope, events.size() == 1 ? events.getFirst() : new Event.Batch(events));
    }

    private static Desk.Step outside(State book, Random random) {
        return switch (random.nextInt(18)) {
            case 16, 17 -> till(book, random);
            case 15 ->
                new Desk.Step(
                        0,
                        new TillEvent.CashMoved(new CashMove(
                                java.time.LocalDate.of(2026, 1, 1),
                                Word.of(Account.OUTSIDE),
                                random.nextInt(4) == 0 ? new Word<>("a safe") : Word.of(Account.CASH),
                                java.math.BigDecimal.valueOf(random.nextInt(3)),
                                "",
                                "draw " + random.nextInt(9),
                                random.nextBoolean() ? null : "USD")));
            case 9 ->
                new Desk.Step(
                        0,
                        new CabinetEvent.PlaceMade(new Place(
                                random.nextBoolean() ? book.cabinet().nextPlace() : new PlaceId(1 + random.nextInt(3)),
                                random.nextBoolean() ? null : new PlaceId(1 + random.nextInt(3)),
                                "place " + random.nextInt(5),
                                random.nextInt(3))));
            case 10 -> new Desk.Step(0, new CabinetEvent.PlaceRemoved(new PlaceId(1 + random.nextInt(3))));
            case 11 ->
                new Desk.Step(
                        0,
                        new CabinetEvent.CoinAcquired(
                                book.cabinet().nextAdded(),
                                coin(random),
                                new Acquisition("bought", "a club", java.time.LocalDate.of(2026, 1, 1), null)));
            case 12 ->
                new Desk.Step(
                        0,
                        new CabinetEvent.CoinsPut(
                                List.of(new CoinRef(0, 1 + random.nextInt(4))),
                                random.nextBoolean() ? null : new PlaceId(1 + random.nextInt(3))));
            case 13 ->
                new Desk.Step(
                        0,
                        random.nextBoolean()
                                ? new CabinetEvent.PriceNoted(price(random))
                                : new CabinetEvent.PriceForgotten(price(random)));
            case 14 ->
                new Desk.Step(
                        0,
                        random.nextInt(3) == 0
                                ? new ScaleEvent.CupBegun(new Cup(
                                        "copper", "us-cent-brass", Mass.ofGrams(10), Mass.ofGrams(1), START, List.of()))
                                : random.nextBoolean()
                                        ? new ScaleEvent.CupRead(
                                                "copper", "box", Mass.ofGrams(10 + random.nextInt(900)))
                                        : new CabinetEvent.CoinsLeft(
                                                List.of(new CoinRef(0, 1 + random.nextInt(4))),
                                                new CabinetNote.Gone(
                                                        new Word<>(random.nextInt(4) == 0 ? "eaten" : "sold"),
                                                        null,
                                                        "",
                                                        java.time.LocalDate.of(2026, 1, 2))));
            case 6 ->
                new Desk.Step(
                        0,
                        new ScopeEvent.VarietyWritten(
                                "v" + random.nextInt(3), java.util.Map.of("name", "n" + random.nextInt(9))));
            case 7 -> new Desk.Step(0, new ScopeEvent.VarietyRemoved("v" + random.nextInt(3)));
            case 8 ->
                new Desk.Step(
                        0,
                        random.nextBoolean()
                                ? new ScopeEvent.PhotoKept(
                                        "p" + random.nextInt(4),
                                        4,
                                        3,
                                        random.nextInt(4) == 0
                                                ? new PhotoSubject(new Word<>("shelf"), "", 0)
                                                : PhotoSubject.BENCH,
                                        "")
                                : new ScopeEvent.PhotoTaken("p" + random.nextInt(4), PhotoSubject.BENCH));
            case 0 -> new Desk.Step(0, new HuntEvent.BoxAdded(book.hunt().nextBox(), Denomination.US_CENT, box()));
            case 1 -> new Desk.Step(0, new AlbumEvent.AlbumDefined(book.album().nextAlbum(), "Album", "series wheat"));
            case 2 ->
                new Desk.Step(
                        0,
                        random.nextBoolean()
                                ? new AlbumEvent.PolicyChanged("policy " + random.nextInt(9))
                                : new HuntEvent.BoxChanged(
                                        new BoxId(1 + random.nextInt(4)),
                                        BoxDetails.plain("Box " + random.nextInt(9), 50, 50)));
            case 3 ->
                new Desk.Step(
                        0,
                        new AlbumEvent.HolesFilled(List.of(new AlbumEvent.HoleChange(
                                new AlbumId(1 + random.nextInt(3)),
                                "hole" + random.nextInt(4),
                                random.nextBoolean() ? null : new CoinRef(1 + random.nextInt(20), 1)))));
            case 4 ->
                new Desk.Step(
                        0, new HuntEvent.OpeningBalance(Denomination.US_CENT, "wheat", 3, 7500, random.nextInt(40)));
            default -> {
                HuntId hunt = book.hunt().nextHunt();
                BoxId box = book.hunt().nextBox();
                yield new Desk.Step(
                        hunt.number(),
                        new Event.Batch(List.of(
                                new HuntEvent.BoxAdded(box, Denomination.US_CENT, box()),
                                new HuntEvent.HuntStarted(
                                        hunt, "hunt", List.of(box), List.of(new Watch("wheat", "series wheat"))))));
            }
        };
    }

    /// Branches, orders and time spent; some of it contradicts what is there.
    private static Desk.Step till(State book, Random random) {
        java.time.LocalDate day = java.time.LocalDate.of(2026, 1, 1).plusDays(random.nextInt(9));
        String branch = "bank " + random.nextInt(3);
        return new Desk.Step(
                0,
                switch (random.nextInt(5)) {
                    case 0 ->
                        new TillEvent.BranchWritten(new Branch(
                                branch,
                                "",
                                random.nextInt(4) > 0,
                                random.nextBoolean(),
                                java.util.EnumSet.range(
                                        java.time.DayOfWeek.MONDAY, java.time.DayOfWeek.of(5 + random.nextInt(3))),
                                random.nextInt(4),
                                java.math.BigDecimal.ZERO,
                                java.math.BigDecimal.ZERO,
                                random.nextInt(30),
                                random.nextBoolean() ? Bearing.NOT_SAID : Word.of(Bearing.NE),
                                random.nextInt(6) == 0,
                                ""));
                    case 1 -> new TillEvent.BranchRemoved(branch);
                    case 2 ->
                        new TillEvent.OrderPlaced(new Order(
                                book.till().nextOrder(),
                                branch,
                                Denomination.US_CENT,
                                1 + random.nextInt(3),
                                day,
                                day.plusDays(random.nextInt(5)),
                                random.nextBoolean(),
                                "",
                                null,
                                List.of()));
                    case 3 ->
                        new TillEvent.OrderEnded(
                                new OrderId(1
                                        + random.nextInt(
                                                (int) book.till().nextOrder().number())),
                                day.plusDays(9),
                                random.nextBoolean() ? List.of() : List.of(new BoxId(1)));
                    default ->
                        new TillEvent.EffortNoted(new Effort(
                                day,
                                random.nextBoolean() ? null : new HuntId(1 + random.nextInt(4)),
                                random.nextBoolean() ? Effort.Phase.BANK : Effort.Phase.SEARCH,
                                random.nextInt(90),
                                random.nextInt(20),
                                java.math.BigDecimal.valueOf(random.nextInt(900), 2),
                                "",
                                ""));
                });
    }

    static BoxDetails box() {
        return BoxDetails.plain("Box", 50, 50);
    }

    private static Event inside(State book, Hunt hunt, Random random, int number) {
        BoxId box = hunt.boxes().get(random.nextInt(hunt.boxes().size()));
        FindId some = new FindId(1 + random.nextInt((int) book.hunt().nextFind().number()));
        return switch (random.nextInt(20)) {
            case 16 ->
                new ScopeEvent.Attributed(
                        some,
                        "v1",
                        random.nextInt(4) == 0 ? new Word<>("unsure") : Word.of(VerdictWord.PROBABLE),
                        List.of(new ScopeEvent.Look("a second D", "yes")),
                        "n" + random.nextInt(5));
            case 17 -> new ScopeEvent.PhotoKept("p" + random.nextInt(4), 4, 3, PhotoSubject.find(some), "");
            case 18 -> new ScopeEvent.PhotoTaken("p" + random.nextInt(4), PhotoSubject.find(some));
            case 0 -> new HuntEvent.RollOpened(hunt.id(), box, random.nextInt(55));
            case 1 -> new HuntEvent.RollCounted(box, 1 + random.nextInt(50), 40 + random.nextInt(20));
            case 2 -> new HuntEvent.RollLeft(box, 1 + random.nextInt(50));
            case 3 -> new HuntEvent.FindCorrected(some, coin(random), 1 + random.nextInt(4), random.nextBoolean());
            case 4 -> new HuntEvent.FindMoved(some, box, random.nextInt(51));
            case 5 ->
                new HuntEvent.FindSplit(
                        some,
                        new FindId(book.hunt().nextFind().number() + number),
                        book.hunt().nextOrdinal(hunt.id()) + number,
                        1 + random.nextInt(3));
            case 6 -> new HuntEvent.FindDeleted(some);
            case 7 -> new HuntEvent.FindDisposed(some, random.nextBoolean() ? Disposition.KEEP : Disposition.RETURN);
            case 8 -> new HuntEvent.EndersSeen(box, random.nextInt(5), 20 + random.nextInt(90));
            case 9 -> new HuntEvent.Weighed(hunt.id(), box, Mass.ofGrams(random.nextInt(9000)), "");
            case 10 -> new HuntEvent.Checked(hunt.id(), some, "ddo");
            case 11 -> new HuntEvent.WatchBegan(hunt.id(), new Watch("w" + random.nextInt(3), "metal copper"));
            case 12 -> new HuntEvent.WatchEnded(hunt.id(), "w" + random.nextInt(3));
            case 13 ->
                random.nextBoolean() ? new HuntEvent.HuntFinished(hunt.id()) : new HuntEvent.HuntResumed(hunt.id());
            default ->
                new HuntEvent.FindLogged(new Find(
                        new FindId(book.hunt().nextFind().number() + number),
                        hunt.id(),
                        book.hunt().nextOrdinal(hunt.id()) + number,
                        box,
                        random.nextInt(51),
                        coin(random),
                        1 + random.nextInt(4),
                        random.nextBoolean(),
                        Disposition.OPEN,
                        START));
        };
    }

    private static PricePoint price(Random random) {
        return new PricePoint(
                Identity.of(Denomination.US_CENT, 1909 + random.nextInt(3), Mint.D),
                new org.rollwright.coin.Grade(20),
                null,
                java.math.BigDecimal.valueOf(1 + random.nextInt(9)),
                java.time.LocalDate.of(2026, 1, 1),
                "");
    }

    private static CoinDescription coin(Random random) {
        return CoinDescription.plain(Identity.of(Denomination.US_CENT, 1909 + random.nextInt(50), Mint.D));
    }
}
