/// The desk: the books of all areas as one value, and the place where an event becomes durable and then visible.
///
/// Events enter, each with its instant and the raw line that made it; a state leaves that any number of readers may
/// keep. The books of all areas lie here; `store` gives a journal that survives a power cut.
///
/// Knows: `album`, `cabinet`, `coin`, `hunt`, `journal`, `scale`, `scope`, `text`, `till`; no file, no clock, no
/// chance.
@NullMarked
package org.rollwright.desk;

import org.jspecify.annotations.NullMarked;
