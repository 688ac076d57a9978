package org.rollwright.bench;

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
import java.time.Instant;
import java.time.InstantSource;
import org.rollwright.desk.Desk;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;

/// Folding a journal of a million events (about 9,900 boxes of fifty rolls and fifty finds). Aim: at most 1 s.
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SingleShotTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 2)
@Measurement(iterations = 5)
@Fork(value = 1, jvmArgs = "-Xmx4g")
public class FoldBench {
    static final int EVENTS = 1_000_000;
    private final List<Entry> entries = journal(EVENTS);

    @Benchmark
    public org.rollwright.desk.State millionEvents() {
        return new Desk(new ListJournal(entries), InstantSource.system(), org.rollwright.desk.State.EMPTY).state();
    }

    static List<Entry> journal(int events) {
        List<Entry> entries = new ArrayList<>(events);
        Instant at = Instant.parse("2026-03-01T19:00:00Z");
        long box = 0;
        long find = 0;
        int ordinal = 0;
        int roll = 50;
        while (entries.size() < events) {
            Event event;
            if (roll == 50 && (entries.isEmpty() || entries.getLast().event() instanceof HuntEvent.FindLogged)) {
                box++;
                roll = 0;
                ordinal = 0;
                event = new Event.Batch(List.of(
                        new HuntEvent.BoxAdded(
                                new BoxId(box), Denomination.US_CENT, BoxDetails.plain("Box " + box, 50, 50)),
                        new HuntEvent.HuntStarted(
                                new HuntId(box),
                                "Box " + box,
                                List.of(new BoxId(box)),
                                List.of(new Watch("wheat", "series wheat")))));
            } else if (entries.getLast().event() instanceof HuntEvent.RollOpened) {
                event = new HuntEvent.FindLogged(
                        find(new FindId(++find), new HuntId(box), new BoxId(box), ++ordinal, roll, at));
            } else {
                event = new HuntEvent.RollOpened(new HuntId(box), new BoxId(box), ++roll);
            }
            entries.add(new Entry(entries.size() + 1L, at, box, "", event));
        }
        return entries;
    }

    static Find find(FindId id, HuntId hunt, BoxId box, int ordinal, int roll, Instant at) {
        int year = 1934 + (int) (id.number() % 25);
        CoinDescription facts = CoinDescription.plain(Identity.of(Denomination.US_CENT, year, id.number() % 3 == 0 ? Mint.D : Mint.P));
        return new Find(id, hunt, ordinal, box, roll, facts, 1, false, Disposition.KEEP, at);
    }
}
