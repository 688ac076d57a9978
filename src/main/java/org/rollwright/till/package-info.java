/// Banks, cash, returns and trips: where every coin's face value is, and which branches to visit on a day.
/// Amounts, places and distances enter; balances, refusals and plans leave. So far this room holds the models
/// only; banks and orders have no page yet. It must never advise how to stay under a reporting threshold.
@NullMarked
package org.rollwright.till;

import org.jspecify.annotations.NullMarked;
