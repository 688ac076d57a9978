/// Cups, counted piles, and what a weight says.
@NullMarked
package org.rollwright.web.scale;

import org.jspecify.annotations.NullMarked;
