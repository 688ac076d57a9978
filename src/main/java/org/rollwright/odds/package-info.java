/// What hunting yields, and how sure that is. Counts with their exposure enter (what was searched while it was
/// watched for); rates, intervals, forecasts and surprises leave, each with how it was obtained. Everything is
/// deterministic given its inputs and seed. It must never state a chance without an interval where one can be given.
///
/// Knows: `catalog`, `coin`, `hunt`, `scope`, `text`; no file, no clock, no chance.
@NullMarked
package org.rollwright.odds;

import org.jspecify.annotations.NullMarked;
