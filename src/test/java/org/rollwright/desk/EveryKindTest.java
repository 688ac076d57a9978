package org.rollwright.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.rollwright.text.Texts.t;

import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.stream.Stream;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.LongRange;
import org.rollwright.album.AlbumEvent;
import org.rollwright.cabinet.CabinetEvent;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.hunt.HuntId;
import org.rollwright.journal.Entry;
import org.rollwright.journal.Event;

/// Histories of every kind of event there is, as the classes tell it: whatever is taken, the state is the fold of what
/// counts and survives a snapshot; whatever is refused leaves no trace.
class EveryKindTest {
    /// Kinds that no state contradicts. Bounds still hold for them (BoundsTest).
    private static final Map<Class<? extends Event>, String> NEVER_REFUSED = Map.of(
            AlbumEvent.PolicyChanged.class, "a policy is a text, and none asks for anything that could be missing",
            CabinetEvent.PriceForgotten.class, "to forget what was not noted changes nothing");

    private final Set<String> taken = new TreeSet<>();
    private final Set<String> refused = new TreeSet<>();

    @Example
    void every_kind_is_taken_and_refused_somewhere_and_every_history_holds() {
        for (int seed = 0; seed < 40; seed++) {
            MemoryJournal journal = new MemoryJournal();
            Desk desk = new Desk(journal, () -> Histories.START, State.EMPTY);
            walk(desk, journal, new Random(seed), 400);
            holds(desk, journal, "seed " + seed);
        }
        Set<String> untaken = names(AnyEvents.KINDS);
        untaken.removeAll(taken);
        assertThat(untaken).as("kinds that no history took").isEmpty();
        Set<String> unrefused = names(AnyEvents.KINDS);
        unrefused.removeAll(refused);
        assertThat(unrefused)
                .as("kinds that no history had refused")
                .isEqualTo(names(List.copyOf(NEVER_REFUSED.keySet())));
    }

    private static Set<String> names(List<Class<? extends Event>> kinds) {
        Set<String> names = new TreeSet<>();
        kinds.forEach(kind -> names.add(kind.getSimpleName()));
        return names;
    }

    /// A history of any events, undo and redo in any scope, and steps as the bench takes them.
    private void walk(Desk desk, MemoryJournal journal, Random random, int steps) {
        for (int i = 0; i < steps; i++) {
            State before = desk.state();
            long last = journal.last();
            int choice = random.nextInt(30);
            if (choice < 6) {
                Histories.continued(desk, random, 1);
                continue;
            }
            Class<? extends Event> kind =
                    switch (choice) {
                        case 6, 7 -> Event.Undone.class;
                        case 8 -> Event.Redone.class;
                        case 9, 10 -> Event.Batch.class;
                        default -> AnyEvents.PLAIN.get(random.nextInt(AnyEvents.PLAIN.size()));
                    };
            long scope = AnyEvents.scope(random, before, kind);
            Desk.Outcome outcome;
            if (kind == Event.Undone.class) {
                outcome = desk.undo(scope, "<");
            } else if (kind == Event.Redone.class) {
                outcome = desk.redo(scope, ">");
            } else {
                Event event = new AnyEvents(random, before, scope).of(kind);
                outcome = desk.recordAt(Histories.START.plusSeconds(i), "", now -> new Desk.Step(scope, event));
            }
            if (outcome instanceof Desk.Outcome.Refused no) {
                // to be in the wrong hunt can happen to any kind, and says nothing of its own checks
                if (!no.refusal().right().equals(t("hunt.record-it-there"))) {
                    refused.add(kind.getSimpleName());
                }
                noTrace(desk, journal, before, last);
            } else {
                taken.add(kind.getSimpleName());
                assertThat(journal.last()).isEqualTo(last + 1);
                noNumberComesBack(before, desk.state());
            }
        }
    }

    /// What was given once is not given again, not even when the step that gave it was taken back.
    private static void noNumberComesBack(State before, State now) {
        List<Long> then = next(before);
        List<Long> next = next(now);
        for (int i = 0; i < then.size(); i++) {
            assertThat(next.get(i)).as("%s then, %s now", then, next).isGreaterThanOrEqualTo(then.get(i));
        }
        before.hunt().hunts().stream()
                .filter(hunt -> now.hunt().hunt(hunt.id()).isPresent())
                .forEach(hunt -> assertThat(now.hunt().nextOrdinal(hunt.id()))
                        .isGreaterThanOrEqualTo(before.hunt().nextOrdinal(hunt.id())));
    }

    private static List<Long> next(State state) {
        return List.of(
                state.hunt().nextBox().number(),
                state.hunt().nextHunt().number(),
                state.hunt().nextFind().number(),
                state.album().nextAlbum().number(),
                (long) state.cabinet().nextAdded().piece(),
                state.cabinet().nextPlace().number(),
                state.till().nextOrder().number());
    }

    /// States are immutable: the same one is there, so nothing of it changed, its next numbers neither.
    private static void noTrace(Desk desk, MemoryJournal journal, State before, long last) {
        assertThat(desk.state()).isSameAs(before);
        assertThat(journal.last()).isEqualTo(last);
    }

    private static void holds(Desk desk, MemoryJournal journal, String where) {
        State state = desk.state();
        String now = EveryPart.of(state);
        assertThat(EveryPart.of(Desk.fold(journal)))
                .as("%s: fold of what counts", where)
                .isEqualTo(now);
        assertThat(EveryPart.of(new Desk(journal, () -> Histories.START, State.EMPTY).state()))
                .as("%s: replay entry by entry", where)
                .isEqualTo(now);
        State again = State.of(State.Image.of(state));
        assertThat(EveryPart.of(again)).as("%s: through a snapshot", where).isEqualTo(now);
        assertThat(StateText.whole(again)).as("%s: through a snapshot", where).isEqualTo(StateText.whole(state));
    }

    @Property(tries = 20)
    void a_desk_goes_on_from_a_snapshot_as_if_it_had_never_stopped(@ForAll @LongRange(max = 1L << 40) long seed) {
        MemoryJournal journal = new MemoryJournal();
        Random random = new Random(seed);
        Desk desk = new Desk(journal, () -> Histories.START, State.EMPTY);
        walk(desk, journal, random, 100);
        State.Image image = State.Image.of(desk.state());
        Desk again = new Desk(journal, () -> Histories.START, State.of(image));
        walk(again, journal, random, 60);
        holds(again, journal, "seed " + seed);
        Desk late = new Desk(journal, () -> Histories.START, State.of(image));
        assertThat(EveryPart.of(late.state())).as("seed %d", seed).isEqualTo(EveryPart.of(again.state()));
    }

    @Property(tries = 60)
    void a_refused_batch_of_any_shape_leaves_no_trace(@ForAll @LongRange(max = 1L << 40) long seed) {
        MemoryJournal journal = new MemoryJournal();
        Random random = new Random(seed);
        Desk desk = new Desk(journal, () -> Histories.START, State.EMPTY);
        walk(desk, journal, random, 80);
        State before = desk.state();
        String text = EveryPart.of(before);
        long last = journal.last();
        long scope = random.nextInt(before.hunt().hunts().size() + 2);
        Event good = any(before, scope, random, event -> takes(before.books(), scope, event));
        Books after = taken(before.books(), scope, good);
        Event wrong = any(
                before, scope, random, event -> !takes(before.books(), scope, event) && !takes(after, scope, event));
        Event elsewhere =
                scope == 0 ? new HuntEvent.HuntFinished(new HuntId(1)) : new AlbumEvent.PolicyChanged("sound");
        for (Event bad : List.of(
                wrong,
                elsewhere,
                new Event.Batch(List.of(good)),
                new Event.Batch(List.of()),
                new Event.Undone(last),
                new Event.Redone(last))) {
            for (List<Event> parts :
                    List.of(List.of(bad), List.of(bad, good), List.of(good, bad), List.of(good, bad, good))) {
                assertThat(desk.recordAt(Histories.START, "", now -> new Desk.Step(scope, new Event.Batch(parts))))
                        .as("seed %d: %s in %d", seed, parts, scope)
                        .isInstanceOf(Desk.Outcome.Refused.class);
                noTrace(desk, journal, before, last);
            }
        }
        for (Event step : List.of(new Event.Undone(last), new Event.Redone(last))) {
            assertThatThrownBy(() -> desk.recordAt(Histories.START, "", now -> new Desk.Step(scope, step)))
                    .isInstanceOf(IllegalArgumentException.class);
            noTrace(desk, journal, before, last);
        }
        assertThat(EveryPart.of(desk.state())).as("seed %d", seed).isEqualTo(text);
        // numbers it wanted to give are still free
        assertThat(desk.recordAt(Histories.START, "", now -> new Desk.Step(scope, good)))
                .isInstanceOf(Desk.Outcome.Kept.class);
        holds(desk, journal, "seed " + seed);
    }

    /// Some event that fits; what is made at random does before long.
    private static Event any(State state, long scope, Random random, Predicate<Event> fits) {
        AnyEvents any = new AnyEvents(random, state, scope);
        return Stream.generate(any::plain)
                .limit(10_000)
                .filter(fits)
                .findFirst()
                .orElseThrow();
    }

    private static boolean takes(Books books, long scope, Event event) {
        return books.take(entry(scope, event)) instanceof Books.Tried.Taken;
    }

    private static Books taken(Books books, long scope, Event event) {
        return books.apply(entry(scope, event));
    }

    private static Entry entry(long scope, Event event) {
        return new Entry(1, Histories.START, scope, "", event);
    }

    @Example
    void steps_further_back_than_is_remembered_are_taken_back_and_brought_again() {
        int done = 0;
        for (int seed = 0; seed < 3; seed++) {
            MemoryJournal journal = new MemoryJournal();
            Random random = new Random(seed);
            Desk desk = new Desk(journal, () -> Histories.START, State.EMPTY);
            Histories.continued(desk, random, 60);
            walk(desk, journal, random, 150);
            for (int i = 0; i < 2 * Timeline.REMEMBERED + 10; i++) {
                desk.recordAt(Histories.START, "", now -> new Desk.Step(0, new AlbumEvent.PolicyChanged("sound")));
            }
            int hunts = (int) desk.state().hunt().nextHunt().number();
            for (int i = 0; i < 30; i++) {
                State before = desk.state();
                long last = journal.last();
                long scope = 1L + random.nextInt(Math.max(1, hunts - 1));
                Desk.Outcome outcome = random.nextInt(3) > 0 ? desk.undo(scope, "<") : desk.redo(scope, ">");
                if (outcome instanceof Desk.Outcome.Kept) {
                    done++;
                    holds(desk, journal, "seed " + seed);
                } else {
                    noTrace(desk, journal, before, last);
                }
            }
            // and what lies just before and behind the edge of what is remembered
            for (int i = 0; i < Timeline.REMEMBERED + 5; i++) {
                if (i % 40 == 0) {
                    walk(desk, journal, random, 3);
                }
                desk.recordAt(Histories.START, "", now -> new Desk.Step(0, new AlbumEvent.PolicyChanged("sound")));
            }
            walk(desk, journal, random, 60);
            holds(desk, journal, "seed " + seed);
        }
        assertThat(done).as("steps taken back or brought again").isGreaterThan(20);
    }
}
