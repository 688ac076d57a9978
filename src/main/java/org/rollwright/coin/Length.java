package org.rollwright.coin;

/// A length, held in millimetres. Positive and finite.
public record Length(double millimetres) {
    public Length {
        if (!(millimetres > 0) || Double.isInfinite(millimetres)) {
            throw new IllegalArgumentException("length must be a positive number of millimetres, was " + millimetres);
        }
    }
}
