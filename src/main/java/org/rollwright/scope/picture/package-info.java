/// Photographs of coins: read safely, the coin found in them, two of them brought to one scale and angle, the
/// red of a copper coin measured. Bytes and pixels enter; outlines, alignments, shares and clean bytes leave.
/// It must never know where a photograph lies on a disk, who took it or where: whatever a file says beside its
/// pixels is dropped here.
@NullMarked
package org.rollwright.scope.picture;

import org.jspecify.annotations.NullMarked;
