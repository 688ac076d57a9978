/// Pages on the loopback address, and their live updates. Requests enter, HTML leaves; what a line means is
/// asked of `entry`, what happened of `hunt`. No rule of the trade is decided here.
///
/// Knows not: `cli`, `store`.
@NullMarked
package org.rollwright.web;

import org.jspecify.annotations.NullMarked;
