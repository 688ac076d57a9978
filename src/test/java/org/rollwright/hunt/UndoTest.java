package org.rollwright.hunt;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;

/// Undo where two scopes meet, and after a restart.
class UndoTest {
    private static final Instant AT = Instant.parse("2026-03-01T19:00:00Z");
    private static final HuntId HUNT = new HuntId(1);
    private static final BoxId BOX = new BoxId(1);

    private final MemoryJournal journal = new MemoryJournal();
    private final Desk desk = new Desk(journal, () -> AT, new Logbook());

    private void start() {
        kept(desk.record(
                1,
                "",
                book -> new Event.Batch(List.of(
                        new Event.BoxAdded(BOX, Denomination.US_CENT, Histories.box()),
                        new Event.HuntStarted(HUNT, "hunt", List.of(BOX), List.of())))));
    }

    private void find() {
        kept(desk.record(1, "", book -> {
            int ordinal = book.hunt(HUNT).orElseThrow().nextOrdinal();
            return new Event.FindLogged(new Find(
                    book.nextFind(),
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

    private static Order order(long number) {
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
                        new Event.OrderPlaced(order(book.nextOrder())), new Event.BranchRemoved("no such branch"))));
        assertThat(outcome).isInstanceOf(Desk.Outcome.Refused.class);
        assertThat(desk.<Long>read(Logbook::nextOrder)).isEqualTo(1);
    }

    @Test
    void a_hunt_whose_box_was_changed_elsewhere_is_not_taken_back_until_that_change_is() {
        start();
        kept(desk.record(0, "", book -> new Event.BoxChanged(BOX, BoxDetails.plain("Renamed", 50, 50))));
        assertThat(desk.undo(1, "<")).isInstanceOf(Desk.Outcome.Refused.class);
        // the fold that a deeper undo asks for must hold whatever was recorded
        assertThat(StateText.whole(Desk.refold(journal, 1))).isEqualTo(desk.read(StateText::whole));
        kept(desk.undo(0, "<"));
        kept(desk.undo(1, "<"));
        kept(desk.redo(1, ">"));
        assertThat(StateText.whole(Desk.refold(journal, 1))).isEqualTo(desk.read(StateText::whole));
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
        assertThat(desk.<Integer>read(book -> book.hunt(HUNT).orElseThrow().nextOrdinal()))
                .isEqualTo(3);
        assertThat(StateText.whole(Desk.refold(journal, 1))).isEqualTo(desk.read(StateText::whole));
    }

    @Test
    void what_was_undone_before_a_snapshot_can_be_brought_back_after_it() {
        start();
        find();
        find();
        kept(desk.undo(1, "<"));
        kept(desk.undo(1, "<"));
        Desk again = new Desk(
                journal, () -> AT, LogbookImage.of(desk.read(book -> book)).toLogbook());
        kept(again.redo(1, ">"));
        kept(again.redo(1, ">"));
        assertThat(again.redo(1, ">")).isInstanceOf(Desk.Outcome.Refused.class);
        assertThat(StateText.whole(Desk.refold(journal, 1))).isEqualTo(again.read(StateText::whole));
    }

    @Test
    void a_step_undone_long_before_a_snapshot_still_comes_back() {
        start();
        find();
        kept(desk.undo(1, "<"));
        for (int i = 0; i < 1_100; i++) {
            kept(desk.record(0, "", book -> new Event.PolicyChanged("sound")));
        }
        Desk again = new Desk(
                journal, () -> AT, LogbookImage.of(desk.read(book -> book)).toLogbook());
        kept(again.redo(1, ">"));
        assertThat(StateText.whole(Desk.refold(journal, 1))).isEqualTo(again.read(StateText::whole));
    }

    @Test
    void a_hunt_taken_back_before_a_snapshot_keeps_its_find_numbers_when_it_comes_again() {
        start();
        find();
        kept(desk.undo(1, "<"));
        kept(desk.undo(1, "<"));
        Desk again = new Desk(
                journal, () -> AT, LogbookImage.of(desk.read(book -> book)).toLogbook());
        kept(again.redo(1, ">"));
        assertThat(again.<Integer>read(book -> book.hunt(HUNT).orElseThrow().nextOrdinal()))
                .isEqualTo(2);
    }

    @Test
    void holes_read_in_one_order_whichever_was_filled_first() {
        kept(desk.record(0, "", book -> new Event.AlbumDefined(book.nextAlbum(), "Album", "series wheat")));
        start();
        find();
        find();
        for (int coin : List.of(1, 2)) {
            kept(desk.record(
                    0,
                    "",
                    book -> new Event.HolesFilled(List.of(
                            new Event.HoleChange(new AlbumId(1), "19" + (40 - coin) + "-S", new CoinRef(coin, 1))))));
        }
        Logbook again = LogbookImage.of(desk.read(book -> book)).toLogbook();
        for (Logbook book : List.of(desk.<Logbook>read(one -> one), again)) {
            assertThat(book.album(new AlbumId(1)).orElseThrow().holes().keySet())
                    .containsExactly("1938-S", "1939-S");
        }
    }
}
