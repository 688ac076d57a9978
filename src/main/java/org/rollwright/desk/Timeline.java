package org.rollwright.desk;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.rollwright.journal.Contradiction;
import org.rollwright.journal.Entry;
import org.rollwright.journal.Event;

/// The state and the way to it: the latest entries, each with the books before it.
///
/// To take a step back is to go on from the books before it with what was recorded since, as if it had never been; to
/// bring it again is to go on with it. The state is thus always the fold of the entries that count. A step that lies
/// further back than is remembered asks for a fold of the whole journal.
///
/// Not thread-safe: [Desk] guards it.
final class Timeline {
    /// Entries remembered at least, with the books before each; twice as many at most.
    static final int REMEMBERED = 1_000;

    /// An entry, the books before it, and whether it counts at present. Undo and redo themselves never count: they
    /// change no book.
    private record Moment(Entry entry, Books before, boolean counts) {
        Books after() {
            return counts ? before.apply(entry) : before.passOver(entry);
        }

        Moment counting(boolean now) {
            return new Moment(entry, before, now);
        }

        Moment from(Books books) {
            return new Moment(entry, books, counts);
        }
    }

    /// Where entries are read from, in order, beginning after a position; more than once.
    interface Source {
        void read(long after, Consumer<Entry> reader);
    }

    /// The step lies further back than is remembered.
    static final class TooFar extends RuntimeException {
        private static final long serialVersionUID = 1L;

        TooFar(long seq) {
            super("entry " + seq + " is not remembered", null, false, false);
        }
    }

    private List<Moment> moments = new ArrayList<>();
    private State state;

    private Timeline(State state) {
        this.state = state;
    }

    State state() {
        return state;
    }

    /// Folds the entries of a journal behind a state, and the whole journal when one of them takes back or brings again
    /// something older.
    ///
    /// @throws Contradiction when an entry contradicts those before it
    static Timeline of(Source journal, State start) {
        Timeline line = new Timeline(start);
        boolean[] tooFar = new boolean[1];
        journal.read(start.last(), entry -> {
            try {
                if (!tooFar[0]) {
                    line.add(entry);
                }
            } catch (TooFar e) {
                tooFar[0] = true;
            }
        });
        return tooFar[0] ? whole(journal, null) : line;
    }

    /// Folds a whole journal, applying only what counts at its end.
    ///
    /// @param step an undo or redo that follows the journal's last entry, null when none does
    /// @throws BuildsOn when an entry builds on what that step takes back
    static Timeline whole(Source journal, @Nullable Entry step) {
        BitSet undone = new BitSet();
        journal.read(0, entry -> mark(undone, entry));
        if (step != null) {
            mark(undone, step);
        }
        Timeline line = new Timeline(State.EMPTY);
        journal.read(0, entry -> {
            try {
                line.add(entry, !isStep(entry.event()) && !undone.get(Math.toIntExact(entry.seq())));
            } catch (Contradiction e) {
                throw step == null ? e : new BuildsOn(entry, e);
            }
        });
        if (step != null) {
            line.add(step, false);
        }
        return line;
    }

    private static void mark(BitSet undone, Entry entry) {
        if (entry.event() instanceof Event.Undone step) {
            undone.set(Math.toIntExact(earlier(entry, step.target())));
        } else if (entry.event() instanceof Event.Redone step) {
            undone.clear(Math.toIntExact(earlier(entry, step.target())));
        }
    }

    private static long earlier(Entry step, long target) {
        if (target < 1 || target >= step.seq()) {
            throw new Contradiction("entry " + step.seq() + " speaks of entry " + target + ", which is none before it");
        }
        return target;
    }

    private static boolean isStep(Event event) {
        return event instanceof Event.Undone || event instanceof Event.Redone;
    }

    /// Folds one entry in.
    ///
    /// @throws TooFar when it takes back or brings again what is not remembered
    /// @throws Contradiction when it contradicts the state
    void add(Entry entry) {
        switch (entry.event()) {
            case Event.Undone step -> step(entry, step.target(), false);
            case Event.Redone step -> step(entry, step.target(), true);
            default -> add(entry, true);
        }
    }

    private void add(Entry entry, boolean counts) {
        Moment moment = new Moment(entry, state.books(), counts);
        remember(moment, state.after(entry, moment.after()));
    }

    /// Takes an entry in of which the books after it are known.
    void add(Entry entry, Books after) {
        remember(new Moment(entry, state.books(), true), state.after(entry, after));
    }

    private void remember(Moment moment, State now) {
        if (moments.size() == 2 * REMEMBERED) {
            moments = new ArrayList<>(moments.subList(REMEMBERED, moments.size()));
        }
        moments.add(moment);
        state = now;
    }

    /// The timeline with an undo or redo; empty when what it takes back or brings again is not remembered.
    ///
    /// @throws BuildsOn when a later entry builds on what is taken back
    Optional<Timeline> with(Entry step) {
        Timeline next = new Timeline(state);
        next.moments = new ArrayList<>(moments);
        try {
            next.add(step);
            return Optional.of(next);
        } catch (TooFar e) {
            return Optional.empty();
        }
    }

    private void step(Entry entry, long target, boolean counts) {
        int at = place(earlier(entry, target));
        if (at < 0) {
            throw new TooFar(target);
        }
        List<Moment> anew = new ArrayList<>(moments.subList(0, at));
        Moment changed = moments.get(at).counting(counts);
        anew.add(changed);
        Books books = changed.after();
        for (Moment later : moments.subList(at + 1, moments.size())) {
            Moment from = later.from(books);
            anew.add(from);
            try {
                books = from.after();
            } catch (Contradiction e) {
                throw new BuildsOn(later.entry, e);
            }
        }
        State now = state.after(entry, books);
        moments = anew;
        remember(new Moment(entry, books, false), now);
    }

    /// A later entry builds on what was to be taken back.
    static final class BuildsOn extends IllegalStateException {
        private static final long serialVersionUID = 1L;
        private final transient Entry entry;

        BuildsOn(Entry entry, Contradiction cause) {
            super("entry " + entry.seq() + " builds on what is taken back: " + cause.getMessage(), cause);
            this.entry = entry;
        }

        Entry entry() {
            return entry;
        }
    }

    /// An entry that is remembered.
    Optional<Entry> entry(long seq) {
        int at = place(seq);
        return at < 0 ? Optional.empty() : Optional.of(moments.get(at).entry);
    }

    private int place(long seq) {
        if (moments.isEmpty()) {
            return -1;
        }
        long at = seq - moments.getFirst().entry.seq();
        return at < 0 || at >= moments.size() ? -1 : (int) at;
    }
}
