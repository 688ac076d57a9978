package org.rollwright.scale;

import java.time.Instant;
import org.rollwright.coin.Mass;

/// A pile counted by hand and weighed: what the hunter's own coins of an alloy weigh, worn as they are.
public record CountedPile(String alloy, int coins, Mass mass, Mass resolution, Instant at) {
    public double gramsPerCoin() {
        return mass.grams() / coins;
    }
}
