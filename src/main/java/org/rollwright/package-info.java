/// Rollwright, a bench tool for coin roll hunters. [Main] starts the command line; the rooms are the packages
/// below.
@NullMarked
package org.rollwright;

import org.jspecify.annotations.NullMarked;
