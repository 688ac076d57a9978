package org.rollwright.web.mat;

import static org.rollwright.text.Texts.t;
import static org.rollwright.web.shell.Render.PAGES;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.javalin.http.NotFoundResponse;
import io.javalin.http.sse.SseClient;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.rollwright.action.Action;
import org.rollwright.action.HuntActions;
import org.rollwright.album.AlbumEvent;
import org.rollwright.coin.Denomination;
import org.rollwright.desk.State;
import org.rollwright.entry.EntryContext;
import org.rollwright.entry.EntryParser;
import org.rollwright.entry.Recorder;
import org.rollwright.hunt.HuntId;
import org.rollwright.text.Texts;
import org.rollwright.web.albums.AlbumShelf;
import org.rollwright.web.odds.OddsShelf;
import org.rollwright.web.shell.Bench;
import org.rollwright.web.shell.Door;
import org.rollwright.web.shell.Forms;
import org.rollwright.web.shell.LivePages;
import org.rollwright.web.shell.Manner;
import org.rollwright.web.shell.Shown;
import org.rollwright.web.shell.Usual;

/// The Mat: the list of hunts, starting one, and the live search page.
public final class MatPages {
    private final Bench bench;
    private final Door door;
    private final AlbumShelf shelf;
    private final OddsShelf odds;
    private final LivePages live;
    private @Nullable Board board;

    public MatPages(Bench bench, AlbumShelf shelf, OddsShelf odds, LivePages live) {
        this.odds = odds;
        this.bench = bench;
        this.door = new Door(bench);
        this.shelf = shelf;
        this.live = live;
    }

    public void register(RoutesConfig routes) {
        routes.get("/mat", this::hunts);
        routes.post("/mat", this::start);
        routes.get("/mat/{hunt}", context -> mat(context, Answer.empty()));
        routes.get("/mat/{hunt}/board", this::board);
        routes.get("/mat/{hunt}/preview", this::preview);
        routes.post("/mat/{hunt}/line", this::line);
        routes.post("/mat/{hunt}/change", this::change);
        routes.get("/mat/{hunt}/finish", this::finishing);
        routes.post("/mat/{hunt}/finish", this::finish);
        routes.sse("/mat/{hunt}/live", this::follow);
    }

    private void hunts(Context context) {
        show(context, HuntForm.blank(usual()));
    }

    private void start(Context context) {
        switch (door.perform(context, HuntActions.HUNT)) {
            case Action.Answer.Refused refused -> {
                context.status(HttpStatus.UNPROCESSABLE_CONTENT);
                show(context, HuntForm.from(context).withProblems(Door.sentences(refused)));
            }
            case Action.Answer.Done done ->
                context.redirect("/mat/" + done.entry().scope(), HttpStatus.SEE_OTHER);
        }
    }

    private void show(Context context, HuntForm form) {
        context.html(PAGES.matHunts(
                        bench.frame(t("page.mat"), "mat"),
                        bench.desk().read(book -> HuntsView.of(book, bench.catalog(), form, usual(), bench.today())))
                .render());
    }

    private Usual usual() {
        return Usual.of(bench.settings().read());
    }

    private static long number(Context context) {
        return Forms.number(context, "hunt");
    }

    private MatView view(Context context) {
        long number = number(context);
        return bench.desk()
                .read(book -> MatView.find(book, number, bench.catalog(), bench.varieties(), shelf, odds))
                .orElseThrow(NotFoundResponse::new);
    }

    private void mat(Context context, Answer answer) {
        // read before the view: the page may then show more than it says, never less
        long entry = bench.desk().read(State::last);
        MatView view = view(context);
        context.html(PAGES.matMat(bench.frame(view.name(), "mat"), view, answer, entry, usual())
                .render());
    }

    /// The board as it is now. Every open page of a hunt asks for the same one after each entry, so it is made
    /// once for each state.
    private void board(Context context) {
        long hunt = number(context);
        Board board = board(hunt);
        context.header("X-Entry", Long.toString(board.entry));
        context.html(board.html);
    }

    /// @param entry the last one it shows
    private record Board(long hunt, long entry, Manner manner, String language, String html) {}

    private synchronized Board board(long hunt) {
        Board known = board;
        Manner manner = Manner.now();
        if (known == null
                || known.hunt != hunt
                || known.entry != bench.desk().read(State::last)
                || !known.manner.equals(manner)
                || !known.language.equals(Texts.language())) {
            known = bench.desk()
                    .read(book -> new Board(
                            hunt,
                            book.last(),
                            manner,
                            Texts.language(),
                            PAGES.matBoard(MatView.find(book, hunt, bench.catalog(), bench.varieties(), shelf, odds)
                                            .orElseThrow(NotFoundResponse::new))
                                    .render()));
            board = known;
        }
        return known;
    }

    /// @param warning what is to be said of a find typed now, because no roll is open; blank otherwise
    private record Place(EntryContext context, Denomination denomination, String warning) {}

    private Optional<Place> place(long hunt) {
        return bench.desk()
                .read(book -> book.hunt().hunt(new HuntId(hunt)).map(known -> {
                    EntryContext context = bench.recorder().context(book, known);
                    return new Place(context, context.denomination(), Recorder.withoutRoll(book, known));
                }));
    }

    private Answer answer(long hunt, String line) {
        Place place = place(hunt).orElseThrow(NotFoundResponse::new);
        return Answer.of(
                line, EntryParser.parse(line, place.context()), bench, place.denomination(), place.warning(), shelf);
    }

    private void preview(Context context) {
        long hunt = number(context);
        Answer answer =
                answer(hunt, Optional.ofNullable(context.queryParam("line")).orElse(""));
        context.html(PAGES.matAnswer(answer, hunt).render());
    }

    /// A line from the plain form answers with a page; from the quick keys, with the number of the entry or
    /// with what is wrong. The board is fetched afterwards: that a find is kept is said as soon as it is.
    private void line(Context context) {
        long hunt = number(context);
        List<String> lines = context.formParams("line");
        // A chosen option is sent beside the field's own text, and comes last.
        String line = lines.isEmpty() ? "" : lines.getLast();
        Answer failure = record(context, hunt, line, book -> {}).orElse(null);
        boolean quick = "quick".equals(context.header("X-Bench"));
        if (failure == null) {
            if (quick) {
                context.header("X-Outcome", "recorded");
                context.header("X-Entry", Long.toString(bench.desk().read(State::last)));
                context.status(HttpStatus.NO_CONTENT);
            } else {
                context.redirect("/mat/" + hunt, HttpStatus.SEE_OTHER);
            }
        } else if (quick) {
            context.header("X-Outcome", failure.kind());
            context.html(PAGES.matAnswer(failure, hunt).render());
        } else {
            context.status(HttpStatus.UNPROCESSABLE_CONTENT);
            mat(context, failure);
        }
    }

    /// Records a line; empty when it is durable, otherwise what to show.
    private Optional<Answer> record(Context context, long hunt, String line, Consumer<State> look) {
        if (line.isBlank()) {
            return Optional.of(Answer.empty());
        }
        return switch (bench.recorder().record(new HuntId(hunt), line, Forms.asOf(context), look)) {
            case Recorder.Outcome.Recorded recorded -> Optional.empty();
            case Recorder.Outcome.Refused refused ->
                Optional.of(Answer.problem(
                        line, refused.refusal().wrong(), refused.refusal().right()));
            case Recorder.Outcome.NotClear notClear ->
                Optional.of(Answer.of(
                        line,
                        notClear.reading(),
                        bench,
                        place(hunt).orElseThrow(NotFoundResponse::new).denomination(),
                        "",
                        shelf));
        };
    }

    /// A find changed in its row: every change is an entry line, so that pages and scripts do the same.
    private void change(Context context) {
        long hunt = number(context);
        String find = "f" + Optional.ofNullable(context.formParam("find")).orElse("");
        String what = Optional.ofNullable(context.formParam("what")).orElse("");
        String line =
                switch (Optional.ofNullable(context.formParam("do")).orElse("save")) {
                    case "drop" -> "drop " + find;
                    case "split" -> "split " + find + " 1";
                    default -> saved(context, hunt, find, what);
                };
        Consumer<State> look = book -> book.hunt().hunt(new HuntId(hunt)).ifPresent(known -> {
            Shown.Thing now = FindThing.find(book, known, ordinal(find), bench.catalog());
            if (line.startsWith("drop") || line.startsWith("split")) {
                Shown.check(context, now);
            } else {
                Shown.check(context, now, FindThing.find(now, context));
            }
        });
        Answer failure =
                line.isEmpty() ? null : record(context, hunt, line, look).orElse(null);
        if (failure == null) {
            context.redirect("/mat/" + hunt, HttpStatus.SEE_OTHER);
        } else {
            context.status(HttpStatus.UNPROCESSABLE_CONTENT);
            mat(context, failure);
        }
    }

    private static int ordinal(String find) {
        return find.matches("f[0-9]{1,9}") ? Integer.parseInt(find.substring(1)) : 0;
    }

    private String saved(Context context, long hunt, String find, String what) {
        List<String> parts = new ArrayList<>();
        Optional<MatView.FindRow> row = bench.desk()
                .read(book -> MatView.find(book, hunt, bench.catalog(), bench.varieties(), shelf, odds))
                .flatMap(view -> view.finds().stream()
                        .filter(known -> ("f" + known.ordinal()).equals(find))
                        .findFirst());
        if (row.isEmpty() || !row.get().line().equals(what)) {
            parts.add("fix " + find + " " + what);
        }
        String roll = context.formParam("roll");
        String box = context.formParam("box");
        boolean moved = row.isPresent()
                && ((roll != null && !roll.equals(Integer.toString(row.get().roll())))
                        || (box != null
                                && !box.equals(Integer.toString(row.get().box()))));
        if (moved) {
            parts.add("move " + find + (box == null ? "" : " b" + box) + " r" + (roll == null ? "0" : roll));
        }
        return String.join(", ", parts);
    }

    private void finishing(Context context) {
        MatView view = view(context);
        FinishView finish = bench.desk().read(book -> FinishView.of(book, view.hunt(), bench.catalog()));
        context.html(PAGES.matFinish(bench.frame(t("page.finish", view.name()), "mat"), finish)
                .render());
    }

    private void finish(Context context) {
        long hunt = number(context);
        Answer failure = record(context, hunt, "finish", book -> {}).orElse(null);
        if (failure == null) {
            context.redirect("/albums/compare?hunt=" + hunt, HttpStatus.SEE_OTHER);
        } else {
            context.status(HttpStatus.UNPROCESSABLE_CONTENT);
            mat(context, failure);
        }
    }

    /// Tells an open page that something happened in its hunt; the page then fetches the board.
    private void follow(SseClient client) {
        long hunt = number(client.ctx());
        client.keepAlive();

        Runnable end = bench.desk().listen(entry -> {
            if (entry.scope() == hunt || entry.event() instanceof AlbumEvent.HolesFilled) {
                live.tell(client, Long.toString(entry.seq()));
            }
        });
        live.add(client, end);
        // only now: a page fetches its state when it hears this, and nothing may fall between the two
        client.sendComment("open");
        // and what was recorded between the printing of the page and this, or while its connection was lost
        live.tell(client, Long.toString(bench.desk().read(State::last)));
    }
}
