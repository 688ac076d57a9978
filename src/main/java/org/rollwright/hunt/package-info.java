/// The record of a search: boxes, rolls, what was watched for, and every find.
///
/// Its events enter ([HuntEvent]); its book ([HuntBook]) and what can be told from it leave.
///
/// Knows: `catalog`, `coin`, `journal`, `text`; no file, no clock, no chance.
@NullMarked
package org.rollwright.hunt;

import org.jspecify.annotations.NullMarked;
