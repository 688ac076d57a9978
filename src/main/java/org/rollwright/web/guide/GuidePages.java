package org.rollwright.web.guide;

import static org.rollwright.text.Texts.t;
import static org.rollwright.web.shell.Render.PAGES;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.javalin.http.NotFoundResponse;
import java.io.DataInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.commonmark.ext.gfm.tables.TablesExtension;
import org.commonmark.node.Image;
import org.commonmark.node.Node;
import org.commonmark.parser.Parser;
import org.commonmark.renderer.html.HtmlRenderer;
import org.rollwright.text.Texts;
import org.rollwright.web.shell.Bench;

/// The guide for hunters: the same texts as in docs/guide.
public final class GuidePages {
    /// The guide's pages in reading order: file name without ending, and title.
    private static final Set<String> PICTURES = Set.of("start.png", "mat.png", "compare.png", "album.png", "recap.png");
    private static final Set<String> SAMPLES = Set.of("narration.vtt", "old-boxes.csv");

    /// Pages of the guide in other languages: language, name of the page, name of its file in the language's folder.
    private static final Map<String, Map<String, String>> TRANSLATED =
            Map.of("fr", Map.of("first-evening", "premiere-soiree"));

    private final Bench bench;
    private final Parser parser =
            Parser.builder().extensions(List.of(TablesExtension.create())).build();
    private final HtmlRenderer html = HtmlRenderer.builder()
            .extensions(List.of(TablesExtension.create()))
            .escapeHtml(true)
            .attributeProviderFactory(context -> GuidePages::room)
            .build();

    public GuidePages(Bench bench) {
        this.bench = bench;
    }

    /// Titles of the pages by their names, in the order of the list beside them.
    static Map<String, String> pages() {
        Map<String, String> pages = new LinkedHashMap<>();
        pages.put("first-evening", t("guide.the-first-evening"));
        pages.put("entry-line", t("guide.the-entry-line"));
        pages.put("narration", t("guide.from-narration-to-log"));
        pages.put("boxes", t("guide.boxes-and-earlier-boxes"));
        pages.put("albums", t("page.albums"));
        pages.put("odds", t("page.odds"));
        pages.put("scope", t("page.scope"));
        pages.put("scale", t("page.scale"));
        pages.put("cabinet", t("page.cabinet"));
        pages.put("recap", t("page.recap"));
        pages.put("till", t("page.till"));
        pages.put("catalogue", t("page.catalogue"));
        pages.put("keeping", t("guide.keeping-it-safe"));
        pages.put("commands", t("page.commands"));
        return pages;
    }

    public void register(RoutesConfig routes) {
        routes.get("/guide", context -> context.redirect("/guide/first-evening", HttpStatus.SEE_OTHER));
        routes.get("/guide/pictures/{file}", context -> file(context, PICTURES, "/guide/pictures/", "image/png"));
        routes.get(
                "/guide/samples/{file}",
                context -> file(context, SAMPLES, "/guide/samples/", "text/plain; charset=utf-8"));
        routes.get(
                "/guide/{page}",
                context -> page(context, context.pathParam("page").replace(".md", "")));
    }

    /// A picture says how large it is before it is there, so that nothing below it moves when it comes.
    private static void room(Node node, String tag, Map<String, String> attributes) {
        String name = attributes.getOrDefault("src", "").replaceFirst("^pictures/", "");
        if (!(node instanceof Image) || !PICTURES.contains(name)) {
            return;
        }
        try (DataInputStream in = new DataInputStream(
                Objects.requireNonNull(GuidePages.class.getResourceAsStream("/guide/pictures/" + name)))) {
            // PNG, third edition (W3C): eight bytes of signature, then the length and the name of the first chunk
            in.skipNBytes(16);
            attributes.put("width", Integer.toString(in.readInt()));
            attributes.put("height", Integer.toString(in.readInt()));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /// One of the files named, and no other.
    private static void file(Context context, Set<String> known, String folder, String type) throws IOException {
        String name = context.pathParam("file");
        if (!known.contains(name)) {
            throw new NotFoundResponse();
        }
        try (InputStream in = GuidePages.class.getResourceAsStream(folder + name)) {
            if (in == null) {
                throw new IllegalStateException("missing from the build: " + folder + name);
            }
            context.contentType(type);
            if (known.equals(SAMPLES)) {
                context.header("Content-Disposition", "attachment; filename=\"" + name + "\"");
            }
            context.result(in.readAllBytes());
        }
    }

    private void page(Context context, String page) {
        Map<String, String> pages = pages();
        String title = pages.get(page);
        if (title == null) {
            throw new NotFoundResponse();
        }
        String spoken = Texts.locale().getLanguage();
        String translated = TRANSLATED.getOrDefault(spoken, Map.of()).get(page);
        // a translation lies one folder deeper than what it links to
        String text = translated == null
                ? text(page)
                : text(spoken + "/" + translated).replace("](../", "](");
        boolean foreign = translated == null && !spoken.equals("en");
        context.html(PAGES.guideGuide(
                        bench.frame(title, "guide"),
                        pages,
                        page,
                        foreign ? "en" : Texts.language(),
                        foreign ? t("guide.only-in-english") : "",
                        html.render(parser.parse(text)))
                .render());
    }

    private static String text(String page) {
        try (InputStream in = GuidePages.class.getResourceAsStream("/guide/" + page + ".md")) {
            if (in == null) {
                throw new IllegalStateException("missing from the build: guide/" + page + ".md");
            }
            return Texts.named(new String(in.readAllBytes(), StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
