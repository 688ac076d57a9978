package org.rollwright.web.scope;

import static org.rollwright.text.Texts.t;
import static org.rollwright.web.shell.Render.PAGES;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.javalin.http.NotFoundResponse;
import io.javalin.http.UploadedFile;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.rollwright.action.Action;
import org.rollwright.action.Fields;
import org.rollwright.action.ScopeActions;
import org.rollwright.catalog.NamedText;
import org.rollwright.catalog.SheetCell;
import org.rollwright.desk.Desk;
import org.rollwright.desk.State;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.HuntId;
import org.rollwright.scope.Answers;
import org.rollwright.scope.AttributionNote;
import org.rollwright.scope.Investigation;
import org.rollwright.scope.ScopeEvent;
import org.rollwright.scope.Variety;
import org.rollwright.scope.VarietyBook;
import org.rollwright.web.shell.Bench;
import org.rollwright.web.shell.Door;
import org.rollwright.web.shell.Forms;
import org.rollwright.web.shell.Frame;
import org.rollwright.web.shell.Shown;

/// The Scope: the catalogue of varieties, and the attribution of a find.
public final class ScopePages {
    private static final int MOST_ROWS = 20_000;

    private final Bench bench;
    private final Door door;

    public ScopePages(Bench bench) {
        this.bench = bench;
        this.door = new Door(bench);
    }

    public void register(RoutesConfig routes) {
        routes.get("/scope", context -> listing(context, List.of()));
        routes.get("/scope/varieties.csv", this::export);
        routes.post("/scope/varieties.csv", this::importFile);
        routes.post("/scope/undo", this::undo);
        routes.get("/scope/new", context -> edit(context, blank(), List.of()));
        routes.post("/scope/new", this::save);
        routes.get("/scope/variety/{key}", this::variety);
        routes.post("/scope/variety/{key}", this::save);
        routes.post("/scope/variety/{key}/remove", this::remove);
        routes.get("/scope/find/{hunt}/{find}", this::attribution);
        routes.post("/scope/find/{hunt}/{find}", this::keepVerdict);
    }

    private Frame frame(String title) {
        return bench.frame(title, "scope");
    }

    private static String parameter(Context context, String name) {
        return Optional.ofNullable(context.queryParam(name)).orElse("").strip();
    }

    private static String field(Context context, String name) {
        return Optional.ofNullable(context.formParam(name)).orElse("").strip();
    }

    private void listing(Context context, List<String> problems) {
        String query = parameter(context, "q");
        String denomination = parameter(context, "coin");
        VarietyViews.Listing view = bench.desk()
                .read(book ->
                        VarietyViews.listing(book, bench.catalog(), bench.varieties(), query, denomination, problems));
        context.html(PAGES.scopeScope(frame(t("page.scope")), view).render());
    }

    private void undo(Context context) {
        Desk.Outcome outcome = bench.desk().undo(0, "<", Forms.asOf(context));
        if (outcome instanceof Desk.Outcome.Refused refused) {
            context.status(HttpStatus.UNPROCESSABLE_CONTENT);
            listing(context, List.of(refused.refusal().toString()));
        } else {
            context.redirect("/scope", HttpStatus.SEE_OTHER);
        }
    }

    private void variety(Context context) {
        VarietyViews.Page page = bench.desk()
                .read(book -> VarietyViews.page(book, bench.catalog(), bench.varieties(), context.pathParam("key")))
                .orElseThrow(NotFoundResponse::new);
        context.html(PAGES.scopeVariety(frame(page.name()), page).render());
    }

    private static Map<String, String> blank() {
        Map<String, String> cells = new LinkedHashMap<>();
        cells.put("country", "US");
        cells.put("denomination", "cent");
        cells.put("mints", "P");
        cells.put("side", "obverse");
        cells.put("rarity", "scarce");
        cells.put("worth", "10");
        cells.put("source", "own observation");
        return cells;
    }

    private void edit(Context context, Map<String, String> cells, List<String> problems) {
        context.html(PAGES.scopeVarietyform(
                        frame(t("scope.a-variety-of-your-own")),
                        cells,
                        problems,
                        Variety.orderOfImages(),
                        Optional.ofNullable(context.formParam(Shown.FIELD)).orElse("new"))
                .render());
    }

    private void save(Context context) {
        String old = context.path().equals("/scope/new") ? "" : context.pathParam("key");
        Map<String, List<String>> typed = new LinkedHashMap<>(context.formParamMap());
        typed.put("key", List.of(old));
        Action.Answer answer = door.perform(new Fields(typed), ScopeActions.VARIETY, (known, event) -> {
            ScopeEvent.VarietyWritten written = (ScopeEvent.VarietyWritten) event;
            Shown.check(context, now(known, written.variety()), ScopeThing.variety(written.variety(), written.cells()));
        });
        switch (answer) {
            case Action.Answer.Done done ->
                context.redirect(
                        "/scope/variety/"
                                + ((ScopeEvent.VarietyWritten) done.entry().event()).variety(),
                        HttpStatus.SEE_OTHER);
            case Action.Answer.Refused refused -> {
                Map<String, String> cells = new LinkedHashMap<>();
                VarietyBook.COLUMNS.forEach(column -> cells.put(column, field(context, column)));
                cells.put(VarietyBook.CROSS_REFERENCES, field(context, VarietyBook.CROSS_REFERENCES));
                cells.put(VarietyBook.ZONES, field(context, VarietyBook.ZONES));
                cells.put("key", old);
                context.status(HttpStatus.UNPROCESSABLE_CONTENT);
                edit(context, cells, Door.sentences(refused));
            }
        }
    }

    private Shown.Thing now(State book, String key) {
        return ScopeThing.variety(
                key,
                bench.varieties()
                        .book(book.scope())
                        .variety(key)
                        .map(Variety::cells)
                        .orElse(Map.of()));
    }

    private void remove(Context context) {
        String key = context.pathParam("key");
        Action.Answer answer = door.perform(
                Fields.of(Map.of("key", key)),
                ScopeActions.VARIETY_OFF,
                (known, event) -> Shown.check(context, now(known, key)));
        switch (answer) {
            case Action.Answer.Done done ->
                context.redirect(
                        bench.varieties().isOurs(key) ? "/scope/variety/" + key : "/scope", HttpStatus.SEE_OTHER);
            case Action.Answer.Refused refused -> {
                context.status(HttpStatus.UNPROCESSABLE_CONTENT);
                listing(context, Door.sentences(refused));
            }
        }
    }

    private void export(Context context) {
        List<String> columns = new ArrayList<>(VarietyBook.COLUMNS);
        columns.add(VarietyBook.CROSS_REFERENCES);
        columns.add(VarietyBook.CERTAINTY);
        columns.add(VarietyBook.ZONES);
        java.io.StringWriter text = new java.io.StringWriter();
        try (de.siegmar.fastcsv.writer.CsvWriter writer =
                de.siegmar.fastcsv.writer.CsvWriter.builder().build(text)) {
            writer.writeRecord(columns);
            bench.desk()
                    .read(book ->
                            List.copyOf(bench.varieties().book(book.scope()).varieties()))
                    .forEach(one -> writer.writeRecord(columns.stream()
                            .map(column -> SheetCell.out(one.cells().getOrDefault(column, "")))
                            .toList()));
        } catch (IOException e) {
            throw new UncheckedIOException("writing to memory", e);
        }
        context.contentType("text/csv; charset=utf-8");
        context.header("Content-Disposition", "attachment; filename=\"varieties.csv\"");
        context.result(text.toString());
    }

    /// A file is taken whole or not at all.
    private void importFile(Context context) {
        UploadedFile file = context.uploadedFile("file");
        List<String> problems = new ArrayList<>();
        if (file == null || file.size() == 0) {
            problems.add(t("scope.no-file"));
        } else {
            try (InputStream in = file.content()) {
                String text = StandardCharsets.UTF_8
                        .newDecoder()
                        .decode(ByteBuffer.wrap(in.readAllBytes()))
                        .toString();
                problems.addAll(taken(new NamedText(file.filename(), text)));
            } catch (CharacterCodingException e) {
                problems.add(t("scope.not-utf8", file.filename()));
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
        if (problems.isEmpty()) {
            context.redirect("/scope", HttpStatus.SEE_OTHER);
        } else {
            context.status(HttpStatus.UNPROCESSABLE_CONTENT);
            listing(context, problems);
        }
    }

    private List<String> taken(NamedText file) {
        VarietyBook.Rows rows = VarietyBook.rows(file, bench.catalog());
        if (!rows.problems().isEmpty()) {
            List<String> problems = new ArrayList<>();
            problems.add(t("scope.nothing-taken", rows.problems().size(), file.name()));
            rows.problems().stream().limit(30).map(Object::toString).forEach(problems::add);
            return problems;
        }
        if (rows.varieties().isEmpty() || rows.varieties().size() > MOST_ROWS) {
            return List.of(t("scope.too-many-rows", rows.varieties().size(), MOST_ROWS));
        }
        return ScopeActions.varieties(bench.desk(), door.setting(), rows.varieties(), "")
                        instanceof Action.Answer.Refused refused
                ? Door.sentences(refused)
                : List.of();
    }

    private Find find(Context context) {
        try {
            HuntId hunt = new HuntId(Long.parseLong(context.pathParam("hunt")));
            int ordinal = Integer.parseInt(context.pathParam("find"));
            return bench.desk().read(book -> book.hunt().find(hunt, ordinal)).orElseThrow(NotFoundResponse::new);
        } catch (IllegalArgumentException e) {
            throw new NotFoundResponse();
        }
    }

    private Investigation investigation(Find find, Answers said) {
        return bench.desk()
                .read(book -> Investigation.begin(
                        bench.varieties().book(book.scope()),
                        bench.catalog(),
                        find.facts().identity(),
                        book.hunt().checks(),
                        find.facts().grade(),
                        said.stage()))
                .answered(said);
    }

    private void attribution(Context context) {
        Find find = find(context);
        Answers said = Answers.parse(parameter(context, "a"), parameter(context, "stage"));
        show(context, find, said, "");
    }

    private void show(Context context, Find find, Answers said, String problem) {
        Investigation now = investigation(find, said);
        AttributionView view = bench.desk()
                .read(book -> AttributionView.of(book, bench.catalog(), bench.varieties(), find, now, said, problem));
        Shown.Thing kept = bench.desk()
                .read(book -> ScopeThing.attribution(
                        find, Optional.ofNullable(book.scope().attributions().get(find.id()))));
        context.html(PAGES.scopeAttribution(frame(t("scope.what-is", view.coin())), view, kept)
                .render());
    }

    private void keepVerdict(Context context) {
        Find find = find(context);
        Map<String, String> typed = Map.of(
                "find", Long.toString(find.id().number()),
                "answers", field(context, "a"),
                "stage", field(context, "stage"),
                "compared", field(context, "compared"),
                "note", field(context, "note"));
        Action.Answer answer = door.perform(Fields.of(typed), ScopeActions.ATTRIBUTED, (known, event) -> {
            ScopeEvent.Attributed told = (ScopeEvent.Attributed) event;
            Shown.check(
                    context,
                    ScopeThing.attribution(find, known.scope().attribution(find.id())),
                    ScopeThing.attribution(
                            find,
                            Optional.of(new AttributionNote(
                                    told.find(),
                                    told.variety(),
                                    told.verdict(),
                                    told.path(),
                                    told.note(),
                                    bench.clock().instant()))));
        });
        switch (answer) {
            case Action.Answer.Done done ->
                context.redirect("/mat/" + find.hunt().number(), HttpStatus.SEE_OTHER);
            case Action.Answer.Refused refused -> {
                context.status(HttpStatus.UNPROCESSABLE_CONTENT);
                show(
                        context,
                        find,
                        Answers.parse(field(context, "a"), field(context, "stage")),
                        String.join(" ", Door.sentences(refused)));
            }
        }
    }
}
