/// Telling how a hunt went: chapters for a recording, texts to post, tallies to show on screen. The record of a
/// hunt enters; words, times and counts leave. It must never tell where the hunter lives or banks, or what
/// coins are worth, unless asked to.
///
/// Knows: `album`, `cabinet`, `catalog`, `coin`, `hunt`, `journal`, `odds`,
/// `scale`, `scope`, `text`; no file, no clock, no chance.
@NullMarked
package org.rollwright.recap;

import org.jspecify.annotations.NullMarked;
