package org.rollwright.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import java.util.zip.GZIPInputStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.rollwright.cli.ToolProcess;

/// The power is cut in the middle of a hunter's day: the process runs on a sound disk under a library that writes
/// down every change of a file and every synchronisation (bench/powercut.c); afterwards the folder is made as a
/// disk may hold it when the power is cut at some moment, with what was not synchronised there, gone or torn, and
/// looked at as the hunter does who starts the tool again.
///
/// The number of cuts is 40, or that of the system property `rollwright.cuts`; bench/powercut asks for 1,000.
class PowerCutTest {
    private static final int CUTS = Integer.getInteger("rollwright.cuts", 40);
    private static final int SEED = Integer.getInteger("rollwright.seed", 1);
    private static final int CUTS_PER_RUN = 50;

    /// Of each kind of fault, how many are printed.
    private static final int EXAMPLES = 4;

    /// A new folder after so many runs; each other run goes on where the power was cut.
    private static final int RUNS_PER_FOLDER = 2;

    @TempDir
    private static Path folder;

    private static @Nullable Path library;
    private static @Nullable Run first;

    /// A day on the disk as it went, with what was written down.
    private record Run(
            List<PowerCutLog.Call> log, PowerCutClaims claims, PowerCutWitness witness, Path start, Path end) {}

    @BeforeAll
    static void a_day() throws Exception {
        Path made = folder.resolve("powercut.so");
        try {
            Process compiler = new ProcessBuilder(
                            "cc", "-shared", "-fPIC", "-O1", "-o", made.toString(), "bench/powercut.c", "-ldl")
                    .redirectErrorStream(true)
                    .start();
            compiler.getInputStream().readAllBytes();
            assumeTrue(compiler.waitFor() == 0, "the library does not compile here");
        } catch (IOException e) {
            assumeTrue(false, "no C compiler here");
        }
        library = made;
        first = run(0, null);
    }

    private static Path world() {
        return folder.resolve("world");
    }

    /// @param base a folder to go on with, null for a new one with the store of an earlier version
    private static Run run(int number, @Nullable Path base) throws Exception {
        Path world = world();
        Path start = folder.resolve("start-" + number);
        Path end = folder.resolve("end-" + number);
        delete(world);
        if (base == null) {
            Files.createDirectories(world.resolve("old"));
            String early = "/stores/early-" + (1 + number / RUNS_PER_FOLDER % 4) + ".db.gz";
            try (InputStream packed = PowerCutTest.class.getResourceAsStream(early)) {
                Files.copy(new GZIPInputStream(packed), world.resolve("old/rollwright.db"));
            }
        } else {
            copy(base, world);
        }
        copy(world, start);
        Path log = folder.resolve("log-" + number);
        Path scripts = Files.createDirectories(folder.resolve("scripts"));
        ProcessBuilder day = ToolProcess.of(
                "org.rollwright.cli.PowerCutWork",
                List.of(world.toString(), scripts.toString(), Integer.toString(number)));
        day.environment().put("LD_PRELOAD", String.valueOf(library));
        day.environment().put("POWERCUT_FOLDER", world.toString());
        day.environment().put("POWERCUT_LOG", log.toString());
        Path err = folder.resolve("err.txt");
        Process process = day.redirectError(err.toFile())
                .redirectOutput(folder.resolve("out.txt").toFile())
                .start();
        int status = process.waitFor();
        assertThat(status).as(() -> tail(folder.resolve("out.txt")) + tail(err)).isZero();
        List<PowerCutLog.Call> calls = PowerCutLog.read(log);
        Files.delete(log);
        copy(world, end);
        PowerCutDisk disk = new PowerCutDisk(start, world, PowerCutDisk.Names.STRICT, null);
        calls.forEach(disk::apply);
        assertThat(disk.differences(world))
                .as("every change of a file is in the log")
                .isEmpty();
        PowerCutClaims claims = new PowerCutClaims(calls);
        Path paper = Files.createDirectories(folder.resolve("paper"));
        return new Run(calls, claims, new PowerCutWitness(claims, start, world, paper), start, end);
    }

    private static String tail(Path file) {
        try {
            String text = Files.readString(file);
            return text.substring(Math.max(0, text.length() - 1500));
        } catch (IOException e) {
            return "";
        }
    }

    /// Where to cut: half of the time beside a call that makes something last or says that it does, and now and then
    /// behind an acknowledgement that followed another without a synchronisation between them.
    private static int place(Run run, PowerCutClaims.Phase phase, Random random) {
        int any = phase.from() + 1 + random.nextInt(phase.to() - phase.from());
        if (random.nextBoolean()) {
            return any;
        }
        List<Integer> edges = new ArrayList<>();
        List<Integer> hasty = new ArrayList<>();
        boolean said = false;
        for (int i = phase.from(); i < phase.to(); i++) {
            boolean says = run.log.get(i) instanceof PowerCutLog.Said text
                    && text.text().startsWith("ok ");
            if (says && said) {
                hasty.add(i);
            }
            said = says || (said && !(run.log.get(i) instanceof PowerCutLog.Synchronised));
            switch (run.log.get(i)) {
                case PowerCutLog.Synchronised edge -> edges.add(i);
                case PowerCutLog.Renamed edge -> edges.add(i);
                case PowerCutLog.Unlinked edge -> edges.add(i);
                case PowerCutLog.Resized edge -> edges.add(i);
                case PowerCutLog.FolderMade edge -> edges.add(i);
                case PowerCutLog.Said edge -> edges.add(i);
                default -> {
                    // a write, or nothing on the disk
                }
            }
        }
        if (!hasty.isEmpty() && random.nextInt(3) == 0) {
            return hasty.get(random.nextInt(hasty.size())) + 1;
        }
        return edges.isEmpty() ? any : edges.get(random.nextInt(edges.size())) + random.nextInt(2);
    }

    private record Cut(int position, PowerCutClaims.Phase phase, PowerCutDisk.Names names, long seed) {}

    /// What came of cuts.
    private static final class Tally {
        int cuts;
        int acknowledged;
        final Map<String, Integer> phases = new TreeMap<>();
        final Map<String, List<String>> faults = new TreeMap<>();

        int of(String... names) {
            return Stream.of(names)
                    .mapToInt(name -> phases.getOrDefault(name, 0))
                    .sum();
        }

        String faultsInShort() {
            StringBuilder text = new StringBuilder();
            faults.forEach((kind, all) -> {
                long strict =
                        all.stream().filter(one -> one.contains("(STRICT,")).count();
                text.append("\n").append(all.size() + " x " + kind);
                text.append(" (" + strict + " STRICT, " + (all.size() - strict) + " ORDERED)");
                all.stream()
                        .limit(EXAMPLES)
                        .forEach(one -> text.append("\n    ").append(one));
            });
            return text.toString();
        }
    }

    private static void cut(Run run, List<Cut> cuts, @Nullable Pattern forgotten, Tally tally) throws IOException {
        for (PowerCutDisk.Names names : PowerCutDisk.Names.values()) {
            PowerCutDisk disk = new PowerCutDisk(run.start, world(), names, forgotten);
            int position = 0;
            for (Cut cut : cuts.stream()
                    .filter(one -> one.names == names)
                    .sorted(Comparator.comparingInt(Cut::position))
                    .toList()) {
                while (position < cut.position) {
                    disk.apply(run.log.get(position++));
                }
                delete(world());
                String how = disk.cut(world(), new Random(cut.seed));
                tally.cuts++;
                tally.phases.merge(cut.phase.name(), 1, Integer::sum);
                tally.acknowledged += run.claims.lines(cut.position);
                for (String fault : run.witness.faults(world(), cut.position, cut.phase.name())) {
                    tally.faults
                            .computeIfAbsent(fault.substring(0, fault.indexOf(':')), kind -> new ArrayList<>())
                            .add(cut.phase.name() + " at " + cut.position + " (" + how + ") " + fault);
                }
            }
        }
    }

    private static List<Cut> cuts(Run run, int many, Random random, Set<String> wanted) {
        List<PowerCutClaims.Phase> phases = run.claims.phases.stream()
                .filter(phase -> wanted.isEmpty() || wanted.contains(phase.name()))
                .toList();
        List<Cut> cuts = new ArrayList<>();
        for (int i = 0; i < many; i++) {
            PowerCutClaims.Phase phase = phases.get(i % phases.size());
            cuts.add(new Cut(
                    place(run, phase, random),
                    phase,
                    random.nextBoolean() ? PowerCutDisk.Names.STRICT : PowerCutDisk.Names.ORDERED,
                    random.nextLong()));
        }
        return cuts;
    }

    private static Run firstRun() {
        Run run = first;
        if (run == null) {
            throw new IllegalStateException("the day was not recorded");
        }
        return run;
    }

    @Test
    void a_power_cut_loses_nothing_acknowledged_and_tears_nothing() throws Exception {
        Random random = new Random(SEED);
        Tally tally = new Tally();
        int refused = 0;
        Run run = firstRun();
        for (int number = 0; tally.cuts < CUTS; number++) {
            if (number > 0) {
                Path base = number % RUNS_PER_FOLDER == 0 ? null : folder.resolve("base");
                run = run(number, base);
            }
            cut(run, cuts(run, Math.min(CUTS_PER_RUN, CUTS - tally.cuts), random, Set.of()), null, tally);
            refused += run.witness.refused();
            delete(folder.resolve("base"));
            copy(world(), folder.resolve("base"));
            if (number > 0) {
                delete(run.start);
                delete(run.end);
            }
        }
        String found = tally.faultsInShort();
        System.out.println(tally.cuts + " power cuts (" + tally.of("making", "hunt") + " hunts, "
                + tally.of("narration", "import", "albums", "comparison", "filling") + " batches, "
                + tally.of("photographs") + " photographs, " + tally.of("backups") + " backups, "
                + tally.of("restores") + " restores, " + tally.of("snapshots") + " snapshots, "
                + tally.of("upgrade") + " upgrades), " + tally.acknowledged + " lines acknowledged before, "
                + (found.isEmpty() ? "none lost, no torn batch" : "with faults:" + found)
                + (refused > 0 ? "; " + refused + " half-restored folders refused with a sentence" : ""));
        assertThat(tally.faults).as(found).isEmpty();
    }

    /// Without these the test above would prove nothing.
    @ParameterizedTest
    @CsvSource({
        "-wal$, hunt, ORDERED, acknowledged lost|does not open",
        "-wal$, comparison, ORDERED, acknowledged lost|does not open",
        "/data/photos/.*[^/]$, snapshots, ORDERED, photograph damaged",
        "/disk/.*[^/]$, backups, ORDERED, backup unsound",
        "/$, hunt, STRICT, store lost"
    })
    void a_disk_that_forgets_a_synchronisation_is_found_out(
            String forgotten, String phase, PowerCutDisk.Names names, String kind) throws Exception {
        Run run = firstRun();
        Random random = new Random(SEED);
        List<Cut> cuts = new ArrayList<>();
        // right behind what was acknowledged
        run.claims.phases.stream()
                .filter(one -> one.name().equals(phase))
                .forEach(part -> run.claims.entries.stream()
                        .map(claim -> claim.position() + 1)
                        .filter(place -> place > part.from() && place <= part.to())
                        .distinct()
                        .forEach(place -> cuts.add(new Cut(place, part, names, random.nextLong()))));
        Collections.shuffle(cuts, random);
        while (cuts.size() < 12) {
            cuts.add(new Cut(cuts.getFirst().position, cuts.getFirst().phase, names, random.nextLong()));
            Collections.rotate(cuts, 1);
        }
        Tally tally = new Tally();
        cut(run, cuts.subList(0, 12), Pattern.compile(forgotten), tally);
        assertThat(tally.faults.keySet()).anyMatch(found -> found.matches(kind));
    }

    static void delete(Path path) throws IOException {
        if (Files.exists(path)) {
            try (Stream<Path> paths = Files.walk(path)) {
                for (Path one : paths.sorted(Comparator.reverseOrder()).toList()) {
                    Files.delete(one);
                }
            }
        }
    }

    static void copy(Path from, Path to) throws IOException {
        try (Stream<Path> paths = Files.walk(from)) {
            for (Path one : paths.toList()) {
                Files.copy(one, to.resolve(from.relativize(one).toString()));
            }
        }
    }
}
