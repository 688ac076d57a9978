package org.rollwright.web;

import static org.rollwright.text.Texts.t;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.javalin.http.NotFoundResponse;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.rollwright.album.AlbumRule;
import org.rollwright.album.AlbumShelves;
import org.rollwright.album.Comparison;
import org.rollwright.album.Policy;
import org.rollwright.album.Proposal;
import org.rollwright.hunt.AlbumId;
import org.rollwright.hunt.Desk;
import org.rollwright.hunt.Event;
import org.rollwright.hunt.Logbook;

/// Albums: the shelf, one album with its holes and wants, and the comparison with the finds.
final class AlbumPages {
    private final Bench bench;
    private final Render render;
    private final AlbumShelf shelf;

    AlbumPages(Bench bench, Render render, AlbumShelf shelf) {
        this.bench = bench;
        this.render = render;
        this.shelf = shelf;
    }

    void register(RoutesConfig routes) {
        routes.get("/albums", context -> albums(context, "", "", List.of()));
        routes.post("/albums", this::define);
        routes.post("/albums/policy", this::policy);
        routes.post("/albums/undo", this::undo);
        routes.get("/albums/compare", context -> compare(context, List.of()));
        routes.post("/albums/compare", this::accept);
        routes.get("/albums/{album}", context -> album(context, List.of()));
        routes.post("/albums/{album}", this::change);
    }

    private void albums(Context context, String name, String rule, List<String> problems) {
        if (!problems.isEmpty()) {
            context.status(HttpStatus.UNPROCESSABLE_CONTENT);
        }
        AlbumViews.Shelf view = bench.desk()
                .read(book -> new AlbumViews.Shelf(
                        shelf.shelves().states(book).stream()
                                .map(state -> AlbumViews.row(
                                        state,
                                        book.album(state.id()).orElseThrow().rule()))
                                .toList(),
                        bench.catalog().albums(),
                        AlbumShelves.policy(book).text(),
                        name,
                        rule,
                        book.last(),
                        problems));
        render.page(context, "albums", Map.of("frame", bench.frame(t("page.albums"), "albums"), "view", view));
    }

    private void define(Context context) {
        String name = HuntForm.text(context, "name");
        String rule = HuntForm.text(context, "rule");
        Optional<String> wrong = wrong(name, rule);
        if (wrong.isPresent()) {
            albums(context, name, rule, List.of(wrong.get()));
            return;
        }
        Desk.Outcome outcome = bench.desk().record(0, "", book -> new Event.AlbumDefined(book.nextAlbum(), name, rule));
        switch (outcome) {
            case Desk.Outcome.Refused refused ->
                albums(context, name, rule, List.of(refused.refusal().toString()));
            case Desk.Outcome.Kept kept -> {
                long id = kept.entry().event() instanceof Event.AlbumDefined defined
                        ? defined.album().number()
                        : 0;
                context.redirect("/albums/" + id, HttpStatus.SEE_OTHER);
            }
        }
    }

    /// Why name and rule cannot make an album, empty when they can.
    private Optional<String> wrong(String name, String rule) {
        if (name.isEmpty()) {
            return Optional.of(t("album.the-album-has-no-name"));
        }
        return switch (AlbumRule.parse(rule)) {
            case AlbumRule.Parsed.Bad bad -> Optional.of(bad.wrong() + " " + bad.right());
            case AlbumRule.Parsed.Good good ->
                good.rule()
                                .holes(bench.catalog(), org.rollwright.coin.Country.US)
                                .isEmpty()
                        ? Optional.of(t("album.the-rule-makes-no-hole"))
                        : Optional.empty();
        };
    }

    private void policy(Context context) {
        String text = HuntForm.text(context, "policy");
        switch (Policy.parse(text)) {
            case Policy.Parsed.Bad bad ->
                albums(context, "", "", List.of(bad.flaw().toString()));
            case Policy.Parsed.Good good ->
                done(
                        context,
                        bench.desk().record(0, "", book -> {
                            Shown.check(
                                    context,
                                    Things.policy(AlbumShelves.policy(book).text()),
                                    Things.policy(good.policy().text()));
                            return new Event.PolicyChanged(good.policy().text());
                        }),
                        "/albums");
        }
    }

    private void undo(Context context) {
        done(context, bench.desk().undo(0, "", HuntForm.asOf(context)), "/albums");
    }

    private void done(Context context, Desk.Outcome outcome, String next) {
        switch (outcome) {
            case Desk.Outcome.Kept kept -> context.redirect(next, HttpStatus.SEE_OTHER);
            case Desk.Outcome.Refused refused ->
                albums(context, "", "", List.of(refused.refusal().toString()));
        }
    }

    private static AlbumId id(Context context) {
        try {
            long number = Long.parseLong(context.pathParam("album"));
            if (number >= 1) {
                return new AlbumId(number);
            }
        } catch (NumberFormatException e) {
            // no album has such a number; answered below
        }
        throw new NotFoundResponse();
    }

    private void album(Context context, List<String> problems) {
        AlbumId id = id(context);
        String wished = Optional.ofNullable(context.queryParam("wished")).orElse("");
        AlbumViews.Page view = bench.desk()
                .read(book -> book.album(id)
                        .map(album -> AlbumViews.page(
                                book, shelf.shelves().state(book, album), album.rule(), wished, problems)))
                .orElseThrow(NotFoundResponse::new);
        render.page(context, "album", Map.of("frame", bench.frame(view.name(), "albums"), "view", view));
    }

    private void change(Context context) {
        AlbumId id = id(context);
        if ("remove".equals(context.formParam("do"))) {
            done(
                    context,
                    bench.desk().record(0, "", book -> {
                        Shown.check(context, now(book, id));
                        return new Event.AlbumRemoved(id);
                    }),
                    "/albums");
            return;
        }
        if ("take".equals(context.formParam("do"))) {
            String hole = HuntForm.text(context, "hole");
            done(
                    context,
                    bench.desk()
                            .record(
                                    0,
                                    "",
                                    book -> new Event.HolesFilled(List.of(new Event.HoleChange(id, hole, null)))),
                    "/albums/" + id.number());
            return;
        }
        String name = HuntForm.text(context, "name");
        String rule = HuntForm.text(context, "rule");
        Optional<String> wrong = wrong(name, rule);
        if (wrong.isPresent()) {
            context.status(HttpStatus.UNPROCESSABLE_CONTENT);
            album(context, List.of(t("album.nothing-was-changed", wrong.get())));
        } else {
            done(
                    context,
                    bench.desk().record(0, "", book -> {
                        Shown.check(context, now(book, id), Things.album(id.number(), name, rule));
                        return new Event.AlbumDefined(id, name, rule);
                    }),
                    "/albums/" + id.number());
        }
    }

    private static Shown.Thing now(Logbook book, AlbumId id) {
        return book.album(id)
                .map(album -> Things.album(id.number(), album.name(), album.rule()))
                .orElseGet(() -> Things.album(id.number(), "", "").absent());
    }

    private Proposal propose(Logbook book) {
        return Comparison.propose(shelf.shelves().states(book), book.ownedCoins(), AlbumShelves.policy(book));
    }

    private void compare(Context context, List<String> problems) {
        long hunt = number(Optional.ofNullable(context.queryParam("hunt")).orElse("0"));
        AlbumViews.Compare view =
                bench.desk().read(book -> AlbumViews.compare(book, bench.catalog(), propose(book), hunt));
        render.page(
                context,
                "compare",
                Map.of(
                        "frame",
                        bench.frame(t("album.compare-with-the-albums"), "albums"),
                        "view",
                        view,
                        "problems",
                        problems));
    }

    private static long number(String text) {
        return !text.isEmpty() && text.length() < 10 && text.chars().allMatch(c -> c >= '0' && c <= '9')
                ? Long.parseLong(text)
                : 0;
    }

    /// Accepts some groups. The proposal is made anew from the same state: what the page showed is sent along,
    /// and when it no longer agrees nothing is changed.
    private void accept(Context context) {
        Set<Integer> wanted = new TreeSet<>();
        boolean all = "all".equals(context.formParam("do"));
        List<String> shown = context.formParams("shown");
        List<String> chosen = context.formParams("group");
        Desk.Outcome outcome = bench.desk().record(0, "", book -> {
            Proposal proposal = propose(book);
            AlbumViews.Compare now = AlbumViews.compare(book, bench.catalog(), proposal, 0);
            for (AlbumViews.Group group : now.groups()) {
                String text = String.join("\n", group.moves());
                if ((all && shown.contains(text)) || chosen.contains(text)) {
                    wanted.add(group.number());
                }
            }
            return new Event.HolesFilled(proposal.accept(wanted));
        });
        if (outcome instanceof Desk.Outcome.Refused refused) {
            context.status(HttpStatus.UNPROCESSABLE_CONTENT);
            compare(context, List.of(refused.refusal().toString()));
        } else {
            context.redirect("/albums", HttpStatus.SEE_OTHER);
        }
    }
}
