package org.rollwright.bench;

import java.time.Instant;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.Entry;
import org.rollwright.hunt.Event;
import org.rollwright.hunt.FindId;
import org.rollwright.hunt.HuntId;
import org.rollwright.hunt.Logbook;

/// State work of one more find behind a million events. Aim: at most 20 µs.
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(value = 1, jvmArgs = "-Xmx4g")
public class AppendBench {
    private final Logbook book = new Logbook();
    private final Instant at = Instant.parse("2026-03-02T19:00:00Z");
    private long find = 10_000_000;
    private int ordinal = 1_000;

    private long last;

    @Setup
    public void fold() {
        FoldBench.journal(FoldBench.EVENTS).forEach(book::apply);
        last = book.nextHunt().number() - 1;
    }

    @Benchmark
    public Logbook oneFind() {
        HuntId hunt = new HuntId(last);
        Event event = new Event.FindLogged(
                FoldBench.find(new FindId(++find), hunt, new BoxId(last), ++ordinal, 1 + ordinal % 50, at));
        book.apply(new Entry(book.last() + 1, at, last, "", event));
        return book;
    }
}
