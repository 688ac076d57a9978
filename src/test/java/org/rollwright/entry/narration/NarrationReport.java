package org.rollwright.entry.narration;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/// Prints how well the decoder does: hand-written narrations, generated ones by habit of the voice, and whether
/// its probabilities are true. Run it by bench/narration; docs/narration.md keeps what it printed.
final class NarrationReport {
    private static final int GENERATED = 1_000;

    private NarrationReport() {}

    public static void main(String[] args) {
        System.out.println("| narrations | finds | date and mint right | false finds per 100 | roll right |");
        System.out.println("|---|---|---|---|---|");
        for (String folder : List.of("tuned", "held-out")) {
            Score score = new Score();
            Annotated.folder(folder).forEach(one -> score.add(one, Decoding.decode(one)));
            row("hand-written, " + folder, score);
        }
        Map<String, Score> groups = new TreeMap<>();
        Score held = new Score();
        Score clean = new Score();
        for (long seed = 9_000_000; seed < 9_000_000 + GENERATED; seed++) {
            Annotated one = NarrationMaker.make(seed, true, 1);
            Narration decoded = Decoding.decode(one);
            held.add(one, decoded);
            for (String habit : NarrationMaker.habits(seed)) {
                groups.computeIfAbsent(habit, key -> new Score()).add(one, decoded);
            }
            Annotated plain = NarrationMaker.make(seed, false, 1);
            clean.add(plain, Decoding.decode(plain));
        }
        row("generated, caption errors on", held);
        row("generated, caption errors off", clean);
        groups.forEach((habit, score) -> row("… " + habit, score));
        System.out.println();
        Score.printReliability(held.sureAndRight);
    }

    private static void row(String name, Score score) {
        System.out.printf(
                Locale.ROOT,
                "| %s | %d | %.1f %% | %.1f | %.1f %% |%n",
                name,
                score.truths,
                100 * score.rightShare(),
                score.falsePerHundred(),
                100 * score.rollShare());
    }
}
