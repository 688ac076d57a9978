package org.rollwright.journal;

import java.util.List;
import org.rollwright.coin.Refusal;

/// Ends the making of an event because it cannot be; carries why, through the desk's lock.
public final class Declined extends RuntimeException {
    private static final long serialVersionUID = 1L;
    private final transient List<Refusal> why;

    public Declined(List<Refusal> why) {
        super(why.getFirst().toString(), null, false, false);
        this.why = List.copyOf(why);
    }

    public Declined(Refusal why) {
        this(List.of(why));
    }

    public Declined(String wrong, String right) {
        this(new Refusal(wrong, right));
    }

    /// Why, at least one.
    public List<Refusal> why() {
        return why;
    }
}
