package org.rollwright.coin;

import org.rollwright.text.Figures;

/// A mass, held in grams. Never negative, never infinite.
public record Mass(double grams) implements Comparable<Mass> {
    /// One avoirdupois pound in grams, exact by definition (international pound, 1959).
    public static final double GRAMS_PER_POUND = 453.59237;

    /// One avoirdupois ounce in grams.
    public static final double GRAMS_PER_OUNCE = GRAMS_PER_POUND / 16;

    private static final long TENTHS_PER_POUND = 160;

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

    /// Pounds and ounces to a tenth, as a kitchen scale shows them: `4 lb 3.0 oz`, below a pound `15.9 oz`.
    /// Sixteen ounces are never left over.
    public String poundsAndOunces() {
        long tenths = Math.round(grams / GRAMS_PER_OUNCE * 10);
        String ounces = Figures.of("%.1f oz", tenths % TENTHS_PER_POUND / 10.0);
        return tenths < TENTHS_PER_POUND ? ounces : tenths / TENTHS_PER_POUND + " lb " + ounces;
    }

    @Override
    public int compareTo(Mass other) {
        return Double.compare(grams, other.grams);
    }
}
