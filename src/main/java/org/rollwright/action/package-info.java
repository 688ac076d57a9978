/// What a hunter can have done, each thing once: [Actions#ALL] is the table of contents.
///
/// What was typed enters by the names of fields, whoever collected it; a step for the desk leaves, or refusals.
/// Pages and commands are two doors to the same action, with the same bounds and the same words.
///
/// Knows: `album`, `cabinet`, `catalog`, `coin`, `desk`, `entry`, `hunt`, `journal`, `scale`, `scope`, `text`,
/// `till`; no file, no clock, no chance.
@NullMarked
package org.rollwright.action;

import org.jspecify.annotations.NullMarked;
