/// Boxes, from order to return.
@NullMarked
package org.rollwright.web.boxes;

import org.jspecify.annotations.NullMarked;
