/// Strangers' sheets. Bytes of a file enter; every row of it leaves with what it would become, what must be asked
/// about it and what is left out: [org.rollwright.entry.sheet.take.Taking] reads, and what leaves is a
/// [org.rollwright.entry.sheet.take.Taken], whose questions can be answered. Nothing is recorded here.
@NullMarked
package org.rollwright.entry.sheet.take;

import org.jspecify.annotations.NullMarked;
