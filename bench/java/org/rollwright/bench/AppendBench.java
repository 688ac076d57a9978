package org.rollwright.bench;

import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.hunt.HuntId;
import java.time.Instant;
import java.time.InstantSource;
import org.rollwright.desk.Desk;
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

/// One more find behind a million events: looked at, checked and taken into the state. Aim: at most 20 µs.
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(value = 1, jvmArgs = "-Xmx4g")
public class AppendBench {
    private final Instant at = Instant.parse("2026-03-02T19:00:00Z");
    private final Desk desk =
            new Desk(new ListJournal(FoldBench.journal(FoldBench.EVENTS)), InstantSource.system(), org.rollwright.desk.State.EMPTY);
    private final long last = desk.state().hunt().nextHunt().number() - 1;
    private int roll;

    @Benchmark
    public Desk.Outcome oneFind() {
        HuntId hunt = new HuntId(last);
        roll = 1 + roll % 50;
        return desk.recordAt(
                at,
                "",
                known -> new Desk.Step(
                        last,
                        new HuntEvent.FindLogged(FoldBench.find(
                                known.hunt().nextFind(),
                                hunt,
                                new BoxId(last),
                                known.hunt().nextOrdinal(hunt),
                                roll,
                                at))));
    }
}
