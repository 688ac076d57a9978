package org.rollwright.web.guide;

import static org.rollwright.text.Texts.t;
import static org.rollwright.web.shell.Render.PAGES;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.NotFoundResponse;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.rollwright.web.shell.Bench;
import org.rollwright.web.shell.Version;

/// Help on the page one is looking at, and what the tool is made of.
public final class HelpPages {
    /// Help on one place.
    ///
    /// @param guide name of its page in the guide
    /// @param keys what a key or a word does
    public record Help(String title, String sentence, String guide, List<Key> keys) {}

    /// A key or word and what it does.
    public record Key(String key, String does) {}

    private final Bench bench;

    public HelpPages(Bench bench) {
        this.bench = bench;
    }

    public void register(RoutesConfig routes) {
        routes.get("/help/{place}", this::help);
        routes.get("/about", this::about);
        routes.get("/about/notices.txt", context -> file(context, "/META-INF/notices.txt", "text/plain"));
        routes.get(
                "/about/licences.txt",
                context -> context.contentType("text/plain; charset=utf-8").result(LicenceTexts.all()));
        routes.get("/about/sbom.json", context -> file(context, "/META-INF/sbom/bom.json", "application/json"));
    }

    private static Map<String, Help> places() {
        Map<String, Help> places = new LinkedHashMap<>();
        places.put(
                "mat",
                new Help(
                        t("help.the-mat"),
                        t("help.mat"),
                        "entry-line",
                        List.of(
                                new Key("39s", t("help.date-and-mint")),
                                new Key("x3 48d", t("help.three-of-them")),
                                new Key("36d vf30 bn \"note\"", t("help.find-words")),
                                new Key("+", t("help.next-roll")),
                                new Key("r17 49", t("help.roll-count")),
                                new Key("<  >", t("help.undo-keys")),
                                new Key("-", t("help.none-of-them")),
                                new Key("*", t("help.look-last")),
                                new Key("! text", t("help.a-mark-for-the-recording")),
                                new Key("finish", t("help.the-hunt-is-over")))));
        places.put("boxes", new Help(t("page.boxes"), t("help.boxes"), "boxes", List.of()));
        places.put(
                "albums",
                new Help(
                        t("page.albums"),
                        t("help.albums"),
                        "albums",
                        List.of(
                                new Key("series wheat; years 1934-1958; one per date and mint", t("help.a-rule")),
                                new Key("Space", t("help.tick")))));
        places.put(
                "scope",
                new Help(
                        t("page.scope"),
                        t("help.scope"),
                        "scope",
                        List.of(
                                new Key("y  n  u", t("help.answer-keys")),
                                new Key(t("help.arrow-keys"), t("help.move-point")),
                                new Key("b  w  d", t("help.blink-keys")))));
        places.put(
                "scale",
                new Help(
                        t("page.scale"),
                        t("help.scale"),
                        "scale",
                        List.of(new Key("1899.4g   3lb 4oz", t("help.ways-to-write-a-weight")))));
        places.put(
                "cabinet",
                new Help(
                        t("page.cabinet"), t("help.cabinet"), "cabinet", List.of(new Key("36d vf", t("help.search")))));
        places.put(
                "till",
                new Help(
                        t("page.till"),
                        t("help.till"),
                        "till",
                        List.of(new Key("12 km   7.5 mi", t("help.ways-to-write-a-road")))));
        places.put("odds", new Help(t("page.odds"), t("help.odds"), "odds", List.of()));
        places.put(
                "guide",
                new Help(
                        t("help.the-guide"),
                        t("help.begin-with-the-first-evening"),
                        "first-evening",
                        List.of(
                                new Key("Tab", t("help.next-thing")),
                                new Key("?", t("help.this-help-on-every-page")))));
        return Map.copyOf(places);
    }

    private void help(Context context) {
        Help help = places().get(context.pathParam("place"));
        if (help == null) {
            throw new NotFoundResponse();
        }
        if ("quick".equals(context.header("X-Bench"))) {
            context.html(PAGES.guideHelpbody(help).render());
            return;
        }
        context.html(PAGES.guideHelp(bench.frame(t("help.help", help.title), "guide"), help)
                .render());
    }

    private void about(Context context) {
        String notices = text("/META-INF/notices.txt");
        context.html(PAGES.guideAbout(
                        bench.frame(t("page.about"), "guide"),
                        Version.NUMBER,
                        Runtime.version().toString(),
                        bench.desk().read(book -> book.last()),
                        notices.lines()
                                .filter(line -> line.startsWith("     ("))
                                .map(String::strip)
                                .toList())
                .render());
    }

    private static String text(String resource) {
        try (InputStream in = HelpPages.class.getResourceAsStream(resource)) {
            return in == null ? "" : new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static void file(Context context, String resource, String type) {
        String text = text(resource);
        if (text.isEmpty()) {
            throw new NotFoundResponse();
        }
        context.contentType(type + "; charset=utf-8");
        context.result(text);
    }
}
