/// Photographs: taken in, shown, measured, compared.
@NullMarked
package org.rollwright.web.photos;

import org.jspecify.annotations.NullMarked;
