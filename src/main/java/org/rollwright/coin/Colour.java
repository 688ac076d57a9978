package org.rollwright.coin;

/// Colour of a copper coin, in ascending order of what is usually preferred: brown, red-brown, red.
public enum Colour {
    BN,
    RB,
    RD
}
