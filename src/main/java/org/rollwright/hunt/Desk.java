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
import java.util.function.Predicate;
import org.rollwright.coin.Limits;

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

    /// Entries before a snapshot that may be read again at the start, and what is looked through for a late change.
    private static final int LOOKED_BACK = 1_000;

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
        long image = start.last();
        List<LogbookImage.TakenBack> takenBack = start.imagedTakenBack;
        long from = takenBack.stream()
                .flatMap(scope -> scope.entries().stream())
                .mapToLong(seq -> seq - 1)
                .filter(seq -> seq >= image - LOOKED_BACK)
                .min()
                .orElse(image);
        Map<Long, Entry> before = new HashMap<>();
        journal.read(from, entry -> {
            if (entry.seq() <= image) {
                before.put(entry.seq(), entry);
                return;
            }
            if (entry.seq() == image + 1) {
                redoable(takenBack, before, start);
            }
            needsAll[0] |= !start.knowsStepOf(entry);
            if (!needsAll[0]) {
                start.apply(entry);
            }
        });
        if (start.last() == image) {
            redoable(takenBack, before, start);
        }
        this.book = needsAll[0] ? refold(journal, NO_SCOPE) : start;
    }

    /// Tells a state from an image what was taken back shortly before it, so that redo outlives a restart. What lies
    /// further back than was looked is at the bottom of its stack: the journal is folded anew when it is asked for.
    private static void redoable(List<LogbookImage.TakenBack> takenBack, Map<Long, Entry> before, Logbook start) {
        for (LogbookImage.TakenBack scope : takenBack) {
            Deque<Entry> known = new ArrayDeque<>();
            for (Long seq : scope.entries().reversed()) {
                Entry entry = before.get(seq);
                if (entry == null) {
                    break;
                }
                known.addFirst(entry);
            }
            start.redoable(scope.scope(), known);
        }
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
        Instant now = clock.instant();
        if (!Limits.isMoment(now)) {
            return new Outcome.Refused(new Refusal(t("hunt.the-clock-says", now), t("hunt.set-the-clock")));
        }
        return recordAt(now, raw, book -> new Step(scope, maker.apply(book)));
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

    /// When something was said last of what a predicate picks out, taken back or brought again, among the
    /// latest entries.
    public Optional<Instant> lastTouched(Predicate<Event> about) {
        Map<Long, Entry> known = new HashMap<>();
        Instant[] last = new Instant[1];
        long from = Math.max(0, read(Logbook::last) - LOOKED_BACK);
        journal.read(from, entry -> {
            known.put(entry.seq(), entry);
            long target = entry.event() instanceof Event.Undone undone
                    ? undone.target()
                    : entry.event() instanceof Event.Redone redone ? redone.target() : entry.seq();
            Entry said = known.get(target);
            boolean touches = said != null
                    && (said.event() instanceof Event.Batch batch ? batch.events() : List.of(said.event()))
                            .stream().anyMatch(about);
            if (touches) {
                last[0] = entry.at();
            }
        });
        return Optional.ofNullable(last[0]);
    }

    /// Takes back the last step of a scope.
    public Outcome undo(long scope, String raw) {
        return step(scope, raw, true, Long.MAX_VALUE);
    }

    /// As [#undo], for a page printed at some position of the journal: refused when the scope has a later entry,
    /// because the step taken back would be another than the person saw.
    public Outcome undo(long scope, String raw, long asOf) {
        return step(scope, raw, true, asOf);
    }

    /// Brings back the step undone last in a scope, unless something was recorded since.
    public Outcome redo(long scope, String raw) {
        return step(scope, raw, false, Long.MAX_VALUE);
    }

    private Outcome step(long scope, String raw, boolean back, long asOf) {
        Entry entry;
        lock.writeLock().lock();
        try {
            if (book.latest(scope) > asOf) {
                return new Outcome.Refused(
                        new Refusal(t("hunt.something-else-was-recorded-since"), t("hunt.look-at-what-it-was")));
            }
            Optional<Entry> target = back ? book.undoable(scope) : book.redoable(scope);
            if (target.isEmpty() && back && book.mayHaveOlderSteps(scope)) {
                deepen(scope);
                target = book.undoable(scope);
            }
            if (!back && book.mustFoldToRedo(target)) {
                deepen(scope);
                target = book.redoable(scope);
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
