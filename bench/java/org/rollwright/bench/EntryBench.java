package org.rollwright.bench;

import java.util.List;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.catalog.Selection;
import org.rollwright.coin.Denomination;
import org.rollwright.entry.EntryContext;
import org.rollwright.entry.EntryParser;
import org.rollwright.entry.Reading;

/// Reading one entry line against the whole catalogue. Aim: at most 50 µs.
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(2)
public class EntryBench {
    private final EntryContext context = new EntryContext(
            CatalogFolder.catalog(), Denomination.US_CENT, List.of(watch("wheat"), watch("copper")), 2026);

    /// The line read.
    @Param({"39s", "36d rpm vf30 bn \"notch under the D\"", "+ 44, x3 48d, ca 67", "64", "39q"})
    public String line = "";

    private static Selection watch(String name) {
        String rule = CatalogFolder.catalog().watchByWord(name).orElseThrow().rule();
        return ((Selection.Parsed.Good) Selection.parse(rule)).selection();
    }

    @Benchmark
    public Reading parse() {
        return EntryParser.parse(line, context);
    }
}
