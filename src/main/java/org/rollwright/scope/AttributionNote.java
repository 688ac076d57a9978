package org.rollwright.scope;

import java.time.Instant;
import java.util.List;
import org.rollwright.hunt.FindId;
import org.rollwright.journal.Word;

/// What an attribution of a find came to.
///
/// @param variety key of the variety it is taken for; blank when it is none
public record AttributionNote(
        FindId find, String variety, Word<VerdictWord> verdict, List<ScopeEvent.Look> path, String note, Instant at) {
    public AttributionNote {
        path = List.copyOf(path);
    }

    /// Whether the variety counts as found; a verdict of another version does not.
    public boolean countsAsFound() {
        return verdict.in(VerdictWord.class).filter(VerdictWord::countsAsFound).isPresent();
    }
}
