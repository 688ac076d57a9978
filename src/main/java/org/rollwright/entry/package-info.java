/// What is typed, said or captioned, turned into events of a hunt.
///
/// A line and its context enter; a [Reading] leaves: commands, a choice to make, or a problem with its position
/// and a suggestion. Nothing here throws on bad input, and nothing is recorded here: `hunt` does that. Pages
/// and scripts share this one grammar.
///
/// Knows: `catalog`, `coin`, `desk`, `hunt`, `journal`, `text`; no file, no clock, no chance.
@NullMarked
package org.rollwright.entry;

import org.jspecify.annotations.NullMarked;
