package org.rollwright.scale;

import org.rollwright.coin.Mass;
import org.rollwright.journal.Event;

/// What happens at the scale, beside the weighing of a box.
public sealed interface ScaleEvent extends Event {
    /// A cup for running weighings was begun, or begun anew.
    record CupBegun(Cup cup) implements ScaleEvent {}

    /// The cup was weighed with what was added.
    record CupRead(String cup, String what, Mass mass) implements ScaleEvent {}

    /// A counted pile was weighed.
    record PileCounted(CountedPile pile) implements ScaleEvent {}

    /// A price of a metal was typed.
    record MetalPriced(MetalPrice price) implements ScaleEvent {}
}
