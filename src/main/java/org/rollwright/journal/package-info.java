/// The journal: what an [Event] and an [Entry] are, where entries are kept, and what is refused before any area
/// looks at it.
///
/// Every area has its own events and its own book: an immutable value that a next event turns into the next value.
/// What such values are made of is here too ([Growing], [Register], [Word]).
///
/// Knows: `coin`, `text`; no file, no clock, no chance.
@NullMarked
package org.rollwright.journal;

import org.jspecify.annotations.NullMarked;
