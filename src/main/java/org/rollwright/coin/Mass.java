package org.rollwright.coin;

/// A mass, held in grams. Never negative, never infinite.
public record Mass(double grams) implements Comparable<Mass> {
    /// One avoirdupois pound in grams, exact by definition (international pound, 1959).
    public static final double GRAMS_PER_POUND = 453.59237;

    /// One avoirdupois ounce in grams.
    public static final double GRAMS_PER_OUNCE = GRAMS_PER_POUND / 16;

    public Mass {
        if (!(grams >= 0) || Double.isInfinite(grams)) {
            throw new IllegalArgumentException("mass must be a finite number of grams, 0 or more, was " + grams);
        }
    }

    public static Mass ofGrams(double grams) {
        return new Mass(grams);
    }

    /// Pounds and ounces as a kitchen scale shows them; both are added, so `0, 52` is 3 lb 4 oz.
    public static Mass ofPoundsAndOunces(double pounds, double ounces) {
        return new Mass(pounds * GRAMS_PER_POUND + ounces * GRAMS_PER_OUNCE);
    }

    @Override
    public int compareTo(Mass other) {
        return Double.compare(grams, other.grams);
    }
}
