/// Pages on the loopback address, and their live updates. Requests enter, HTML leaves; what a line means is
/// asked of `entry`, what happened of `hunt`. No rule of the trade is decided here. [Routes] is the table of
/// contents; every place has its pages and views in a package of its own, and its templates in the folder of the
/// same name below `src/main/jte`.
///
/// Knows not: `cli`, `store`.
@NullMarked
package org.rollwright.web;

import org.jspecify.annotations.NullMarked;
