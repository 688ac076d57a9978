package org.rollwright.web;

import static org.rollwright.text.Texts.t;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.NotFoundResponse;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Denomination;
import org.rollwright.desk.State;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.HuntId;
import org.rollwright.recap.Afterwards;
import org.rollwright.recap.Card;
import org.rollwright.recap.Chapters;
import org.rollwright.recap.SeriesStory;
import org.rollwright.recap.Story;
import org.rollwright.scope.PhotoSubject;

/// Telling how a hunt went: its page, texts and chapters, and the overlay for recording software. Nothing about
/// banks, towns or values is on any of them.
public final class RecapPages {
    /// A photograph of a find, as data in the page.
    public record Picture(String data, String caption) {}

    /// The finds of one roll.
    public record RollLine(String where, String finds) {}

    /// A file to pass on weighs at most 1.5 MB; so many of its bytes may be pictures, written in base 64.
    private static final int MOST_PICTURES = 900_000;
    private static final int MOST_ROLLS = 1_000;

    private final Bench bench;
    private final Render render;

    RecapPages(Bench bench, Render render) {
        this.bench = bench;
        this.render = render;
    }

    void register(RoutesConfig routes) {
        routes.get("/recap/series", this::series);
        routes.get("/recap/series/report.html", this::seriesReport);
        routes.get("/recap/{hunt}", this::page);
        routes.get("/recap/{hunt}/report.html", this::report);
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
                .read(book -> book.hunt().hunt(id).map(hunt -> Story.of(book.hunt(), hunt, bench.catalog())))
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
        String began = parameter(context, "began", "");
        Optional<Duration> firstAt = Chapters.parse(first);
        @Nullable
        Duration end = length.isEmpty() ? null : Chapters.parse(length).orElse(null);
        if (firstAt.isEmpty() || (!length.isEmpty() && end == null)) {
            return new Cut(first, length, Optional.empty(), t("recap.time-form"), null);
        }
        return bench.desk()
                .read(book -> book.hunt().hunt(id).map(hunt -> {
                    Duration at = firstAt.get();
                    Optional<Instant> moment = Chapters.firstMoment(book.hunt(), hunt, bench.catalog());
                    if (!began.isEmpty() && moment.isPresent()) {
                        switch (Chapters.began(began, zone(context), moment.get())) {
                            case Chapters.Began.At start -> at = Duration.between(start.at(), moment.get());
                            case Chapters.Began.Refused refused -> {
                                return new Cut(
                                        first,
                                        length,
                                        Optional.empty(),
                                        refused.flaw().toString(),
                                        end);
                            }
                        }
                    }
                    return switch (Chapters.of(book.hunt(), hunt, bench.catalog(), at, end)) {
                        case Chapters.Result.Made made ->
                            new Cut(
                                    began.isEmpty() ? first : Chapters.time(at),
                                    length,
                                    Optional.of(made.chapters()),
                                    "",
                                    end);
                        case Chapters.Result.Refused refused ->
                            new Cut(
                                    first,
                                    length,
                                    Optional.empty(),
                                    refused.flaw().toString(),
                                    end);
                    };
                }))
                .orElseThrow(NotFoundResponse::new);
    }

    private static String zone(Context context) {
        return parameter(context, "zone", ZoneId.systemDefault().getId());
    }

    private Afterwards after(HuntId id) {
        return bench.desk()
                .read(book -> book.hunt()
                        .hunt(id)
                        .map(hunt -> Afterwards.of(book.album(), book.holdings(), hunt, bench.catalog())))
                .orElseThrow(NotFoundResponse::new);
    }

    private Denomination coins(HuntId id) {
        return bench.desk()
                .read(book -> book.hunt()
                        .hunt(id)
                        .flatMap(hunt -> hunt.boxes().stream()
                                .findFirst()
                                .flatMap(book.hunt()::box)
                                .map(Box::denomination)))
                .orElse(Denomination.US_CENT);
    }

    private void page(Context context) {
        HuntId id = id(context);
        Story story = story(id);
        Cut cut = cut(context, id);
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("frame", bench.frame(t("recap.recap-title", story.title()), "mat"));
        values.put("story", story);
        Afterwards after = after(id);
        values.put("after", after);
        values.put("hunt", id.number());
        values.put("coins", address(coins(id).toString()));
        values.put("began", parameter(context, "began", ""));
        values.put("zone", zone(context));
        values.put("query", "first=" + address(cut.first()) + "&length=" + address(cut.length()));
        values.put("first", cut.first());
        values.put("length", cut.length());
        values.put("problem", cut.problem());
        values.put("chapters", cut.chapters().map(Chapters::text).orElse(""));
        values.put("dropped", cut.chapters().map(Chapters::dropped).orElse(0));
        values.put("longText", story.longText(after, cut.chapters()));
        render.page(context, "recap", values);
    }

    private static String address(String text) {
        return URLEncoder.encode(text, StandardCharsets.UTF_8);
    }

    private Denomination chosen(Context context, State book) {
        String wanted = parameter(context, "denomination", "");
        List<Denomination> all = denominations(book);
        return all.stream()
                .filter(one -> one.toString().equals(wanted))
                .findFirst()
                .orElse(all.getFirst());
    }

    private static List<Denomination> denominations(State book) {
        List<Denomination> all = book.hunt().boxes().stream()
                .filter(Box::touched)
                .map(Box::denomination)
                .distinct()
                .toList();
        return all.isEmpty() ? List.of(Denomination.US_CENT) : all;
    }

    private void series(Context context) {
        Map<String, Object> values = bench.desk().read(book -> {
            Denomination coins = chosen(context, book);
            return Map.of(
                    "frame",
                    bench.frame(t("recap.recap-of-the-series"), "boxes"),
                    "story",
                    SeriesStory.of(book.hunt(), bench.catalog(), coins),
                    "denominations",
                    denominations(book).stream()
                            .map(one -> new OddsView.Choice(one.toString(), one.toString(), one.equals(coins)))
                            .toList(),
                    "coins",
                    address(coins.toString()));
        });
        render.page(context, "series", values);
    }

    private void seriesReport(Context context) {
        SeriesStory story =
                bench.desk().read(book -> SeriesStory.of(book.hunt(), bench.catalog(), chosen(context, book)));
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("title", t("recap.all-boxes-of-coins", story.boxes(), story.coins()));
        values.put("story", null);
        values.put("after", null);
        values.put("series", story);
        values.put("pictures", List.of());
        values.put("rolls", List.of());
        send(context, "series.html", values);
    }

    private void report(Context context) {
        HuntId id = id(context);
        Story story = story(id);
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("title", story.title());
        values.put("story", story);
        values.put("after", after(id));
        values.put("series", bench.desk().read(book -> SeriesStory.of(book.hunt(), bench.catalog(), coins(id))));
        values.put("pictures", pictures(id));
        values.put("rolls", bench.desk().read(book -> rolls(book, id)));
        send(context, "hunt-" + id.number() + ".html", values);
    }

    private void send(Context context, String name, Map<String, Object> values) {
        context.header("Content-Disposition", "attachment; filename=\"" + name + "\"");
        context.html(render.print("report", values));
    }

    /// Photographs of finds, without what a camera wrote into them: that was taken out when they came in.
    private List<Picture> pictures(HuntId id) {
        Map<String, String> captions = bench.desk().read(book -> {
            Map<String, String> found = new LinkedHashMap<>();
            book.hunt()
                    .hunt(id)
                    .ifPresent(hunt -> hunt.finds()
                            .forEach(find -> book.scope()
                                    .photos(PhotoSubject.find(find))
                                    .forEach(note -> found.putIfAbsent(
                                            note.photo(), VarietyViews.about(book, bench.catalog(), note.about())))));
            return found;
        });
        List<Picture> pictures = new ArrayList<>();
        int weight = 0;
        for (Map.Entry<String, String> entry : captions.entrySet()) {
            String data = bench.photos()
                    .thumbnail(entry.getKey())
                    .map(bytes -> Paper.data("image/jpeg", bytes))
                    .orElse("");
            if (!data.isEmpty() && weight + data.length() <= MOST_PICTURES) {
                weight += data.length();
                pictures.add(new Picture(data, entry.getValue()));
            }
        }
        return pictures;
    }

    private List<RollLine> rolls(State book, HuntId id) {
        List<RollLine> lines = new ArrayList<>();
        book.hunt()
                .hunt(id)
                .ifPresent(hunt -> hunt.boxes().stream()
                        .map(book.hunt()::box)
                        .flatMap(Optional::stream)
                        .forEach(box -> BoxView.of(book, box, bench.catalog(), List.of())
                                .byRoll()
                                .forEach(roll -> lines.add(new RollLine(
                                        box.details().label() + ", " + roll.roll(),
                                        String.join(" · ", roll.finds()))))));
        return lines.size() > MOST_ROLLS ? lines.subList(0, MOST_ROLLS) : lines;
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
        HuntId id = id(context);
        Story story = story(id);
        Card card = Card.of(story, after(id), parameter(context, "size", Card.SIZES.getFirst()));
        context.contentType("image/svg+xml; charset=utf-8");
        context.result(render.print("card", Map.of("card", card, "said", story.shortText())));
    }
}
