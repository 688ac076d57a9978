package org.rollwright.action;

import static org.rollwright.action.Field.maybe;
import static org.rollwright.action.Field.needed;
import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.rollwright.desk.Desk;
import org.rollwright.desk.State;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.FindId;
import org.rollwright.journal.Declined;
import org.rollwright.journal.Event;
import org.rollwright.journal.Word;
import org.rollwright.scope.Answers;
import org.rollwright.scope.Investigation;
import org.rollwright.scope.PhotoSubject;
import org.rollwright.scope.ScopeEvent;
import org.rollwright.scope.Variety;
import org.rollwright.scope.VarietyBook;

/// What is done under the microscope.
public final class ScopeActions {
    private static final String ANSWERS = "\\.?[0-9]{1,3}[ync](\\.[0-9]{1,3}[ync])*\\.?";
    private static final long MOST_NUMBER = 999_999_999_999L;
    private static final int MOST_MARKER = 99;

    /// A variety of the user's own is written, or one known is rewritten.
    public static final Action VARIETY = new Action(
            "variety",
            List.of(
                    maybe("key", "cent-1936-crack-over-date"),
                    needed("name", "1936 crack over date"),
                    needed("country", "US"),
                    needed("denomination", "cent"),
                    needed("years", "1936"),
                    maybe("mints", "P"),
                    maybe("coin_kind", ""),
                    needed("side", "obverse"),
                    needed("type", "die crack"),
                    needed("where", "above the date"),
                    maybe("direction", "north"),
                    needed("markers", "a line runs over the date [90/5 10s]"),
                    needed("rarity", "scarce"),
                    needed("worth", "10"),
                    maybe("lookalikes", ""),
                    maybe("note", "own find"),
                    needed("source", "own observation"),
                    maybe("cross_references", ""),
                    maybe("zones", "obverse:date")),
            ScopeActions::variety);

    /// A variety of the user's own is given up, or ours put back.
    public static final Action VARIETY_OFF =
            new Action("variety-off", List.of(needed("key", "cent-1936-crack-over-date")), ScopeActions::varietyOff);

    /// A find is looked at for varieties.
    public static final Action ATTRIBUTED = new Action(
            "attributed",
            List.of(
                    needed("find", "1"),
                    needed("answers", "0y.1n"),
                    maybe("stage", "UNKNOWN"),
                    maybe("compared", "no"),
                    maybe("note", "under 20 times")),
            ScopeActions::attributed);

    /// A photograph is no longer wanted where it is.
    public static final Action PHOTO_OFF = new Action(
            "photo-off",
            List.of(
                    needed("photo", "0123abcd"),
                    maybe("find", "1"),
                    maybe("variety", "cent-1936-crack-over-date"),
                    maybe("marker", "1")),
            ScopeActions::photoOff);

    static final List<Action> ALL = List.of(VARIETY, VARIETY_OFF, ATTRIBUTED, PHOTO_OFF);

    private ScopeActions() {}

    private static Function<State, Desk.Step> variety(Typed typed, Setting setting) {
        Map<String, String> cells = new LinkedHashMap<>();
        VarietyBook.COLUMNS.forEach(column -> cells.put(column, typed.text(column)));
        cells.put(VarietyBook.CROSS_REFERENCES, typed.text(VarietyBook.CROSS_REFERENCES));
        cells.put(VarietyBook.ZONES, typed.text(VarietyBook.ZONES));
        VarietyBook.Rows rows = VarietyBook.row(cells, setting.catalog());
        rows.problems().forEach(problem -> {
            String column = problem.column().isEmpty() ? "" : problem.column().replace('_', ' ') + ": ";
            typed.wrong(column + problem.flaw().wrong(), problem.flaw().right());
        });
        boolean fresh = !typed.has("key");
        return known -> {
            Variety variety = rows.varieties().getFirst();
            Optional<Variety> before = setting.varieties().book(known.scope()).variety(variety.key());
            if (fresh && before.isPresent()) {
                throw new Declined(t("typed.variety-taken", variety.key()), t("typed.name-it-otherwise"));
            }
            Map<String, String> written = new LinkedHashMap<>(variety.cells());
            // how sure we are of its fields is no field of the form, and stays
            before.map(Variety::cells)
                    .map(old -> old.get(VarietyBook.CERTAINTY))
                    .ifPresent(sure -> written.put(VarietyBook.CERTAINTY, sure));
            return new Desk.Step(0, new ScopeEvent.VarietyWritten(variety.key(), written));
        };
    }

    private static Function<State, Desk.Step> varietyOff(Typed typed, Setting setting) {
        return known -> new Desk.Step(0, new ScopeEvent.VarietyRemoved(typed.text("key")));
    }

    private static Function<State, Desk.Step> attributed(Typed typed, Setting setting) {
        FindId id = new FindId(typed.whole("find", t("typed.find"), 1, MOST_NUMBER, null));
        Investigation.Stage stage =
                typed.has("stage") ? typed.word("stage", t("typed.stage"), Investigation.Stage.class) : null;
        Answers answers = Answers.parse(typed.text("answers"), stage == null ? "" : stage.name());
        if (!typed.text("answers").matches(ANSWERS)) {
            typed.wrong(t("typed.nothing-answered"), t("typed.answer-a-question"));
        }
        boolean compared = typed.flag("compared", t("typed.compared"));
        return known -> {
            Find find = known.hunt()
                    .find(id)
                    .orElseThrow(() -> new Declined(t("typed.no-find", id), t("till.look-at-the-list-again")));
            Investigation now = Investigation.begin(
                            setting.varieties().book(known.scope()),
                            setting.catalog(),
                            find.facts().identity(),
                            known.hunt().checks(),
                            find.facts().grade(),
                            answers.stage())
                    .answered(answers);
            Investigation.Verdict verdict = now.verdict(compared);
            return new Desk.Step(
                    find.hunt().number(),
                    new ScopeEvent.Attributed(
                            id,
                            verdict.key(),
                            Word.of(verdict.word()),
                            path(now, answers, compared),
                            typed.text("note")));
        };
    }

    private static List<ScopeEvent.Look> path(Investigation now, Answers answers, boolean compared) {
        List<ScopeEvent.Look> path = new ArrayList<>();
        if (answers.stage() != Investigation.Stage.UNKNOWN) {
            path.add(new ScopeEvent.Look(
                    Investigation.STAGE_LOOK, answers.stage().word()));
        }
        now.path().forEach(step -> path.add(new ScopeEvent.Look(step.looked(), step.answer())));
        if (compared) {
            path.add(new ScopeEvent.Look(Investigation.COMPARED_LOOK, Investigation.Answer.YES.word()));
        }
        return path;
    }

    /// What a photograph shows: a find by its number, a variety by its key, or nothing in particular.
    private static PhotoSubject about(Typed typed) {
        if (typed.has("variety")) {
            return PhotoSubject.variety(
                    typed.text("variety"), typed.small("marker", t("typed.marker"), 0, MOST_MARKER, 0));
        }
        return typed.has("find")
                ? PhotoSubject.find(new FindId(typed.whole("find", t("typed.find"), 1, MOST_NUMBER, null)))
                : PhotoSubject.BENCH;
    }

    /// The scope of photographs of something: of a find its hunt's, so that undo on its Mat takes them back.
    private static Desk.Step step(State known, PhotoSubject about, Event event) {
        Optional<Find> find = about.findId().flatMap(known.hunt()::find);
        return new Desk.Step(find.map(one -> one.hunt().number()).orElse(0L), event);
    }

    private static Function<State, Desk.Step> photoOff(Typed typed, Setting setting) {
        PhotoSubject about = about(typed);
        return known -> step(known, about, new ScopeEvent.PhotoTaken(typed.text("photo"), about));
    }

    /// A photograph that lies on the shelf.
    public record Shot(String id, int width, int height) {}

    /// Photographs that lie on the shelf enter the record.
    public static Action.Answer photographs(
            Desk desk, Setting setting, List<Shot> shots, PhotoSubject about, String caption) {
        List<Event> kept = shots.stream()
                .<Event>map(shot -> new ScopeEvent.PhotoKept(shot.id, shot.width, shot.height, about, caption))
                .toList();
        Action photographs = new Action(
                "photographs",
                List.of(),
                (typed, now) ->
                        known -> step(known, about, kept.size() == 1 ? kept.getFirst() : new Event.Batch(kept)));
        return photographs.perform(desk, setting, Fields.of(Map.of()), "");
    }

    /// Rows of a file of varieties, all or none; a row as the catalogue has it already changes nothing.
    public static Action.Answer varieties(Desk desk, Setting setting, List<Variety> rows, String raw) {
        Action varieties = new Action("varieties", List.of(), (typed, now) -> known -> {
            VarietyBook book = setting.varieties().book(known.scope());
            return new Desk.Step(
                    0,
                    new Event.Batch(rows.stream()
                            .filter(one ->
                                    !book.variety(one.key()).map(one::equals).orElse(false))
                            .<Event>map(one -> new ScopeEvent.VarietyWritten(one.key(), one.cells()))
                            .toList()));
        });
        return varieties.perform(desk, setting, Fields.of(Map.of()), raw);
    }
}
