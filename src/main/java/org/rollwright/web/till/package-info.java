/// Banks, cash, time and trips.
@NullMarked
package org.rollwright.web.till;

import org.jspecify.annotations.NullMarked;
