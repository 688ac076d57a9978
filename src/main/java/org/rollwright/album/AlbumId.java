package org.rollwright.album;

/// The number of an album, counted from 1 over the whole journal.
public record AlbumId(long number) {
    public AlbumId {
        if (number < 1) {
            throw new IllegalArgumentException("numbers start at 1, was " + number);
        }
    }

    @Override
    public String toString() {
        return "a" + number;
    }
}
