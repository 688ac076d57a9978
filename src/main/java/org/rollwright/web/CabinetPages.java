package org.rollwright.web;

import static org.rollwright.text.Texts.t;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.javalin.http.NotFoundResponse;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.rollwright.cabinet.Acquisition;
import org.rollwright.cabinet.CabinetEvent;
import org.rollwright.cabinet.CabinetIndex;
import org.rollwright.cabinet.CabinetNote;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.cabinet.Place;
import org.rollwright.cabinet.PlaceId;
import org.rollwright.cabinet.PricePoint;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Colour;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Limits;
import org.rollwright.desk.Desk;
import org.rollwright.desk.State;
import org.rollwright.entry.Command;
import org.rollwright.entry.EntryParser;
import org.rollwright.entry.Reading;
import org.rollwright.journal.Event;

/// The Cabinet: what is owned, where it lies, what it may be worth.
final class CabinetPages {
    private final Bench bench;
    private final Render render;
    private final CabinetShelf shelf;

    CabinetPages(Bench bench, Render render, CabinetShelf shelf) {
        this.bench = bench;
        this.render = render;
        this.shelf = shelf;
    }

    void register(RoutesConfig routes) {
        routes.get("/cabinet", context -> list(context, List.of()));
        routes.post("/cabinet/move", this::move);
        routes.post("/cabinet/add", this::add);
        routes.post("/cabinet/place", this::place);
        routes.post("/cabinet/place/remove", this::removePlace);
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

    private LocalDate today() {
        return LocalDate.ofInstant(bench.clock().instant(), ZoneId.systemDefault());
    }

    /// What is asked for, and how it was understood.
    record Asked(CabinetIndex.Query query, String understood) {}

    /// A search that understands the entry line's words: what reads as a coin asks for such coins, other words
    /// must occur.
    static Asked asked(Bench bench, String query, String place, boolean duplicates) {
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
        render.page(
                context, "cabinet", Map.of("frame", frame(t("page.cabinet")), "view", view, "typed", typed(context)));
    }

    private static Map<String, String> typed(Context context) {
        Map<String, String> typed = new LinkedHashMap<>();
        context.queryParamMap().forEach((name, values) -> typed.put(name, values.getLast()));
        context.formParamMap().forEach((name, values) -> typed.put(name, values.getLast()));
        return typed;
    }

    private void refuse(Context context, String sentence) {
        context.status(HttpStatus.UNPROCESSABLE_CONTENT);
        list(context, List.of(sentence));
    }

    private void record(Context context, Event event, String back) {
        if (bench.desk().record(0, "", book -> event) instanceof Desk.Outcome.Refused refused) {
            refuse(context, refused.refusal().toString());
        } else {
            context.redirect(back.startsWith("/cabinet") ? back : "/cabinet", HttpStatus.SEE_OTHER);
        }
    }

    private static List<CoinRef> coins(Context context) {
        return context.formParams("coin").stream()
                .map(CoinRef::parse)
                .flatMap(Optional::stream)
                .distinct()
                .toList();
    }

    private void move(Context context) {
        List<CoinRef> coins = coins(context);
        String back = field(context, "back");
        switch (field(context, "do")) {
            case "put" -> {
                String place = field(context, "to");
                if (!place.matches("0|[1-9][0-9]{0,8}")) {
                    refuse(context, t("cabinet.choose-a-place-to-put"));
                    return;
                }
                record(
                        context,
                        new CabinetEvent.CoinsPut(coins, place.equals("0") ? null : new PlaceId(Long.parseLong(place))),
                        back);
            }
            case "left" -> {
                String price = field(context, "price");
                if (!price.isEmpty() && Limits.money(price).isEmpty()) {
                    refuse(context, t("cabinet.price-write-an-amount-such"));
                    return;
                }
                record(
                        context,
                        new CabinetEvent.CoinsLeft(
                                coins,
                                new CabinetNote.Gone(
                                        field(context, "how"),
                                        Limits.money(price).orElse(null),
                                        field(context, "whom"),
                                        today())),
                        back);
            }
            default -> refuse(context, t("cabinet.choose-what-to-do-with"));
        }
    }

    private void add(Context context) {
        String line = field(context, "line");
        Reading reading = EntryParser.parse(line, bench.recorder().context(Denomination.US_CENT, List.of()));
        String problem =
                switch (reading) {
                    case Reading.Problem wrong -> wrong.wrong() + " " + wrong.right();
                    case Reading.Choose choose ->
                        t(
                                "cabinet.write-one-of",
                                choose.question(),
                                String.join(
                                        ", ",
                                        choose.options().stream()
                                                .map(Reading.Option::line)
                                                .toList()));
                    case Reading.Empty empty -> t("cabinet.write-what-the-coin-is");
                    case Reading.Clear clear ->
                        clear.commands().size() == 1 && clear.commands().getFirst() instanceof Command.Found
                                ? ""
                                : t("cabinet.only-a-coin-can-stand");
                };
        String price = field(context, "price");
        if (problem.isEmpty() && !price.isEmpty() && Limits.money(price).isEmpty()) {
            problem = t("cabinet.price-write-an-amount-such");
        }
        Optional<LocalDate> said =
                field(context, "day").isEmpty() ? Optional.of(today()) : Limits.day(field(context, "day"));
        if (said.isEmpty()) {
            problem = t("cabinet.day-write-it-as-2026");
        }
        if (!problem.isEmpty()) {
            refuse(context, problem);
            return;
        }
        Command.Found found =
                (Command.Found) ((Reading.Clear) reading).commands().getFirst();
        Acquisition how = new Acquisition(
                field(context, "how").isEmpty() ? "owned" : field(context, "how"),
                field(context, "from"),
                said.orElseThrow(),
                Limits.money(price).orElse(null));
        String to = field(context, "to");
        @Nullable PlaceId place = to.matches("[1-9][0-9]{0,8}") ? new PlaceId(Long.parseLong(to)) : null;
        Desk.Outcome outcome = bench.desk().record(0, line, book -> {
            List<Event> events = new ArrayList<>();
            int next = book.cabinet().nextAdded().piece();
            for (int i = 0; i < found.draft().count(); i++) {
                events.add(new CabinetEvent.CoinAcquired(
                        new CoinRef(0, next + i), found.draft().facts(), how));
            }
            if (place != null) {
                events.add(new CabinetEvent.CoinsPut(
                        events.stream()
                                .map(event -> ((CabinetEvent.CoinAcquired) event).coin())
                                .toList(),
                        place));
            }
            return new Event.Batch(events);
        });
        if (outcome instanceof Desk.Outcome.Refused refused) {
            refuse(context, refused.refusal().toString());
            return;
        }
        context.redirect("/cabinet", HttpStatus.SEE_OTHER);
    }

    private void place(Context context) {
        String capacity = field(context, "capacity");
        if (!capacity.isEmpty() && !capacity.matches("[0-9]{1,7}")) {
            refuse(context, t("cabinet.capacity-write-a-whole-number"));
            return;
        }
        String parent = field(context, "parent");
        Desk.Outcome outcome = bench.desk()
                .record(
                        0,
                        "",
                        book -> new CabinetEvent.PlaceMade(new Place(
                                book.cabinet().nextPlace(),
                                parent.matches("[1-9][0-9]{0,8}") ? new PlaceId(Long.parseLong(parent)) : null,
                                field(context, "name"),
                                capacity.isEmpty() ? 0 : Integer.parseInt(capacity))));
        if (outcome instanceof Desk.Outcome.Refused refused) {
            refuse(context, refused.refusal().toString());
        } else {
            context.redirect("/cabinet#places", HttpStatus.SEE_OTHER);
        }
    }

    private void removePlace(Context context) {
        String place = field(context, "place");
        if (!place.matches("[1-9][0-9]{0,8}")) {
            refuse(context, t("cabinet.choose-a-place"));
            return;
        }
        record(context, new CabinetEvent.PlaceRemoved(new PlaceId(Long.parseLong(place))), "/cabinet#places");
    }

    private void undo(Context context) {
        if (bench.desk().undo(0, "<", HuntForm.asOf(context)) instanceof Desk.Outcome.Refused refused) {
            refuse(context, refused.refusal().toString());
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
        CabinetView.Coin view = bench.desk()
                .read(book -> {
                    CabinetShelf.Contents state = shelf.contents(book);
                    return state.index()
                            .entry(ref)
                            .map(entry -> CabinetView.coin(book, bench.catalog(), state, entry, typed, problems));
                })
                .orElseThrow(NotFoundResponse::new);
        render.page(context, "coin", Map.of("frame", frame(view.name()), "view", view));
    }

    private void refuseCoin(Context context, String sentence) {
        context.status(HttpStatus.UNPROCESSABLE_CONTENT);
        coin(context, List.of(sentence));
    }

    private CabinetIndex.Entry entry(State book, CoinRef ref) {
        return shelf.contents(book).index().entry(ref).orElseThrow(NotFoundResponse::new);
    }

    private void describe(Context context) {
        CoinRef ref = ref(context);
        Denomination denomination = bench.desk()
                .read(book -> entry(book, ref).description().identity().denomination());
        Optional<CoinDescription> read = read(bench, field(context, "line"), denomination);
        String upTo = field(context, "upTo");
        Optional<Grade> high = Grade.parse(upTo);
        if (read.isEmpty()) {
            refuseCoin(context, t("cabinet.is-no-coin-write-it", field(context, "line")));
            return;
        }
        Grade low = read.get().grade();
        if (!upTo.isEmpty() && (high.isEmpty() || low == null || high.get().compareTo(low) <= 0)) {
            refuseCoin(context, t("cabinet.the-upper-grade-must-be"));
            return;
        }
        Event event = new CabinetEvent.CoinDescribed(ref, read.get(), high.orElse(null));
        Desk.Outcome outcome = bench.desk().record(0, "", book -> {
            CabinetIndex.Entry now = entry(book, ref);
            Shown.check(
                    context, thing(ref, now.description(), now.gradeUpTo()), thing(ref, read.get(), high.orElse(null)));
            return event;
        });
        if (outcome instanceof Desk.Outcome.Refused refused) {
            refuseCoin(context, refused.refusal().toString());
        } else {
            context.redirect("/cabinet/coin/" + ref, HttpStatus.SEE_OTHER);
        }
    }

    private Shown.Thing thing(CoinRef ref, CoinDescription what, @Nullable Grade upTo) {
        return Things.coin(
                ref.toString(), CabinetView.line(what, bench.catalog()), upTo == null ? "" : upTo.toString());
    }

    /// Prices typed into the grid, or pasted as lines of grade, colour and amount.
    private void prices(Context context) {
        CoinRef ref = ref(context);
        Identity issue =
                bench.desk().read(book -> entry(book, ref).description().identity());
        List<PricePoint> known =
                bench.desk().read(book -> book.cabinet().prices().getOrDefault(issue, List.of()));
        List<Event> events = new ArrayList<>();
        List<String> problems = new ArrayList<>();
        context.formParamMap().forEach((name, values) -> {
            if (name.matches("p[0-9]{1,2}(-(BN|RB|RD))?")) {
                String[] parts = name.substring(1).split("-");
                cell(
                        issue,
                        known,
                        new Grade(Integer.parseInt(parts[0])),
                        parts.length > 1 ? Colour.valueOf(parts[1]) : null,
                        values.getLast().strip(),
                        field(context, "note"),
                        events,
                        problems);
            }
        });
        int number = 0;
        for (String line : field(context, "pasted").lines().toList()) {
            number++;
            if (line.isBlank()) {
                continue;
            }
            String[] parts = line.strip().split("[\\s;,\\t]+");
            Optional<Grade> grade = Grade.parse(parts[0]);
            if (grade.isEmpty()
                    && parts[0].matches("[0-9]{1,2}")
                    && Grade.steps().contains(Integer.valueOf(parts[0]))) {
                grade = Optional.of(new Grade(Integer.parseInt(parts[0])));
            }
            boolean coloured = parts.length == 3
                    && parts[1].toUpperCase(java.util.Locale.ROOT).matches("BN|RB|RD");
            if (grade.isEmpty() || parts.length < 2 || parts.length > 3 || (parts.length == 3 && !coloured)) {
                problems.add(t("cabinet.line-is-no-price-write", number, line.strip()));
                continue;
            }
            cell(
                    issue,
                    List.of(),
                    grade.get(),
                    coloured ? Colour.valueOf(parts[1].toUpperCase(java.util.Locale.ROOT)) : null,
                    parts[parts.length - 1],
                    field(context, "note"),
                    events,
                    problems);
        }
        if (problems.isEmpty() && !events.isEmpty()) {
            Desk.Outcome outcome = bench.desk().record(0, "", book -> {
                List<PricePoint> now = book.cabinet().prices().getOrDefault(issue, List.of());
                Shown.check(context, Things.prices(ref.toString(), issue, now), pricesAfter(ref, issue, now, events));
                return new Event.Batch(events);
            });
            if (outcome instanceof Desk.Outcome.Refused refused) {
                problems.add(refused.refusal().toString());
            }
        }
        if (problems.isEmpty()) {
            context.redirect("/cabinet/coin/" + ref + "#prices", HttpStatus.SEE_OTHER);
        } else {
            context.status(HttpStatus.UNPROCESSABLE_CONTENT);
            coin(context, problems);
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
        return Things.prices(ref.toString(), issue, after);
    }

    private void cell(
            Identity issue,
            List<PricePoint> known,
            Grade grade,
            @Nullable Colour colour,
            String text,
            String note,
            List<Event> events,
            List<String> problems) {
        @Nullable
        PricePoint before = known.stream()
                .filter(price -> price.grade().equals(grade) && CabinetView.sameColour(price.colour(), colour))
                .findFirst()
                .orElse(null);
        String label = t("cabinet.the-price-at", grade, colour == null ? "" : " " + colour);
        if (text.isEmpty()) {
            if (before != null) {
                events.add(new CabinetEvent.PriceForgotten(before));
            }
        } else if (Limits.money(text).isEmpty()) {
            problems.add(t("cabinet.is-no-amount-write-one", label, text));
        } else if (new BigDecimal(text).signum() == 0) {
            problems.add(t("cabinet.is-zero-which-values-nothing", label));
        } else if (before == null || before.amount().compareTo(new BigDecimal(text)) != 0) {
            events.add(new CabinetEvent.PriceNoted(
                    new PricePoint(issue, grade, colour, new BigDecimal(text), today(), note)));
        }
    }

    private void submission(Context context) {
        CoinRef ref = ref(context);
        String estimate = field(context, "estimate");
        String outcome = field(context, "outcome");
        String cost = field(context, "cost");
        boolean good = estimate.matches("[0-9]{1,2}(\\.[0-9])?")
                && outcome.matches("([0-9]{1,2}(\\.[0-9])?)?")
                && cost.matches("[0-9]{1,6}(\\.[0-9]{1,2})?")
                && within(estimate)
                && (outcome.isEmpty() || within(outcome));
        if (!good) {
            refuseCoin(context, t("cabinet.write-grades-from-1-to"));
            return;
        }
        CabinetNote.Submission sent = new CabinetNote.Submission(
                Double.parseDouble(estimate),
                outcome.isEmpty() ? 0 : Double.parseDouble(outcome),
                new BigDecimal(cost),
                today());
        Desk.Outcome kept = bench.desk().record(0, "", book -> {
            CabinetNote.Submission now =
                    book.cabinet().note(ref).map(CabinetNote::submission).orElse(null);
            Shown.check(context, Things.submission(ref, now), Things.submission(ref, sent));
            return new CabinetEvent.CoinSubmitted(ref, sent);
        });
        if (kept instanceof Desk.Outcome.Refused refused) {
            refuseCoin(context, refused.refusal().toString());
        } else {
            context.redirect("/cabinet/coin/" + ref + "#grading", HttpStatus.SEE_OTHER);
        }
    }

    private static boolean within(String grade) {
        double value = Double.parseDouble(grade);
        return value >= 1 && value <= 70;
    }
}
