/// The Mat: hunts, and the entry line.
@NullMarked
package org.rollwright.web.mat;

import org.jspecify.annotations.NullMarked;
