package org.rollwright.cli.serve;

import java.io.IOException;
import java.io.InputStream;
import java.net.HttpURLConnection;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.Comparator;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.rollwright.cli.mat.Script;
import org.rollwright.cli.shell.ExitCode;
import org.rollwright.cli.shell.Open;
import org.rollwright.coin.Denomination;
import org.rollwright.entry.Recorder;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.store.PhotoFolder;
import org.rollwright.store.Settings;
import org.rollwright.store.Store;
import picocli.CommandLine;

/// A training run for the class cache: opens a store in a temporary folder, serves, asks for the pages, and
/// ends.
@CommandLine.Command(name = "warm-up", hidden = true, description = "Load what a start needs, for the class cache.")
public final class WarmUpCommand implements Callable<Integer> {
    @CommandLine.Mixin
    private Open open = new Open();

    private final Pages pages;

    public WarmUpCommand(Pages pages) {
        this.pages = pages;
    }

    @Override
    public Integer call() throws IOException {
        Path folder = Files.createTempDirectory("rollwright-warm-up");
        try {
            InstantSource clock = InstantSource.system();
            // closed with a snapshot, so that reading one is part of the training
            if (Store.open(folder, Store.Mode.WRITE, clock) instanceof Store.Opening.Opened first) {
                fill(first.store());
                first.store().close();
            }
            if (!(Store.open(folder, Store.Mode.WRITE, clock) instanceof Store.Opening.Opened opened)) {
                return ExitCode.STORE.number();
            }
            var catalog = open.catalog(System.err);
            var desk = opened.store().desk();
            var varieties = open.varieties(catalog, System.err);
            Recorder recorder = Open.recorder(desk, catalog, clock, varieties);
            try (Open.Bench bench = new Open.Bench(opened.store(), desk, catalog, varieties, recorder, false)) {
                new Script(bench, null)
                        .run(
                                List.of(
                                        "@album Wheat: series us-cent-lincoln-wheat; one per date and mint",
                                        "@hunt Warm-up; denomination cent; watch wheat",
                                        "+ 39s vf20",
                                        "+ 44d, x2 41"),
                                true,
                                line -> {});
                if (pages.start(
                                new Pages.Work(
                                        desk,
                                        bench.catalog(),
                                        varieties,
                                        new PhotoFolder(folder),
                                        recorder,
                                        open.voice(bench.catalog(), new Settings(folder)),
                                        clock,
                                        new Settings(folder),
                                        false,
                                        () -> "",
                                        () -> {}),
                                0)
                        instanceof Pages.Started.Running running) {
                    try (Pages.Serving serving = running.serving()) {
                        for (String page : List.of(
                                "/mat",
                                "/mat/1",
                                "/mat/1/preview?line=36d",
                                "/boxes",
                                "/boxes/1",
                                "/albums",
                                "/albums/1",
                                "/assets/bench.css",
                                "/assets/htmx.js",
                                "/odds",
                                "/scope",
                                "/mat/1/narration",
                                "/cabinet",
                                "/till",
                                "/recap/1",
                                "/guide/first-evening")) {
                            fetch("http://127.0.0.1:" + serving.port() + page);
                        }
                    }
                }
            }
            return ExitCode.OK.number();
        } finally {
            delete(folder);
        }
    }

    private static void fill(Store store) {
        for (int i = 0; i < 250; i++) {
            int number = i;
            store.desk()
                    .record(
                            0,
                            "",
                            book -> new HuntEvent.BoxAdded(
                                    book.hunt().nextBox(),
                                    Denomination.US_CENT,
                                    BoxDetails.plain("Box " + number, 50, 50)));
        }
    }

    private static void fetch(String address) throws IOException {
        HttpURLConnection connection =
                (HttpURLConnection) URI.create(address).toURL().openConnection();
        try (InputStream in =
                connection.getResponseCode() < 400 ? connection.getInputStream() : InputStream.nullInputStream()) {
            in.readAllBytes();
        }
        connection.disconnect();
    }

    private static void delete(Path folder) throws IOException {
        try (Stream<Path> paths = Files.walk(folder)) {
            for (Path path : paths.sorted(Comparator.reverseOrder()).toList()) {
                Files.deleteIfExists(path);
            }
        }
    }
}
