/// The desk: the books of all areas as one value, and the place where an event becomes durable and then visible.
///
/// Events enter, each with its instant and the raw line that made it; a state leaves that any number of readers may
/// keep. This room knows every area's book, but no database, page or command; `store` gives it a journal that
/// survives a power cut.
@NullMarked
package org.rollwright.desk;

import org.jspecify.annotations.NullMarked;
