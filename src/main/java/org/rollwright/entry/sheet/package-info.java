/// Earlier boxes from a spreadsheet. Rows and a mapping of columns enter; a plan leaves: what each row would
/// become, and why some cannot. Nothing is recorded here and no file is read: `store` reads it, `hunt` records
/// the plan as one step.
@NullMarked
package org.rollwright.entry.sheet;

import org.jspecify.annotations.NullMarked;
