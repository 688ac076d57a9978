package org.rollwright.web.cabinet;

import static org.rollwright.text.Texts.t;
import static org.rollwright.web.shell.Render.PAGES;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.javalin.http.NotFoundResponse;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiConsumer;
import org.jspecify.annotations.Nullable;
import org.rollwright.action.Action;
import org.rollwright.action.CabinetActions;
import org.rollwright.action.Fields;
import org.rollwright.cabinet.CabinetEvent;
import org.rollwright.cabinet.CabinetIndex;
import org.rollwright.cabinet.CabinetNote;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.cabinet.PlaceId;
import org.rollwright.cabinet.PricePoint;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;
import org.rollwright.desk.Desk;
import org.rollwright.desk.State;
import org.rollwright.entry.Command;
import org.rollwright.entry.EntryParser;
import org.rollwright.entry.Reading;
import org.rollwright.journal.Event;
import org.rollwright.web.shell.Bench;
import org.rollwright.web.shell.Door;
import org.rollwright.web.shell.Forms;
import org.rollwright.web.shell.Frame;
import org.rollwright.web.shell.Shown;

/// The Cabinet: what is owned, where it lies, what it may be worth.
public final class CabinetPages {
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
        routes.post("/cabinet/add", context -> perform(context, CabinetActions.COIN, "/cabinet"));
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

    private static String parameter(Context context, String name) {
        return Optional.ofNullable(context.queryParam(name)).orElse("").strip();
    }

    private static String field(Context context, String name) {
        return Optional.ofNullable(context.formParam(name)).orElse("").strip();
    }

    /// What is asked for, and how it was understood.
    public record Asked(CabinetIndex.Query query, String understood) {}

    /// A search that understands the entry line's words: what reads as a coin asks for such coins, other words
    /// must occur.
    public static Asked asked(Bench bench, String query, String place, boolean duplicates) {
        @Nullable PlaceId placeId = place.matches("[1-9][0-9]{0,8}") ? new PlaceId(Long.parseLong(place)) : null;
        List<String> words = new ArrayList<>();
        List<String> coinWords = new ArrayList<>();
        @Nullable CoinDescription like = null;
        for (String word : query.split("\\s+")) {
            if (word.isBlank()) {
                continue;
            }
            List<String> tried = new ArrayList<>(coinWords);
            tried.add(word);
            Optional<CoinDescription> read = read(bench, String.join(" ", tried), Denomination.US_CENT);
            if (read.isPresent() && read.get().note().isEmpty()) {
                coinWords = tried;
                like = read.get();
            } else if (coinWords.isEmpty() && isCoinWord(bench, word)) {
                coinWords.add(word);
            } else {
                words.add(word);
            }
        }
        if (like == null) {
            words.addAll(coinWords);
        }
        String understood = like == null
                ? ""
                : t(
                        "cabinet.coins-like",
                        like.identity(),
                        (like.state().isEmpty()
                                ? ""
                                : " " + (like.grade() == null ? like.state() : t("cabinet.or-better", like.state()))));
        return new Asked(new CabinetIndex.Query(like, words, placeId, duplicates), understood);
    }

    /// A denomination or a country may come before the date it belongs to.
    private static boolean isCoinWord(Bench bench, String word) {
        return bench.catalog()
                        .countryByWord(word.toLowerCase(java.util.Locale.ROOT))
                        .isPresent()
                || bench.catalog()
                        .denominationByWord(Country.US, word.toLowerCase(java.util.Locale.ROOT))
                        .isPresent();
    }

    private static Optional<CoinDescription> read(Bench bench, String line, Denomination denomination) {
        Reading reading = EntryParser.parse(line, bench.recorder().context(denomination, List.of()));
        return reading instanceof Reading.Clear clear
                        && clear.commands().size() == 1
                        && clear.commands().getFirst() instanceof Command.Found found
                        && found.draft().count() == 1
                ? Optional.of(found.draft().facts())
                : Optional.empty();
    }

    private void list(Context context, List<String> problems) {
        String query = parameter(context, "q");
        Asked asked = asked(
                bench,
                query,
                parameter(context, "place"),
                parameter(context, "dup").equals("yes"));
        CabinetView.Listing view = bench.desk()
                .read(book -> CabinetView.listing(
                        book,
                        bench.catalog(),
                        shelf.contents(book),
                        query,
                        asked.query(),
                        asked.understood(),
                        problems));
        context.html(PAGES.cabinetCabinet(frame(t("page.cabinet")), view, typed(context))
                .render());
    }

    private static Map<String, String> typed(Context context) {
        Map<String, String> typed = new LinkedHashMap<>();
        context.queryParamMap().forEach((name, values) -> typed.put(name, values.getLast()));
        context.formParamMap().forEach((name, values) -> typed.put(name, values.getLast()));
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
