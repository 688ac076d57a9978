/// What a hunter can have done, each thing once: [Actions#ALL] is the table of contents.
///
/// What was typed enters by the names of fields, whoever collected it; a step for the desk leaves, or refusals.
/// Pages and commands are two doors to the same action, with the same bounds and the same words. This room knows
/// neither.
@NullMarked
package org.rollwright.action;

import org.jspecify.annotations.NullMarked;
