package org.rollwright.web;

import static org.rollwright.text.Texts.t;

import io.javalin.Javalin;
import io.javalin.config.SizeUnit;
import io.javalin.http.Context;
import io.javalin.http.Cookie;
import io.javalin.http.HttpStatus;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.BindException;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.eclipse.jetty.http.HttpException;
import org.eclipse.jetty.io.EofException;
import org.eclipse.jetty.server.Connector;
import org.eclipse.jetty.server.HttpConfiguration;
import org.eclipse.jetty.server.HttpConnectionFactory;
import org.eclipse.jetty.server.SecureRequestCustomizer;
import org.eclipse.jetty.server.ServerConnector;
import org.eclipse.jetty.server.SslConnectionFactory;
import org.eclipse.jetty.util.ssl.SslContextFactory;
import org.jspecify.annotations.Nullable;
import org.rollwright.hunt.JournalException;
import org.rollwright.text.Texts;

/// The pages, served on the loopback address only.
public final class Server implements AutoCloseable {
    /// What came of starting.
    public sealed interface Started {
        record Running(Server server, int port) implements Started {}

        record NoPort(int first, int last) implements Started {}
    }

    private static final Logger LOG = Logger.getLogger(Server.class.getName());
    private static final int PORTS_TRIED = 20;
    private static final long MOST_BYTES = 60_000_000;

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
    private @Nullable Server forPhones;

    private Server(Javalin javalin, LivePages live) {
        this.javalin = javalin;
        this.live = live;
    }

    /// Starts the pages a second time for phones in the same network: encrypted, and only for those that know
    /// the word.
    ///
    /// @param port the port wished for
    /// @return the port taken
    public OptionalInt alsoFor(Lan lan, Bench bench, int port) {
        for (int attempt = port; attempt < port + PORTS_TRIED; attempt++) {
            LivePages pages = new LivePages();
            Javalin server = create(bench, pages, lan, attempt);
            try {
                server.start();
                forPhones = new Server(server, pages);
                return OptionalInt.of(attempt);
            } catch (RuntimeException e) {
                server.stop();
                if (!isBindFailure(e)) {
                    throw e;
                }
            }
        }
        return OptionalInt.empty();
    }

    private static Connector encrypted(org.eclipse.jetty.server.Server server, Lan lan, int port) {
        SslContextFactory.Server keys = new SslContextFactory.Server();
        keys.setKeyStore(lan.keys());
        keys.setKeyStorePassword("");
        HttpConfiguration settings = new HttpConfiguration();
        settings.setSendServerVersion(false);
        // the address in the certificate is an IP address, which no server name indication can carry
        settings.addCustomizer(new SecureRequestCustomizer(false));
        ServerConnector connector = new ServerConnector(
                server, new SslConnectionFactory(keys, "http/1.1"), new HttpConnectionFactory(settings));
        connector.setPort(port);
        return connector;
    }

    /// Starts on the first free port.
    ///
    /// @param port the port wished for; 0 for any
    public static Started start(Bench bench, int port) {
        int last = port == 0 ? 0 : Math.min(port + PORTS_TRIED - 1, 65535);
        Map<String, String> settings = bench.settings().read();
        Manner.use(Manner.of(settings));
        Texts.use(Locale.forLanguageTag(settings.getOrDefault("language", "en")));
        for (int attempt = port; attempt <= last; attempt++) {
            LivePages live = new LivePages();
            Javalin javalin = create(bench, live, null, 0);
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

    private static Javalin create(Bench bench, LivePages live, @Nullable Lan lan, int lanPort) {
        Render render = new Render();
        AlbumShelf shelf = new AlbumShelf(bench);
        OddsShelf odds = new OddsShelf(bench, shelf.shelves());
        return Javalin.create(config -> {
            config.startup.showJavalinBanner = false;
            config.startup.showOldJavalinVersionWarning = false;
            config.http.defaultContentType = "text/html; charset=utf-8";
            // two photographs of the largest size taken, with the form around them
            config.http.maxRequestSize = MOST_BYTES;
            config.jetty.multipartConfig.maxTotalRequestSize(MOST_BYTES, SizeUnit.BYTES);
            config.jetty.multipartConfig.maxFileSize(MOST_BYTES, SizeUnit.BYTES);
            config.http.generateEtags = false;
            config.jetty.modifyServer(server -> server.setStopTimeout(0));
            if (lan == null) {
                config.routes.before(Server::guard);
            } else {
                config.jetty.addConnector((server, settings) -> encrypted(server, lan, lanPort));
                config.routes.before(context -> guard(context, lan, lanPort));
                config.routes.get("/join", context -> join(context, lan, render));
            }
            config.routes.before(context -> {
                if (context.req().getContentLengthLong() > MOST_BYTES) {
                    context.status(HttpStatus.CONTENT_TOO_LARGE);
                    sorry(bench, render, context, t("server.that-was-too-much-at"), t("server.at-most-60-mb-are"));
                    context.skipRemainingHandlers();
                }
            });
            config.routes.get(
                    "/assets/texts.js",
                    context -> context.header("Cache-Control", "no-cache")
                            .contentType("text/javascript; charset=utf-8")
                            .result(Marks.script()));
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
            new HelpPages(bench, render).register(config.routes);
            new SettingsPages(bench, render).register(config.routes);
            config.routes.exception(JournalException.class, (e, context) -> {
                LOG.log(Level.WARNING, "journal", e);
                context.status(HttpStatus.SERVICE_UNAVAILABLE);
                sorry(bench, render, context, t("server.it-was-not-saved"), String.valueOf(e.getMessage()));
            });
            config.routes.exception(Exception.class, (e, context) -> {
                if (badlySent(e)) {
                    context.status(HttpStatus.BAD_REQUEST);
                    sorry(bench, render, context, t("server.that-could-not-be-read"), t("server.it-was-cut-short-on"));
                    return;
                }
                LOG.log(Level.SEVERE, "page " + context.path(), e);
                context.status(HttpStatus.INTERNAL_SERVER_ERROR);
                sorry(
                        bench,
                        render,
                        context,
                        t("server.something-is-wrong-with-the"),
                        t("server.this-is-our-mistake-not"));
            });
            config.routes.error(HttpStatus.NOT_FOUND.getCode(), context -> {
                if (context.result() == null
                        || context.result().equals("Not Found")
                        || context.result().startsWith("Endpoint")) {
                    sorry(
                            bench,
                            render,
                            context,
                            t("server.there-is-no-such-page"),
                            t("server.perhaps-the-hunt-box-or"));
                }
            });
        });
    }

    /// Whether a request was cut short, too large or no form at all: the sender's doing, not ours.
    private static boolean badlySent(Throwable failure) {
        for (@Nullable Throwable cause = failure; cause != null; cause = cause.getCause()) {
            if (cause instanceof HttpException || cause instanceof EofException) {
                return true;
            }
        }
        return false;
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

    private static void headers(Context context) {
        context.header("Content-Security-Policy", POLICY);
        context.header("X-Content-Type-Options", "nosniff");
        context.header("X-Frame-Options", "DENY");
        context.header("Cross-Origin-Resource-Policy", "same-origin");
        context.header("Cross-Origin-Opener-Policy", "same-origin");
        context.header("Referrer-Policy", "same-origin");
        context.header("Cache-Control", "no-store");
    }

    /// Whether a page of another origin asks for a change. Browsers name the origin of every form sent across
    /// sites and say so in Sec-Fetch-Site.
    private static boolean foreign(Context context, String own) {
        String origin = context.header("Origin");
        String site = Optional.ofNullable(context.header("Sec-Fetch-Site")).orElse("same-origin");
        boolean changes = !List.of("GET", "HEAD").contains(context.req().getMethod());
        return changes
                && ((origin != null && !origin.equals(own))
                        || !Set.of("same-origin", "none").contains(site));
    }

    private static void refuse(Context context, String sentence) {
        context.status(HttpStatus.FORBIDDEN);
        context.contentType("text/plain; charset=utf-8");
        context.result(sentence);
        context.skipRemainingHandlers();
    }

    /// Requests must name this computer, so that a foreign page cannot reach the tool through a rebound name;
    /// and what changes anything must come from our own pages.
    private static void guard(Context context) {
        headers(context);
        String host = hostName(Optional.ofNullable(context.header("Host")).orElse(""));
        boolean ours = Set.of("127.0.0.1", "localhost", "[::1]").contains(host);
        if (!ours || foreign(context, "http://" + context.header("Host"))) {
            refuse(context, t("server.this-page-may-only-be"));
        }
    }

    /// From the network every request must carry the word of this start, besides naming this computer.
    private static void guard(Context context, Lan lan, int port) {
        headers(context);
        String host = Optional.ofNullable(context.header("Host")).orElse("");
        boolean ours = lan.addresses().stream().anyMatch(address -> host.equals(address + ":" + port));
        boolean joining = context.path().equals("/join");
        String word = Optional.ofNullable(context.cookie(Lan.COOKIE)).orElse("");
        if (!ours || foreign(context, "https://" + host) || (!joining && !lan.is(word))) {
            refuse(context, t("server.open-the-address-that-the"));
        }
    }

    /// Lets a browser in that knows the word.
    private static void join(Context context, Lan lan, Render render) {
        if (!lan.is(Optional.ofNullable(context.queryParam("word")).orElse(""))) {
            refuse(context, t("server.that-word-is-not-or"));
            return;
        }
        Cookie cookie = new Cookie(Lan.COOKIE, lan.word());
        cookie.setHttpOnly(true);
        cookie.setSecure(true);
        cookie.setSameSite(io.javalin.http.SameSite.STRICT);
        cookie.setPath("/");
        context.cookie(cookie);
        // not a redirect: a strict cookie set on the way from the camera's page would not be sent along. The page goes
        // on by itself instead, and that step is our own
        render.page(context, "joined", Map.of());
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
        Server phones = forPhones;
        if (phones != null) {
            phones.close();
        }
        live.close();
        javalin.stop();
    }
}
