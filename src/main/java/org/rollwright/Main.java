package org.rollwright;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.rollwright.cli.RootCommand;
import org.rollwright.cli.serve.Pages;
import org.rollwright.store.Settings;
import org.rollwright.text.Texts;
import org.rollwright.web.Server;
import org.rollwright.web.guard.Lan;
import org.rollwright.web.paper.Paper;
import org.rollwright.web.shell.Bench;
import org.rollwright.web.shell.SettingsShelf;

/// Puts store, pages and commands together.
public final class Main {
    /// Held so that their levels are not forgotten: what libraries say at start is of no use to a hunter.
    private static final List<Logger> QUIET = List.of(
            Logger.getLogger("org.eclipse.jetty"),
            Logger.getLogger("io.javalin"),
            Logger.getLogger("org.flywaydb"),
            Logger.getLogger("net.fortuna.ical4j"),
            Logger.getLogger("org.apache.pdfbox"),
            Logger.getLogger("org.apache.fontbox"));

    /// Phones are served this many ports above the pages.
    private static final int LAN_STEP = 100;

    private Main() {}

    public static void main(String[] args) {
        QUIET.forEach(logger -> logger.setLevel(Level.SEVERE));
        // only the launcher of an installed package sets it
        if (System.getProperty("jpackage.app-version") != null) {
            Texts.calledBy("rollwright");
        }
        System.exit(RootCommand.run(Main::pages, List.of(args)));
    }

    private static SettingsShelf shelf(Settings settings) {
        return new SettingsShelf() {
            @Override
            public Map<String, String> read() {
                return settings.all();
            }

            @Override
            public void choose(Map<String, String> some) throws IOException {
                settings.choose(some);
            }
        };
    }

    private static Pages.Started pages(Pages.Work work, int port) {
        Bench bench = new Bench(
                work.desk(),
                work.catalog(),
                work.varieties(),
                work.photos(),
                work.recorder(),
                work.voice(),
                work.clock(),
                shelf(work.settings()),
                work.demo(),
                work.trouble(),
                work.stop());
        return switch (Server.start(bench, port)) {
            case Server.Started.NoPort none -> new Pages.Started.NoPort(none.first(), none.last());
            case Server.Started.Running running ->
                new Pages.Started.Running(new Pages.Serving() {
                    @Override
                    public Pages.Phones alsoForPhones(Path folder) {
                        return phones(running.server(), bench, running.port() + LAN_STEP, folder);
                    }

                    @Override
                    public int port() {
                        return running.port();
                    }

                    @Override
                    public void close() {
                        running.server().close();
                    }
                });
        };
    }

    private static Pages.Phones phones(Server server, Bench bench, int port, Path folder) {
        try {
            Lan lan = Lan.open(folder, bench.clock().instant());
            OptionalInt taken = server.alsoFor(lan, bench, port, System.out::println);
            return taken.isEmpty()
                    ? new Pages.Phones.NotServed("No port near " + port + " is free for phones.")
                    : new Pages.Phones.Served(
                            lan.address(taken.getAsInt()),
                            lan.fingerprint(),
                            Paper.qrInLetters(lan.address(taken.getAsInt())));
        } catch (Lan.Unusable e) {
            return new Pages.Phones.NotServed(String.valueOf(e.getMessage()));
        }
    }
}
