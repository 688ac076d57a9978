package org.rollwright.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.rollwright.store.Store;

/// A scripted hunt whose process is killed without warning, again and again: every acknowledged line is in the
/// journal, in order, and none twice.
///
/// The number of kills is 12, or that of the system property `rollwright.kills`; bench/kill asks for 1,000.
class KillTest {
    private static final int KILLS = Integer.getInteger("rollwright.kills", 12);

    /// A new store after so many kills: each is read whole after each kill.
    private static final int KILLS_PER_STORE = 100;

    @TempDir
    private Path folder;

    @Test
    void a_killed_process_loses_nothing_acknowledged_and_repeats_nothing() throws Exception {
        Random random = new Random(20260301);
        Path script = folder.resolve("hunt.txt");
        int expected = 0;
        int recorded = 0;
        int killedMidway = 0;
        try (ExecutorService killer = Executors.newSingleThreadExecutor()) {
            for (int kill = 0; kill < KILLS; kill++) {
                if (kill % KILLS_PER_STORE == 0) {
                    recorded += expected;
                    expected = 0;
                }
                Path data = folder.resolve("data-" + kill / KILLS_PER_STORE);
                List<String> lines = new ArrayList<>();
                IntStream.range(expected, expected + 4_000).forEach(i -> lines.add("39s \"line " + i + "\""));
                Files.write(script, lines);
                Process process = start(data, script);
                int acknowledged = 0;
                try (BufferedReader out =
                        new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
                    if (kill % 4 == 3) {
                        // while the process starts, or opens the store, or has just begun
                        killAfter(killer, process, random.nextInt(1_200_000));
                    }
                    String line = out.readLine();
                    if (kill % 4 != 3) {
                        killAfter(killer, process, random.nextInt(kill % 4 == 0 ? 5_000 : 300_000));
                    }
                    while (line != null) {
                        acknowledged += line.startsWith("ok ") && line.endsWith("\"") && line.contains("line ") ? 1 : 0;
                        line = out.readLine();
                    }
                }
                assertThat(process.waitFor()).as("killed, not ended by itself").isEqualTo(137);
                List<String> notes = notes(data);
                assertThat(notes)
                        .as("after kill %d", kill + 1)
                        .hasSizeGreaterThanOrEqualTo(expected + acknowledged)
                        .isEqualTo(IntStream.range(0, notes.size())
                                .mapToObj(i -> "line " + i)
                                .collect(Collectors.toList()));
                killedMidway += acknowledged > 0 ? 1 : 0;
                expected = notes.size();
            }
        }
        assertThat(killedMidway).isGreaterThan(KILLS / 2);
        System.out.println(KILLS + " kills, " + (recorded + expected) + " lines recorded, none lost, none twice");
    }

    private static void killAfter(ExecutorService killer, Process process, long micros) {
        killer.execute(() -> {
            LockSupport.parkNanos(TimeUnit.MICROSECONDS.toNanos(micros));
            process.toHandle().destroyForcibly();
        });
    }

    private static Process start(Path data, Path script) throws IOException {
        List<String> command =
                new ArrayList<>(List.of("mat", "--data", data.toString(), "--script", script.toString()));
        command.addAll(Files.notExists(data) ? List.of("--box", "Box 1", "--watch", "wheat") : List.of("--hunt", "1"));
        return ToolProcess.of(command)
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
    }

    private static List<String> notes(Path data) {
        Store.Opening opening = Store.open(data, Store.Mode.READ, InstantSource.system());
        assertThat(opening).isInstanceOf(Store.Opening.Opened.class);
        try (Store store = ((Store.Opening.Opened) opening).store()) {
            return store.desk()
                    .read(book -> book.hunt().hunts().stream()
                            .flatMap(hunt -> hunt.finds().stream())
                            .map(id ->
                                    book.hunt().find(id).orElseThrow().facts().note())
                            .toList());
        }
    }
}
