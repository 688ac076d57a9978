/// Who may ask and how much: addresses, phones of the house, sizes, speeds, uploads.
@NullMarked
package org.rollwright.web.guard;

import org.jspecify.annotations.NullMarked;
