package org.rollwright.hunt;

/// The number of a find, counted from 1 over the whole journal.
public record FindId(long number) {
    public FindId {
        if (number < 1) {
            throw new IllegalArgumentException("numbers start at 1, was " + number);
        }
    }

    @Override
    public String toString() {
        return "f" + number;
    }
}
