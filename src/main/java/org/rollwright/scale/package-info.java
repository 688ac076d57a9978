/// Weighing: what a weight says of coins and coins of a weight. Readings with the scale's step, alloys and the
/// hunter's own counted piles enter; counts with intervals, shares of an alloy, verdicts on a single coin and
/// metal values leave. It must never fetch a price, nor value a cent's metal without the caution beside it.
///
/// Knows: `coin`, `journal`, `text`; no file, no clock, no chance.
@NullMarked
package org.rollwright.scale;

import org.jspecify.annotations.NullMarked;
