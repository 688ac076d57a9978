/// Banks, cash, time and trips: where every coin's face value is, what the hours went into, and which branches
/// to visit on a day. The record of boxes, finds, orders and efforts enters; balances, refusals, shortages,
/// rounds and calendar files leave. It must never advise how to stay under a
/// reporting threshold.
///
/// Knows: `cabinet`, `catalog`, `coin`, `hunt`, `journal`, `text`; no file, no clock, no chance.
@NullMarked
package org.rollwright.till;

import org.jspecify.annotations.NullMarked;
