/// Yields and forecasts. Empty so far; exposure, box yields, surprises and album forecasts belong here.
@NullMarked
package org.rollwright.odds;

import org.jspecify.annotations.NullMarked;
