package org.rollwright.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.NotFoundResponse;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.rollwright.hunt.HuntId;
import org.rollwright.recap.Chapters;
import org.rollwright.recap.Story;

/// Telling how a hunt went: its page, texts and chapters, and the overlay for recording software. Nothing about
/// banks, towns or values is on any of them.
final class RecapPages {
    private final Bench bench;
    private final Render render;

    RecapPages(Bench bench, Render render) {
        this.bench = bench;
        this.render = render;
    }

    void register(RoutesConfig routes) {
        routes.get("/recap/{hunt}", this::page);
        routes.get("/recap/{hunt}/chapters.vtt", this::vtt);
        routes.get("/recap/{hunt}/overlay", context -> overlay(context, "overlay"));
        routes.get("/recap/{hunt}/overlay/now", context -> overlay(context, "parts/overlaynow"));
        routes.get("/recap/{hunt}/card.svg", this::card);
    }

    private static HuntId id(Context context) {
        String text = context.pathParam("hunt");
        if (!text.matches("[1-9][0-9]{0,8}")) {
            throw new NotFoundResponse();
        }
        return new HuntId(Long.parseLong(text));
    }

    private Story story(HuntId id) {
        return bench.desk()
                .read(book -> book.hunt(id).map(hunt -> Story.of(book, hunt, bench.catalog())))
                .orElseThrow(NotFoundResponse::new);
    }

    private static String parameter(Context context, String name, String otherwise) {
        String text = Optional.ofNullable(context.queryParam(name)).orElse("").strip();
        return text.isEmpty() ? otherwise : text;
    }

    /// What was typed of the recording, and the chapters it makes.
    record Cut(
            String first,
            String length,
            Optional<Chapters> chapters,
            String problem,
            @Nullable Duration end) {}

    private Cut cut(Context context, HuntId id) {
        String first = parameter(context, "first", "0:00");
        String length = parameter(context, "length", "");
        Optional<Duration> firstAt = Chapters.parse(first);
        @Nullable
        Duration end = length.isEmpty() ? null : Chapters.parse(length).orElse(null);
        if (firstAt.isEmpty() || (!length.isEmpty() && end == null)) {
            return new Cut(first, length, Optional.empty(), "Times are written as 1:35 or 1:02:03.", null);
        }
        Chapters.Result result = bench.desk()
                .read(book -> book.hunt(id).map(hunt -> Chapters.of(book, hunt, bench.catalog(), firstAt.get(), end)))
                .orElseThrow(NotFoundResponse::new);
        return switch (result) {
            case Chapters.Result.Made made -> new Cut(first, length, Optional.of(made.chapters()), "", end);
            case Chapters.Result.Refused refused ->
                new Cut(first, length, Optional.empty(), refused.wrong() + " " + refused.right(), end);
        };
    }

    private void page(Context context) {
        HuntId id = id(context);
        Story story = story(id);
        Cut cut = cut(context, id);
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("frame", new Frame("Recap of " + story.title(), "mat", bench.demo()));
        values.put("story", story);
        values.put("hunt", id.number());
        values.put("first", cut.first());
        values.put("length", cut.length());
        values.put("problem", cut.problem());
        values.put("chapters", cut.chapters().map(Chapters::text).orElse(""));
        values.put("dropped", cut.chapters().map(Chapters::dropped).orElse(0));
        values.put("longText", story.longText(cut.chapters()));
        render.page(context, "recap", values);
    }

    private void vtt(Context context) {
        HuntId id = id(context);
        Cut cut = cut(context, id);
        Chapters chapters = cut.chapters().orElseThrow(NotFoundResponse::new);
        context.contentType("text/vtt; charset=utf-8");
        context.header("Content-Disposition", "attachment; filename=\"chapters.vtt\"");
        context.result(chapters.webVtt(cut.end()));
    }

    private void overlay(Context context, String template) {
        HuntId id = id(context);
        List<String> shown =
                List.of(parameter(context, "show", "box,hunt,last,strip").split(","));
        context.html(render.print(
                template,
                Map.of(
                        "story",
                        story(id),
                        "hunt",
                        id.number(),
                        "show",
                        shown,
                        "query",
                        Optional.ofNullable(context.queryString()).orElse(""),
                        "theme",
                        parameter(context, "theme", "dark").matches("dark|light|plain")
                                ? parameter(context, "theme", "dark")
                                : "dark")));
    }

    private void card(Context context) {
        String size = parameter(context, "size", "1280x720");
        int width = size.equals("1080x1080") || size.equals("1080x1920") ? 1080 : 1280;
        int height = size.equals("1080x1080") ? 1080 : size.equals("1080x1920") ? 1920 : 720;
        context.contentType("image/svg+xml; charset=utf-8");
        context.result(render.print("card", Map.of("story", story(id(context)), "width", width, "height", height)));
    }
}
