package org.rollwright.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.rollwright.store.Store;

/// A disk that fails on purpose, by a library preloaded into the process (bench/faults.c): whatever the tool
/// acknowledged is in the store afterwards, in order; the failure is one sentence; and with a sound disk the
/// store opens and goes on.
class FaultTest {
    private static final int POINTS = Integer.getInteger("rollwright.faults", 2);
    private static final List<String> KINDS = List.of("enospc", "eio", "torn", "fsync");

    @TempDir
    private Path folder;

    private Path shim() throws IOException, InterruptedException {
        Path library = folder.resolve("faults.so");
        try {
            Process compiler = new ProcessBuilder(
                            "cc", "-shared", "-fPIC", "-O1", "-o", library.toString(), "bench/faults.c", "-ldl")
                    .redirectErrorStream(true)
                    .start();
            compiler.getInputStream().readAllBytes();
            return compiler.waitFor() == 0 ? library : folder.resolve("none");
        } catch (IOException e) {
            return folder.resolve("none");
        }
    }

    @Test
    void a_failing_disk_loses_nothing_acknowledged_and_is_said_plainly() throws Exception {
        Path library = shim();
        assumeTrue(Files.exists(library), "no C compiler here");
        Random random = new Random(8);
        Path script = folder.resolve("hunt.txt");
        Files.write(
                script,
                IntStream.range(0, 40).mapToObj(i -> "39s \"line " + i + "\"").toList());
        int failed = 0;
        int acknowledgedInAll = 0;
        for (String kind : KINDS) {
            for (int point = 0; point < POINTS; point++) {
                // the first points fall while the store is made, later ones between entries
                int at = point == 0 ? 1 : 2 + random.nextInt(kind.equals("fsync") ? 40 : 120);
                boolean once = point % 2 == 1;
                Path data = folder.resolve(kind + point);
                Run run = run(data, script, library, kind, at, once);
                assertThat(run.err)
                        .as("%s at %d", kind, at)
                        .doesNotContain("Exception")
                        .doesNotContain("\tat ");
                assertThat(run.status).as("%s at %d: %s", kind, at, run.err).isIn(0, 5);
                if (run.status == 5) {
                    failed++;
                    assertThat(run.err.strip()).isNotEmpty();
                }
                List<String> notes = notes(data);
                assertThat(notes)
                        .as("%s at %d, once %s: acknowledged %s", kind, at, once, run.acknowledged)
                        .hasSizeGreaterThanOrEqualTo(run.acknowledged)
                        .isEqualTo(IntStream.range(0, notes.size())
                                .mapToObj(i -> "line " + i)
                                .toList());
                acknowledgedInAll += run.acknowledged;
                // a sound disk again: the store opens and goes on
                Run again = run(data, script, folder.resolve("none"), kind, 0, false);
                assertThat(again.status).as(again.err).isZero();
                assertThat(again.acknowledged).isEqualTo(40);
            }
        }
        System.out.println(KINDS.size() * POINTS + " faults, " + failed + " ended the run with a sentence, "
                + acknowledgedInAll + " lines acknowledged before, none lost");
        assertThat(failed).isPositive();
    }

    /// The same in a process that goes on: refused lines are entered again, as a person at the bench does.
    @Test
    void after_an_error_the_next_line_works_as_soon_as_the_disk_does() throws Exception {
        Path library = shim();
        assumeTrue(Files.exists(library), "no C compiler here");
        Random random = new Random(16);
        int refused = 0;
        for (String kind : KINDS) {
            for (int calls : List.of(1, 4)) {
                for (int point = 0; point < POINTS; point++) {
                    Path data = folder.resolve("retried-" + kind + calls + point);
                    try (Store store = opened(data)) {
                        store.desk();
                    }
                    ProcessBuilder builder = ToolProcess.of(RetryingHunt.class.getName(), List.of(data.toString()));
                    builder.environment().put("LD_PRELOAD", library.toString());
                    builder.environment().put("FAULT_KIND", kind);
                    // behind the opening, which ends with a sentence when the disk fails
                    int at = kind.equals("fsync") ? 4 + random.nextInt(30) : 20 + random.nextInt(80);
                    builder.environment().put("FAULT_AT", Integer.toString(at));
                    builder.environment().put("FAULT_CALLS", Integer.toString(calls));
                    Process process = builder.redirectErrorStream(true).start();
                    String out = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
                    assertThat(process.waitFor())
                            .as("%s, %d calls from %d on: %s", kind, calls, at, out)
                            .isZero();
                    refused += (int) out.lines()
                            .filter(line -> line.startsWith("refused"))
                            .count();
                    try (Store store = opened(data)) {
                        List<String> labels = store.desk()
                                .read(book -> book.hunt().boxes().stream()
                                        .map(box -> box.details().label())
                                        .toList());
                        assertThat(labels)
                                .as("%s, %d calls from %d on: %s", kind, calls, at, out)
                                .isEqualTo(IntStream.range(0, RetryingHunt.LINES)
                                        .mapToObj(i -> "Box " + i)
                                        .toList());
                    }
                }
            }
        }
        System.out.println(KINDS.size() * 2 * POINTS + " disks that failed and recovered, " + refused
                + " lines refused and entered again, each recorded once");
        assertThat(refused).isPositive();
    }

    private static Store opened(Path data) {
        Store.Opening opening = Store.open(data, Store.Mode.WRITE, InstantSource.system());
        assertThat(opening).isInstanceOf(Store.Opening.Opened.class);
        return ((Store.Opening.Opened) opening).store();
    }

    private record Run(int status, int acknowledged, String err) {}

    private Run run(Path data, Path script, Path library, String kind, int at, boolean once) throws Exception {
        List<String> command = List.of(
                "mat", "--data", data.toString(), "--script", script.toString(), "--box", "Box", "--watch", "wheat");
        ProcessBuilder builder = ToolProcess.of(command);
        Path err = folder.resolve("err.txt");
        builder.redirectError(err.toFile());
        if (Files.exists(library)) {
            builder.environment().put("LD_PRELOAD", library.toString());
            builder.environment().put("FAULT_KIND", kind);
            builder.environment().put("FAULT_AT", Integer.toString(at));
            if (once) {
                builder.environment().put("FAULT_CALLS", "1");
            }
        }
        Process process = builder.start();
        String out = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        int status = process.waitFor();
        int acknowledged = (int) out.lines()
                .filter(line -> line.startsWith("ok ") && line.contains("line "))
                .count();
        return new Run(status, acknowledged, Files.readString(err));
    }

    /// Notes of the first hunt; none when the store was never made.
    private static List<String> notes(Path data) {
        if (!(Store.open(data, Store.Mode.WRITE, InstantSource.system()) instanceof Store.Opening.Opened opened)) {
            throw new AssertionError(
                    "the store does not open: " + Store.open(data, Store.Mode.WRITE, InstantSource.system()));
        }
        try (Store store = opened.store()) {
            return store.desk()
                    .read(book -> book.hunt().hunts().stream()
                            .limit(1)
                            .flatMap(hunt -> hunt.finds().stream())
                            .map(id ->
                                    book.hunt().find(id).orElseThrow().facts().note())
                            .toList());
        }
    }
}
