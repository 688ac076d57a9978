package org.rollwright.web;

import io.javalin.Javalin;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.BindException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.jspecify.annotations.Nullable;
import org.rollwright.hunt.JournalException;

/// The pages, served on the loopback address only.
public final class Server implements AutoCloseable {
    /// What came of starting.
    public sealed interface Started {
        record Running(Server server, int port) implements Started {}

        record NoPort(int first, int last) implements Started {}
    }

    private static final Logger LOG = Logger.getLogger(Server.class.getName());
    private static final int PORTS_TRIED = 20;

    /// Files a page may ask for, and where they lie on the class path.
    private static final Map<String, String> ASSETS = Map.ofEntries(
            Map.entry("bench.css", "/web/bench.css"),
            Map.entry("bench.js", "/web/bench.js"),
            Map.entry("theme.js", "/web/theme.js"),
            Map.entry("mark.svg", "/web/mark.svg"),
            Map.entry("charts.js", "/web/charts.js"),
            Map.entry("scope.js", "/web/scope.js"),
            Map.entry("echarts.js", "/META-INF/resources/_static/echarts/5.6.0/dist/echarts.min.js"),
            Map.entry("htmx.js", "/META-INF/resources/webjars/htmx.org/2.0.4/dist/htmx.min.js"),
            Map.entry("sse.js", "/META-INF/resources/webjars/htmx-ext-sse/2.2.2/sse.js"),
            Map.entry("overlay.css", "/web/overlay.css"),
            Map.entry("overlay.js", "/web/overlay.js"),
            Map.entry("recap.js", "/web/recap.js"));

    /// Nothing but our own files is ever loaded, and nothing inline runs.
    private static final String POLICY =
            "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
                    + "connect-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'";

    private final Javalin javalin;
    private final LivePages live;

    private Server(Javalin javalin, LivePages live) {
        this.javalin = javalin;
        this.live = live;
    }

    /// Starts on the first free port.
    ///
    /// @param port the port wished for; 0 for any
    public static Started start(Bench bench, int port) {
        int last = port == 0 ? 0 : Math.min(port + PORTS_TRIED - 1, 65535);
        for (int attempt = port; attempt <= last; attempt++) {
            LivePages live = new LivePages();
            Javalin javalin = create(bench, live);
            try {
                javalin.start("127.0.0.1", attempt);
                return new Started.Running(new Server(javalin, live), javalin.port());
            } catch (RuntimeException e) {
                javalin.stop();
                if (!isBindFailure(e)) {
                    throw e;
                }
            }
        }
        return new Started.NoPort(port, last);
    }

    private static boolean isBindFailure(Throwable failure) {
        for (@Nullable Throwable cause = failure; cause != null; cause = cause.getCause()) {
            if (cause instanceof BindException
                    || String.valueOf(cause.getMessage()).contains("already in use")) {
                return true;
            }
        }
        return false;
    }

    private static Javalin create(Bench bench, LivePages live) {
        Render render = new Render();
        AlbumShelf shelf = new AlbumShelf(bench);
        OddsShelf odds = new OddsShelf(bench, shelf.shelves());
        return Javalin.create(config -> {
            config.startup.showJavalinBanner = false;
            config.startup.showOldJavalinVersionWarning = false;
            config.http.defaultContentType = "text/html; charset=utf-8";
            // two photographs of the largest size taken, with the form around them
            config.http.maxRequestSize = 60_000_000L;
            config.http.generateEtags = false;
            config.jetty.modifyServer(server -> server.setStopTimeout(0));
            config.routes.before(Server::guard);
            config.routes.get("/assets/{file}", Server::asset);
            config.routes.get("/", context -> context.redirect("/mat", HttpStatus.SEE_OTHER));
            new MatPages(bench, render, shelf, odds, live).register(config.routes);
            new NarrationPages(bench, render).register(config.routes);
            new BoxPages(bench, render).register(config.routes);
            new AlbumPages(bench, render, shelf).register(config.routes);
            new OddsPages(bench, render, odds).register(config.routes);
            new ScopePages(bench, render).register(config.routes);
            new PhotoPages(bench, render).register(config.routes);
            new ScalePages(bench, render).register(config.routes);
            new RecapPages(bench, render).register(config.routes);
            new TillPages(bench, render).register(config.routes);
            new BranchPages(bench, render).register(config.routes);
            CabinetShelf cabinet = new CabinetShelf(bench);
            new TripPages(bench, render, cabinet).register(config.routes);
            new CabinetPages(bench, render, cabinet).register(config.routes);
            new PaperPages(bench, render, cabinet, shelf).register(config.routes);
            new CalcPages(bench, render).register(config.routes);
            new GuidePages(bench, render).register(config.routes);
            config.routes.exception(JournalException.class, (e, context) -> {
                LOG.log(Level.WARNING, "journal", e);
                context.status(HttpStatus.SERVICE_UNAVAILABLE);
                sorry(bench, render, context, "It was not saved", String.valueOf(e.getMessage()));
            });
            config.routes.exception(Exception.class, (e, context) -> {
                LOG.log(Level.SEVERE, "page " + context.path(), e);
                context.status(HttpStatus.INTERNAL_SERVER_ERROR);
                sorry(
                        bench,
                        render,
                        context,
                        "Something is wrong with the tool",
                        "This is our mistake, not yours. Nothing recorded is lost. The log tells more.");
            });
            config.routes.error(HttpStatus.NOT_FOUND.getCode(), context -> {
                if (context.result() == null
                        || context.result().equals("Not Found")
                        || context.result().startsWith("Endpoint")) {
                    sorry(
                            bench,
                            render,
                            context,
                            "There is no such page",
                            "Perhaps the hunt, box or album was undone. The places are listed above.");
                }
            });
        });
    }

    private static void sorry(Bench bench, Render render, Context context, String title, String text) {
        if ("quick".equals(context.header("X-Bench"))) {
            context.header("X-Outcome", "problem");
            context.html(
                    render.print("parts/answer", Map.of("answer", Answer.problem("", title + ".", text), "hunt", 0L)));
            return;
        }
        render.page(context, "sorry", Map.of("frame", new Frame(title, "", bench.demo()), "text", text));
    }

    /// Requests must name this computer, so that a foreign page cannot reach the tool through a rebound name;
    /// and what changes anything must come from our own pages.
    private static void guard(Context context) {
        context.header("Content-Security-Policy", POLICY);
        context.header("X-Content-Type-Options", "nosniff");
        context.header("Referrer-Policy", "same-origin");
        context.header("Cache-Control", "no-store");
        String host = hostName(Optional.ofNullable(context.header("Host")).orElse(""));
        boolean ours = Set.of("127.0.0.1", "localhost", "[::1]").contains(host);
        String origin = context.header("Origin");
        boolean foreign = origin != null && !origin.equals("http://" + context.header("Host"));
        boolean changes = !List.of("GET", "HEAD").contains(context.req().getMethod());
        if (!ours || (changes && foreign)) {
            context.status(HttpStatus.FORBIDDEN);
            context.result("This page may only be used from this computer's own browser.");
            context.skipRemainingHandlers();
        }
    }

    private static String hostName(String host) {
        int colon = host.lastIndexOf(':');
        boolean hasPort = colon > 0 && !host.endsWith("]");
        return hasPort ? host.substring(0, colon) : host;
    }

    private static void asset(Context context) {
        String file = context.pathParam("file");
        String resource = ASSETS.get(file);
        if (resource == null) {
            context.status(HttpStatus.NOT_FOUND);
            return;
        }
        try (InputStream in = Server.class.getResourceAsStream(resource)) {
            if (in == null) {
                throw new IllegalStateException("missing from the build: " + resource);
            }
            context.header("Cache-Control", "no-cache");
            context.contentType(
                    file.endsWith(".css")
                            ? "text/css; charset=utf-8"
                            : file.endsWith(".svg") ? "image/svg+xml" : "text/javascript; charset=utf-8");
            context.result(in.readAllBytes());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Override
    public void close() {
        live.close();
        javalin.stop();
    }
}
