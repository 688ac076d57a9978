/// What hunting yields, and the calculators.
@NullMarked
package org.rollwright.web.odds;

import org.jspecify.annotations.NullMarked;
