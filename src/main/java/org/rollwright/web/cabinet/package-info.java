/// What is owned, where it lies, what it may be worth.
@NullMarked
package org.rollwright.web.cabinet;

import org.jspecify.annotations.NullMarked;
