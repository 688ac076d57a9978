package org.rollwright.web.shell;

import static org.rollwright.text.Texts.t;
import static org.rollwright.web.shell.Render.PAGES;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/// The page that comes back instead of a save when another window changed the same thing: what was typed, still
/// in its fields, beside what the other saved. See [Shown].
public final class ChangedPages {
    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

    private final Bench bench;
    private final Repeats repeats;

    public ChangedPages(Bench bench) {
        this.bench = bench;
        this.repeats = new Repeats(bench.clock());
    }

    public void register(RoutesConfig routes) {
        routes.before(repeats::before);
        routes.after(repeats::after);
        routes.exception(Repeats.Repeated.class, this::repeated);
        routes.exception(Shown.Changed.class, this::changed);
        routes.exception(
                Shown.Already.class, (already, context) -> context.redirect(already.back(), HttpStatus.SEE_OTHER));
    }

    /// One field of the form come back.
    ///
    /// @param typed what this window wants
    /// @param theirs what is there now
    /// @param kind as in [Shown.Kind], in small letters
    public record Row(String name, String label, String typed, String theirs, String kind, boolean differs) {}

    /// Everything the page shows.
    ///
    /// @param kept fields repeated as they were
    public record View(
            String heading,
            String sentence,
            String action,
            String back,
            String mark,
            String keep,
            String leave,
            List<Row> rows,
            List<Kept> kept) {}

    /// A field repeated as it was.
    public record Kept(String name, String value) {}

    private void changed(Shown.Changed changed, Context context) {
        Shown.Thing now = changed.now();
        Map<String, String> theirs = now.values();
        List<Row> rows = new ArrayList<>();
        List<Kept> kept = new ArrayList<>();
        Set<String> shown = new TreeSet<>(Set.of(Shown.FIELD));
        for (Shown.Field field : changed.fields()) {
            List<String> typed = context.formParams(field.name());
            if (typed.isEmpty() && field.kind() != Shown.Kind.TICK && field.kind() != Shown.Kind.FIXED) {
                // the form has no such field at present
                continue;
            }
            boolean fixed = field.kind() == Shown.Kind.FIXED || typed.size() > 1;
            String mine = fixed ? field.value() : typed.isEmpty() ? "" : typed.getFirst();
            String other = theirs.getOrDefault(field.name(), "");
            rows.add(new Row(
                    field.name(),
                    field.label(),
                    mine,
                    other,
                    fixed ? "fixed" : field.kind().name().toLowerCase(Locale.ROOT),
                    !field.value().equals(other)));
            if (!fixed) {
                shown.add(field.name());
            }
        }
        context.formParamMap().forEach((name, values) -> {
            if (!shown.contains(name)) {
                values.forEach(value -> kept.add(new Kept(name, value)));
            }
        });
        String when =
                bench.desk().lastTouched(now.touched()).map(ChangedPages::when).orElse("");
        boolean gone = now.fields().isEmpty();
        String sentence = gone
                ? t("changed.taken-out-elsewhere", now.title())
                : when.isEmpty()
                        ? t("changed.changed-elsewhere", now.title())
                        : t("changed.changed-elsewhere-on", now.title(), when);
        show(
                context,
                t("changed.changed-meanwhile"),
                new View(
                        t("changed.changed-thing", now.title()),
                        sentence + " " + t("changed.nothing-was-saved-yet"),
                        context.path(),
                        now.back(),
                        now.mark(),
                        t("changed.save-mine-all-the-same"),
                        gone ? t("changed.leave-it-so") : t("changed.take-the-other-s"),
                        rows,
                        kept));
    }

    private void show(Context context, String title, View view) {
        context.status(HttpStatus.CONFLICT);
        context.html(PAGES.shellChanged(bench.frame(title, ""), view).render());
    }

    private void repeated(Repeats.Repeated repeated, Context context) {
        List<Kept> kept = new ArrayList<>(List.of(new Kept(Repeats.AGAIN, "yes")));
        context.formParamMap().forEach((name, values) -> {
            if (!name.equals(Repeats.AGAIN)) {
                values.forEach(value -> kept.add(new Kept(name, value)));
            }
        });
        show(
                context,
                t("changed.recorded-already"),
                new View(
                        t("changed.recorded-already"),
                        t("changed.sent-twice", when(repeated.at())),
                        context.path(),
                        repeated.location(),
                        "",
                        t("changed.record-it-once-more"),
                        t("changed.leave-it-so"),
                        List.of(),
                        kept));
    }

    private static String when(Instant at) {
        return Manner.day(at) + ", " + TIME.format(at.atZone(ZoneId.systemDefault()));
    }
}
