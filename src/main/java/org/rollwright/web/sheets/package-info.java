/// Sheets a hunter already has, taken in row by row: chosen, shown with what each row would become, answered, recorded.
@NullMarked
package org.rollwright.web.sheets;

import org.jspecify.annotations.NullMarked;
