/// What every page stands on: the frame, forms and their double sends, how days and money are written, live updates.
@NullMarked
package org.rollwright.web.shell;

import org.jspecify.annotations.NullMarked;
