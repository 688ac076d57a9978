package org.rollwright.hunt;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mass;
import org.rollwright.coin.Mint;

/// Random histories of hunts, boxes, finds and albums, with undo and redo among them; the same for the same
/// seed.
public final class Histories {
    private Histories() {}

    static final Instant START = Instant.parse("2026-01-01T00:00:00Z");

    /// A random history through the desk: whatever it refuses is not written; whatever it keeps must be
    /// reversible.
    public static Desk history(Journal journal, Random random, int steps) {
        return continued(new Desk(journal, () -> START, new Logbook()), random, steps);
    }

    /// Goes on with a random history on an open desk.
    public static Desk continued(Desk desk, Random random, int steps) {
        for (int i = 0; i < steps; i++) {
            long hunts = desk.read(book -> (long) book.hunts().size());
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

    private static Desk.Step step(Logbook book, long scope, Random random) {
        if (scope == 0 || random.nextInt(25) == 0) {
            return outside(book, random);
        }
        HuntId hunt = new HuntId(scope);
        if (book.hunt(hunt).isEmpty()) {
            return outside(book, random);
        }
        List<Event> events = new ArrayList<>();
        for (int i = 0; i <= random.nextInt(3) / 2; i++) {
            events.add(inside(book, book.hunt(hunt).orElseThrow(), random, i));
        }
        return new Desk.Step(scope, events.size() == 1 ? events.getFirst() : new Event.Batch(events));
    }

    private static Desk.Step outside(Logbook book, Random random) {
        return switch (random.nextInt(18)) {
            case 16, 17 -> till(book, random);
            case 15 ->
                new Desk.Step(
                        0,
                        new Event.CashMoved(new CashMove(
                                java.time.LocalDate.of(2026, 1, 1),
                                "OUTSIDE",
                                "CASH",
                                java.math.BigDecimal.valueOf(random.nextInt(3)),
                                "",
                                "draw " + random.nextInt(9),
                                random.nextBoolean() ? null : "USD")));
            case 9 ->
                new Desk.Step(
                        0,
                        new Event.PlaceMade(new Place(
                                random.nextBoolean() ? book.nextPlace() : new PlaceId(1 + random.nextInt(3)),
                                random.nextBoolean() ? null : new PlaceId(1 + random.nextInt(3)),
                                "place " + random.nextInt(5),
                                random.nextInt(3))));
            case 10 -> new Desk.Step(0, new Event.PlaceRemoved(new PlaceId(1 + random.nextInt(3))));
            case 11 ->
                new Desk.Step(
                        0,
                        new Event.CoinAcquired(
                                book.nextAdded(),
                                coin(random),
                                new Acquisition("bought", "a club", java.time.LocalDate.of(2026, 1, 1), null)));
            case 12 ->
                new Desk.Step(
                        0,
                        new Event.CoinsPut(
                                List.of(new CoinRef(0, 1 + random.nextInt(4))),
                                random.nextBoolean() ? null : new PlaceId(1 + random.nextInt(3))));
            case 13 ->
                new Desk.Step(
                        0,
                        random.nextBoolean()
                                ? new Event.PriceNoted(price(random))
                                : new Event.PriceForgotten(price(random)));
            case 14 ->
                new Desk.Step(
                        0,
                        random.nextInt(3) == 0
                                ? new Event.CupBegun(new Cup(
                                        "copper", "us-cent-brass", Mass.ofGrams(10), Mass.ofGrams(1), START, List.of()))
                                : random.nextBoolean()
                                        ? new Event.CupRead("copper", "box", Mass.ofGrams(10 + random.nextInt(900)))
                                        : new Event.CoinsLeft(
                                                List.of(new CoinRef(0, 1 + random.nextInt(4))),
                                                new CabinetNote.Gone(
                                                        "sold", null, "", java.time.LocalDate.of(2026, 1, 2))));
            case 6 ->
                new Desk.Step(
                        0,
                        new Event.VarietyWritten(
                                "v" + random.nextInt(3), java.util.Map.of("name", "n" + random.nextInt(9))));
            case 7 -> new Desk.Step(0, new Event.VarietyRemoved("v" + random.nextInt(3)));
            case 8 ->
                new Desk.Step(
                        0,
                        random.nextBoolean()
                                ? new Event.PhotoKept("p" + random.nextInt(4), 4, 3, PhotoSubject.BENCH, "")
                                : new Event.PhotoTaken("p" + random.nextInt(4), PhotoSubject.BENCH));
            case 0 -> new Desk.Step(0, new Event.BoxAdded(book.nextBox(), Denomination.US_CENT, box()));
            case 1 -> new Desk.Step(0, new Event.AlbumDefined(book.nextAlbum(), "Album", "series wheat"));
            case 2 ->
                new Desk.Step(
                        0,
                        random.nextBoolean()
                                ? new Event.PolicyChanged("policy " + random.nextInt(9))
                                : new Event.BoxChanged(
                                        new BoxId(1 + random.nextInt(4)),
                                        BoxDetails.plain("Box " + random.nextInt(9), 50, 50)));
            case 3 ->
                new Desk.Step(
                        0,
                        new Event.HolesFilled(List.of(new Event.HoleChange(
                                new AlbumId(1 + random.nextInt(3)),
                                "hole" + random.nextInt(4),
                                random.nextBoolean() ? null : new CoinRef(1 + random.nextInt(20), 1)))));
            case 4 ->
                new Desk.Step(0, new Event.OpeningBalance(Denomination.US_CENT, "wheat", 3, 7500, random.nextInt(40)));
            default -> {
                HuntId hunt = book.nextHunt();
                BoxId box = book.nextBox();
                yield new Desk.Step(
                        hunt.number(),
                        new Event.Batch(List.of(
                                new Event.BoxAdded(box, Denomination.US_CENT, box()),
                                new Event.HuntStarted(
                                        hunt, "hunt", List.of(box), List.of(new Watch("wheat", "series wheat"))))));
            }
        };
    }

    /// Branches, orders and time spent; some of it contradicts what is there.
    private static Desk.Step till(Logbook book, Random random) {
        java.time.LocalDate day = java.time.LocalDate.of(2026, 1, 1).plusDays(random.nextInt(9));
        String branch = "bank " + random.nextInt(3);
        return new Desk.Step(
                0,
                switch (random.nextInt(5)) {
                    case 0 ->
                        new Event.BranchWritten(new Branch(
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
                                random.nextBoolean() ? "" : "NE",
                                random.nextInt(6) == 0,
                                ""));
                    case 1 -> new Event.BranchRemoved(branch);
                    case 2 ->
                        new Event.OrderPlaced(new Order(
                                book.nextOrder(),
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
                        new Event.OrderEnded(
                                1 + random.nextInt((int) book.nextOrder()),
                                day.plusDays(9),
                                random.nextBoolean() ? List.of() : List.of(new BoxId(1)));
                    default ->
                        new Event.EffortNoted(new Effort(
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

    private static Event inside(Logbook book, Hunt hunt, Random random, int number) {
        BoxId box = hunt.boxes().get(random.nextInt(hunt.boxes().size()));
        FindId some = new FindId(1 + random.nextInt((int) book.nextFind().number()));
        return switch (random.nextInt(20)) {
            case 16 ->
                new Event.Attributed(
                        some, "v1", "probable", List.of(new Event.Look("a second D", "yes")), "n" + random.nextInt(5));
            case 17 -> new Event.PhotoKept("p" + random.nextInt(4), 4, 3, PhotoSubject.find(some), "");
            case 18 -> new Event.PhotoTaken("p" + random.nextInt(4), PhotoSubject.find(some));
            case 0 -> new Event.RollOpened(hunt.id(), box, random.nextInt(55));
            case 1 -> new Event.RollCounted(box, 1 + random.nextInt(50), 40 + random.nextInt(20));
            case 2 -> new Event.RollLeft(box, 1 + random.nextInt(50));
            case 3 -> new Event.FindCorrected(some, coin(random), 1 + random.nextInt(4), random.nextBoolean());
            case 4 -> new Event.FindMoved(some, box, random.nextInt(51));
            case 5 ->
                new Event.FindSplit(
                        some,
                        new FindId(book.nextFind().number() + number),
                        hunt.nextOrdinal() + number,
                        1 + random.nextInt(3));
            case 6 -> new Event.FindDeleted(some);
            case 7 -> new Event.FindDisposed(some, random.nextBoolean() ? Disposition.KEEP : Disposition.RETURN);
            case 8 -> new Event.EndersSeen(box, random.nextInt(5), 20 + random.nextInt(90));
            case 9 -> new Event.Weighed(hunt.id(), box, Mass.ofGrams(random.nextInt(9000)), "");
            case 10 -> new Event.Checked(hunt.id(), some, "ddo");
            case 11 -> new Event.WatchBegan(hunt.id(), new Watch("w" + random.nextInt(3), "metal copper"));
            case 12 -> new Event.WatchEnded(hunt.id(), "w" + random.nextInt(3));
            case 13 -> random.nextBoolean() ? new Event.HuntFinished(hunt.id()) : new Event.HuntResumed(hunt.id());
            default ->
                new Event.FindLogged(new Find(
                        new FindId(book.nextFind().number() + number),
                        hunt.id(),
                        hunt.nextOrdinal() + number,
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
