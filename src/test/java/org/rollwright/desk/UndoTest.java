package org.rollwright.desk;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.rollwright.album.AlbumEvent;
import org.rollwright.album.AlbumId;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.Disposition;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.FindId;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.hunt.HuntId;
import org.rollwright.journal.Entry;
import org.rollwright.journal.Event;
import org.rollwright.till.Order;
import org.rollwright.till.OrderId;
import org.rollwright.till.TillEvent;

/// Undo where two scopes meet, and after a restart.
class UndoTest {
    private static final Instant AT = Instant.parse("2026-03-01T19:00:00Z");
    private static final HuntId HUNT = new HuntId(1);
    private static final BoxId BOX = new BoxId(1);

    private final MemoryJournal journal = new MemoryJournal();
    private final Desk desk = new Desk(journal, () -> AT, State.EMPTY);

    private void start() {
        kept(desk.record(
                1,
                "",
                book -> new Event.Batch(List.of(
                        new HuntEvent.BoxAdded(BOX, Denomination.US_CENT, Histories.box()),
                        new HuntEvent.HuntStarted(HUNT, "hunt", List.of(BOX), List.of())))));
    }

    private void find() {
        kept(desk.record(1, "", book -> {
            int ordinal = book.hunt().nextOrdinal(HUNT);
            return new HuntEvent.FindLogged(new Find(
                    book.hunt().nextFind(),
                    HUNT,
                    ordinal,
                    BOX,
                    1,
                    CoinDescription.plain(Identity.of(Denomination.US_CENT, 1944, Mint.D)),
                    1,
                    false,
                    Disposition.OPEN,
                    AT));
        }));
    }

    private static void kept(Desk.Outcome outcome) {
        assertThat(outcome).isInstanceOf(Desk.Outcome.Kept.class);
    }

    private static Order order(OrderId number) {
        return new Order(
                number,
                "Quarry",
                Denomination.US_CENT,
                1,
                LocalDate.of(2026, 3, 1),
                LocalDate.of(2026, 3, 2),
                false,
                "",
                null,
                List.of());
    }

    @Test
    void a_refused_batch_gives_the_number_of_its_order_back() {
        Desk.Outcome outcome = desk.record(
                0,
                "",
                book -> new Event.Batch(List.of(
                        new TillEvent.OrderPlaced(order(book.till().nextOrder())),
                        new TillEvent.BranchRemoved("no such branch"))));
        assertThat(outcome).isInstanceOf(Desk.Outcome.Refused.class);
        assertThat(desk.<OrderId>read(known -> known.till().nextOrder())).isEqualTo(new OrderId(1));
    }

    @Test
    void a_part_of_a_find_takes_no_number_that_is_taken() {
        start();
        find();
        find();
        Desk.Outcome outcome = desk.record(1, "", book -> new HuntEvent.FindSplit(new FindId(1), new FindId(2), 3, 1));
        assertThat(outcome).isInstanceOf(Desk.Outcome.Refused.class);
        assertThat(((Desk.Outcome.Refused) outcome).refusal().toString()).contains("f2");
    }

    @Test
    void a_hunt_whose_box_another_took_meanwhile_is_not_brought_back() {
        kept(desk.record(0, "", book -> new HuntEvent.BoxAdded(BOX, Denomination.US_CENT, Histories.box())));
        kept(desk.record(1, "", book -> new HuntEvent.HuntStarted(HUNT, "hunt", List.of(BOX), List.of())));
        kept(desk.undo(1, "<"));
        kept(desk.record(2, "", book -> new HuntEvent.HuntStarted(new HuntId(2), "other", List.of(BOX), List.of())));
        State before = desk.state();
        assertThat(desk.redo(1, ">")).isInstanceOf(Desk.Outcome.Refused.class);
        assertThat(desk.state()).isSameAs(before);
        kept(desk.undo(2, "<"));
        kept(desk.redo(1, ">"));
        assertThat(StateText.whole(Desk.fold(journal))).isEqualTo(desk.read(StateText::whole));
    }

    @Test
    void a_hunt_whose_box_was_changed_elsewhere_is_not_taken_back_until_that_change_is() {
        start();
        kept(desk.record(0, "", book -> new HuntEvent.BoxChanged(BOX, BoxDetails.plain("Renamed", 50, 50))));
        assertThat(desk.undo(1, "<")).isInstanceOf(Desk.Outcome.Refused.class);
        // the fold that a deeper undo asks for must hold whatever was recorded
        assertThat(StateText.whole(Desk.fold(journal))).isEqualTo(desk.read(StateText::whole));
        kept(desk.undo(0, "<"));
        kept(desk.undo(1, "<"));
        kept(desk.redo(1, ">"));
        assertThat(StateText.whole(Desk.fold(journal))).isEqualTo(desk.read(StateText::whole));
    }

    @Test
    void a_find_number_is_not_given_twice_when_the_whole_hunt_was_taken_back_and_brought_again() {
        start();
        find();
        find();
        kept(desk.undo(1, "<"));
        kept(desk.undo(1, "<"));
        kept(desk.undo(1, "<"));
        kept(desk.redo(1, ">"));
        assertThat(desk.<Integer>read(book -> book.hunt().nextOrdinal(HUNT))).isEqualTo(3);
        assertThat(StateText.whole(Desk.fold(journal))).isEqualTo(desk.read(StateText::whole));
    }

    @Test
    void what_was_undone_before_a_snapshot_can_be_brought_back_after_it() {
        start();
        find();
        find();
        kept(desk.undo(1, "<"));
        kept(desk.undo(1, "<"));
        Desk again = new Desk(journal, () -> AT, State.of(State.Image.of(desk.state())));
        kept(again.redo(1, ">"));
        kept(again.redo(1, ">"));
        assertThat(again.redo(1, ">")).isInstanceOf(Desk.Outcome.Refused.class);
        assertThat(StateText.whole(Desk.fold(journal))).isEqualTo(again.read(StateText::whole));
    }

    @Test
    void a_step_undone_long_before_a_snapshot_still_comes_back() {
        start();
        find();
        kept(desk.undo(1, "<"));
        for (int i = 0; i < 1_100; i++) {
            kept(desk.record(0, "", book -> new AlbumEvent.PolicyChanged("sound")));
        }
        Desk again = new Desk(journal, () -> AT, State.of(State.Image.of(desk.state())));
        kept(again.redo(1, ">"));
        assertThat(StateText.whole(Desk.fold(journal))).isEqualTo(again.read(StateText::whole));
    }

    @Test
    void a_hunt_taken_back_before_a_snapshot_keeps_its_find_numbers_when_it_comes_again() {
        start();
        find();
        kept(desk.undo(1, "<"));
        kept(desk.undo(1, "<"));
        Desk again = new Desk(journal, () -> AT, State.of(State.Image.of(desk.state())));
        kept(again.redo(1, ">"));
        assertThat(again.<Integer>read(book -> book.hunt().nextOrdinal(HUNT))).isEqualTo(2);
    }

    @Test
    void holes_read_in_one_order_whichever_was_filled_first() {
        kept(desk.record(
                0, "", book -> new AlbumEvent.AlbumDefined(book.album().nextAlbum(), "Album", "series wheat")));
        start();
        find();
        find();
        for (int coin : List.of(1, 2)) {
            kept(desk.record(
                    0,
                    "",
                    book -> new AlbumEvent.HolesFilled(List.of(new AlbumEvent.HoleChange(
                            new AlbumId(1), "19" + (40 - coin) + "-S", new CoinRef(coin, 1))))));
        }
        State again = State.of(State.Image.of(desk.state()));
        for (State book : List.of(desk.<State>read(one -> one), again)) {
            assertThat(book.album().album(new AlbumId(1)).orElseThrow().holes().keySet())
                    .containsExactly("1938-S", "1939-S");
        }
    }

    /// A journal from elsewhere may say anything; it is told at which entry, whatever it says.
    @Test
    void a_journal_whose_undo_contradicts_it_is_told_by_position() {
        HuntEvent.BoxAdded box = new HuntEvent.BoxAdded(BOX, Denomination.US_CENT, Histories.box());
        HuntEvent.HuntStarted hunt = new HuntEvent.HuntStarted(HUNT, "hunt", List.of(BOX), List.of());
        List<Entry> undermined = List.of(
                new Entry(1, AT, 0, "", box), new Entry(2, AT, 1, "", hunt), new Entry(3, AT, 0, "", undone(1)));
        assertThat(Desk.contradiction(undermined)).hasValue(3);
        for (long target : new long[] {-5, 0, 2, 3, 2_000_000_000L, 1L << 40, Long.MAX_VALUE, Long.MIN_VALUE}) {
            List<Entry> astray = List.of(new Entry(1, AT, 0, "", box), new Entry(2, AT, 0, "", undone(target)));
            assertThat(Desk.contradiction(astray)).as("undo of %s", target).hasValue(2);
        }
        assertThat(Desk.contradiction(undermined.subList(0, 2))).isEmpty();
    }

    private static Event undone(long target) {
        return new Event.Undone(target);
    }
}
