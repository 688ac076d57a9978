package org.rollwright.journal;

import java.time.Instant;

/// One line of the journal.
///
/// @param seq position in the journal, from 1, without gaps
/// @param at when it was written, by the computer's clock
/// @param scope number of the hunt it belongs to, or 0; undo works within a scope
/// @param raw what was typed, said or pressed, word for word; blank when nothing was
public record Entry(long seq, Instant at, long scope, String raw, Event event) {}
