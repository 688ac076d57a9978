package org.rollwright.web.albums;

import static org.rollwright.text.Texts.t;
import static org.rollwright.web.shell.Render.PAGES;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.javalin.http.NotFoundResponse;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiConsumer;
import org.rollwright.action.Action;
import org.rollwright.action.AlbumActions;
import org.rollwright.action.Fields;
import org.rollwright.album.AlbumEvent;
import org.rollwright.album.AlbumId;
import org.rollwright.album.AlbumShelves;
import org.rollwright.album.AlbumState;
import org.rollwright.album.Comparison;
import org.rollwright.album.Hole;
import org.rollwright.album.HoleList;
import org.rollwright.album.Proposal;
import org.rollwright.desk.Desk;
import org.rollwright.desk.State;
import org.rollwright.journal.Event;
import org.rollwright.web.shell.Bench;
import org.rollwright.web.shell.Door;
import org.rollwright.web.shell.Forms;
import org.rollwright.web.shell.Shown;

/// Albums: the shelf, one album with its holes and wants, and the comparison with the finds.
public final class AlbumPages {
    /// Holes named where a list is said in words.
    private static final int NAMED = 8;

    private final Bench bench;
    private final Door door;
    private final AlbumShelf shelf;

    public AlbumPages(Bench bench, AlbumShelf shelf) {
        this.bench = bench;
        this.door = new Door(bench, shelf.shelves());
        this.shelf = shelf;
    }

    public void register(RoutesConfig routes) {
        routes.get("/albums", context -> albums(context, "", "", List.of()));
        routes.post("/albums", this::define);
        routes.post("/albums/policy", this::policy);
        routes.post("/albums/undo", this::undo);
        routes.get("/albums/compare", context -> compare(context, List.of()));
        routes.post("/albums/compare", this::accept);
        routes.get("/albums/{album}", context -> album(context, List.of()));
        routes.get("/albums/{album}/meant", this::meant);
        routes.post("/albums/{album}", this::change);
    }

    private void albums(Context context, String name, String rule, List<String> problems) {
        if (!problems.isEmpty()) {
            context.status(HttpStatus.UNPROCESSABLE_CONTENT);
        }
        AlbumViews.Shelf view = bench.desk()
                .read(book -> new AlbumViews.Shelf(
                        shelf.shelves().states(book.album(), book.holdings()).stream()
                                .map(state -> AlbumViews.row(
                                        state,
                                        book.album()
                                                .album(state.id())
                                                .orElseThrow()
                                                .rule()))
                                .toList(),
                        bench.catalog().albums(),
                        AlbumShelves.policy(book.album()).text(),
                        name,
                        rule,
                        book.last(),
                        problems));
        context.html(PAGES.albumsAlbums(bench.frame(t("page.albums"), "albums"), view)
                .render());
    }

    private void define(Context context) {
        switch (door.perform(context, AlbumActions.ALBUM)) {
            case Action.Answer.Refused refused ->
                albums(context, Forms.text(context, "name"), Forms.text(context, "rule"), Door.sentences(refused));
            case Action.Answer.Done done ->
                context.redirect(
                        "/albums/"
                                + ((AlbumEvent.AlbumDefined) done.entry().event())
                                        .album()
                                        .number(),
                        HttpStatus.SEE_OTHER);
        }
    }

    private void policy(Context context) {
        Action.Answer answer = door.perform(
                context,
                AlbumActions.POLICY,
                (known, event) -> Shown.check(
                        context,
                        AlbumThing.policy(AlbumShelves.policy(known.album()).text()),
                        AlbumThing.policy(((AlbumEvent.PolicyChanged) event).policy())));
        switch (answer) {
            case Action.Answer.Refused refused -> albums(context, "", "", Door.sentences(refused));
            case Action.Answer.Done done -> context.redirect("/albums", HttpStatus.SEE_OTHER);
        }
    }

    private void undo(Context context) {
        done(context, bench.desk().undo(0, "", Forms.asOf(context)), "/albums");
    }

    private void done(Context context, Desk.Outcome outcome, String next) {
        switch (outcome) {
            case Desk.Outcome.Kept kept -> context.redirect(next, HttpStatus.SEE_OTHER);
            case Desk.Outcome.Refused refused ->
                albums(context, "", "", List.of(refused.refusal().toString()));
        }
    }

    private static AlbumId id(Context context) {
        return new AlbumId(Forms.number(context, "album"));
    }

    private void album(Context context, List<String> problems) {
        AlbumId id = id(context);
        String wished = Optional.ofNullable(context.queryParam("wished")).orElse("");
        AlbumViews.Page view = bench.desk()
                .read(book -> book.album()
                        .album(id)
                        .map(album -> AlbumViews.page(
                                book,
                                bench.catalog(),
                                shelf.shelves().state(album, book.holdings()),
                                album.rule(),
                                wished,
                                shelf.rates(book),
                                bench.clock().instant(),
                                problems)))
                .orElseThrow(NotFoundResponse::new);
        String by = Optional.ofNullable(context.queryParam("by")).orElse("");
        boolean byYear = by.isEmpty() ? view.isByYear() : by.equals("year");
        context.html(PAGES.albumsAlbum(bench.frame(view.name(), "albums"), view, typed(context), byYear)
                .render());
    }

    /// What a list of holes means, in words, before it is sent.
    private void meant(Context context) {
        AlbumId id = id(context);
        String list = Optional.ofNullable(context.queryParam("holes")).orElse("");
        AlbumState state = bench.desk()
                .read(book ->
                        book.album().album(id).map(album -> shelf.shelves().state(album, book.holdings())))
                .orElseThrow(NotFoundResponse::new);
        context.contentType("text/plain; charset=utf-8");
        switch (HoleList.read(state.places().holes(), list)) {
            case HoleList.Read.Bad bad -> context.result(bad.why().toString());
            case HoleList.Read.Good good -> {
                List<String> empty = good.holes().stream()
                        .map(Hole::key)
                        .filter(key -> !state.content().containsKey(key))
                        .toList();
                String named = String.join(", ", empty.subList(0, Math.min(NAMED, empty.size())))
                        + (empty.size() > NAMED ? " …" : "");
                context.result(
                        good.holes().isEmpty()
                                ? ""
                                : empty.isEmpty() ? t("album.meant-none") : t("album.meant", empty.size(), named));
            }
        }
    }

    private static AlbumViews.Typed typed(Context context) {
        boolean out = Forms.text(context, "do").equals("take");
        return new AlbumViews.Typed(
                Forms.text(context, "holes"),
                Forms.text(context, "grade"),
                out ? List.of() : List.copyOf(context.formParams("hole")),
                Forms.text(context, "name"),
                Forms.text(context, "rule"),
                out ? Forms.text(context, "hole") : "");
    }

    private void change(Context context) {
        AlbumId id = id(context);
        switch (Forms.text(context, "do")) {
            case "remove" ->
                change(
                        context,
                        id,
                        AlbumActions.ALBUM_OFF,
                        (known, event) -> Shown.check(context, now(known, id)),
                        "/albums");
            case "owned" -> change(context, id, AlbumActions.OWNED, (known, event) -> {}, "/albums/" + id.number());
            case "take" -> change(context, id, AlbumActions.TAKE_OUT, (known, event) -> {}, "/albums/" + id.number());
            default ->
                change(
                        context,
                        id,
                        AlbumActions.ALBUM,
                        (known, event) -> {
                            AlbumEvent.AlbumDefined told = (AlbumEvent.AlbumDefined) event;
                            Shown.check(
                                    context, now(known, id), AlbumThing.album(id.number(), told.name(), told.rule()));
                        },
                        "/albums/" + id.number());
        }
    }

    private void change(Context context, AlbumId id, Action action, BiConsumer<State, Event> look, String next) {
        Map<String, List<String>> typed = new LinkedHashMap<>(context.formParamMap());
        typed.put("album", List.of(Long.toString(id.number())));
        switch (door.perform(new Fields(typed), action, look)) {
            case Action.Answer.Done done -> context.redirect(next, HttpStatus.SEE_OTHER);
            case Action.Answer.Refused refused -> {
                context.status(HttpStatus.UNPROCESSABLE_CONTENT);
                album(context, Door.sentences(refused));
            }
        }
    }

    private static Shown.Thing now(State book, AlbumId id) {
        return book.album()
                .album(id)
                .map(album -> AlbumThing.album(id.number(), album.name(), album.rule()))
                .orElseGet(() -> AlbumThing.album(id.number(), "", "").absent());
    }

    private Proposal propose(State book) {
        return Comparison.propose(
                shelf.shelves().states(book.album(), book.holdings()),
                book.comparable(),
                AlbumShelves.policy(book.album()));
    }

    private void compare(Context context, List<String> problems) {
        long hunt = number(Optional.ofNullable(context.queryParam("hunt")).orElse("0"));
        AlbumViews.Compare view =
                bench.desk().read(book -> AlbumViews.compare(book, bench.catalog(), propose(book), hunt));
        context.html(PAGES.albumsCompare(bench.frame(t("album.compare-with-the-albums"), "albums"), view, problems)
                .render());
    }

    private static long number(String text) {
        return !text.isEmpty() && text.length() < 10 && text.chars().allMatch(c -> c >= '0' && c <= '9')
                ? Long.parseLong(text)
                : 0;
    }

    /// Accepts some groups. The proposal is made anew from the same state: what the page showed is sent along, and when
    /// it no longer agrees nothing is changed.
    private void accept(Context context) {
        switch (door.perform(context, AlbumActions.ACCEPT)) {
            case Action.Answer.Refused refused -> {
                context.status(HttpStatus.UNPROCESSABLE_CONTENT);
                compare(context, Door.sentences(refused));
            }
            case Action.Answer.Done done -> context.redirect("/albums", HttpStatus.SEE_OTHER);
        }
    }
}
