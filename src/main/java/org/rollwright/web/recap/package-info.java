/// Telling how a hunt went.
@NullMarked
package org.rollwright.web.recap;

import org.jspecify.annotations.NullMarked;
