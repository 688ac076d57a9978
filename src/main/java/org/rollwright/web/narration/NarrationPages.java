package org.rollwright.web.narration;

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
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Denomination;
import org.rollwright.desk.State;
import org.rollwright.entry.Command;
import org.rollwright.entry.EntryContext;
import org.rollwright.entry.EntryParser;
import org.rollwright.entry.Reading;
import org.rollwright.entry.Recorder;
import org.rollwright.entry.narration.Acceptance;
import org.rollwright.entry.narration.Captions;
import org.rollwright.entry.narration.Cue;
import org.rollwright.entry.narration.Lesson;
import org.rollwright.entry.narration.Narration;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.HuntId;
import org.rollwright.web.shell.Bench;
import org.rollwright.web.shell.Forms;

/// From the captions of a filmed hunt to its log: choose a file, review what was understood, accept. Nothing is
/// kept here between two requests; what was typed travels with the form until it is recorded.
public final class NarrationPages {
    private static final Logger LOG = Logger.getLogger(NarrationPages.class.getName());

    private static final int MOST_ROWS = 50_000;

    private final Bench bench;

    public NarrationPages(Bench bench) {
        this.bench = bench;
    }

    public void register(RoutesConfig routes) {
        routes.get("/mat/{hunt}/narration", context -> choose(context, List.of()));
        routes.post("/mat/{hunt}/narration", this::decode);
        routes.post("/mat/{hunt}/narration/accept", this::accept);
    }

    private record Place(HuntId id, String name, EntryContext context, List<Denomination> boxes, int rolls) {}

    private Place place(Context context) {
        long number = Forms.number(context, "hunt");
        return bench.desk()
                .read(book -> book.hunt().hunt(new HuntId(number)).map(hunt -> {
                    int rolls = firstBoxRolls(hunt, book);
                    return new Place(
                            hunt.id(),
                            hunt.name(),
                            bench.recorder().context(book, hunt),
                            bench.recorder().denominations(book, hunt),
                            rolls);
                }))
                .orElseThrow(NotFoundResponse::new);
    }

    private static int firstBoxRolls(Hunt hunt, State book) {
        return hunt.boxes().stream()
                .findFirst()
                .flatMap(book.hunt()::box)
                .map(box -> box.details().rolls())
                .filter(rolls -> rolls > 0)
                .orElse(50);
    }

    private void choose(Context context, List<String> problems) {
        Place place = place(context);
        if (!problems.isEmpty()) {
            context.status(HttpStatus.UNPROCESSABLE_CONTENT);
        }
        context.html(PAGES.narrationNarration(
                        bench.frame(t("page.narration"), "mat"),
                        place.id.number(),
                        place.name,
                        bench.voice().shelf().isOn()
                                ? bench.voice().shelf().lessons().size()
                                : 0,
                        problems)
                .render());
    }

    private void decode(Context context) {
        Place place = place(context);
        UploadedFile file = context.uploadedFile("captions");
        if (file == null || file.size() == 0) {
            choose(context, List.of(t("narration.no-file")));
            return;
        }
        byte[] bytes;
        try (InputStream in = file.content()) {
            bytes = in.readAllBytes();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        switch (Captions.read(bytes)) {
            case Captions.Read.Unusable unusable -> choose(context, List.of(unusable.sentence()));
            case Captions.Read.Good good -> {
                Narration narration =
                        bench.voice().decoder().decode(good.captions(), place.context, place.boxes, place.rolls);
                review(
                        context,
                        ReviewView.of(
                                place.id.number(),
                                place.name,
                                file.filename(),
                                good.captions(),
                                narration,
                                bench.voice().shelf().isOn() ? Boolean.TRUE : null));
            }
        }
    }

    private void review(Context context, ReviewView view) {
        context.html(PAGES.narrationReview(bench.frame(t("page.review"), "mat"), view)
                .render());
    }

    private static String field(Context context, String name) {
        return Optional.ofNullable(context.formParam(name)).orElse("");
    }

    private static int number(String text, int otherwise) {
        try {
            return text.isBlank() ? otherwise : Integer.parseInt(text.strip());
        } catch (NumberFormatException e) {
            return otherwise;
        }
    }

    private static List<ReviewView.Row> rows(Context context) {
        List<ReviewView.Row> rows = new ArrayList<>();
        int count = Math.min(MOST_ROWS, number(field(context, "rows"), 0));
        for (int i = 0; i < count; i++) {
            String p = "r" + i + "-";
            rows.add(new ReviewView.Row(
                    context.formParam(p + "keep") != null,
                    field(context, p + "at"),
                    field(context, p + "box"),
                    field(context, p + "roll"),
                    field(context, p + "line"),
                    number(field(context, p + "sure"), -1),
                    field(context, p + "words"),
                    number(field(context, p + "cue"), -1),
                    field(context, p + "otherwise"),
                    field(context, p + "proposed"),
                    ""));
        }
        return rows;
    }

    private void accept(Context context) {
        Place place = place(context);
        List<ReviewView.Row> rows = new ArrayList<>(rows(context));
        Map<Integer, String> rolls = new TreeMap<>();
        for (int box = 1; box <= 50; box++) {
            String said = context.formParam("rolls-" + box);
            if (said != null) {
                rolls.put(box, said);
            }
        }
        List<String> problems = new ArrayList<>();
        ReviewView.Asked asked = asked(context, rows.size());
        String what = field(context, "do");
        if (what.equals("add")) {
            rows.add(ReviewView.Row.blank());
        } else if (asked != null && (what.equals("recap") || what.equals("fresh"))) {
            asked.rows().forEach(row -> rows.set(row, rows.get(row).withTick(what.equals("fresh"))));
            asked = null;
        } else {
            Optional<Recorder.Together> outcome = record(context, place, rows, rolls, problems);
            if (outcome.isPresent() && outcome.get() instanceof Recorder.Together.Recorded) {
                learn(context, place, rows);
                context.redirect("/mat/" + place.id.number(), HttpStatus.SEE_OTHER);
                return;
            }
            context.status(HttpStatus.UNPROCESSABLE_CONTENT);
        }
        List<ReviewView.CueLine> cues = cues(context);
        review(
                context,
                new ReviewView(
                        place.id.number(),
                        place.name,
                        field(context, "file"),
                        rows,
                        asked,
                        rolls,
                        cues,
                        bench.voice().shelf().isOn() ? Boolean.valueOf(context.formParam("learn") != null) : null,
                        number(field(context, "spoken"), -1),
                        number(field(context, "decoded"), 0),
                        context.formParams("total").stream()
                                .map(ReviewView.Agreement::of)
                                .toList(),
                        context.formParams("conflict"),
                        List.of(),
                        problems));
    }

    private static List<ReviewView.CueLine> cues(Context context) {
        List<ReviewView.CueLine> cues = new ArrayList<>();
        for (String kept : context.formParams("cue")) {
            cues.add(ReviewView.CueLine.of(cues.size(), kept));
        }
        return cues;
    }

    /// Keeps what was accepted as a lesson of the hunter's voice. The finds are on disk already, so a lesson that
    /// cannot be kept is let go: the next recording teaches the same.
    private void learn(Context context, Place place, List<ReviewView.Row> rows) {
        List<Cue> said = cues(context).stream().map(ReviewView.CueLine::cue).toList();
        if (context.formParam("learn") == null || said.isEmpty()) {
            return;
        }
        List<Lesson.Find> finds = new ArrayList<>();
        int accepted = 0;
        int changed = 0;
        int dropped = 0;
        int added = 0;
        for (ReviewView.Row row : rows) {
            Lesson.Find find = row.keep() ? find(row, place.context) : null;
            if (find != null) {
                finds.add(find);
            }
            boolean proposed = !row.proposed().isBlank();
            accepted += find != null && row.proposed().equals(row.line()) ? 1 : 0;
            changed += find != null && proposed && !row.proposed().equals(row.line()) ? 1 : 0;
            dropped += !row.keep() && proposed ? 1 : 0;
            added += find != null && !proposed ? 1 : 0;
        }
        try {
            bench.voice()
                    .learn(new Lesson(
                            bench.clock().instant(),
                            field(context, "file"),
                            said,
                            place.boxes,
                            place.context.watches().stream()
                                    .map(watch -> watch.rule())
                                    .toList(),
                            place.rolls,
                            finds,
                            new Lesson.Corrections(accepted, changed, dropped, added)));
        } catch (IOException e) {
            LOG.log(Level.WARNING, "A lesson of the voice could not be kept: {0}", e.getMessage());
        }
    }

    /// What a row says was found; null when it is a weight or the like.
    private static Lesson.@Nullable Find find(ReviewView.Row row, EntryContext context) {
        if (!(EntryParser.parse(row.line(), context) instanceof Reading.Clear clear)
                || clear.commands().size() != 1
                || !(clear.commands().getFirst() instanceof Command.Found found)) {
            return null;
        }
        return new Lesson.Find(
                Captions.time(row.at().strip()).orElse(-1L),
                Math.max(1, number(row.box(), 1)),
                Math.max(0, number(row.roll(), 0)),
                found.draft().facts().identity().year(),
                Math.max(1, found.draft().count()));
    }

    /// The question as the form kept it, null when it was answered or there is none.
    private static ReviewView.@Nullable Asked asked(Context context, int rows) {
        List<Integer> all = new ArrayList<>();
        for (String one : field(context, "asked").split(",")) {
            int row = number(one, -1);
            if (row >= 0 && row < rows) {
                all.add(row);
            }
        }
        return all.isEmpty()
                ? null
                : new ReviewView.Asked(field(context, "asked-from"), field(context, "asked-to"), all);
    }

    /// Records the ticked rows as one step; marks the row at fault otherwise.
    private Optional<Recorder.Together> record(
            Context context,
            Place place,
            List<ReviewView.Row> rows,
            Map<Integer, String> rolls,
            List<String> problems) {
        Instant now = bench.clock().instant();
        List<Acceptance.Searched> visited = new ArrayList<>();
        List<Acceptance.Row> accepted = new ArrayList<>();
        for (Map.Entry<Integer, String> entry : rolls.entrySet()) {
            Optional<SortedSet<Integer>> searched = RollList.read(entry.getValue());
            if (searched.isEmpty()) {
                problems.add(t("narration.rolls-wrong", entry.getValue()));
                return Optional.empty();
            }
            searched.get().forEach(roll -> visited.add(new Acceptance.Searched(entry.getKey(), roll)));
        }
        for (int i = 0; i < rows.size(); i++) {
            ReviewView.Row row = rows.get(i);
            if (!row.keep() || row.line().isBlank()) {
                continue;
            }
            int box = number(row.box(), -1);
            int roll = number(row.roll(), row.roll().isBlank() ? 0 : -1);
            if (box < 1 || roll < 0) {
                rows.set(i, row.withWrong(t("narration.box-and-roll")));
                problems.add(t("narration.row-numbers-wrong", i + 1));
                return Optional.empty();
            }
            if (row.added()
                    && !row.at().isBlank()
                    && Captions.time(row.at().strip()).isEmpty()) {
                rows.set(i, row.withWrong(t("narration.time-wrong", row.at())));
                problems.add(t("narration.row-nothing-was-recorded", i + 1, t("narration.time-wrong", row.at())));
                return Optional.empty();
            }
            long at = Captions.time(row.at().strip()).orElse(-1L);
            accepted.add(new Acceptance.Row(i, box, roll, at, row.line()));
        }
        if (accepted.isEmpty()) {
            problems.add(t("narration.no-row"));
            return Optional.empty();
        }
        Acceptance acceptance = Acceptance.of(accepted, visited, now);
        Recorder.Together outcome =
                bench.recorder().recordTogether(place.id, "narration " + field(context, "file"), acceptance.told());
        if (outcome instanceof Recorder.Together.Wrong wrong) {
            String sentence = wrong.wrong() + " " + wrong.right();
            int at = wrong.row() < 0 ? -1 : acceptance.rows().get(wrong.row());
            if (at >= 0) {
                rows.set(at, rows.get(at).withWrong(sentence));
                problems.add(t("narration.row-nothing-was-recorded", at + 1, sentence));
            } else {
                problems.add(t("narration.nothing-was-recorded", sentence));
            }
        }
        return Optional.of(outcome);
    }
}
