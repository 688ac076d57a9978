/// Banks, cash, returns and trips. Empty so far.
@NullMarked
package org.rollwright.till;

import org.jspecify.annotations.NullMarked;
