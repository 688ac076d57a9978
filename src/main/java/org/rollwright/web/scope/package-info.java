/// The catalogue of varieties, and the attribution of a find.
@NullMarked
package org.rollwright.web.scope;

import org.jspecify.annotations.NullMarked;
