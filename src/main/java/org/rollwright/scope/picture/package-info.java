/// Photographs of coins: read safely, the coin found in them, two of them brought to one scale and angle, the
/// red of a copper coin measured. Bytes and pixels enter; outlines, alignments, shares and clean bytes leave.
/// Who took a photograph and where must never get further: whatever a file says beside its pixels is dropped here.
@NullMarked
package org.rollwright.scope.picture;

import org.jspecify.annotations.NullMarked;
