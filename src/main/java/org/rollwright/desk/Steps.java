package org.rollwright.desk;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import org.rollwright.journal.Contradiction;
import org.rollwright.journal.Entry;
import org.rollwright.journal.Event;
import org.rollwright.journal.Growing;
import org.rollwright.journal.Register;

/// Which entries of each scope count at present, and which could be brought back: by their positions. Immutable.
final class Steps {
    static final Steps NONE = new Steps(Register.empty());

    /// Undo and redo of one hunt, or of everything outside hunts.
    ///
    /// @param done entries that count, in order
    /// @param undone entries that could be brought back, the next one last
    /// @param latest position of its last entry, whatever it was
    record Scope(List<Long> done, List<Long> undone, long latest) {
        static final Scope EMPTY = new Scope(Growing.list(), Growing.list(), 0);

        Scope {
            done = Growing.list(done);
            undone = Growing.list(undone);
        }
    }

    private final Register<Long, Scope> scopes;

    private Steps(Register<Long, Scope> scopes) {
        this.scopes = scopes;
    }

    private Scope of(long scope) {
        Scope own = scopes.get(scope);
        return own == null ? Scope.EMPTY : own;
    }

    /// The entry that undo would take back in a scope.
    OptionalLong undoable(long scope) {
        return last(of(scope).done);
    }

    /// The entry that redo would bring back in a scope.
    OptionalLong redoable(long scope) {
        return last(of(scope).undone);
    }

    private static OptionalLong last(List<Long> all) {
        return all.isEmpty() ? OptionalLong.empty() : OptionalLong.of(all.getLast());
    }

    /// Position of the last entry of a scope, 0 when there is none.
    long latest(long scope) {
        return of(scope).latest;
    }

    /// With one more entry.
    ///
    /// @throws Contradiction when it takes back or brings back what is not next
    Steps after(Entry entry) {
        Scope own = of(entry.scope());
        Scope now =
                switch (entry.event()) {
                    case Event.Undone step -> {
                        require(last(own.done), step.target(), "the last of its hunt");
                        yield new Scope(
                                Growing.minusLast(own.done, step.target()),
                                Growing.plus(own.undone, step.target()),
                                entry.seq());
                    }
                    case Event.Redone step -> {
                        require(last(own.undone), step.target(), "the last undone");
                        yield new Scope(
                                Growing.plus(own.done, step.target()),
                                Growing.minusLast(own.undone, step.target()),
                                entry.seq());
                    }
                    default -> new Scope(Growing.plus(own.done, entry.seq()), Growing.list(), entry.seq());
                };
        return new Steps(scopes.with(entry.scope(), now));
    }

    private static void require(OptionalLong next, long target, String what) {
        if (next.isEmpty() || next.getAsLong() != target) {
            throw new Contradiction("entry " + target + " is not " + what);
        }
    }

    List<State.Undoing> image() {
        List<State.Undoing> all = new ArrayList<>();
        scopes.all().forEach((scope, own) -> all.add(new State.Undoing(scope, own.done, own.undone, own.latest)));
        return all;
    }

    static Steps of(List<State.Undoing> all) {
        Map<Long, Scope> scopes = new HashMap<>();
        all.forEach(own -> scopes.put(own.scope(), new Scope(own.done(), own.undone(), own.latest())));
        return new Steps(Register.of(scopes));
    }
}
