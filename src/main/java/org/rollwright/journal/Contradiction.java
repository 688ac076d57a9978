package org.rollwright.journal;

/// An event speaks of something that the state does not hold. Refusals keep such events out of the journal, so that
/// one met there tells of damage, or of a step that a later one builds on.
public final class Contradiction extends IllegalStateException {
    private static final long serialVersionUID = 1L;

    public Contradiction(String message) {
        super(message);
    }
}
