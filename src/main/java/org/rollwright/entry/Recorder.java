package org.rollwright.entry;

import static org.rollwright.text.Texts.t;

import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.Selection;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Refusal;
import org.rollwright.desk.Desk;
import org.rollwright.desk.State;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.Disposition;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.FindId;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.hunt.HuntId;
import org.rollwright.hunt.Roll;
import org.rollwright.hunt.Watch;
import org.rollwright.journal.Declined;
import org.rollwright.journal.Event;

/// Takes an entry line to the journal: reads it, turns it into one event, has it recorded. One line is one step
/// of undo.
///
/// Thread-safe.
///
/// Long because the commands of a line take roll, numbers and time from each other while they are translated; parts
/// would share that state.
public final class Recorder {
    /// What came of a line.
    public sealed interface Outcome {
        /// It is durable.
        ///
        /// @param seq position in the journal
        record Recorded(long seq, Event event) implements Outcome {}

        /// Nothing was recorded; the reading says what to do.
        record NotClear(Reading reading) implements Outcome {}

        /// Nothing was recorded, because it contradicts what is already there.
        record Refused(Refusal refusal) implements Outcome {}
    }

    private final Desk desk;
    private final Catalog catalog;
    private final InstantSource clock;
    private final CheckList checkList;

    public Recorder(Desk desk, Catalog catalog, InstantSource clock) {
        this(desk, catalog, clock, CheckList.NONE);
    }

    public Recorder(Desk desk, Catalog catalog, InstantSource clock, CheckList checkList) {
        this.desk = desk;
        this.catalog = catalog;
        this.clock = clock;
        this.checkList = checkList;
    }

    /// Reads and records a line of a hunt.
    public Outcome record(HuntId hunt, String line) {
        return recordAt(clock.instant(), hunt, line);
    }

    /// As [#record], for a page that shows the state at some position: a look at the state comes first, under the
    /// desk's lock, and undo takes back nothing later than the position.
    ///
    /// @param look may throw; then nothing is recorded
    public Outcome record(HuntId hunt, String line, long asOf, Consumer<State> look) {
        return recordAt(clock.instant(), hunt, line, asOf, look);
    }

    /// As [#record], at a given instant: for scripts, which tell of the past.
    public Outcome recordAt(Instant at, HuntId hunt, String line) {
        return recordAt(at, hunt, line, Long.MAX_VALUE, book -> {});
    }

    private Outcome recordAt(Instant at, HuntId hunt, String line, long asOf, Consumer<State> look) {
        Optional<EntryContext> context =
                desk.read(book -> book.hunt().hunt(hunt).map(known -> context(book, known)));
        if (context.isEmpty()) {
            return new Outcome.Refused(new Refusal(t("entry.hunt-unknown", hunt), t("entry.hunts-list")));
        }
        Reading reading = EntryParser.parse(line, context.get());
        if (!(reading instanceof Reading.Clear clear)) {
            return new Outcome.NotClear(reading);
        }
        if (clear.commands().size() == 1 && clear.commands().getFirst() instanceof Command.Undo) {
            return outcome(desk.undo(hunt.number(), line, asOf));
        }
        if (clear.commands().size() == 1 && clear.commands().getFirst() instanceof Command.Redo) {
            return outcome(desk.redo(hunt.number(), line));
        }
        try {
            return outcome(desk.recordAt(at, line, book -> {
                look.accept(book);
                return new Desk.Step(hunt.number(), new Translation(book, hunt, at, checkList).event(clear.commands()));
            }));
        } catch (Declined e) {
            return new Outcome.Refused(e.why().getFirst());
        }
    }

    private static Outcome outcome(Desk.Outcome outcome) {
        return switch (outcome) {
            case Desk.Outcome.Kept kept ->
                new Outcome.Recorded(kept.entry().seq(), kept.entry().event());
            case Desk.Outcome.Refused refused -> new Outcome.Refused(refused.refusal());
        };
    }

    /// One of several lines recorded together: a find told in a recording, a weight.
    ///
    /// @param at when it happened
    /// @param box which box of the hunt, from 1
    /// @param roll within the box; 0 for none in particular
    /// @param line blank for a roll that was searched and held nothing
    public record Told(Instant at, int box, int roll, String line) {}

    /// What came of several lines.
    public sealed interface Together {
        /// All of them are durable, as one step of undo.
        record Recorded(long seq) implements Together {}

        /// None was recorded, because of one.
        ///
        /// @param row which one, from 0; -1 for all
        record Wrong(int row, String wrong, String right) implements Together {}
    }

    /// Records finds and weights told elsewhere, in order of box and roll, as one step of undo or not at all.
    public Together recordTogether(HuntId hunt, String raw, List<Told> told) {
        Optional<EntryContext> context =
                desk.read(book -> book.hunt().hunt(hunt).map(known -> context(book, known)));
        if (context.isEmpty()) {
            return new Together.Wrong(-1, t("entry.hunt-unknown", hunt), t("entry.hunts-list"));
        }
        List<List<Command>> commands = new ArrayList<>();
        for (int row = 0; row < told.size(); row++) {
            switch (EntryParser.parse(told.get(row).line(), context.get())) {
                case Reading.Clear clear -> commands.add(clear.commands());
                case Reading.Empty empty -> commands.add(List.of());
                case Reading.Problem problem -> {
                    return new Together.Wrong(row, problem.wrong(), problem.right());
                }
                case Reading.Choose choose -> {
                    return new Together.Wrong(
                            row,
                            choose.question(),
                            t(
                                    "entry.write-one-of",
                                    String.join(
                                            ", ",
                                            choose.options().stream()
                                                    .map(Reading.Option::label)
                                                    .toList())));
                }
            }
            boolean others = commands.getLast().stream()
                    .anyMatch(one -> !(one instanceof Command.Found) && !(one instanceof Command.Weigh));
            if (others) {
                return new Together.Wrong(row, t("entry.only-finds"), t("entry.find-form"));
            }
        }
        int[] row = {-1};
        try {
            Outcome outcome = outcome(desk.recordAt(clock.instant(), raw, book -> {
                Translation translation = new Translation(book, hunt, clock.instant(), checkList);
                List<Event> events = new ArrayList<>();
                for (row[0] = 0; row[0] < told.size(); row[0]++) {
                    translation.told(told.get(row[0]), commands.get(row[0]), events);
                }
                row[0] = -1;
                return new Desk.Step(hunt.number(), new Event.Batch(events));
            }));
            return switch (outcome) {
                case Outcome.Recorded recorded -> new Together.Recorded(recorded.seq());
                case Outcome.Refused refused ->
                    new Together.Wrong(
                            -1, refused.refusal().wrong(), refused.refusal().right());
                case Outcome.NotClear notClear -> throw new IllegalStateException("a batch is not read");
            };
        } catch (Declined e) {
            return new Together.Wrong(
                    row[0], e.why().getFirst().wrong(), e.why().getFirst().right());
        }
    }

    /// What a line of this hunt is read against.
    public EntryContext context(State book, Hunt hunt) {
        Denomination denomination = hunt.box()
                .or(() -> hunt.boxes().stream().findFirst())
                .flatMap(book.hunt()::box)
                .map(Box::denomination)
                .orElse(Denomination.US_CENT);
        return context(denomination, hunt.watches());
    }

    /// What the boxes of a hunt hold, in their order; at least one.
    public List<Denomination> denominations(State book, Hunt hunt) {
        List<Denomination> boxes = hunt.boxes().stream()
                .flatMap(box -> book.hunt().box(box).stream())
                .map(Box::denomination)
                .toList();
        return boxes.isEmpty() ? List.of(context(book, hunt).denomination()) : boxes;
    }

    /// What is to be said of a find typed now: the roll in hand was skipped, or no roll is open in a box that has some.
    /// Blank when it lies in a roll that is searched, or in a bag.
    public static String withoutRoll(State book, Hunt hunt) {
        Optional<Box> box = hunt.box().flatMap(book.hunt()::box);
        int roll = hunt.roll();
        if (box.map(known -> known.roll(roll)).filter(Roll::left).isPresent()) {
            return skipped(roll).toString();
        }
        return roll == 0 && box.filter(known -> known.details().rolls() > 0).isPresent() ? t("entry.in-no-roll") : "";
    }

    private static Refusal skipped(int roll) {
        return new Refusal(t("entry.roll-was-skipped", roll), t("entry.next-or-take-up", roll));
    }

    /// What a line is read against outside a hunt.
    public EntryContext context(Denomination denomination, List<Watch> watches) {
        List<Selection> selections = new ArrayList<>();
        for (Watch watch : watches) {
            if (Selection.parse(watch.rule()) instanceof Selection.Parsed.Good good) {
                selections.add(good.selection());
            }
        }
        int year = clock.instant().atOffset(java.time.ZoneOffset.UTC).getYear();
        return new EntryContext(catalog, denomination, selections, year);
    }

    /// The commands of one line, given their numbers and places under the desk's lock.
    private static final class Translation {
        private final State book;
        private final Hunt hunt;
        private final CheckList checkList;
        private Instant at;
        private @Nullable BoxId box;
        private int roll;
        private boolean over;
        private long nextFind;
        private int nextOrdinal;
        private @Nullable FindId lastFind;
        /// Rolls put back by this very line.
        private final Set<Integer> putBack = new HashSet<>();
        /// Rolls taken up by it.
        private final Set<Integer> takenUp = new HashSet<>();
        /// Whether it was told afterwards, where nobody can be asked which roll is in hand.
        private boolean telling;

        Translation(State book, HuntId id, Instant at, CheckList checkList) {
            this.checkList = checkList;
            this.book = book;
            this.hunt = book.hunt().hunt(id).orElseThrow();
            this.at = at;
            this.box = hunt.box().orElse(null);
            this.roll = hunt.roll();
            this.over = hunt.finished().isPresent();
            this.nextFind = book.hunt().nextFind().number();
            this.nextOrdinal = book.hunt().nextOrdinal(id);
            this.lastFind = hunt.finds().isEmpty() ? null : hunt.finds().getLast();
        }

        Event event(List<Command> commands) {
            List<Event> events = new ArrayList<>();
            for (Command command : commands) {
                if (command instanceof Command.PutRest && commands.size() > 1) {
                    // it speaks of what is there before the line
                    throw together("put all");
                }
                translate(command, events);
            }
            return events.size() == 1 ? events.getFirst() : new Event.Batch(events);
        }

        /// What was told of one place: the roll is opened when it is another one, then what was found there.
        void told(Told told, List<Command> commands, List<Event> into) {
            at = told.at();
            BoxId wanted = nth(told.box());
            if (told.roll() > 0 && (!wanted.equals(box) || told.roll() != roll || isLeft(roll))) {
                if (!wanted.equals(box)) {
                    putBack.clear();
                    takenUp.clear();
                }
                box = wanted;
                open(told.roll(), into);
            }
            telling = true;
            commands.forEach(command -> translate(command, into));
        }

        private void translate(Command command, List<Event> into) {
            if (over && changesSearch(command)) {
                throw new Declined(t("entry.this-hunt-is-finished"), t("entry.resume"));
            }
            switch (command) {
                case Command.Found found -> {
                    if (roll > 0 && isLeft(roll) && !telling && !found.draft().ender()) {
                        // the hunter is a roll further on, and forgot to say so
                        throw new Declined(skipped(roll));
                    }
                    into.add(new HuntEvent.FindLogged(logged(found.draft())));
                }
                case Command.NextRoll next -> nextRoll(into);
                case Command.GoToRoll go -> goTo(go, into);
                case Command.GoToBox go -> goToBox(go.ordinal(), into);
                case Command.LeaveRoll leave -> {
                    @Nullable Integer said = leave.roll();
                    int left = said == null ? roll : said;
                    into.add(new HuntEvent.RollLeft(box(), left));
                    putBack.add(left);
                }
                case Command.SawEnders seen ->
                    into.add(new HuntEvent.EndersSeen(box(), seen.matching(), seen.visible()));
                case Command.Weigh weigh ->
                    into.add(new HuntEvent.Weighed(hunt.id(), box(), weigh.mass(), weigh.what()));
                case Command.Mark mark -> into.add(new HuntEvent.Marked(hunt.id(), mark.text()));
                case Command.Note note -> into.add(new HuntEvent.Noted(hunt.id(), note.text()));
                case Command.Checked checked -> checked(checked, into);
                case Command.WatchFor watch -> into.add(new HuntEvent.WatchBegan(hunt.id(), watch.watch()));
                case Command.StopWatching stop -> into.add(new HuntEvent.WatchEnded(hunt.id(), stop.name()));
                case Command.Fix fix -> {
                    Find find = find(fix.find());
                    into.add(new HuntEvent.FindCorrected(
                            find.id(),
                            fix.draft().facts(),
                            fix.draft().count(),
                            fix.draft().ender()));
                    if (fix.draft().disposition() != find.disposition()) {
                        into.add(new HuntEvent.FindDisposed(
                                find.id(), fix.draft().disposition()));
                    }
                }
                case Command.Move move -> {
                    Find find = find(move.find());
                    @Nullable Integer ordinal = move.box();
                    if (isSkipped(ordinal == null ? find.box() : nth(ordinal), move.roll())) {
                        throw new Declined(skipped(move.roll()));
                    }
                    into.add(new HuntEvent.FindMoved(
                            find.id(), ordinal == null ? find.box() : nth(ordinal), move.roll()));
                }
                case Command.Split split ->
                    into.add(new HuntEvent.FindSplit(
                            find(split.find()).id(), new FindId(nextFind++), nextOrdinal++, split.coins()));
                case Command.Drop drop ->
                    into.add(new HuntEvent.FindDeleted(find(drop.find()).id()));
                case Command.Put put -> put(find(put.find()), put.disposition(), into);
                case Command.PutRest rest -> {
                    List<Find> open = hunt.finds().stream()
                            .map(book.hunt()::known)
                            .filter(find -> book.undecided(find) > 0)
                            .toList();
                    if (open.isEmpty()) {
                        throw new Declined(t("entry.nothing-undecided"), t("entry.put-form"));
                    }
                    open.forEach(find -> put(find, rest.disposition(), into));
                }
                case Command.Finish finish -> {
                    over = true;
                    into.add(new HuntEvent.HuntFinished(hunt.id()));
                }
                case Command.Resume resume -> {
                    over = false;
                    into.add(new HuntEvent.HuntResumed(hunt.id()));
                }
                case Command.Undo undo -> throw together("undo");
                case Command.Redo redo -> throw together("redo");
            }
        }

        private void put(Find find, Disposition disposition, List<Event> into) {
            book.refuse(find, disposition).ifPresent(refusal -> {
                throw new Declined(refusal);
            });
            into.add(new HuntEvent.FindDisposed(find.id(), disposition));
        }

        private Declined together(String word) {
            return new Declined(t("entry.command-alone", word), t("entry.enter-it-alone"));
        }

        private static boolean changesSearch(Command command) {
            return command instanceof Command.Found
                    || command instanceof Command.NextRoll
                    || command instanceof Command.GoToRoll
                    || command instanceof Command.GoToBox
                    || command instanceof Command.WatchFor
                    || command instanceof Command.StopWatching;
        }

        private Find logged(Command.FindDraft draft) {
            Find find = new Find(
                    new FindId(nextFind++),
                    hunt.id(),
                    nextOrdinal++,
                    box(),
                    roll,
                    draft.facts(),
                    draft.count(),
                    draft.ender(),
                    draft.disposition(),
                    at);
            lastFind = find.id();
            return find;
        }

        private void goTo(Command.GoToRoll go, List<Event> into) {
            @Nullable Integer coins = go.coins();
            if (go.roll() != roll || coins == null || isLeft(roll)) {
                open(go.roll(), into);
            }
            if (coins != null) {
                into.add(new HuntEvent.RollCounted(box(), go.roll(), coins));
            }
        }

        /// The next roll that was not put back; past the last one, the first of the hunt's next box.
        private void nextRoll(List<Event> into) {
            int rolls =
                    book.hunt().box(box()).map(known -> known.details().rolls()).orElse(0);
            int place = hunt.boxes().indexOf(box());
            int next = notPutBack(roll + 1, rolls);
            if (rolls > 0 && next > rolls && place + 1 < hunt.boxes().size()) {
                box = hunt.boxes().get(place + 1);
                putBack.clear();
                takenUp.clear();
                int there = book.hunt()
                        .box(box())
                        .map(known -> known.details().rolls())
                        .orElse(0);
                open(Math.min(notPutBack(1, there), Math.max(1, there)), into);
            } else {
                open(next, into);
            }
        }

        private int notPutBack(int from, int rolls) {
            int next = from;
            while (next <= rolls && (putBack.contains(next) || isPutBack(next))) {
                next++;
            }
            return next;
        }

        private boolean isPutBack(int number) {
            return isSkipped(box(), number);
        }

        private boolean isSkipped(BoxId in, int number) {
            return book.hunt()
                    .box(in)
                    .map(known -> known.roll(number))
                    .filter(Roll::left)
                    .isPresent();
        }

        private boolean isLeft(int number) {
            return putBack.contains(number) || (!takenUp.contains(number) && isPutBack(number));
        }

        private void open(int wanted, List<Event> into) {
            roll = wanted;
            putBack.remove(wanted);
            takenUp.add(wanted);
            into.add(new HuntEvent.RollOpened(hunt.id(), box(), roll));
        }

        private void goToBox(int ordinal, List<Event> into) {
            box = nth(ordinal);
            int last = book.hunt()
                    .box(box())
                    .map(known -> known.rolls().stream()
                            .filter(one -> one.searched() || one.open())
                            .mapToInt(Roll::number)
                            .max()
                            .orElse(0))
                    .orElse(0);
            int rolls =
                    book.hunt().box(box()).map(known -> known.details().rolls()).orElse(0);
            roll = rolls == 0 ? 0 : Math.max(1, last);
            putBack.clear();
            takenUp.clear();
            takenUp.add(roll);
            into.add(new HuntEvent.RollOpened(hunt.id(), box(), roll));
        }

        private BoxId nth(int ordinal) {
            if (ordinal < 1 || ordinal > hunt.boxes().size()) {
                throw new Declined(
                        t("entry.this-hunt-has-no-such-box", ordinal),
                        t("entry.box-range", hunt.boxes().size()));
            }
            return hunt.boxes().get(ordinal - 1);
        }

        private BoxId box() {
            BoxId now = box;
            if (now == null) {
                throw new Declined(t("entry.this-hunt-has-no-box"), t("entry.add-one-first"));
            }
            return now;
        }

        private Find find(int ordinal) {
            return book.hunt()
                    .find(hunt.id(), ordinal)
                    .orElseThrow(() -> new Declined(t("entry.find-unknown", ordinal), t("entry.find-numbers")));
        }

        private void checked(Command.Checked checked, List<Event> into) {
            @Nullable Integer ordinal = checked.find();
            FindId id = ordinal == null ? lastFind : find(ordinal).id();
            if (id == null) {
                throw new Declined(t("entry.nothing-to-check"), t("entry.log-the-coin-first"));
            }
            List<String> varieties = checked.varieties();
            if (varieties.isEmpty()) {
                varieties = book.hunt()
                        .find(id)
                        .map(find -> checkList.of(book, find.facts().identity()))
                        .filter(keys -> !keys.isEmpty())
                        .orElse(List.of("all on the prompt"));
            }
            varieties.forEach(variety -> into.add(new HuntEvent.Checked(hunt.id(), id, variety)));
        }
    }
}
