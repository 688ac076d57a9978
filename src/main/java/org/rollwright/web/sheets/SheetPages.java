package org.rollwright.web.sheets;

import static org.rollwright.text.Texts.t;
import static org.rollwright.web.shell.Render.PAGES;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.javalin.http.UploadedFile;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.rollwright.action.TakenSheet;
import org.rollwright.desk.Desk;
import org.rollwright.entry.sheet.take.As;
import org.rollwright.entry.sheet.take.Lexicon;
import org.rollwright.entry.sheet.take.Taken;
import org.rollwright.entry.sheet.take.Taking;
import org.rollwright.web.shell.Bench;
import org.rollwright.web.shell.Forms;

/// Taking in a sheet: it is chosen or pasted, every row is shown with what it would become, questions are answered
/// on the page, and what has none left is recorded as one step.
public final class SheetPages {
    /// The decision about a row that stands in the record already: it is another one like it.
    private static final String AGAIN = "again";

    /// Sheets kept while they are looked at.
    private static final int KEPT = 4;

    private final Bench bench;
    private final Map<String, Sheet> kept = new LinkedHashMap<>();
    private @Nullable Taking taking;

    /// A sheet being looked at.
    private static final class Sheet {
        private final String name;
        private final As as;
        private final byte[] bytes;
        /// What was answered so far, by the names of the form's fields.
        private final Map<String, String> answers = new LinkedHashMap<>();

        Sheet(String name, As as, byte[] bytes) {
            this.name = name;
            this.as = as;
            this.bytes = bytes;
        }
    }

    public SheetPages(Bench bench) {
        this.bench = bench;
    }

    public void register(RoutesConfig routes) {
        routes.get("/sheets", context -> choose(context, List.of()));
        routes.post("/sheets", this::read);
        routes.post("/sheets/rows", this::rows);
    }

    private synchronized Taking taking() {
        Taking known = taking;
        if (known == null) {
            try (InputStream words = SheetPages.class.getResourceAsStream("/catalog/sheets/lexicon.csv")) {
                if (words == null) {
                    throw new IllegalStateException("missing from the build: words of sheets");
                }
                known = new Taking(
                        bench.catalog(), Lexicon.parse(new String(words.readAllBytes(), StandardCharsets.UTF_8)));
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
            taking = known;
        }
        return known;
    }

    private void choose(Context context, List<String> problems) {
        if (!problems.isEmpty()) {
            context.status(HttpStatus.UNPROCESSABLE_CONTENT);
        }
        String as = Optional.ofNullable(context.queryParam("as")).orElseGet(() -> Forms.text(context, "as"));
        context.html(PAGES.sheetsChoose(
                        bench.frame(t("page.sheets"), as.equals("coins") ? "cabinet" : "boxes"),
                        as.equals("coins") ? "coins" : "boxes",
                        Forms.text(context, "pasted"),
                        problems)
                .render());
    }

    private void read(Context context) {
        As as = Forms.text(context, "as").equals("coins") ? As.COINS : As.BOXES;
        String pasted = Forms.text(context, "pasted");
        UploadedFile file = context.uploadedFile("file");
        String name = t("sheets.pasted");
        byte[] bytes = pasted.getBytes(StandardCharsets.UTF_8);
        if (file != null && file.size() > 0) {
            name = file.filename();
            try (InputStream in = file.content()) {
                bytes = in.readAllBytes();
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
        if (bytes.length == 0) {
            choose(context, List.of(t("sheets.nothing-chosen")));
            return;
        }
        Sheet sheet = new Sheet(name, as, bytes);
        switch (read(sheet, remembered(as))) {
            case Taking.Read.Unusable unusable -> choose(context, List.of(unusable.sentence()));
            case Taking.Read.Good good -> show(context, keep(sheet), sheet, good.taken(), Map.of(), List.of());
        }
    }

    /// Reads a sheet with all that was said of it; the same as the command does.
    private Taking.Read read(Sheet sheet, Map<String, String> headings) {
        List<Taken.Answer> answers = answers(sheet.answers);
        String file = sheet.name.equals(t("sheets.pasted")) ? "" : sheet.name;
        return taking().read(sheet.bytes, sheet.as, new Taking.Said(headings, Taking.usual(answers), file))
                        instanceof Taking.Read.Good good
                ? new Taking.Read.Good(good.taken().with(answers))
                : taking().read(sheet.bytes, sheet.as, headings);
    }

    private TakenSheet.Plan plan(Sheet sheet, Taken taken) {
        LocalDate today = bench.today();
        return TakenSheet.plan(
                taken,
                bench.catalog(),
                today,
                bench.desk().state(),
                row -> AGAIN.equals(sheet.answers.get("row:" + SheetView.key(row))));
    }

    private synchronized String keep(Sheet sheet) {
        String id = UUID.randomUUID().toString();
        kept.put(id, sheet);
        while (kept.size() > KEPT) {
            kept.remove(kept.keySet().iterator().next());
        }
        return id;
    }

    private synchronized Optional<Sheet> kept(String id) {
        return Optional.ofNullable(kept.get(id));
    }

    private void show(
            Context context, String id, Sheet sheet, Taken taken, Map<String, String> typed, List<String> problems) {
        if (!problems.isEmpty()) {
            context.status(HttpStatus.UNPROCESSABLE_CONTENT);
        }
        context.html(PAGES.sheetsRows(
                        bench.frame(t("page.sheets"), sheet.as == As.COINS ? "cabinet" : "boxes"),
                        SheetView.of(id, sheet.name, taken, plan(sheet, taken), sheet.answers, typed, problems))
                .render());
    }

    /// What headings mean by what was said of them before.
    private Map<String, String> remembered(As as) {
        Map<String, String> said = new HashMap<>();
        bench.settings().read().forEach((name, value) -> {
            if (name.startsWith(prefix(as)) && Taking.isMeaning(value, as)) {
                said.put(name.substring(prefix(as).length()), value);
            }
        });
        return said;
    }

    private static String prefix(As as) {
        return as == As.COINS ? "sheet.coins." : "sheet.boxes.";
    }

    private void rows(Context context) {
        String id = Forms.text(context, "sheet");
        Optional<Sheet> known = kept(id);
        if (known.isEmpty()) {
            choose(context, List.of(t("sheets.no-longer-kept")));
            return;
        }
        Sheet sheet = known.get();
        Map<String, String> fields = new LinkedHashMap<>();
        context.formParamMap()
                .forEach((name, values) -> fields.put(name, values.getFirst().strip()));
        List<String> problems = new ArrayList<>();
        Map<String, String> said = said(fields, sheet.as, problems);
        Map<String, String> meanings = new HashMap<>(remembered(sheet.as));
        meanings.putAll(said);
        synchronized (this) {
            keepAnswers(sheet, fields);
        }
        if (!(read(sheet, meanings) instanceof Taking.Read.Good good)) {
            choose(context, List.of(t("sheets.no-longer-kept")));
            return;
        }
        remember(sheet.as, said, problems);
        Taken taken = good.taken();
        if (!"record".equals(fields.get("do")) || !problems.isEmpty()) {
            show(context, id, sheet, taken, fields, problems);
            return;
        }
        TakenSheet.Plan plan = plan(sheet, taken);
        if (plan.things() == 0) {
            show(context, id, sheet, taken, fields, List.of(t("sheets.nothing-to-record")));
            return;
        }
        // who comes first records it; a button pressed twice finds it gone
        synchronized (this) {
            if (kept.remove(id) == null) {
                choose(context, List.of(t("sheets.no-longer-kept")));
                return;
            }
        }
        switch (bench.desk().record(0, "take " + sheet.name, plan::event)) {
            case Desk.Outcome.Refused refused ->
                show(
                        context,
                        keep(sheet),
                        sheet,
                        taken,
                        fields,
                        List.of(refused.refusal().toString()));
            case Desk.Outcome.Kept recorded -> {
                context.html(PAGES.sheetsDone(
                                bench.frame(t("page.sheets"), sheet.as == As.COINS ? "cabinet" : "boxes"),
                                sheet.as == As.COINS ? "coins" : "boxes",
                                plan)
                        .render());
            }
        }
    }

    /// Every field of an answer is on the page each time: what is empty now is answered no more.
    private static void keepAnswers(Sheet sheet, Map<String, String> fields) {
        fields.forEach((name, value) -> {
            if (name.startsWith("answer:") || name.startsWith("all:") || name.startsWith("row:")) {
                if (value.isEmpty()) {
                    sheet.answers.remove(name);
                } else {
                    sheet.answers.put(name, value);
                }
            }
        });
    }

    /// Columns that the hunter gave a meaning.
    private static Map<String, String> said(Map<String, String> fields, As as, List<String> problems) {
        Map<String, String> said = new LinkedHashMap<>();
        fields.forEach((name, value) -> {
            if (name.startsWith("column:") && !value.isEmpty()) {
                if (Taking.isMeaning(value, as)) {
                    said.put(name.substring("column:".length()), value);
                } else {
                    problems.add(t("sheets.no-meaning", value, String.join(", ", Taking.meanings(as))));
                }
            }
        });
        return said;
    }

    private void remember(As as, Map<String, String> said, List<String> problems) {
        Map<String, String> chosen = new LinkedHashMap<>();
        said.forEach((heading, meaning) -> chosen.put(prefix(as) + heading, meaning));
        if (chosen.isEmpty()) {
            return;
        }
        try {
            bench.settings().choose(chosen);
        } catch (IOException e) {
            problems.add(t("sheets.not-remembered"));
        }
    }

    private static List<Taken.Answer> answers(Map<String, String> fields) {
        List<Taken.Answer> answers = new ArrayList<>();
        fields.forEach((name, value) -> {
            if (name.startsWith("answer:") && !value.isEmpty()) {
                int colon = name.lastIndexOf(':');
                answer(name.substring("answer:".length(), colon), name.substring(colon + 1), value)
                        .ifPresent(answers::add);
            } else if (name.startsWith("all:") && !value.isEmpty()) {
                String[] parts = name.substring("all:".length()).split("\\|", 3);
                if (parts.length == 3) {
                    answers.add(new Taken.Answer(parts[0], Taken.Answer.ALL, parts[2], parts[1], value));
                }
            } else if (name.startsWith("row:") && List.of("skip", "take", AGAIN).contains(value)) {
                // once more means as shown, too
                answer(name.substring("row:".length()), value.equals(AGAIN) ? "take" : value, "")
                        .ifPresent(answers::add);
            }
        });
        return answers;
    }

    private static Optional<Taken.Answer> answer(String key, String field, String value) {
        int mark = key.lastIndexOf('!');
        String row = mark < 0 ? "" : key.substring(mark + 1);
        return row.matches("[0-9]{1,7}")
                ? Optional.of(new Taken.Answer(key.substring(0, mark), Long.parseLong(row), field, value))
                : Optional.empty();
    }
}
