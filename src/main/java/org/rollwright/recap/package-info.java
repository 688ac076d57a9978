/// Telling the story of a hunt. Empty so far.
@NullMarked
package org.rollwright.recap;

import org.jspecify.annotations.NullMarked;
