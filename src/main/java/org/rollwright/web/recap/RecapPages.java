package org.rollwright.web.recap;

import static org.rollwright.text.Texts.t;
import static org.rollwright.web.shell.Render.PAGES;

import gg.jte.models.runtime.JteModel;
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
import org.rollwright.recap.Worth;
import org.rollwright.scope.PhotoSubject;
import org.rollwright.web.boxes.BoxView;
import org.rollwright.web.cabinet.CabinetShelf;
import org.rollwright.web.paper.Paper;
import org.rollwright.web.scope.VarietyViews;
import org.rollwright.web.shell.Bench;
import org.rollwright.web.shell.Choice;

/// Telling how a hunt went: its page, texts and chapters, and the overlay for recording software. Nothing about
/// banks, towns or values is on any of them.
public final class RecapPages {
    /// A photograph of a find, as data in the page.
    public record Picture(String data, String caption) {}

    /// The finds of one roll.
    public record RollLine(String where, String finds) {}

    /// One find of a hunt; without its note, which may tell what a recap does not.
    ///
    /// @param where its box and roll
    /// @param address of its page
    public record FindLine(int ordinal, String where, String words, String address) {}

    /// A file to pass on weighs at most 1.5 MB; so many of its bytes may be pictures, written in base 64.
    private static final int MOST_PICTURES = 900_000;
    private static final int MOST_ROLLS = 1_000;

    private final Bench bench;
    private final CabinetShelf cabinet;

    public RecapPages(Bench bench, CabinetShelf cabinet) {
        this.bench = bench;
        this.cabinet = cabinet;
    }

    private Worth worth(State book) {
        return new Worth(
                bench.catalog(),
                book.cabinet(),
                cabinet.values(book),
                book.scale().metalPrices(),
                book.scope(),
                bench.varieties().book(book.scope()));
    }

    public void register(RoutesConfig routes) {
        routes.get("/recap/series", this::series);
        routes.get("/recap/series/report.html", this::seriesReport);
        routes.get("/recap/{hunt}", this::page);
        routes.get("/recap/{hunt}/report.html", this::report);
        routes.get("/recap/{hunt}/chapters.vtt", this::vtt);
        routes.get("/recap/{hunt}/overlay", context -> overlay(context, PAGES::recapOverlay));
        routes.get("/recap/{hunt}/overlay/now", context -> overlay(context, PAGES::recapOverlaynow));
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
                .read(book -> book.hunt().hunt(id).map(hunt -> Story.of(book.hunt(), hunt, worth(book))))
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
        Afterwards after = after(id);
        context.html(PAGES.recapRecap(
                        bench.frame(t("recap.recap-title", story.title()), "mat"),
                        story,
                        after,
                        id.number(),
                        address(coins(id).toString()),
                        cut.first(),
                        parameter(context, "began", ""),
                        zone(context),
                        cut.length(),
                        cut.problem(),
                        cut.chapters().map(Chapters::text).orElse(""),
                        "first=" + address(cut.first()) + "&length=" + address(cut.length()),
                        cut.chapters().map(Chapters::dropped).orElse(0),
                        story.longText(after, cut.chapters()),
                        finds(id))
                .render());
    }

    /// Every find of a hunt, the last one first.
    private List<FindLine> finds(HuntId id) {
        return bench.desk().read(book -> {
            Worth worth = worth(book);
            List<FindLine> lines = new ArrayList<>();
            book.hunt()
                    .hunt(id)
                    .ifPresent(hunt -> hunt.finds().reversed().stream()
                            .map(book.hunt()::find)
                            .flatMap(Optional::stream)
                            .forEach(find -> lines.add(new FindLine(
                                    find.ordinal(),
                                    book.hunt().whereabouts(find),
                                    worth.words(find, coins(id)),
                                    "/scope/find/" + id.number() + "/" + find.ordinal()))));
            return lines;
        });
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
        String page = bench.desk().read(book -> {
            Denomination coins = chosen(context, book);
            return PAGES.recapSeries(
                            bench.frame(t("recap.recap-of-the-series"), "boxes"),
                            SeriesStory.of(book.hunt(), worth(book), coins),
                            denominations(book).stream()
                                    .map(one -> new Choice(one.toString(), one.toString(), one.equals(coins)))
                                    .toList(),
                            address(coins.toString()))
                    .render();
        });
        context.html(page);
    }

    private void seriesReport(Context context) {
        SeriesStory story = bench.desk().read(book -> SeriesStory.of(book.hunt(), worth(book), chosen(context, book)));
        String title = t("recap.all-boxes-of-coins", story.boxes(), story.coins());
        send(context, "series.html", PAGES.recapReport(title, null, null, story, List.of(), List.of()));
    }

    private void report(Context context) {
        HuntId id = id(context);
        Story story = story(id);
        SeriesStory series = bench.desk().read(book -> SeriesStory.of(book.hunt(), worth(book), coins(id)));
        List<RollLine> rolls = bench.desk().read(book -> rolls(book, id));
        send(
                context,
                "hunt-" + id.number() + ".html",
                PAGES.recapReport(story.title(), story, after(id), series, pictures(id), rolls));
    }

    private static void send(Context context, String name, JteModel report) {
        context.header("Content-Disposition", "attachment; filename=\"" + name + "\"");
        context.html(report.render());
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

    private void overlay(Context context, Overlay template) {
        HuntId id = id(context);
        String theme = parameter(context, "theme", "dark");
        context.html(template.of(
                        story(id),
                        id.number(),
                        List.of(parameter(context, "show", "box,hunt,last,strip")
                                .split(",")),
                        Optional.ofNullable(context.queryString()).orElse(""),
                        theme.matches("dark|light|plain") ? theme : "dark")
                .render());
    }

    /// The whole overlay, or the part of it that is printed anew.
    @FunctionalInterface
    private interface Overlay {
        JteModel of(Story story, long hunt, List<String> show, String query, String theme);
    }

    private void card(Context context) {
        HuntId id = id(context);
        Story story = story(id);
        Card card = Card.of(story, after(id), parameter(context, "size", Card.SIZES.getFirst()));
        context.contentType("image/svg+xml; charset=utf-8");
        context.result(PAGES.recapCard(card, story.shortText()).render());
    }
}
