/// Albums: rules over the catalogue, the holes they make, and what goes into which.
///
/// A rule, the owned coins and a policy enter; holes and a proposal of moves leave. Nothing is changed here: an
/// accepted proposal becomes an event, and [AlbumBook] tells what came of it.
///
/// Knows: `cabinet`, `catalog`, `coin`, `journal`, `text`; no file, no clock, no chance.
@NullMarked
package org.rollwright.album;

import org.jspecify.annotations.NullMarked;
