package org.rollwright.entry.narration;

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

/// An hour of captions, about 9,000 words, decoded. Aim: at most 150 ms.
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 4, time = 2)
@Measurement(iterations = 5, time = 2)
@Fork(1)
public class NarrationBench {
    private final Annotated voice = NarrationMaker.make(3, true, 1);
    private final Captions hour = hour(9_000);

    @Benchmark
    public Narration decode() {
        return Decoding.DECODER.decode(hour, voice.context(), 50);
    }

    static Captions hour(int words) {
        List<Cue> cues = new ArrayList<>();
        int count = 0;
        long shift = 0;
        for (long seed = 1; count < words; seed++) {
            for (Cue cue : NarrationMaker.make(seed, true, 1).cues()) {
                cues.add(new Cue(shift + cue.start(), shift + cue.end(), cue.text()));
                count += cue.text().split(" ").length;
            }
            shift = cues.getLast().end();
        }
        return new Captions(cues, "WebVTT", "UTF-8", List.of());
    }

    /// Writes the same hour as a file, for timing the whole command.
    public static void main(String[] args) {
        StringBuilder text = new StringBuilder();
        for (Cue cue : hour(9_000).cues()) {
            text.append('[').append(cue.start() / 60_000).append(':').append(String.format("%02d", cue.start() / 1000 % 60)).append("] ").append(cue.text()).append('\n');
        }
        System.out.print(text);
    }
}
