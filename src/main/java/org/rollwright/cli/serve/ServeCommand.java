package org.rollwright.cli.serve;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.InstantSource;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import org.rollwright.cli.mat.Script;
import org.rollwright.cli.shell.ExitCode;
import org.rollwright.cli.shell.Open;
import org.rollwright.store.Checkup;
import org.rollwright.store.PhotoFolder;
import org.rollwright.store.Settings;
import org.rollwright.store.Store;
import org.rollwright.text.Texts;
import picocli.CommandLine;

/// Starts the tool and prints its address.
@CommandLine.Command(
        name = ServeCommand.NAME,
        description = "Start the tool on this computer and print its address (the default command).",
        footer = {
            "",
            "Example: ./run serve --port 7400 --data ~/coins",
            "",
            "Only this computer can reach it, unless --lan is given. Stop it with Ctrl+C; nothing is lost.",
            "Exit status: 0 stopped, 4 the store is open elsewhere, 5 the store cannot be opened."
        })
public final class ServeCommand implements Callable<Integer> {
    public static final String NAME = "serve";

    @CommandLine.Mixin
    private Listening listening = new Listening();

    private final Pages pages;

    public ServeCommand(Pages pages) {
        this.pages = pages;
    }

    /// What the tool does when no command is given: the same, with the options given to the tool itself.
    public ServeCommand(Pages pages, Listening listening) {
        this.pages = pages;
        this.listening = listening;
    }

    @Override
    public Integer call() {
        if (listening.port < 0 || listening.port > 65_535) {
            throw new Open.Stop(ExitCode.INPUT, "There is no port " + listening.port + ". Name one from 1 to 65535.");
        }
        Open.Bench bench;
        try {
            bench = listening.open.open(Store.Mode.WRITE, System.err);
        } catch (Open.InUse busy) {
            String address = busy.address();
            if (listening.show && !address.isEmpty()) {
                System.out.println("Rollwright is running already, at " + address);
                Browse.show(address);
                return ExitCode.OK.number();
            }
            throw busy;
        }
        CountDownLatch stop = new CountDownLatch(1);
        try {
            if (listening.open.demo()
                    && bench.desk().read(book -> book.hunt().hunts().isEmpty())) {
                fill(bench);
            }
            InstantSource clock = InstantSource.system();
            Settings settings = new Settings(listening.open.folder());
            BackupKeeper keeper = new BackupKeeper(listening.open.folder(), clock, listening.open::advice);
            Pages.Work work = new Pages.Work(
                    bench.desk(),
                    bench.catalog(),
                    bench.varieties(),
                    new PhotoFolder(listening.open.folder()),
                    bench.recorder(),
                    listening.open.voice(bench.catalog(), settings),
                    clock,
                    settings,
                    listening.open.demo(),
                    keeper::trouble,
                    stop::countDown);
            switch (pages.start(work, listening.port)) {
                case Pages.Started.NoPort none ->
                    throw new Open.Stop(
                            ExitCode.INPUT,
                            "No port from " + none.first() + " to " + none.last()
                                    + " is free. Name another with --port.");
                case Pages.Started.Running running -> serve(bench, running.serving(), keeper, stop);
            }
            return ExitCode.OK.number();
        } finally {
            bench.close();
        }
    }

    private void serve(Open.Bench bench, Pages.Serving serving, BackupKeeper keeper, CountDownLatch stop) {
        String address = "http://127.0.0.1:" + serving.port() + "/";
        bench.store().serving(address);
        System.out.println("Rollwright is at " + address + (listening.open.demo() ? "  (demo series, invented)" : ""));
        System.out.println("The data are in " + listening.open.folder() + ". Stop with Ctrl+C.");
        Checkup.networkDrive(listening.open.folder())
                .ifPresent(kind -> System.out.println("Take care: that is a network drive (" + kind
                        + "). Such drives may confirm writing too early; " + Texts.command() + " check says more."));
        bench.store().remark().ifPresent(remark -> System.out.println("Take care: " + listening.open.advice(remark)));
        Settings settings = new Settings(listening.open.folder());
        if (settings.changedFromOutside()) {
            System.out.println(
                    "Take care: settings.properties was changed by something else than this tool. Backups go to "
                            + settings.backups() + "; " + Texts.command() + " check says more.");
        }
        if (listening.show) {
            Browse.show(address);
        }
        if (listening.lan) {
            switch (serving.alsoForPhones(listening.open.folder())) {
                case Pages.Phones.Served served -> {
                    System.out.println();
                    System.out.println(served.picture());
                    System.out.println("On a phone in the same network open " + served.address());
                    System.out.println(
                            "The phone will warn of a certificate it does not know; go on only if its SHA-256 is");
                    System.out.println(served.fingerprint());
                    System.out.println(
                            "Whoever has this address can read and write everything until you stop the tool.");
                }
                case Pages.Phones.NotServed not -> System.out.println(not.sentence());
            }
        }
        System.out.flush();
        CountDownLatch stopped = new CountDownLatch(1);
        Runtime.getRuntime().addShutdownHook(new Thread(() -> {
            stop.countDown();
            try {
                // The store is closed by the serving thread; wait for it, but not for ever.
                if (!stopped.await(5, TimeUnit.SECONDS)) {
                    System.err.println("Stopping took too long; the journal is complete all the same.");
                }
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        }));
        try (ScheduledExecutorService saver = Executors.newSingleThreadScheduledExecutor(task -> {
            Thread thread = new Thread(task, "snapshots");
            thread.setDaemon(true);
            return thread;
        })) {
            var saving = saver.scheduleWithFixedDelay(bench.store()::saveSnapshot, 60, 60, TimeUnit.SECONDS);
            var keeping =
                    listening.open.demo() ? saving : saver.scheduleWithFixedDelay(keeper, 30, 3_600, TimeUnit.SECONDS);
            stop.await();
            keeping.cancel(false);
            saving.cancel(false);
            saver.shutdownNow();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } finally {
            serving.close();
            bench.close();
            stopped.countDown();
        }
    }

    /// Plays the invented series into an empty store.
    static void fill(Open.Bench bench) {
        System.err.println("Filling the demo store with the invented series ...");
        List<String> lines;
        try (InputStream in = ServeCommand.class.getResourceAsStream("/demo/series.txt")) {
            if (in == null) {
                throw new IllegalStateException("missing from the build: demo/series.txt");
            }
            lines = new String(in.readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        new Script(bench, null).run(lines, false, line -> {
            if (!line.recorded()) {
                throw new IllegalStateException(
                        "demo line " + line.number() + ": " + line.wrong() + " " + line.right());
            }
        });
    }
}
