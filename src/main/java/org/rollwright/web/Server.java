package org.rollwright.web;

import static org.rollwright.text.Texts.t;
import static org.rollwright.web.shell.Render.PAGES;

import io.javalin.Javalin;
import io.javalin.config.SizeUnit;
import io.javalin.http.Context;
import io.javalin.http.Cookie;
import io.javalin.http.HandlerType;
import io.javalin.http.HttpStatus;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.BindException;
import java.nio.file.FileSystemException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.function.Consumer;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.eclipse.jetty.http.HttpException;
import org.eclipse.jetty.io.EofException;
import org.eclipse.jetty.server.Connector;
import org.eclipse.jetty.server.HttpConfiguration;
import org.eclipse.jetty.server.HttpConnectionFactory;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.SecureRequestCustomizer;
import org.eclipse.jetty.server.ServerConnector;
import org.eclipse.jetty.server.SslConnectionFactory;
import org.eclipse.jetty.util.ssl.SslContextFactory;
import org.eclipse.jetty.util.thread.QueuedThreadPool;
import org.jspecify.annotations.Nullable;
import org.rollwright.journal.JournalException;
import org.rollwright.web.albums.AlbumShelf;
import org.rollwright.web.guard.Escapes;
import org.rollwright.web.guard.Gate;
import org.rollwright.web.guard.Guesses;
import org.rollwright.web.guard.Intake;
import org.rollwright.web.guard.Lan;
import org.rollwright.web.guard.PhoneDoor;
import org.rollwright.web.guard.Refusal;
import org.rollwright.web.guard.Uploads;
import org.rollwright.web.odds.OddsShelf;
import org.rollwright.web.shell.Bench;
import org.rollwright.web.shell.ChangedPages;
import org.rollwright.web.shell.LivePages;
import org.rollwright.web.shell.Manner;
import org.rollwright.web.shell.Marks;
import org.rollwright.web.shell.Repeats;
import org.rollwright.web.shell.Shown;

/// The pages, served on the loopback address only.
///
/// Long because what guards every page is put together in one place, where it can be seen whole.
public final class Server implements AutoCloseable {
    /// What came of starting.
    public sealed interface Started {
        record Running(Server server, int port) implements Started {}

        record NoPort(int first, int last) implements Started {}
    }

    private static final Logger LOG = Logger.getLogger(Server.class.getName());
    private static final int PORTS_TRIED = 20;

    private static final int MOST_THREADS = 250;
    private static final int LEAST_THREADS = 8;

    /// After how many milliseconds a thread without work ends.
    private static final int IDLE = 60_000;

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

    private final Javalin javalin;
    private final LivePages live;
    private final Guesses guesses;
    private @Nullable Server forPhones;

    private Server(Javalin javalin, LivePages live, Guesses guesses) {
        this.javalin = javalin;
        this.live = live;
        this.guesses = guesses;
    }

    /// Starts the pages a second time for phones in the same network: encrypted, and only for those that know
    /// the word.
    ///
    /// @param port the port wished for
    /// @param tell takes a sentence for the person at the computer, when somebody guesses at the word
    /// @return the port taken
    public OptionalInt alsoFor(Lan lan, Bench bench, int port, Consumer<String> tell) {
        guesses.tell(tell);
        for (int attempt = port; attempt < port + PORTS_TRIED; attempt++) {
            LivePages pages = new LivePages();
            Javalin server = create(bench, pages, guesses, lan, attempt);
            try {
                server.start();
                forPhones = new Server(server, pages, guesses);
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

    private static Connector encrypted(org.eclipse.jetty.server.Server server, Lan lan, String address, int port) {
        SslContextFactory.Server keys = new SslContextFactory.Server();
        keys.setKeyStore(lan.keys());
        keys.setKeyStorePassword("");
        HttpConfiguration settings = new HttpConfiguration();
        settings.setSendServerVersion(false);
        settings.setUriCompliance(Gate.ADDRESSES);
        // the address in the certificate is an IP address, which no server name indication can carry
        settings.addCustomizer(new SecureRequestCustomizer(false));
        ServerConnector connector = new ServerConnector(
                server, new SslConnectionFactory(keys, "http/1.1"), new HttpConnectionFactory(settings));
        connector.setHost(address);
        connector.setPort(port);
        return connector;
    }

    /// Starts on the first free port.
    ///
    /// @param port the port wished for; 0 for any
    public static Started start(Bench bench, int port) {
        int last = port == 0 ? 0 : Math.min(port + PORTS_TRIED - 1, 65535);
        Map<String, String> settings = bench.settings().read();
        Manner.useAll(settings);
        for (int attempt = port; attempt <= last; attempt++) {
            LivePages live = new LivePages();
            Guesses guesses = new Guesses(bench.clock());
            Javalin javalin = create(bench, live, guesses, null, 0);
            try {
                javalin.start("127.0.0.1", attempt);
                return new Started.Running(new Server(javalin, live, guesses), javalin.port());
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

    private static Javalin create(Bench bench, LivePages live, Guesses guesses, @Nullable Lan lan, int lanPort) {
        AlbumShelf shelf = new AlbumShelf(bench);
        OddsShelf odds = new OddsShelf(bench, shelf.shelves());
        return Javalin.create(config -> {
            config.startup.showJavalinBanner = false;
            config.startup.showOldJavalinVersionWarning = false;
            config.http.defaultContentType = "text/html; charset=utf-8";
            config.http.maxRequestSize = Intake.MOST;
            config.jetty.threadPool = threads();
            config.jetty.multipartConfig.maxTotalRequestSize(Intake.MOST, SizeUnit.BYTES);
            config.jetty.multipartConfig.maxFileSize(Intake.MOST, SizeUnit.BYTES);
            Uploads.folder().ifPresent(folder -> config.jetty.multipartConfig.cacheDirectory(folder.toString()));
            config.http.generateEtags = false;
            Gate gate = new Gate(bench, lan == null ? Server::home : new PhoneDoor(lan, lanPort, guesses), lan == null);
            config.jetty.modifyServer(server -> {
                server.setStopTimeout(0);
                server.insertHandler(gate);
                server.setErrorHandler(gate::broken);
            });
            config.jetty.modifyHttpConfiguration(settings -> settings.setUriCompliance(Gate.ADDRESSES));
            if (lan != null) {
                for (String address : lan.addresses()) {
                    config.jetty.addConnector((server, settings) -> encrypted(server, lan, address, lanPort));
                }
                config.routes.get(PhoneDoor.JOIN, context -> join(context, lan));
            }
            config.routes.before(context -> check(bench, context));
            config.routes.get(
                    "/assets/texts.js",
                    context -> context.header("Cache-Control", "no-cache")
                            .contentType("text/javascript; charset=utf-8")
                            .result(Marks.script()));
            config.routes.get("/assets/{file}", Server::asset);
            config.routes.get("/", context -> context.redirect("/mat", HttpStatus.SEE_OTHER));
            Routes.register(config.routes, bench, shelf, odds, live, guesses);
            config.routes.exception(JournalException.class, (e, context) -> {
                LOG.log(Level.WARNING, "journal", e);
                context.status(HttpStatus.SERVICE_UNAVAILABLE);
                notSaved(bench, context, String.valueOf(e.getMessage()));
            });
            config.routes.exception(Exception.class, (e, context) -> {
                if (context.isMultipartFormData() && noRoom(e)) {
                    LOG.log(Level.WARNING, "temporary folder: {0}", root(e).toString());
                    context.status(HttpStatus.SERVICE_UNAVAILABLE);
                    sorry(
                            bench,
                            context,
                            t("server.the-file-was-not-taken"),
                            t("server.no-temporary-folder", System.getProperty("java.io.tmpdir")));
                    return;
                }
                if (badlySent(e)) {
                    context.status(HttpStatus.BAD_REQUEST);
                    sorry(bench, context, t("server.that-could-not-be-read"), t("server.cut-short"));
                    return;
                }
                LOG.log(Level.SEVERE, "page " + context.path(), e);
                context.status(HttpStatus.INTERNAL_SERVER_ERROR);
                sorry(bench, context, t("server.our-mistake-title"), t("server.our-mistake"));
            });
            config.routes.error(HttpStatus.REQUEST_TIMEOUT.getCode(), context -> {
                context.header("Connection", "close");
                sorry(bench, context, t("server.that-came-too-slowly"), t("server.it-was-given-up"));
            });
            config.routes.error(HttpStatus.NOT_FOUND.getCode(), context -> {
                if (context.result() == null
                        || context.result().equals("Not Found")
                        || context.result().startsWith("Endpoint")) {
                    sorry(bench, context, t("server.there-is-no-such-page"), t("server.perhaps-undone"));
                }
            });
        });
    }

    /// Threads as the library would make them, but for their queue: its own asks the whole of the machine's
    /// management, the flight recorder included, for the size of a line of the cache, a twentieth of a start.
    private static QueuedThreadPool threads() {
        QueuedThreadPool threads = new QueuedThreadPool(MOST_THREADS, LEAST_THREADS, IDLE, new LinkedBlockingQueue<>());
        threads.setName("pages");
        return threads;
    }

    /// The page that comes back when the disk took nothing: what was typed stands on it, to be sent again. For
    /// the quick keys only the sentence: their line still stands in its field.
    private static void notSaved(Bench bench, Context context, String sentence) {
        boolean form =
                Optional.ofNullable(context.contentType()).orElse("").startsWith("application/x-www-form-urlencoded");
        if (!form || context.header("HX-Request") != null) {
            sorry(bench, context, t("server.it-was-not-saved"), sentence);
            return;
        }
        List<String> typed = new ArrayList<>();
        List<ChangedPages.Kept> fields = new ArrayList<>();
        context.formParamMap()
                .forEach((name, values) -> values.forEach(value -> {
                    fields.add(new ChangedPages.Kept(name, value));
                    // marks of what the page showed, and what was chosen from a list, were not typed
                    boolean mark = name.equals(Shown.FIELD) || name.equals(Repeats.FIELD) || name.equals("asof");
                    if (!mark && !value.isBlank() && !value.matches("[A-Z_]+")) {
                        typed.add(value);
                    }
                }));
        context.html(PAGES.shellNotsaved(
                        bench.frame(t("server.it-was-not-saved"), ""), sentence, context.path(), typed, fields)
                .render());
    }

    /// Whether a file that was sent could not be put down on the disk. What the system says of a full one is no
    /// type of its own, only words.
    private static boolean noRoom(Throwable failure) {
        for (@Nullable Throwable cause = failure; cause != null; cause = cause.getCause()) {
            String words = String.valueOf(cause.getMessage()).toLowerCase(Locale.ROOT);
            if (cause instanceof FileSystemException
                    || words.contains("no space left")
                    || words.contains("not enough space")
                    || words.contains("quota exceeded")) {
                return true;
            }
        }
        return false;
    }

    private static Throwable root(Throwable failure) {
        Throwable root = failure;
        for (@Nullable Throwable cause = failure; cause != null; cause = cause.getCause()) {
            root = cause;
        }
        return root;
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

    private static void sorry(Bench bench, Context context, String title, String text) {
        boolean quick = "quick".equals(context.header("X-Bench"));
        if (quick) {
            context.header("X-Outcome", "problem");
        }
        context.html(Gate.page(bench, quick, title, text));
    }

    /// Requests must name this computer, so that a foreign page cannot reach the tool through a rebound name;
    /// and what changes anything must come from our own pages.
    private static @Nullable Refusal home(Request request) {
        String host = Gate.host(request);
        boolean ours = Set.of("127.0.0.1", "localhost", "[::1]").contains(hostName(host));
        return ours && !Gate.foreign(request, "http://" + host)
                ? null
                : Refusal.bare(403, t("server.only-own-browser"));
    }

    /// What the gate let in must be what routes answer; a form's escapes must be some, and its fields not too many.
    private static void check(Bench bench, Context context) {
        @Nullable Refusal refusal = null;
        boolean body = context.req().getContentLengthLong() > 0 || context.header("Transfer-Encoding") != null;
        if (!context.method().name().equals(context.req().getMethod())) {
            refusal = Gate.unreadable();
        } else if (body && !context.isMultipartFormData()) {
            String form = context.body();
            refusal = !Escapes.sound(form)
                    ? Gate.unreadable()
                    : form.chars().filter(letter -> letter == '&').count() >= Intake.MOST_FIELDS
                            ? Intake.tooMuch(false)
                            : null;
        }
        if (refusal != null) {
            context.status(refusal.status());
            sorry(bench, context, refusal.title(), refusal.text());
            context.skipRemainingHandlers();
        }
    }

    /// Lets a browser in that knows the word, as [PhoneDoor] has seen.
    private static void join(Context context, Lan lan) {
        Cookie cookie = new Cookie(Lan.COOKIE, lan.word());
        cookie.setHttpOnly(true);
        cookie.setSecure(true);
        cookie.setSameSite(io.javalin.http.SameSite.STRICT);
        cookie.setPath("/");
        context.cookie(cookie);
        // not a redirect: a strict cookie set on the way from the camera's page would not be sent along. The page goes
        // on by itself instead, and that step is our own
        context.html(PAGES.shellJoined().render());
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

    /// Paths of everything that can be asked for, as routes write them.
    List<String> pages() {
        return javalin.unsafe.internalRouter.allHttpHandlers().stream()
                .map(handler -> handler.endpoint)
                .filter(endpoint -> endpoint.method.equals(HandlerType.GET))
                .map(endpoint -> endpoint.path)
                .toList();
    }

    /// Open pages that follow what happens.
    int following() {
        return live.open();
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
