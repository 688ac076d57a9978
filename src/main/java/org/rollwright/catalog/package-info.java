/// Which coins exist, and what is known of each.
///
/// The texts of catalog/ enter (ours from the program, the user's own from the data folder); a [Catalog]
/// leaves, which answers "what is 36-D here?", "what does it weigh?", "which coins does this rule select?". A
/// bad row is reported with file, line and column, and the file it stands in is refused whole.
///
/// Knows: `coin`, `text`; no file, no clock, no chance.
@NullMarked
package org.rollwright.catalog;

import org.jspecify.annotations.NullMarked;
