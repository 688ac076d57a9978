/// What is owned, where it lies and what it may be worth. Empty so far.
@NullMarked
package org.rollwright.cabinet;

import org.jspecify.annotations.NullMarked;
