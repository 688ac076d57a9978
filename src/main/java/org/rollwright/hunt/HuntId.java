package org.rollwright.hunt;

/// The number of a hunt, counted from 1 over the whole journal.
public record HuntId(long number) {
    public HuntId {
        if (number < 1) {
            throw new IllegalArgumentException("numbers start at 1, was " + number);
        }
    }

    @Override
    public String toString() {
        return "h" + number;
    }
}
