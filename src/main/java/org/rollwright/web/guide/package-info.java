/// The guide, help, and settings.
@NullMarked
package org.rollwright.web.guide;

import org.jspecify.annotations.NullMarked;
