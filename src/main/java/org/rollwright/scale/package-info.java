/// Weights to counts and metal. Empty so far; weighings themselves are recorded by `hunt`.
@NullMarked
package org.rollwright.scale;

import org.jspecify.annotations.NullMarked;
