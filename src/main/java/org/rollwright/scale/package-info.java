/// What a weight says: how many coins, and how many of which alloy. Grams, the weight of one coin, its spread
/// and the scale's resolution enter; counts with their uncertainty leave. So far this room holds the
/// mathematics only: readings in one cup, calibration and prices have no page yet. It must never know a price
/// it was not told.
@NullMarked
package org.rollwright.scale;

import org.jspecify.annotations.NullMarked;
