package org.rollwright.hunt;

/// The number of a box, bag, jar or pile of loose rolls, counted from 1 over the whole journal.
public record BoxId(long number) {
    public BoxId {
        if (number < 1) {
            throw new IllegalArgumentException("numbers start at 1, was " + number);
        }
    }

    @Override
    public String toString() {
        return "b" + number;
    }
}
