/// Varieties and photographs. Empty so far; the variety catalogue, attribution and the doubling bench belong
/// here.
@NullMarked
package org.rollwright.scope;

import org.jspecify.annotations.NullMarked;
