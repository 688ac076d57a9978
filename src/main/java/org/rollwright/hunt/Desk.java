package org.rollwright.hunt;

import static org.rollwright.text.Texts.t;

import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.locks.ReentrantReadWriteLock;
import java.util.function.Function;

/// Where an event becomes durable and then visible, in this order. Thread-safe.
public final class Desk {
    /// What came of recording something.
    public sealed interface Outcome {
        /// It is on disk and in the state.
        record Kept(Entry entry) implements Outcome {}

        /// It contradicts the state; nothing was written.
        record Refused(Refusal refusal) implements Outcome {}
    }

    private static final long NO_SCOPE = -1;

    private final Journal journal;
    private final InstantSource clock;
    private final ReentrantReadWriteLock lock = new ReentrantReadWriteLock();
    private final List<java.util.function.Consumer<Entry>> listeners = new CopyOnWriteArrayList<>();
    private Logbook book;

    /// Opens a desk over a journal.
    ///
    /// @param start a state already folded up to some position, for example from a snapshot; the journal's
    ///     later entries are folded in here, and the whole journal when one of them undoes something older
    public Desk(Journal journal, InstantSource clock, Logbook start) {
        this.journal = journal;
        this.clock = clock;
        boolean[] needsAll = new boolean[1];
        journal.read(start.last(), entry -> {
            needsAll[0] |= !start.knowsStepOf(entry);
            if (!needsAll[0]) {
                start.apply(entry);
            }
        });
        this.book = needsAll[0] ? refold(journal, NO_SCOPE) : start;
    }

    /// Reads the state. The function must not keep what belongs to the logbook.
    public <T> T read(Function<Logbook, T> reader) {
        lock.readLock().lock();
        try {
            return reader.apply(book);
        } finally {
            lock.readLock().unlock();
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
    public Outcome record(long scope, String raw, Function<Logbook, Event> maker) {
        return recordAt(clock.instant(), raw, book -> new Step(scope, maker.apply(book)));
    }

    /// As [#record], at a given instant, for imports and scripts, which tell of the past; the function also
    /// says where it belongs, for a hunt that gets its number here.
    public Outcome recordAt(Instant at, String raw, Function<Logbook, Step> maker) {
        Entry entry;
        lock.writeLock().lock();
        try {
            Step step = maker.apply(book);
            Optional<Refusal> refusal =
                    Bounds.refuse(at, raw, step.event()).or(() -> Checks.refuse(book, step.scope(), step.event()));
            if (refusal.isPresent()) {
                return new Outcome.Refused(refusal.get());
            }
            entry = new Entry(book.last() + 1, at, step.scope(), raw, step.event());
            journal.append(entry);
            book.apply(entry);
        } finally {
            lock.writeLock().unlock();
        }
        listeners.forEach(listener -> listener.accept(entry));
        return new Outcome.Kept(entry);
    }

    /// Takes back the last step of a scope.
    public Outcome undo(long scope, String raw) {
        return step(scope, raw, true);
    }

    /// Brings back the step undone last in a scope, unless something was recorded since.
    public Outcome redo(long scope, String raw) {
        return step(scope, raw, false);
    }

    private Outcome step(long scope, String raw, boolean back) {
        Entry entry;
        lock.writeLock().lock();
        try {
            Optional<Entry> target = back ? book.undoable(scope) : book.redoable(scope);
            if (target.isEmpty() && back && book.mayHaveOlderSteps(scope)) {
                deepen(scope);
                target = book.undoable(scope);
            }
            if (target.isEmpty()) {
                return new Outcome.Refused(
                        back
                                ? new Refusal(
                                        t("hunt.there-is-nothing-to-undo"), t("hunt.every-earlier-step-is-already"))
                                : new Refusal(t("hunt.there-is-nothing-to-redo"), t("hunt.only-a-step-just-undone")));
            }
            Optional<Refusal> refusal = back
                    ? Checks.refuseUndo(book, target.get())
                    : Checks.refuse(book, scope, target.get().event());
            if (refusal.isPresent()) {
                return new Outcome.Refused(refusal.get());
            }
            long seq = target.get().seq();
            entry = new Entry(
                    book.last() + 1, clock.instant(), scope, raw, back ? new Event.Undone(seq) : new Event.Redone(seq));
            journal.append(entry);
            book.apply(entry);
        } finally {
            lock.writeLock().unlock();
        }
        listeners.forEach(listener -> listener.accept(entry));
        return new Outcome.Kept(entry);
    }

    /// Folds the journal anew so that steps older than memory (or than the snapshot) can be undone in a scope.
    private void deepen(long scope) {
        book = refold(journal, scope);
    }

    /// A fold of the whole journal in which only entries that still count were applied, and the scope's
    /// inverses kept.
    static Logbook refold(Journal journal, long scope) {
        List<Entry> all = new ArrayList<>();
        journal.read(0, all::add);
        Set<Long> undone = new HashSet<>();
        Map<Long, Deque<Entry>> redo = new HashMap<>();
        for (Entry entry : all) {
            Deque<Entry> own = redo.computeIfAbsent(entry.scope(), key -> new ArrayDeque<>());
            if (entry.event() instanceof Event.Undone step) {
                undone.add(step.target());
                own.addLast(all.get((int) step.target() - 1));
            } else if (entry.event() instanceof Event.Redone step) {
                undone.remove(step.target());
                own.removeLast();
            } else {
                own.clear();
            }
        }
        Logbook fresh = new Logbook();
        fresh.keepAllSteps(scope);
        for (Entry entry : all) {
            boolean counts = !undone.contains(entry.seq())
                    && !(entry.event() instanceof Event.Undone)
                    && !(entry.event() instanceof Event.Redone);
            if (counts) {
                fresh.apply(entry);
            } else {
                fresh.passOver(entry);
            }
        }
        redo.forEach(fresh::redoable);
        return fresh;
    }

    /// Is told of every entry once it is durable and visible, in no particular thread.
    ///
    /// @return a handle that ends the subscription
    public Runnable listen(java.util.function.Consumer<Entry> listener) {
        listeners.add(listener);
        return () -> listeners.remove(listener);
    }
}
