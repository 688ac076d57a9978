package org.rollwright.journal;

/// The journal could not keep an entry. The message is written for the person at the bench.
public final class JournalException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    public JournalException(String message, Throwable cause) {
        super(message, cause);
    }
}
