package org.rollwright.scope;

import java.util.List;
import java.util.Map;
import org.rollwright.hunt.FindId;
import org.rollwright.journal.Event;
import org.rollwright.journal.Word;

/// What happens under the microscope: attributions, varieties of the user's own, photographs.
public sealed interface ScopeEvent extends Event {
    /// A find was looked at for varieties, with what came of it.
    ///
    /// @param variety key of the variety it is taken for; blank when it is none
    /// @param verdict how sure
    /// @param path what was looked at and what was seen, in order
    record Attributed(FindId find, String variety, Word<VerdictWord> verdict, List<Look> path, String note)
            implements ScopeEvent {
        public Attributed {
            path = List.copyOf(path);
        }
    }

    /// A variety of the user's own was written, or one of ours rewritten.
    ///
    /// @param cells its row by column, as a file of varieties has it
    record VarietyWritten(String variety, Map<String, String> cells) implements ScopeEvent {
        public VarietyWritten {
            cells = Map.copyOf(cells);
        }
    }

    /// A variety of the user's own was given up, or ours put back.
    record VarietyRemoved(String variety) implements ScopeEvent {}

    /// A photograph was kept.
    ///
    /// @param photo its name on the shelf
    /// @param about what it shows, blank when nothing in particular
    record PhotoKept(String photo, int width, int height, PhotoSubject about, String caption) implements ScopeEvent {}

    /// A photograph shows something else than was said, or is no longer wanted there.
    record PhotoTaken(String photo, PhotoSubject about) implements ScopeEvent {}

    /// One look of an attribution: what was looked for and the answer.
    record Look(String looked, String answer) {}
}
