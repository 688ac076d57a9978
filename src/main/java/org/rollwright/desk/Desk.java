package org.rollwright.desk;

import static org.rollwright.text.Texts.t;

import java.time.Instant;
import java.time.InstantSource;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.Supplier;
import org.rollwright.coin.Limits;
import org.rollwright.coin.Refusal;
import org.rollwright.hunt.HuntId;
import org.rollwright.journal.Bounds;
import org.rollwright.journal.Entry;
import org.rollwright.journal.Event;
import org.rollwright.journal.Journal;
import org.rollwright.journal.JournalException;

/// Where an event becomes durable and then visible, in this order. Thread-safe: one writes at a time, readers never
/// wait.
public final class Desk {
    /// What came of recording something.
    public sealed interface Outcome {
        /// It is on disk and in the state.
        record Kept(Entry entry) implements Outcome {}

        /// It contradicts the state; nothing was written.
        record Refused(Refusal refusal) implements Outcome {}
    }

    /// Entries that are looked through for a late change.
    private static final int LOOKED_BACK = 1_000;

    private final Journal journal;
    private final InstantSource clock;
    private final ReentrantLock writing = new ReentrantLock();
    private final List<Consumer<Entry>> listeners = new CopyOnWriteArrayList<>();
    private Timeline line;
    private volatile State state;

    /// Opens a desk over a journal.
    ///
    /// @param start a state already folded up to some position, for example from a snapshot; the journal's
    ///     later entries are folded in here, and the whole journal when one of them undoes something older
    public Desk(Journal journal, InstantSource clock, State start) {
        this.journal = journal;
        this.clock = clock;
        this.line = Timeline.of(journal::read, start);
        this.state = line.state();
    }

    /// Folds a journal anew, applying only what counts at its end.
    public static State fold(Journal journal) {
        return Timeline.whole(journal::read, null).state();
    }

    /// The position of the first entry that contradicts those before it, in a journal kept elsewhere.
    public static OptionalLong contradiction(List<Entry> journal) {
        long[] at = new long[1];
        try {
            Timeline.of(
                    (after, reader) -> journal.subList(Math.toIntExact(after), journal.size())
                            .forEach(entry -> {
                                at[0] = entry.seq();
                                reader.accept(entry);
                            }),
                    State.EMPTY);
            return OptionalLong.empty();
        } catch (IllegalStateException | IllegalArgumentException | NullPointerException e) {
            return OptionalLong.of(at[0]);
        }
    }

    /// The present state.
    public State state() {
        return state;
    }

    /// What a function makes of the present state.
    public <T> T read(Function<State, T> reader) {
        return reader.apply(state);
    }

    /// What a function makes of the present state while nothing is recorded, for what must be of one moment with the
    /// journal. It should be quick.
    public <T> T still(Function<State, T> reader) {
        writing.lock();
        try {
            return reader.apply(state);
        } finally {
            writing.unlock();
        }
    }

    /// What to record, and where it belongs.
    ///
    /// @param scope number of the hunt, or 0
    public record Step(long scope, Event event) {}

    /// Has a function look at the state and say what to record, all under one lock, so that numbers taken are
    /// free.
    ///
    /// @param scope number of the hunt it belongs to, or 0
    /// @param raw what was typed, word for word
    /// @throws JournalException when it could not be made durable; then nothing changed
    public Outcome record(long scope, String raw, Function<State, Event> maker) {
        Instant now = clock.instant();
        if (!Limits.isMoment(now)) {
            return new Outcome.Refused(new Refusal(t("hunt.the-clock-says", now), t("hunt.set-the-clock")));
        }
        return recordAt(now, raw, known -> new Step(scope, maker.apply(known)));
    }

    /// As [#record], at a given instant, for imports and scripts, which tell of the past; the function also
    /// says where it belongs, for a hunt that gets its number here.
    public Outcome recordAt(Instant at, String raw, Function<State, Step> maker) {
        return alone(() -> {
            Step step = maker.apply(state);
            Optional<Refusal> bound = Bounds.refuse(at, raw, step.event());
            if (bound.isPresent()) {
                return new Outcome.Refused(bound.get());
            }
            Entry entry = new Entry(state.last() + 1, at, step.scope(), raw, step.event());
            return switch (state.books().take(entry)) {
                case Books.Tried.Refused refused -> new Outcome.Refused(refused.refusal());
                case Books.Tried.Taken taken -> {
                    journal.append(entry);
                    line.add(entry, taken.books());
                    state = line.state();
                    yield new Outcome.Kept(entry);
                }
            };
        });
    }

    /// When something was said last of what a predicate picks out, taken back or brought again, among the
    /// latest entries. The journal is read by one thread at a time.
    public Optional<Instant> lastTouched(Predicate<Event> about) {
        Map<Long, Entry> known = new HashMap<>();
        Instant[] last = new Instant[1];
        long from = Math.max(0, state.last() - LOOKED_BACK);
        writing.lock();
        try {
            journal.read(from, entry -> {
                known.put(entry.seq(), entry);
                long target =
                        switch (entry.event()) {
                            case Event.Undone undone -> undone.target();
                            case Event.Redone redone -> redone.target();
                            default -> entry.seq();
                        };
                Entry said = known.get(target);
                if (said != null && Event.parts(said.event()).stream().anyMatch(about)) {
                    last[0] = entry.at();
                }
            });
        } finally {
            writing.unlock();
        }
        return Optional.ofNullable(last[0]);
    }

    /// Takes back the last step of a scope.
    public Outcome undo(long scope, String raw) {
        return undo(scope, raw, Long.MAX_VALUE);
    }

    /// As [#undo], for a page printed at some position of the journal: refused when the scope has a later entry,
    /// because the step taken back would be another than the person saw.
    public Outcome undo(long scope, String raw, long asOf) {
        return alone(() -> {
            if (state.steps().latest(scope) > asOf) {
                return refused(t("hunt.undo-changed-since"), t("hunt.undo-look-first"));
            }
            OptionalLong target = state.steps().undoable(scope);
            return target.isEmpty()
                    ? refused(t("hunt.undo-nothing"), t("hunt.undo-none-earlier"))
                    : step(scope, raw, new Event.Undone(target.getAsLong()));
        });
    }

    /// Brings back the step undone last in a scope, unless something was recorded since.
    public Outcome redo(long scope, String raw) {
        return alone(() -> {
            OptionalLong target = state.steps().redoable(scope);
            if (target.isEmpty()) {
                return refused(t("hunt.redo-empty"), t("hunt.redo-nothing"));
            }
            long seq = target.getAsLong();
            // what came since may stand in its way as if it were new
            Entry again = line.entry(seq).orElseGet(() -> journal.at(seq));
            return state.books().take(again) instanceof Books.Tried.Refused refused
                    ? new Outcome.Refused(refused.refusal())
                    : step(scope, raw, new Event.Redone(seq));
        });
    }

    private Outcome step(long scope, String raw, Event event) {
        Entry entry = new Entry(state.last() + 1, clock.instant(), scope, raw, event);
        Timeline next;
        try {
            next = line.with(entry).orElseGet(() -> Timeline.whole(journal::read, entry));
        } catch (Timeline.BuildsOn e) {
            long later = e.entry().scope();
            return refused(
                    later == 0 ? t("desk.a-later-step-builds-on") : t("desk.a-hunt-builds-on", new HuntId(later)),
                    t("desk.undo-that-first"));
        }
        journal.append(entry);
        line = next;
        state = line.state();
        return new Outcome.Kept(entry);
    }

    private static Outcome refused(String wrong, String right) {
        return new Outcome.Refused(new Refusal(wrong, right));
    }

    /// Has one write at a time, and tells the listeners when it is done.
    private Outcome alone(Supplier<Outcome> work) {
        Outcome outcome;
        writing.lock();
        try {
            outcome = work.get();
        } finally {
            writing.unlock();
        }
        if (outcome instanceof Outcome.Kept kept) {
            listeners.forEach(listener -> listener.accept(kept.entry()));
        }
        return outcome;
    }

    /// Is told of every entry once it is durable and visible, in no particular thread.
    ///
    /// @return a handle that ends the subscription
    public Runnable listen(Consumer<Entry> listener) {
        listeners.add(listener);
        return () -> listeners.remove(listener);
    }
}
