package org.rollwright.cabinet;

/// Number of a place in the cabinet, from 1.
public record PlaceId(long number) {
    @Override
    public String toString() {
        return "p" + number;
    }
}
