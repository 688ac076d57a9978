package org.rollwright.hunt;

import java.time.Instant;
import java.util.List;
import java.util.Locale;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;

/// Folds a journal of many events, made one by one, and prints time and memory: bench/performance runs it with
/// five million in the heap that ./run allows.
public final class ReplayStudy {
    private static final int ROLLS = 50;

    private ReplayStudy() {}

    /// `EVENTS`
    public static void main(String[] args) {
        long events = Long.parseLong(args[0]);
        Instant at = Instant.parse("2026-03-01T19:00:00Z");
        Logbook book = new Logbook();
        long begin = System.nanoTime();
        long seq = 0;
        long box = 0;
        long find = 0;
        while (seq < events) {
            box++;
            HuntId hunt = new HuntId(box);
            BoxId id = new BoxId(box);
            book.apply(new Entry(
                    ++seq,
                    at,
                    box,
                    "",
                    new Event.Batch(List.of(
                            new Event.BoxAdded(id, Denomination.US_CENT, BoxDetails.plain("Box " + box, ROLLS, 50)),
                            new Event.HuntStarted(
                                    hunt, "Box " + box, List.of(id), List.of(new Watch("wheat", "series wheat")))))));
            for (int roll = 1; roll <= ROLLS && seq < events; roll++) {
                book.apply(new Entry(++seq, at, box, "", new Event.RollOpened(hunt, id, roll)));
                find++;
                int year = 1934 + (int) (find % 25);
                book.apply(new Entry(
                        ++seq,
                        at,
                        box,
                        "",
                        new Event.FindLogged(new Find(
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
        double seconds = (System.nanoTime() - begin) / 1e9;
        System.gc();
        Runtime runtime = Runtime.getRuntime();
        System.out.printf(
                Locale.ROOT,
                "%d events, %d boxes, %d finds: %.1f s, %d MB of heap in use of %d MB%n",
                seq,
                book.boxes().size(),
                book.finds().size(),
                seconds,
                (runtime.totalMemory() - runtime.freeMemory()) / 1_000_000,
                runtime.maxMemory() / 1_000_000);
    }
}
