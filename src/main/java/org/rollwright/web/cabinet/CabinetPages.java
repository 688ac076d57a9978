package org.rollwright.web.cabinet;

import static org.rollwright.text.Texts.t;
import static org.rollwright.web.shell.Render.PAGES;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.javalin.http.NotFoundResponse;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiConsumer;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.rollwright.action.Action;
import org.rollwright.action.CabinetActions;
import org.rollwright.action.Fields;
import org.rollwright.cabinet.CabinetEvent;
import org.rollwright.cabinet.CabinetIndex;
import org.rollwright.cabinet.CabinetNote;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.cabinet.PricePoint;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;
import org.rollwright.desk.Desk;
import org.rollwright.desk.State;
import org.rollwright.journal.Event;
import org.rollwright.web.shell.Bench;
import org.rollwright.web.shell.Door;
import org.rollwright.web.shell.Forms;
import org.rollwright.web.shell.Frame;
import org.rollwright.web.shell.Shown;

/// The Cabinet: what is owned, where it lies, what it may be worth.
public final class CabinetPages {
    private static final String LEFT_OVER = "lines left over";

    private final Bench bench;
    private final Door door;
    private final CabinetShelf shelf;

    public CabinetPages(Bench bench, CabinetShelf shelf) {
        this.bench = bench;
        this.door = new Door(bench);
        this.shelf = shelf;
    }

    public void register(RoutesConfig routes) {
        routes.get("/cabinet", context -> list(context, List.of()));
        routes.post("/cabinet/move", this::move);
        routes.post("/cabinet/add", this::add);
        routes.post("/cabinet/place", context -> perform(context, CabinetActions.PLACE, "/cabinet#places"));
        routes.post("/cabinet/place/remove", context -> perform(context, CabinetActions.PLACE_OFF, "/cabinet#places"));
        routes.post("/cabinet/undo", this::undo);
        routes.get("/cabinet/coin/{ref}", context -> coin(context, List.of()));
        routes.post("/cabinet/coin/{ref}", this::describe);
        routes.post("/cabinet/coin/{ref}/prices", this::prices);
        routes.post("/cabinet/coin/{ref}/submission", this::submission);
    }

    private Frame frame(String title) {
        return bench.frame(title, "cabinet");
    }

    private static String field(Context context, String name) {
        return Optional.ofNullable(context.formParam(name)).orElse("").strip();
    }

    private void list(Context context, List<String> problems) {
        Search search = Search.of(context);
        int page = Optional.ofNullable(context.queryParam("page"))
                .filter(text -> text.matches("[1-9][0-9]{0,5}"))
                .map(Integer::valueOf)
                .orElse(1);
        CabinetView.Listing view = bench.desk()
                .read(book -> CabinetView.listing(book, bench, shelf.contents(book), search, page, problems));
        context.html(PAGES.cabinetCabinet(frame(t("page.cabinet")), view, typed(context))
                .render());
    }

    private static Map<String, String> typed(Context context) {
        Map<String, String> typed = new LinkedHashMap<>();
        context.queryParamMap().forEach((name, values) -> typed.put(name, values.getLast()));
        context.formParamMap().forEach((name, values) -> typed.put(name, values.getLast()));
        @Nullable String left = context.attribute(LEFT_OVER);
        if (left != null) {
            typed.put("line", left);
        }
        return typed;
    }

    private void refuse(Context context, List<String> sentences) {
        context.status(HttpStatus.UNPROCESSABLE_CONTENT);
        list(context, sentences);
    }

    private void perform(Context context, Action action, String back) {
        switch (door.perform(context, action)) {
            case Action.Answer.Refused refused -> refuse(context, Door.sentences(refused));
            case Action.Answer.Done done ->
                context.redirect(back.startsWith("/cabinet") ? back : "/cabinet", HttpStatus.SEE_OTHER);
        }
    }

    /// Adds the coins of several lines. A line that cannot be taken refuses itself only: it stays in the form, with the
    /// reason, and what was said of all of them stays chosen for the next ones.
    private void add(Context context) {
        List<String> lines =
                field(context, "line").lines().filter(line -> !line.isBlank()).toList();
        List<String> wrong = new ArrayList<>();
        List<String> refused = new ArrayList<>();
        for (int n = 0; n < Math.max(1, lines.size()); n++) {
            String line = lines.isEmpty() ? "" : lines.get(n).strip();
            Map<String, List<String>> fields = new LinkedHashMap<>(context.formParamMap());
            fields.put("line", List.of(line));
            if (door.perform(new Fields(fields), CabinetActions.COIN, (known, event) -> {})
                    instanceof Action.Answer.Refused no) {
                wrong.add(line);
                for (String sentence : Door.sentences(no)) {
                    refused.add(lines.size() > 1 ? t("cabinet.line-refused", n + 1, line, sentence) : sentence);
                }
            }
        }
        if (wrong.isEmpty()) {
            String kept = Stream.of("how", "from", "day", "to")
                    .map(name -> name + "=" + URLEncoder.encode(field(context, name), StandardCharsets.UTF_8))
                    .collect(Collectors.joining("&"));
            // without a fragment: a browser puts the focus where a page wants it only when its address has none
            context.redirect("/cabinet?added=" + lines.size() + "&" + kept, HttpStatus.SEE_OTHER);
            return;
        }
        if (lines.size() > wrong.size()) {
            refused.addFirst(t("cabinet.lines-taken", lines.size() - wrong.size()));
        }
        context.attribute(LEFT_OVER, String.join("\n", wrong));
        refuse(context, refused);
    }

    private void move(Context context) {
        String back = field(context, "back");
        switch (field(context, "do")) {
            case "put" -> perform(context, CabinetActions.PUT, back);
            case "left" -> perform(context, CabinetActions.LEFT, back);
            default -> refuse(context, List.of(t("cabinet.action-missing")));
        }
    }

    private void undo(Context context) {
        if (bench.desk().undo(0, "<", Forms.asOf(context)) instanceof Desk.Outcome.Refused refused) {
            refuse(context, List.of(refused.refusal().toString()));
        } else {
            String back = field(context, "back");
            context.redirect(back.startsWith("/cabinet") ? back : "/cabinet", HttpStatus.SEE_OTHER);
        }
    }

    private static CoinRef ref(Context context) {
        return CoinRef.parse(context.pathParam("ref")).orElseThrow(NotFoundResponse::new);
    }

    private void coin(Context context, List<String> problems) {
        CoinRef ref = ref(context);
        Map<String, String> typed = typed(context);
        CoinView.Coin view = bench.desk()
                .read(book -> {
                    CabinetShelf.Contents state = shelf.contents(book);
                    return state.index()
                            .entry(ref)
                            .map(entry -> CoinView.coin(book, bench.catalog(), state, entry, typed, problems));
                })
                .orElseThrow(NotFoundResponse::new);
        context.html(PAGES.cabinetCoin(frame(view.name()), view).render());
    }

    private CabinetIndex.Entry entry(State book, CoinRef ref) {
        return shelf.contents(book).index().entry(ref).orElseThrow(NotFoundResponse::new);
    }

    private void describe(Context context) {
        CoinRef ref = ref(context);
        perform(context, ref, CabinetActions.COIN_TOLD, (known, event) -> {
            CabinetEvent.CoinDescribed told = (CabinetEvent.CoinDescribed) event;
            CabinetIndex.Entry now = entry(known, ref);
            Shown.check(
                    context,
                    thing(ref, now.description(), now.gradeUpTo()),
                    thing(ref, told.facts(), told.gradeUpTo()));
        });
    }

    /// Does something with the coin of a page.
    private void perform(Context context, CoinRef ref, Action action, BiConsumer<State, Event> look) {
        Map<String, List<String>> typed = new LinkedHashMap<>(context.formParamMap());
        typed.put("coin", List.of(ref.toString()));
        switch (door.perform(new Fields(typed), action, look)) {
            case Action.Answer.Refused refused -> {
                context.status(HttpStatus.UNPROCESSABLE_CONTENT);
                coin(context, Door.sentences(refused));
            }
            case Action.Answer.Done done -> context.redirect("/cabinet/coin/" + ref, HttpStatus.SEE_OTHER);
        }
    }

    private Shown.Thing thing(CoinRef ref, CoinDescription what, @Nullable Grade upTo) {
        return CoinThing.coin(
                ref.toString(), CoinView.line(what, bench.catalog()), upTo == null ? "" : upTo.toString());
    }

    private void prices(Context context) {
        CoinRef ref = ref(context);
        Identity issue =
                bench.desk().read(book -> entry(book, ref).description().identity());
        List<String> lines = new ArrayList<>(field(context, "pasted").lines().toList());
        context.formParamMap().forEach((name, values) -> {
            if (name.matches("p[0-9]{1,2}(-(BN|RB|RD))?")) {
                lines.add(name.substring(1).replace('-', ' ') + " " + values.getLast());
            }
        });
        Action.Answer answer = door.perform(
                new Fields(Map.of(
                        "coin", List.of(ref.toString()), "price", lines, "note", List.of(field(context, "note")))),
                CabinetActions.PRICES,
                (known, event) -> {
                    List<PricePoint> now = known.cabinet().prices().getOrDefault(issue, List.of());
                    Shown.check(
                            context,
                            CoinThing.prices(ref.toString(), issue, now),
                            pricesAfter(ref, issue, now, Event.parts(event)));
                });
        switch (answer) {
            case Action.Answer.Done done -> context.redirect("/cabinet/coin/" + ref + "#prices", HttpStatus.SEE_OTHER);
            case Action.Answer.Refused refused -> {
                context.status(HttpStatus.UNPROCESSABLE_CONTENT);
                coin(context, Door.sentences(refused));
            }
        }
    }

    private static Shown.Thing pricesAfter(CoinRef ref, Identity issue, List<PricePoint> now, List<Event> events) {
        List<PricePoint> after = new ArrayList<>(now);
        for (Event event : events) {
            PricePoint price = event instanceof CabinetEvent.PriceNoted noted
                    ? noted.price()
                    : ((CabinetEvent.PriceForgotten) event).price();
            after.removeIf(price::sameCell);
            if (event instanceof CabinetEvent.PriceNoted) {
                after.add(price);
            }
        }
        return CoinThing.prices(ref.toString(), issue, after);
    }

    private void submission(Context context) {
        CoinRef ref = ref(context);
        perform(context, ref, CabinetActions.GRADED, (known, event) -> {
            CabinetNote.Submission now =
                    known.cabinet().note(ref).map(CabinetNote::submission).orElse(null);
            Shown.check(
                    context,
                    CoinThing.submission(ref, now),
                    CoinThing.submission(ref, ((CabinetEvent.CoinSubmitted) event).submission()));
        });
    }
}
