/// What is owned, where it lies, what it may be worth, and whether grading pays. Coins, places and prices the
/// hunter typed enter; values with intervals, sums, decisions, labels and lists leave. It must never fetch a
/// price, fill a cell without saying it is an estimate, or value what no price is near.
///
/// Knows: `catalog`, `coin`, `hunt`, `journal`, `text`; no file, no clock, no chance.
@NullMarked
package org.rollwright.cabinet;

import org.jspecify.annotations.NullMarked;
