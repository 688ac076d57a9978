/// What is owned, where it lies and what it may be worth. So far this room holds the grading decision only: an
/// estimate of the grade, values and fees enter; the expected outcome leaves, with the chance to come out
/// ahead. It must never state a value as certain.
@NullMarked
package org.rollwright.cabinet;

import org.jspecify.annotations.NullMarked;
