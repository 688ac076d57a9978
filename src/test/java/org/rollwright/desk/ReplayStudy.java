package org.rollwright.desk;

import java.time.Instant;
import java.util.List;
import java.util.Locale;
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
import org.rollwright.hunt.Watch;
import org.rollwright.journal.Entry;
import org.rollwright.journal.Event;

/// Folds a journal of many events, made one by one, and prints time and memory: bench/performance runs it with
/// five million in the heap that ./run allows.
public final class ReplayStudy {
    private static final int ROLLS = 50;

    private ReplayStudy() {}

    /// `EVENTS`
    public static void main(String[] args) {
        long events = Long.parseLong(args[0]);
        Instant at = Instant.parse("2026-03-01T19:00:00Z");
        Timeline line = Timeline.of((after, reader) -> {}, State.EMPTY);
        long begin = System.nanoTime();
        long seq = 0;
        long box = 0;
        long find = 0;
        while (seq < events) {
            box++;
            HuntId hunt = new HuntId(box);
            BoxId id = new BoxId(box);
            line.add(new Entry(
                    ++seq,
                    at,
                    box,
                    "",
                    new Event.Batch(List.of(
                            new HuntEvent.BoxAdded(id, Denomination.US_CENT, BoxDetails.plain("Box " + box, ROLLS, 50)),
                            new HuntEvent.HuntStarted(
                                    hunt, "Box " + box, List.of(id), List.of(new Watch("wheat", "series wheat")))))));
            for (int roll = 1; roll <= ROLLS && seq < events; roll++) {
                line.add(new Entry(++seq, at, box, "", new HuntEvent.RollOpened(hunt, id, roll)));
                find++;
                int year = 1934 + (int) (find % 25);
                line.add(new Entry(
                        ++seq,
                        at,
                        box,
                        "",
                        new HuntEvent.FindLogged(new Find(
                                new FindId(find),
                                hunt,
                                roll,
                                id,
                                roll,
                                CoinDescription.plain(
                                        Identity.of(Denomination.US_CENT, year, find % 3 == 0 ? Mint.D : Mint.P)),
                                1,
                                false,
                                Disposition.KEEP,
                                at))));
            }
        }
        State book = line.state();
        double seconds = (System.nanoTime() - begin) / 1e9;
        System.gc();
        Runtime runtime = Runtime.getRuntime();
        System.out.printf(
                Locale.ROOT,
                "%d events, %d boxes, %d finds: %.1f s, %d MB of heap in use of %d MB%n",
                seq,
                book.hunt().boxes().size(),
                book.hunt().finds().size(),
                seconds,
                (runtime.totalMemory() - runtime.freeMemory()) / 1_000_000,
                runtime.maxMemory() / 1_000_000);
    }
}
