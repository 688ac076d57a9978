package org.rollwright.web.guide;

import static org.rollwright.text.Texts.t;
import static org.rollwright.web.shell.Render.PAGES;

import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.javalin.router.JavalinDefaultRoutingApi;
import java.io.IOException;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.joda.money.CurrencyUnit;
import org.rollwright.catalog.WatchName;
import org.rollwright.coin.Limits;
import org.rollwright.text.Texts;
import org.rollwright.web.guard.Guesses;
import org.rollwright.web.shell.Bench;
import org.rollwright.web.shell.Choice;
import org.rollwright.web.shell.Manner;
import org.rollwright.web.shell.Shown;
import org.rollwright.web.shell.Shown.Field;
import org.rollwright.web.shell.Shown.Thing;
import org.rollwright.web.shell.Usual;

/// Which language the pages speak, how they write days, money, weights and roads, and what a hunt begins with: the
/// one page of settings.
public final class SettingsPages {
    /// Long enough for the answer and its style sheet.
    private static final Duration A_MOMENT = Duration.ofMillis(700);

    private static final LocalDate SAMPLE_DAY = LocalDate.of(2026, 3, 1);

    private final Bench bench;
    private final Guesses guesses;

    /// @param guesses wrong words from the network, which the page tells of
    public SettingsPages(Bench bench, Guesses guesses) {
        this.guesses = guesses;
        this.bench = bench;
    }

    public void register(JavalinDefaultRoutingApi routes) {
        routes.get("/settings", context -> show(context, List.of()));
        routes.post("/settings", this::choose);
        routes.post("/settings/usual", this::chooseUsual);
        routes.post("/settings/stop", this::stop);
    }

    private void choose(Context context) {
        Map<String, String> chosen = new LinkedHashMap<>();
        Optional<Manner.Region> region = Manner.region(field(context, Manner.REGION));
        Optional<Manner.Weights> weights = Manner.one(Manner.Weights.values(), field(context, Manner.WEIGHTS));
        Optional<Manner.Roads> roads = Manner.one(Manner.Roads.values(), field(context, Manner.ROADS));
        if (region.isEmpty() || weights.isEmpty() || roads.isEmpty()) {
            context.status(HttpStatus.UNPROCESSABLE_CONTENT);
            show(context, List.of(t("settings.choose-listed")));
            return;
        }
        Optional<String> language = Optional.ofNullable(context.formParam(Manner.LANGUAGE));
        if (language.isPresent()
                && languages().stream().noneMatch(one -> one.value().equals(language.get()))) {
            context.status(HttpStatus.UNPROCESSABLE_CONTENT);
            show(context, List.of(t("settings.choose-listed")));
            return;
        }
        language.ifPresent(tag -> chosen.put(Manner.LANGUAGE, tag));
        chosen.put(Manner.REGION, region.get().code());
        chosen.put(Manner.WEIGHTS, weights.get().name().toLowerCase(Locale.ROOT));
        chosen.put(Manner.ROADS, roads.get().name().toLowerCase(Locale.ROOT));
        Shown.Thing mine = settings(Manner.of(chosen), language.orElse(Texts.language()));
        try {
            synchronized (this) {
                Shown.check(context, settings(Manner.now(), Texts.language()), mine);
                bench.settings().choose(chosen);
                Manner.useAll(bench.settings().read());
            }
        } catch (IOException e) {
            context.status(HttpStatus.SERVICE_UNAVAILABLE);
            show(context, List.of(t("settings.folder-not-writable")));
            return;
        }
        context.redirect("/settings", HttpStatus.SEE_OTHER);
    }

    private void chooseUsual(Context context) {
        String coins = field(context, "denomination");
        Optional<Usual.Digits> digits = Manner.one(Usual.Digits.values(), field(context, "digits"));
        List<String> watches = context.formParams("watch");
        String bank = field(context, "bank");
        String branch = field(context, "branch");
        boolean listed = digits.isPresent()
                && bench.catalog().denominations().stream()
                        .anyMatch(facts -> facts.denomination().toString().equals(coins))
                && bench.catalog().watches().stream()
                        .map(WatchName::name)
                        .collect(Collectors.toSet())
                        .containsAll(watches);
        if (!listed || bank.length() > Limits.NAME || branch.length() > Limits.NAME) {
            context.status(HttpStatus.UNPROCESSABLE_CONTENT);
            show(context, List.of(listed ? t("settings.bank-too-long", Limits.NAME) : t("settings.choose-listed")));
            return;
        }
        Usual mine = new Usual(
                coins,
                bank,
                branch,
                watches,
                digits.get(),
                field(context, "sounds").equals("on"));
        try {
            synchronized (this) {
                Shown.check(context, usual(Usual.of(bench.settings().read())), usual(mine));
                bench.settings().choose(mine.written());
            }
        } catch (IOException e) {
            context.status(HttpStatus.SERVICE_UNAVAILABLE);
            show(context, List.of(t("settings.folder-not-writable")));
            return;
        }
        context.redirect("/settings", HttpStatus.SEE_OTHER);
    }

    /// Ends the tool a moment after the answer is on its way. Only at the computer itself: a phone could not
    /// start it again.
    private void stop(Context context) {
        if (fromPhone(context)) {
            context.status(HttpStatus.FORBIDDEN);
            show(context, List.of(t("settings.stop-only-here")));
            return;
        }
        context.html(PAGES.shellStopped().render());
        Thread.startVirtualThread(() -> {
            try {
                Thread.sleep(A_MOMENT);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
            bench.stop().run();
        });
    }

    /// Phones come in encrypted, the computer's own browser does not.
    private static boolean fromPhone(Context context) {
        return context.req().isSecure();
    }

    private static String field(Context context, String name) {
        return Optional.ofNullable(context.formParam(name)).orElse("").strip();
    }

    /// The languages there are, each by its own name; one that stands in the file of settings besides, too.
    private static List<Choice> languages() {
        Locale now = Texts.locale();
        return Stream.concat(Texts.OFFERED.stream(), Stream.of(now))
                .distinct()
                .map(one -> new Choice(one.toLanguageTag(), one.getDisplayName(one), one.equals(now)))
                .toList();
    }

    private void show(Context context, List<String> problems) {
        Manner now = Manner.now();
        context.html(PAGES.guideSettings(
                        bench.frame(t("page.settings"), "guide"),
                        problems,
                        languages(),
                        Arrays.stream(Manner.Region.values())
                                .map(one -> new Choice(one.code(), one.words(), one == now.region()))
                                .toList(),
                        Arrays.stream(Manner.Weights.values())
                                .map(one -> new Choice(one.name(), one.words(), one == now.weights()))
                                .toList(),
                        Arrays.stream(Manner.Roads.values())
                                .map(one -> new Choice(one.name(), one.words(), one == now.roads()))
                                .toList(),
                        List.of(
                                Manner.day(SAMPLE_DAY),
                                Manner.amount(new BigDecimal("1250.00"), CurrencyUnit.USD),
                                Manner.mass(1899.4),
                                Manner.road(12.1)),
                        fromPhone(context),
                        guesses.summary().orElse(""),
                        settings(now, Texts.language()),
                        Usual.of(bench.settings().read()),
                        usual(Usual.of(bench.settings().read())),
                        bench.catalog().denominations().stream()
                                .map(facts -> facts.denomination().toString())
                                .toList(),
                        bench.catalog().watches())
                .render());
    }

    /// The language, and how days, money, weights and roads are written.
    private static Thing settings(Manner manner, String language) {
        return new Thing(
                "settings",
                t("page.settings"),
                "/settings",
                event -> false,
                List.of(
                        Field.line(Manner.LANGUAGE, t("settings.language"), language),
                        Field.line(
                                Manner.REGION,
                                t("settings.days-and-money-as-in"),
                                manner.region().code()),
                        Field.line(Manner.WEIGHTS, t("settings.weights-in"), manner.weights()),
                        Field.line(Manner.ROADS, t("settings.roads-in"), manner.roads())));
    }

    /// What a hunt begins with.
    private static Thing usual(Usual usual) {
        return new Thing(
                "usual",
                t("settings.how-a-hunt-begins"),
                "/settings",
                event -> false,
                List.of(
                        Field.line("denomination", t("settings.coins"), usual.denomination()),
                        Field.line("bank", t("settings.bank"), usual.bank()),
                        Field.line("branch", t("settings.branch"), usual.branch()),
                        Field.line("watch", t("settings.watched-for"), String.join(",", usual.watches())),
                        Field.line(
                                "digits",
                                t("settings.large-keys"),
                                usual.digits().word()),
                        Field.line("sounds", t("settings.sounds"), usual.sounds() ? "on" : "off")));
    }
}
