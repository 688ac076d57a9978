package org.rollwright.till;

import org.rollwright.journal.Word;

/// Where a branch lies seen from home, clockwise from north.
public enum Bearing implements Word.Listed {
    N(0),
    NE(45),
    E(90),
    SE(135),
    S(180),
    SW(225),
    W(270),
    NW(315);

    /// Nothing was said.
    public static final Word<Bearing> NOT_SAID = new Word<>("");

    private final int degrees;

    Bearing(int degrees) {
        this.degrees = degrees;
    }

    @Override
    public String word() {
        return name();
    }

    /// Degrees from north, clockwise.
    double degrees() {
        return degrees;
    }
}
