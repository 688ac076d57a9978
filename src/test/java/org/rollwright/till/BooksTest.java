package org.rollwright.till;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.LongRange;
import org.joda.money.CurrencyUnit;
import org.junit.jupiter.api.Test;
import org.rollwright.album.AlbumEvent;
import org.rollwright.cabinet.CabinetEvent;
import org.rollwright.cabinet.CabinetNote;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.cabinet.Leaving;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;
import org.rollwright.coin.Refusal;
import org.rollwright.desk.Desk;
import org.rollwright.desk.Histories;
import org.rollwright.desk.MemoryJournal;
import org.rollwright.desk.State;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.Disposition;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.FindId;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.hunt.HuntId;
import org.rollwright.hunt.Roll;
import org.rollwright.journal.Event;
import org.rollwright.journal.Word;

/// The books as they follow from the record.
class BooksTest {
    private static final Catalog CATALOG = CatalogFolder.catalog();
    private static final Instant EVENING = Instant.parse("2026-03-06T19:00:00Z");
    private static final LocalDate PICKED = LocalDate.of(2026, 3, 2);

    private static Ledger books(State book) {
        return Ledger.of(book.till(), book.holdings(), CATALOG, CurrencyUnit.USD, ZoneOffset.UTC);
    }

    private static Ledger books(Desk desk) {
        return desk.read(BooksTest::books);
    }

    /// Any history of draws, boxes, finds, keeps, shorts, orders, returns, fees and undoing keeps the books
    /// balanced, and what is kept, short and still in boxes is what a count of the record by itself gives.
    @Property(tries = 150)
    void any_history_keeps_the_books_balanced(@ForAll @LongRange(max = 1L << 40) long seed) {
        Random random = new Random(seed);
        Desk desk = Histories.history(new MemoryJournal(), random, 60);
        for (int i = 0; i < 40; i++) {
            Histories.continued(desk, random, 3);
            money(desk, random);
            Ledger ledger = books(desk);
            assertThat(ledger.sum()).isEqualByComparingTo("0");
            for (Account account : Account.values()) {
                if (account != Account.OUTSIDE && account != Account.SHORT) {
                    assertThat(ledger.balance(account).signum())
                            .as("%s", account)
                            .isNotNegative();
                }
            }
        }
        Ledger ledger = books(desk);
        boolean whole = ledger.leftOut().isEmpty();
        desk.read(book -> {
            if (whole) {
                assertThat(ledger.balance(Account.KEPT).add(ledger.balance(Account.LEFT)))
                        .as("seed %d: kept", seed)
                        .isEqualByComparingTo(cents(keptByCount(book)));
                assertThat(ledger.balance(Account.BOXES)
                                .add(ledger.balance(Account.TO_RETURN))
                                .add(ledger.balance(Account.KEPT))
                                .add(ledger.balance(Account.LEFT))
                                .add(ledger.balance(Account.SHORT)))
                        .as("seed %d: face value of boxes here or kept of boxes gone", seed)
                        .isEqualByComparingTo(cents(hereByCount(book)).add(booked(book, Account.SHORT)));
            }
            return true;
        });
    }

    private static BigDecimal cents(long coins) {
        return BigDecimal.valueOf(coins, 2);
    }

    private static BigDecimal booked(State book, Account to) {
        return book.till().cashMoves().stream()
                .filter(move -> move.to().is(to))
                .map(CashMove::amount)
                .reduce(BigDecimal.ZERO, BigDecimal::add);
    }

    private static boolean settled(State book, Box box) {
        return box.details().returned() != null
                || box.hunt()
                        .flatMap(book.hunt()::hunt)
                        .flatMap(org.rollwright.hunt.Hunt::finished)
                        .isPresent();
    }

    private static boolean here(Box box) {
        return box.hunt().isPresent() || box.details().pickedUp() != null;
    }

    /// Cents of finds that did not go back, in boxes whose search is over.
    private static long keptByCount(State book) {
        return book.hunt().finds().stream()
                .filter(find -> find.disposition() != Disposition.RETURN)
                .filter(find -> book.hunt()
                        .box(find.box())
                        .filter(box -> here(box) && settled(book, box))
                        .isPresent())
                .mapToLong(Find::count)
                .sum();
    }

    /// Cents of boxes: all that were bought, less what the returned ones took with them.
    private static long hereByCount(State book) {
        long sum = 0;
        for (Box box : book.hunt().boxes()) {
            if (!here(box)) {
                continue;
            }
            sum += box.details().nominalCoins();
            if (box.details().returned() != null) {
                long kept = book.hunt().finds().stream()
                        .filter(find -> find.box().equals(box.id()) && find.disposition() != Disposition.RETURN)
                        .mapToLong(Find::count)
                        .sum();
                long difference = box.rolls().stream()
                        .filter(roll -> roll.counted() != null
                                && roll.number() <= box.details().rolls())
                        .mapToLong(roll -> roll.coins(50) - 50L)
                        .sum();
                // everything that was in it and not kept; the shorts are still accounted for
                sum -= Math.max(0, box.details().nominalCoins() + difference - kept);
            }
        }
        return sum;
    }

    private static void money(Desk desk, Random random) {
        LocalDate day = LocalDate.of(2026, 1, 1).plusDays(random.nextInt(20));
        desk.record(0, "", book -> {
            List<Box> boxes = new ArrayList<>(book.hunt().boxes());
            return switch (random.nextInt(5)) {
                case 0 -> new TillEvent.CashMoved(cash(day, Account.OUTSIDE, Account.CASH, random.nextInt(9_000) + 1));
                case 1 -> new TillEvent.CashMoved(cash(day, Account.OUTSIDE, Account.FEES, random.nextInt(300) + 1));
                case 2 -> new TillEvent.CashMoved(cash(day, Account.OUTSIDE, Account.SHORT, random.nextInt(30) + 1));
                default -> {
                    if (boxes.isEmpty()) {
                        yield new AlbumEvent.PolicyChanged("x");
                    }
                    Box box = boxes.get(random.nextInt(boxes.size()));
                    BoxDetails details = box.details();
                    yield new HuntEvent.BoxChanged(
                            box.id(),
                            random.nextInt(3) == 0
                                    ? details.returnedOn(day, "bank 1")
                                    : new BoxDetails(
                                            details.label(),
                                            details.form(),
                                            details.rolls(),
                                            details.coinsPerRoll(),
                                            0,
                                            "bank " + random.nextInt(3),
                                            "",
                                            "",
                                            "",
                                            "",
                                            null,
                                            day,
                                            details.returned(),
                                            details.returnedTo(),
                                            ""));
                }
            };
        });
    }

    private static CashMove cash(LocalDate day, Account from, Account to, int cents) {
        return new CashMove(day, Word.of(from), Word.of(to), BigDecimal.valueOf(cents, 2), "", "", "USD");
    }

    private static Event found(int number, int roll, int year, int coins) {
        return new HuntEvent.FindLogged(new Find(
                new FindId(number),
                new HuntId(1),
                number,
                new BoxId(1),
                roll,
                CoinDescription.plain(Identity.of(Denomination.US_CENT, year, Mint.D)),
                coins,
                false,
                Disposition.OPEN,
                EVENING));
    }

    private static Desk evening() {
        Desk desk = new Desk(new MemoryJournal(), () -> EVENING, State.EMPTY);
        BoxDetails box = new BoxDetails(
                "Box 12",
                BoxDetails.Form.BOX,
                50,
                50,
                0,
                "Hill Bank",
                "Mill Lane",
                "machine",
                "",
                "",
                null,
                PICKED,
                null,
                "",
                "");
        desk.record(
                1,
                "",
                book -> new Event.Batch(List.of(
                        new HuntEvent.BoxAdded(new BoxId(1), Denomination.US_CENT, box),
                        new HuntEvent.HuntStarted(new HuntId(1), "Box 12", List.of(new BoxId(1)), List.of()))));
        for (int roll = 1; roll <= 50; roll++) {
            int number = roll;
            desk.record(1, "", book -> new HuntEvent.RollOpened(new HuntId(1), new BoxId(1), number));
        }
        desk.record(1, "", book -> new HuntEvent.RollCounted(new BoxId(1), 5, 48));
        desk.record(1, "", book -> new HuntEvent.RollCounted(new BoxId(1), 9, 51));
        for (int i = 1; i <= 7; i++) {
            int number = i;
            desk.record(1, "", book -> found(number, 3, 1940 + number, 2));
        }
        return desk;
    }

    /// A box by hand: 25.00 paid; 14 finds; two coins missing in roll 5, one over in roll 9. So 0.14 stays,
    /// 0.02 is short, 0.01 over, and 25.00 − 0.14 − 0.02 + 0.01 = 24.85 goes back.
    @Test
    void a_box_by_hand() {
        Desk desk = evening();
        assertThat(books(desk).balance(Account.BOXES)).isEqualByComparingTo("25.00");
        desk.record(1, "", book -> new HuntEvent.HuntFinished(new HuntId(1)));
        Ledger ledger = books(desk);
        assertThat(ledger.balance(Account.BOXES)).isEqualByComparingTo("0");
        assertThat(ledger.balance(Account.KEPT)).isEqualByComparingTo("0.14");
        assertThat(ledger.balance(Account.SHORT)).isEqualByComparingTo("0.01");
        assertThat(ledger.balance(Account.TO_RETURN)).isEqualByComparingTo("24.85");
        assertThat(Shortage.of(desk.state().hunt(), CATALOG, CurrencyUnit.USD))
                .singleElement()
                .satisfies(one -> {
                    assertThat(one.rolls()).containsExactly("5 (48)", "9 (51)");
                    assertThat(one.amount()).isEqualByComparingTo("-0.01");
                });
        // two finds go back, one coin is spent
        desk.record(1, "", book -> new HuntEvent.FindDisposed(new FindId(1), Disposition.RETURN));
        desk.record(
                0,
                "",
                book -> new CabinetEvent.CoinsLeft(
                        List.of(CoinRef.of(new FindId(2), 1)),
                        new CabinetNote.Gone(Word.of(Leaving.SPENT), null, "", LocalDate.of(2026, 3, 10))));
        ledger = books(desk);
        assertThat(ledger.balance(Account.KEPT)).isEqualByComparingTo("0.11");
        assertThat(ledger.balance(Account.LEFT)).isEqualByComparingTo("0.01");
        assertThat(ledger.balance(Account.TO_RETURN)).isEqualByComparingTo("24.87");
        desk.record(
                0,
                "",
                book -> new HuntEvent.BoxChanged(
                        new BoxId(1),
                        book.hunt()
                                .box(new BoxId(1))
                                .orElseThrow()
                                .details()
                                .returnedOn(LocalDate.of(2026, 3, 9), "Mill Bank")));
        ledger = books(desk);
        assertThat(ledger.balance(Account.TO_RETURN)).isEqualByComparingTo("0");
        assertThat(ledger.balance(Account.OUTSIDE)).isEqualByComparingTo("-0.13");
    }

    @Test
    void what_rests_on_something_later_undone_is_named_and_a_booking_that_would_pull_it_away_is_refused() {
        Desk desk = evening();
        desk.record(0, "", book -> new TillEvent.CashMoved(cash(PICKED, Account.OUTSIDE, Account.CASH, 3_000)));
        desk.record(
                0, "", book -> new TillEvent.CashMoved(cash(PICKED.plusDays(3), Account.CASH, Account.OUTSIDE, 500)));
        assertThat(books(desk).leftOut()).isEmpty();
        assertThat(books(desk).balance(Account.CASH)).isEqualByComparingTo("0");
        Optional<Refusal> refusal = desk.read(book -> Ledger.refusal(
                book.till(),
                book.holdings(),
                CATALOG,
                CurrencyUnit.USD,
                ZoneOffset.UTC,
                List.of(new Ledger.Movement(
                        PICKED.plusDays(1), Account.CASH, Account.FEES, new BigDecimal("1.00"), "fee", "", true))));
        assertThat(refusal.orElseThrow().wrong()).startsWith("Then 5.00 on 2026-03-05");
    }

    @Test
    void a_paid_order_is_in_transit_until_its_boxes_come() {
        Desk desk = new Desk(new MemoryJournal(), () -> EVENING, State.EMPTY);
        Order order = new Order(
                new OrderId(1),
                "Hill Bank",
                Denomination.US_CENT,
                3,
                PICKED,
                PICKED.plusDays(2),
                true,
                "",
                null,
                List.of());
        desk.record(0, "", book -> new TillEvent.OrderPlaced(order));
        assertThat(books(desk).balance(Account.IN_TRANSIT)).isEqualByComparingTo("75.00");
        List<Event> events = new ArrayList<>();
        for (long i = 1; i <= 2; i++) {
            events.add(new HuntEvent.BoxAdded(
                    new BoxId(i),
                    Denomination.US_CENT,
                    new BoxDetails(
                            "Box " + i,
                            BoxDetails.Form.BOX,
                            50,
                            50,
                            0,
                            "Hill Bank",
                            "",
                            "",
                            "",
                            "",
                            PICKED,
                            PICKED.plusDays(2),
                            null,
                            "",
                            "")));
        }
        events.add(new TillEvent.OrderEnded(new OrderId(1), PICKED.plusDays(2), List.of(new BoxId(1), new BoxId(2))));
        desk.record(0, "", book -> new Event.Batch(events));
        Ledger ledger = books(desk);
        assertThat(ledger.balance(Account.IN_TRANSIT)).isEqualByComparingTo("0");
        assertThat(ledger.balance(Account.BOXES)).isEqualByComparingTo("50.00");
        assertThat(ledger.balance(Account.OUTSIDE)).isEqualByComparingTo("-50.00");
        assertThat(ledger.leftOut()).isEmpty();
        // what has come does not come again
        assertThat(desk.record(0, "", book -> new TillEvent.OrderEnded(new OrderId(1), PICKED.plusDays(3), List.of())))
                .isInstanceOf(Desk.Outcome.Refused.class);
    }

    @Test
    void a_deposit_in_a_closed_branch_is_refused() {
        Desk desk = evening();
        Branch open = new Branch(
                "Hill Bank",
                "Mill Lane",
                true,
                false,
                java.util.EnumSet.of(java.time.DayOfWeek.MONDAY),
                0,
                BigDecimal.ZERO,
                BigDecimal.ZERO,
                4,
                Word.of(Bearing.N),
                false,
                "");
        desk.record(0, "", book -> new TillEvent.BranchWritten(open));
        CashMove sunday = new CashMove(
                LocalDate.of(2026, 3, 8),
                Word.of(Account.OUTSIDE),
                Word.of(Account.CASH),
                new BigDecimal("5.00"),
                "Hill Bank, Mill Lane",
                "",
                "USD");
        assertThat(desk.record(0, "", book -> new TillEvent.CashMoved(sunday)))
                .asString()
                .contains("Hill Bank, Mill Lane does not open on Sundays; 2026-03-08 is one.");
        assertThat(desk.record(
                        0,
                        "",
                        book -> new HuntEvent.BoxChanged(
                                new BoxId(1),
                                book.hunt()
                                        .box(new BoxId(1))
                                        .orElseThrow()
                                        .details()
                                        .returnedOn(LocalDate.of(2026, 3, 9), "Hill Bank, Mill Lane"))))
                .asString()
                .contains("Hill Bank, Mill Lane takes no coins back.");
    }

    /// Bayes' rule by hand: 0.1 / (0.1 + 0.9 × 0.02) = 0.847.
    @Test
    void a_box_that_shows_nothing_may_be_one_s_own() {
        assertThat(OwnRejects.of(0.1, 0.02).chance()).isCloseTo(0.8475, org.assertj.core.api.Assertions.within(1e-4));
        assertThat(OwnRejects.of(0, 0).chance()).isZero();
        assertThat(OwnRejects.of(0.1, 1).chance()).isCloseTo(0.1, org.assertj.core.api.Assertions.within(1e-12));
    }

    /// Pauses longer than ten minutes are breaks; minutes noted for a hunt take the place of measured ones.
    @Test
    void time_is_measured_from_the_pauses_between_entries() {
        Desk desk = new Desk(new MemoryJournal(), () -> EVENING, State.EMPTY);
        desk.recordAt(
                EVENING,
                "",
                book -> new Desk.Step(
                        1,
                        new Event.Batch(List.of(
                                new HuntEvent.BoxAdded(
                                        new BoxId(1), Denomination.US_CENT, BoxDetails.plain("Box 1", 50, 50)),
                                new HuntEvent.HuntStarted(new HuntId(1), "h", List.of(new BoxId(1)), List.of())))));
        int[] seconds = {60, 180, 180 + 7200};
        for (int i = 0; i < 3; i++) {
            int roll = i + 1;
            desk.recordAt(
                    EVENING.plusSeconds(seconds[i]),
                    "",
                    book -> new Desk.Step(1, new HuntEvent.RollOpened(new HuntId(1), new BoxId(1), roll)));
        }
        desk.recordAt(
                EVENING.plusSeconds(seconds[2]),
                "",
                book -> new Desk.Step(1, new HuntEvent.HuntFinished(new HuntId(1))));
        TimeSpent spent = desk.read(book -> TimeSpent.of(book.till(), book.hunt(), coins -> 2_500L, box -> "there"));
        assertThat(spent.measured()).isEqualTo(1 + 2 + 10);
        assertThat(spent.sources()).singleElement().satisfies(one -> {
            assertThat(one.fullBoxes()).isEqualTo(150 / 2500.0);
            assertThat(one.minutes()).isEqualTo(13);
        });
        desk.record(
                0,
                "",
                book -> new TillEvent.EffortNoted(new org.rollwright.till.Effort(
                        PICKED,
                        new HuntId(1),
                        org.rollwright.till.Effort.Phase.SEARCH,
                        90,
                        0,
                        BigDecimal.ZERO,
                        "",
                        "")));
        spent = desk.read(book -> TimeSpent.of(book.till(), book.hunt(), coins -> 2_500L, box -> "there"));
        assertThat(spent.measured()).isZero();
        assertThat(spent.sources().getFirst().minutes()).isEqualTo(90);
    }

    @Test
    void roads_are_the_hunters_own_map() {
        Branch north = branch("North", 3, "N");
        Branch east = branch("East", 4, "E");
        Branch somewhere = branch("Somewhere", 5, "");
        List<List<Double>> roads = Round.roads(List.of(north, east, somewhere));
        assertThat(roads.get(0)).containsExactly(0.0, 3.0, 4.0, 5.0);
        // a right angle: 3, 4, 5
        assertThat(roads.get(1).get(2)).isCloseTo(5, org.assertj.core.api.Assertions.within(1e-12));
        assertThat(roads.get(1).get(3)).isEqualTo(8);
        Round round = Round.plan(
                        List.of(
                                new Round.Wish(north, 2, PICKED, List.of("return")),
                                new Round.Wish(east, 1, PICKED.plusDays(1), List.of())),
                        PICKED,
                        2,
                        12)
                .get(1);
        assertThat(round.kilometres()).isCloseTo(12, org.assertj.core.api.Assertions.within(1e-9));
        assertThat(round.calls()).hasSize(2);
    }

    private static Branch branch(String name, double kilometres, String bearing) {
        return new Branch(
                name,
                "",
                true,
                true,
                java.util.EnumSet.allOf(java.time.DayOfWeek.class),
                0,
                BigDecimal.ZERO,
                BigDecimal.ZERO,
                kilometres,
                new Word<>(bearing),
                false,
                "");
    }

    /// The file is checked by the library that wrote it and read by another one; its rules are RFC 5545's.
    @Test
    void the_calendar_file_opens_in_another_library() throws Exception {
        Order order = new Order(
                new OrderId(7),
                "Hill Bank; Mill Lane, north",
                Denomination.US_CENT,
                2,
                PICKED,
                PICKED.plusDays(3),
                false,
                "ask for Friday's\nboxes",
                null,
                List.of());
        Round round = new Round(
                PICKED, List.of(new Round.Call(branch("Ünder & Söhne", 3, "N"), 3, List.of("return 24.85"))), 6, 2);
        List<CalendarFile.DayEntry> entries = new ArrayList<>(CalendarFile.orders(List.of(order), one -> "US cents"));
        entries.add(CalendarFile.round(round));
        String text = CalendarFile.of(entries, EVENING);
        assertThat(text.lines()).allMatch(line -> line.getBytes(java.nio.charset.StandardCharsets.UTF_8).length <= 75);
        var again = new net.fortuna.ical4j.data.CalendarBuilder().build(new java.io.StringReader(text));
        assertThat(again.validate(true).getEntries()).isEmpty();
        var other = biweekly.Biweekly.parse(text).first();
        assertThat(biweekly.Biweekly.parse(text).all()).hasSize(1);
        assertThat(other.validate(biweekly.ICalVersion.V2_0).isEmpty()).isTrue();
        Map<String, biweekly.component.VEvent> events = new HashMap<>();
        other.getEvents().forEach(event -> events.put(event.getUid().getValue(), event));
        var due = java.util.Objects.requireNonNull(events.get("order-7-2026-03-02@rollwright.invalid"));
        assertThat(due.getSummary().getValue()).isEqualTo("Pick up 2 boxes of US cents");
        assertThat(due.getDateStart().getValue().getRawComponents().toString()).startsWith("20260305");
        assertThat(due.getDateStart().getValue().hasTime()).isFalse();
        assertThat(due.getDescription().getValue())
                .isEqualTo("Hill Bank; Mill Lane, north; ordered 2026-03-02; ask for Friday's\nboxes");
        assertThat(java.util.Objects.requireNonNull(events.get("round-2026-03-02@rollwright.invalid"))
                        .getDescription()
                        .getValue())
                .isEqualTo("1. Ünder & Söhne: return 24.85");
    }

    /// Contents of a box against a second way of counting, over random boxes: what went in comes out.
    @Property(tries = 300)
    void a_box_gives_out_what_was_in_it(@ForAll @LongRange(max = 1L << 40) long seed) {
        Desk desk = Histories.history(new MemoryJournal(), new Random(seed), 80);
        desk.read(book -> {
            for (Box box : book.hunt().boxes()) {
                BoxMovements.Contents contents = BoxMovements.Contents.of(book.hunt(), box);
                assertThat(contents.kept() + contents.missing() + contents.rest() + contents.unsearched())
                        .isEqualTo(box.details().nominalCoins() + contents.over());
                long counted = box.rolls().stream()
                        .filter(roll -> roll.number() <= 50)
                        .map(Roll::counted)
                        .filter(java.util.Objects::nonNull)
                        .mapToLong(coins -> Math.max(0, 50 - coins))
                        .sum();
                assertThat(contents.missing()).isEqualTo(counted);
            }
            return true;
        });
    }

    /// What goes back where boxes come from is a loop, and only that; the sum counts the days before, not the
    /// day.
    @Test
    void loops_and_what_was_returned_to_a_place() {
        Desk desk = evening();
        desk.record(1, "", book -> new HuntEvent.HuntFinished(new HuntId(1)));
        long coins = desk.read(book ->
                Ledger.goesBack(book.hunt(), book.hunt().box(new BoxId(1)).orElseThrow()));
        assertThat(coins).isEqualTo(2_500 - 14 - 1);
        assertThat(books(desk).loops()).isEmpty();
        desk.record(
                0,
                "",
                book -> new HuntEvent.BoxChanged(
                        new BoxId(1),
                        book.hunt()
                                .box(new BoxId(1))
                                .orElseThrow()
                                .details()
                                .returnedOn(LocalDate.of(2026, 3, 9), "Hill Bank, Mill Lane")));
        Ledger ledger = books(desk);
        assertThat(ledger.loops()).containsExactly("Hill Bank, Mill Lane");
        assertThat(ledger.returnedTo("Hill Bank, Mill Lane", LocalDate.of(2026, 3, 10), 90))
                .isEqualByComparingTo("24.85");
        assertThat(ledger.returnedTo("Hill Bank, Mill Lane", LocalDate.of(2026, 3, 9), 90))
                .isEqualByComparingTo("0");
        assertThat(ledger.returnedTo("Hill Bank, Mill Lane", LocalDate.of(2026, 3, 12), 2))
                .isEqualByComparingTo("0");
        assertThat(ledger.returnedTo("Hill Bank, Mill Lane", LocalDate.of(2026, 3, 12), 3))
                .isEqualByComparingTo("24.85");
        assertThat(ledger.returnedTo("Mill Bank", LocalDate.of(2026, 3, 10), 90))
                .isEqualByComparingTo("0");
        // a return that names no place is none to a place
        assertThat(ledger.returnedTo("", LocalDate.of(2026, 3, 10), 90)).isEqualByComparingTo("0");
    }

    /// Boxes of another currency, and moves in it, are in books of their own.
    @Test
    void each_currency_has_its_books() {
        Desk desk = evening();
        desk.record(
                0,
                "",
                book -> new HuntEvent.BoxAdded(
                        new BoxId(2),
                        new Denomination(new org.rollwright.coin.Country("CA"), "cent"),
                        new BoxDetails(
                                "North 1",
                                BoxDetails.Form.BOX,
                                50,
                                50,
                                0,
                                "Far Bank",
                                "",
                                "",
                                "",
                                "",
                                null,
                                PICKED,
                                null,
                                "",
                                "")));
        desk.record(
                0,
                "",
                book -> new TillEvent.CashMoved(new CashMove(
                        PICKED,
                        Word.of(Account.OUTSIDE),
                        Word.of(Account.CASH),
                        new BigDecimal("40.00"),
                        "",
                        "",
                        "CAD")));
        desk.record(
                0,
                "",
                book -> new TillEvent.CashMoved(new CashMove(
                        PICKED,
                        Word.of(Account.OUTSIDE),
                        Word.of(Account.CASH),
                        new BigDecimal("3.00"),
                        "",
                        "",
                        null)));
        Ledger home = books(desk);
        assertThat(home.balance(Account.BOXES)).isEqualByComparingTo("25.00");
        assertThat(home.balance(Account.CASH)).isEqualByComparingTo("3.00");
        Ledger north =
                desk.read(book -> Ledger.of(book.till(), book.holdings(), CATALOG, CurrencyUnit.CAD, ZoneOffset.UTC));
        assertThat(north.balance(Account.BOXES)).isEqualByComparingTo("25.00");
        // paid from the cash in hand, which was enough
        assertThat(north.balance(Account.CASH)).isEqualByComparingTo("15.00");
        assertThat(Shortage.of(desk.state().hunt(), CATALOG, CurrencyUnit.CAD)).isEmpty();
        desk.record(
                0,
                "",
                book -> new TillEvent.OrderPlaced(new Order(
                        new OrderId(1),
                        "Far Bank",
                        new Denomination(new org.rollwright.coin.Country("CA"), "cent"),
                        1,
                        PICKED,
                        PICKED,
                        true,
                        "",
                        null,
                        List.of())));
        assertThat(books(desk).balance(Account.IN_TRANSIT)).isEqualByComparingTo("0");
    }

    /// Exactly enough cash pays a box; a cent less does not.
    @Test
    void a_box_is_paid_from_cash_only_when_there_is_enough() {
        for (int cents : new int[] {2_500, 2_499}) {
            Desk desk = evening();
            desk.record(0, "", book -> new TillEvent.CashMoved(cash(PICKED, Account.OUTSIDE, Account.CASH, cents)));
            assertThat(books(desk).balance(Account.CASH)).isEqualByComparingTo(cents == 2_500 ? "0" : "24.99");
        }
    }

    /// A find sold before the box was settled leaves on the day it was settled; one to sell or give leaves
    /// then.
    @Test
    void finds_that_leave() {
        Desk desk = evening();
        desk.record(1, "", book -> new HuntEvent.FindDisposed(new FindId(1), Disposition.SELL));
        desk.record(1, "", book -> new HuntEvent.FindDisposed(new FindId(2), Disposition.GIVE));
        desk.record(
                0,
                "",
                book -> new CabinetEvent.CoinsLeft(
                        List.of(CoinRef.of(new FindId(3), 2)),
                        new CabinetNote.Gone(Word.of(Leaving.SOLD), null, "", LocalDate.of(2026, 3, 3))));
        assertThat(books(desk).balance(Account.LEFT)).isEqualByComparingTo("0");
        desk.record(1, "", book -> new HuntEvent.HuntFinished(new HuntId(1)));
        Ledger ledger = books(desk);
        assertThat(ledger.balance(Account.LEFT)).isEqualByComparingTo("0.05");
        assertThat(ledger.balance(Account.KEPT)).isEqualByComparingTo("0.09");
        assertThat(ledger.leftOut()).isEmpty();
        assertThat(ledger.movements().stream()
                        .filter(move -> move.to() == Account.LEFT)
                        .map(move -> move.day() + " " + move.what()))
                .containsExactlyInAnyOrder(
                        "2026-03-06 a find to sell",
                        "2026-03-06 a find to sell",
                        "2026-03-06 a find given away",
                        "2026-03-06 a find given away",
                        "2026-03-06 a find sold");
    }

    /// A hunt in which finds were noted without turning rolls: they come out of the rolls not opened.
    @Test
    void finds_without_rolls_come_out_of_the_unopened_ones() {
        Desk desk = new Desk(new MemoryJournal(), () -> EVENING, State.EMPTY);
        desk.record(
                1,
                "",
                book -> new Event.Batch(List.of(
                        new HuntEvent.BoxAdded(new BoxId(1), Denomination.US_CENT, BoxDetails.plain("Box", 2, 50)),
                        new HuntEvent.HuntStarted(new HuntId(1), "h", List.of(new BoxId(1)), List.of()))));
        for (int i = 1; i <= 2; i++) {
            int number = i;
            int count = i == 1 ? 30 : 80;
            desk.record(1, "", book -> found(number, 0, 1944, count));
            BoxMovements.Contents contents = desk.read(book -> BoxMovements.Contents.of(
                    book.hunt(), book.hunt().box(new BoxId(1)).orElseThrow()));
            // 30 of 100 leave 70; 110 of 100 are 10 over
            assertThat(contents)
                    .isEqualTo(
                            i == 1
                                    ? new BoxMovements.Contents(30, 0, 0, 0, 70)
                                    : new BoxMovements.Contents(110, 0, 10, 0, 0));
        }
    }

    @Test
    void directions_and_hours() {
        // 90 degrees apart at 3 and 4: 5; opposite at 3 and 4: 7; the same way at 3 and 4: 1
        Map<String, Double> roads = Map.of("E", 5.0, "S", 7.0, "N", 1.0, "W", 5.0);
        roads.forEach((way, road) -> assertThat(Round.roads(List.of(branch("a", 3, "N"), branch("b", 4, way)))
                        .get(1)
                        .get(2))
                .as(way)
                .isCloseTo(road, org.assertj.core.api.Assertions.within(1e-9)));
        double diagonal = Round.roads(List.of(branch("a", 3, "NE"), branch("b", 4, "SE")))
                .get(1)
                .get(2);
        assertThat(diagonal).isCloseTo(5, org.assertj.core.api.Assertions.within(1e-9));
        assertThat(Round.roads(List.of(branch("a", 3, "NW"), branch("b", 4, "SW")))
                        .get(1)
                        .get(2))
                .isCloseTo(5, org.assertj.core.api.Assertions.within(1e-9));
        assertThat(new TimeSpent.Source(Denomination.US_CENT, "x", 2, 180).hoursPerBox())
                .isEqualTo(1.5);
    }

    /// A wish counts from its first day on, and each call tells the road from the one before.
    @Test
    void a_round_begins_when_there_is_something_to_do() {
        List<Round> rounds = Round.plan(
                List.of(
                        new Round.Wish(branch("North", 3, "N"), 2, PICKED.plusDays(1), List.of()),
                        new Round.Wish(branch("Further", 5, "N"), 1, PICKED.plusDays(1), List.of())),
                PICKED,
                3,
                100);
        assertThat(rounds).extracting(Round::day).containsExactly(PICKED, PICKED.plusDays(1), PICKED.plusDays(2));
        assertThat(rounds.getFirst().calls()).isEmpty();
        assertThat(rounds.get(1).kilometres()).isCloseTo(10, org.assertj.core.api.Assertions.within(1e-9));
        double there = rounds.get(1).calls().stream()
                .mapToDouble(Round.Call::kilometres)
                .sum();
        assertThat(there + rounds.get(1).calls().getLast().branch().kilometres())
                .as("each call's road, and home again")
                .isCloseTo(10, org.assertj.core.api.Assertions.within(1e-9));
        CalendarFile.DayEntry entry = CalendarFile.round(rounds.get(1));
        assertThat(entry.title()).isEqualTo("Bank round, 2 calls");
        assertThat(entry.text()).isIn("1. North\n2. Further", "1. Further\n2. North");
    }

    /// Of rounds of equal worth the shorter is taken.
    @Test
    void of_equal_rounds_the_shorter() {
        List<TripPlan.Stop> stops = List.of(
                new TripPlan.Stop("far", 1, java.util.EnumSet.allOf(java.time.DayOfWeek.class)),
                new TripPlan.Stop("near", 1, java.util.EnumSet.allOf(java.time.DayOfWeek.class)),
                new TripPlan.Stop("nothing", 0, java.util.EnumSet.allOf(java.time.DayOfWeek.class)));
        List<List<Double>> roads = List.of(
                List.of(0.0, 9.0, 4.0, 1.0),
                List.of(9.0, 0.0, 20.0, 20.0),
                List.of(4.0, 20.0, 0.0, 20.0),
                List.of(1.0, 20.0, 20.0, 0.0));
        TripPlan plan = TripPlan.of(stops, roads, 18, java.time.DayOfWeek.MONDAY);
        assertThat(plan.order()).containsExactly(1);
        assertThat(plan.distance()).isEqualTo(8);
        // exactly as long as allowed is allowed
        assertThat(TripPlan.of(
                                stops.subList(0, 1),
                                List.of(List.of(0.0, 9.0), List.of(9.0, 0.0)),
                                18,
                                java.time.DayOfWeek.MONDAY)
                        .order())
                .containsExactly(0);
    }
}
