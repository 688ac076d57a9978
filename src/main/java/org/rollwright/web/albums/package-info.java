/// Albums, their holes, and the comparison with the finds.
@NullMarked
package org.rollwright.web.albums;

import org.jspecify.annotations.NullMarked;
